//! Flies random jobs and prints every defect with its job: `random_jobs [HOW MANY] [FROM NUMBER]`; none: prints that job.

use mistcoat_tests::random_jobs::{Tried, lines, try_one};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::time::Instant;

/// A job that takes longer is printed [s].
const LONG: f64 = 20.0;

fn main() -> ExitCode {
    let mut numbers = std::env::args().skip(1).filter_map(|text| text.parse::<u64>().ok());
    let (many, from) = (numbers.next().unwrap_or(300), numbers.next().unwrap_or(0));
    let (mut tried, mut defects, mut slowest) = (Tried::default(), 0, (0.0, 0));
    let begun = Instant::now();
    if many == 0 {
        println!("{}", lines(from).text());
    }
    for number in from..from + many {
        let start = Instant::now();
        let outcome = catch_unwind(AssertUnwindSafe(|| try_one(number, &mut tried)))
            .unwrap_or_else(|_| Err(format!("job {number}: panicked")));
        let seconds = start.elapsed().as_secs_f64();
        if seconds > slowest.0 {
            slowest = (seconds, number);
        }
        if seconds > LONG {
            println!("job {number} took {seconds:.1} s\n{}", tried.text);
        }
        if let Err(what) = outcome {
            defects += 1;
            println!("{what}\n");
        }
    }
    println!(
        "{} jobs flown, {} given up, {defects} defects, {:.0} s, slowest {:.1} s (job {}); refused by key: {:?}",
        tried.flown,
        tried.given_up,
        begun.elapsed().as_secs_f64(),
        slowest.0,
        slowest.1,
        tried.refused
    );
    if defects == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
