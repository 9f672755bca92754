//! Sets guns side by side on a job: your gun as set, your gun at its best, then kits at their best.
//!
//! `cargo run --release -q -p mistcoat --example compare_kits -- JOB.toml [--kits ID,ID,...] [--json]`
//!
//! The kits are those of the job's `[compare]` and those of `--kits`, out of the catalogue. With `--json` the rows as JSON,
//! alone. On bad input the message goes to standard error, nothing to standard output, and the exit code is 2.

mod common;

use common::Given;
use mistcoat::catalogue;
use mistcoat::compare::{Candidate, Comparison, Money, words};
use std::process::ExitCode;

const USAGE: &str = "usage: compare_kits JOB.toml [--kits ID,ID,...] [--json]";

fn run() -> Result<String, String> {
    let given = Given::read(USAGE, &["--json"], &[("--kits", "no kit is named")])?;
    let job = given.job()?;
    let mut candidates = Candidate::of(&job).map_err(|e| e.to_string())?;
    let money = Money::of(&job);
    for id in given.value("--kits").into_iter().flat_map(|ids| ids.split(',')) {
        let kit = catalogue::kit(id.trim()).map_err(|e| format!("--kits: {e}"))?;
        candidates.push(Candidate { kit, price: None, neighbours: Vec::new() });
    }
    let mut comparison = Comparison::new(job, candidates, money).map_err(|e| e.to_string())?;
    fly(&mut comparison);
    let answer = comparison.answer();
    Ok(if given.has("--json") { answer.to_json() } else { words(&answer) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(comparison: &mut Comparison) {
    if !common::watched() {
        comparison.finish();
        return;
    }
    while !comparison.advance_on_all_threads(1 << 16) {
        let (done, all) = comparison.progress();
        let rows = comparison.answer().rows.len();
        common::bar(done as f64 / all.max(1) as f64, &format!("{rows} guns done"));
    }
    common::no_bar();
}

fn main() -> ExitCode {
    common::end(run())
}
