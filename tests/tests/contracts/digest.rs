//! Same seed, same result, to the bit: threads, SIMD levels, slices.

use mistcoat::flight::levels;
use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat_tests::scenes::example;

/// Not a multiple of a batch, of a lane or of a group, so that every rest is met.
const DROPLETS: u64 = 10_007;

fn jobs() -> [(&'static str, Job); 2] {
    let (mut panel, mut tube) = (example("table-top"), example("chair-leg-near-round"));
    panel.run.droplets = DROPLETS;
    tube.run.droplets = DROPLETS;
    [("panel", panel), ("tube", tube)]
}

/// Ends by itself, at a look before the ceiling.
fn looking() -> Job {
    let mut job = example("table-top");
    job.run.droplets = 60_000;
    job.run.standard_error = Some(0.004);
    job
}

fn sliced(job: &Job, slice: u64) -> u64 {
    let mut run = Run::new(job.clone()).expect("a job");
    while !run.advance(slice) {}
    run.digest().expect("a report")
}

fn in_threads(job: &Job, threads: usize) -> u64 {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("a pool");
    pool.install(|| {
        let mut run = Run::new(job.clone()).expect("a job");
        run.finish();
        run.digest().expect("a report")
    })
}

#[test]
fn threads_do_not_matter() {
    for (name, job) in jobs() {
        let without = sliced(&job, u64::MAX);
        for threads in [1, 2, 3, 8] {
            assert_eq!(in_threads(&job, threads), without, "{name}: {threads} threads against none");
        }
    }
}

#[test]
fn slices_do_not_matter() {
    for (name, job) in jobs() {
        let whole = sliced(&job, u64::MAX);
        for slice in [7, 1000, 4096, 100_000] {
            assert_eq!(sliced(&job, slice), whole, "{name}: slices of {slice}");
        }
    }
    let looking = looking();
    let whole = sliced(&looking, u64::MAX);
    assert_eq!(sliced(&looking, 1000), whole, "to a wanted error: slices of 1000");
    assert_eq!(in_threads(&looking, 2), whole, "to a wanted error: 2 threads");
    // One at a time is slow: one job, panel and card.
    let (name, job) = &jobs()[0];
    assert_eq!(sliced(job, 1), sliced(job, u64::MAX), "{name}: slices of 1");
}

#[test]
fn slices_and_threads_may_be_mixed() {
    let (_, job) = &jobs()[1];
    let mut run = Run::new(job.clone()).expect("a job");
    for slice in [1, 4095, 199_000, 5_000, 3] {
        run.advance(slice);
        // A look at an unfinished run changes nothing.
        run.report().expect("a report");
    }
    run.finish();
    assert_eq!(run.digest().expect("a report"), sliced(job, u64::MAX));
}

#[test]
fn simd_levels_do_not_matter() {
    let levels = levels();
    assert!(!levels.is_empty());
    for (name, job) in jobs() {
        let digests: Vec<u64> = levels
            .iter()
            .map(|&level| {
                let mut run = Run::at_level(job.clone(), level).expect("a job");
                while !run.advance(u64::MAX) {}
                run.digest().expect("a report")
            })
            .collect();
        assert!(digests.iter().all(|d| *d == digests[0]), "{name}: {levels:?} {digests:x?}");
    }
}

#[test]
fn another_seed_or_one_droplet_more_is_another_digest() {
    let (_, job) = &jobs()[0];
    let first = sliced(job, u64::MAX);
    let (mut seed, mut more) = (job.clone(), job.clone());
    seed.run.seed += 1;
    more.run.droplets += 1;
    assert_ne!(sliced(&seed, u64::MAX), first);
    assert_ne!(sliced(&more, u64::MAX), first);
}
