//! Three hundred jobs drawn over all keys, kits, paints and parts: each runs to figures that can be, with no droplet lost, or is
//! refused by a key of the file in words. `MISTCOAT_JOBS` sets another number.

use mistcoat_tests::random_jobs::{Tried, try_one};

const JOBS: u64 = 300;

/// Left out here for the time it takes: a track before a curve of 1.5 m, 15 to 21 s.
const SLOW: [u64; 1] = [129];

fn jobs() -> u64 {
    std::env::var("MISTCOAT_JOBS").ok().and_then(|n| n.parse().ok()).unwrap_or(JOBS)
}

#[test]
fn three_hundred_jobs_run() {
    let (mut tried, jobs) = (Tried::default(), jobs());
    for number in (0..jobs).filter(|number| !SLOW.contains(number)) {
        try_one(number, &mut tried).unwrap_or_else(|defect| panic!("{defect}"));
    }
    println!("{tried:?}");
    // What is left of a job after its refused keys are taken out mostly sprays: 221 of 299 when this was written.
    assert!(tried.flown > jobs * 2 / 3, "{tried:?}");
    // Words are held as well as figures: many keys are refused beside others.
    assert!(tried.refused.len() > 20, "{tried:?}");
}
