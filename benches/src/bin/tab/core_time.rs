//! Time that the browser's worker threads spent on a core: what other programs take does not count.

use std::fs;

use mistcoat_tests::browser::processes;

/// Name of a worker's thread, as the system keeps it.
const WORKER: &str = "DedicatedWorker";

/// Core seconds so far of all worker threads of the browsers that this process started; none where the system does not tell.
pub fn of_workers() -> Option<f64> {
    let mut sum = None;
    for process in processes::below(std::process::id()) {
        let Ok(threads) = fs::read_dir(format!("/proc/{process}/task")) else { continue };
        for thread in threads.flatten() {
            let read = |name: &str| fs::read_to_string(thread.path().join(name)).unwrap_or_default();
            if read("comm").trim() == WORKER
                && let Some(nanoseconds) =
                    read("schedstat").split_whitespace().next().and_then(|t| t.parse::<f64>().ok())
            {
                *sum.get_or_insert(0.0) += nanoseconds * 1e-9;
            }
        }
    }
    sum
}
