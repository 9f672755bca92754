//! Time that the browser's worker threads spent on a core: what other programs take does not count.

use std::collections::BTreeMap;
use std::fs;

/// Name of a worker's thread, as the system keeps it.
const WORKER: &str = "DedicatedWorker";

/// Core seconds so far of all worker threads of the browsers that this process started; none where the system does not tell.
pub fn of_workers() -> Option<f64> {
    let mut sum = None;
    for process in descendants() {
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

/// Processes that come from this one.
fn descendants() -> Vec<u32> {
    let mut children: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
    for entry in fs::read_dir("/proc").into_iter().flatten().flatten() {
        let Some(process) = entry.file_name().to_str().and_then(|name| name.parse().ok()) else { continue };
        // "pid (name) state parent ...", the name of any letters.
        let stat = fs::read_to_string(entry.path().join("stat")).unwrap_or_default();
        let parent = stat.rsplit_once(')').and_then(|(_, rest)| rest.split_whitespace().nth(1)?.parse().ok());
        if let Some(parent) = parent {
            children.entry(parent).or_default().push(process);
        }
    }
    let (mut all, mut look) = (Vec::new(), vec![std::process::id()]);
    while let Some(process) = look.pop() {
        let own = children.remove(&process).unwrap_or_default();
        all.extend(&own);
        look.extend(own);
    }
    all
}
