//! Flies the example jobs and puts their digests on record, with the reason for which they changed.
//!
//! `cargo run --release -p mistcoat-tests --bin golden -- "REASON"`

use mistcoat_tests::golden::{JOBS, REMINT, digest, path, read, record};
use std::process::ExitCode;

fn main() -> ExitCode {
    let reason = std::env::args().skip(1).collect::<Vec<_>>().join(" ");
    if reason.trim().len() < 10 || reason.contains('\n') {
        eprintln!("the reason is missing (one line, 10 characters or more): {REMINT}");
        return ExitCode::from(2);
    }
    for job in JOBS {
        let new = digest(job);
        let old = std::fs::read_to_string(path(job)).ok().and_then(|text| read(&text).ok());
        if old == Some(new) {
            println!("{job}: {new:016x}, as before");
            continue;
        }
        println!("{job}: {new:016x}, was {}", old.map_or("none".into(), |d| format!("{d:016x}")));
        if let Err(e) = std::fs::write(path(job), record(job, new, reason.trim())) {
            eprintln!("{}: {e}", path(job).display());
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}
