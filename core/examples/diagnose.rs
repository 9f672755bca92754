//! What is wrong with a job, and what to turn by how much.
//!
//! `cargo run --release -q -p mistcoat --example diagnose -- JOB.toml [--json]`
//!
//! Every advice was flown: the neighbours of the job on its own streams, then the best of them in full on fresh ones. With `--json`
//! the answer as JSON, alone. On bad input the message goes to standard error, nothing to standard output, and the exit code is 2.

mod common;

use common::Given;
use mistcoat::diagnose::{Diagnosis, words};
use std::process::ExitCode;

const USAGE: &str = "usage: diagnose JOB.toml [--json]";

fn run() -> Result<String, String> {
    let given = Given::read(USAGE, &["--json"], &[])?;
    let job = given.job()?;
    let mut diagnosis = Diagnosis::new(job.clone()).map_err(|e| e.to_string())?;
    fly(&mut diagnosis)?;
    let answer = diagnosis.answer();
    Ok(if given.has("--json") { answer.to_json() } else { words(answer, &job) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(diagnosis: &mut Diagnosis) -> Result<(), String> {
    if !common::watched() {
        return diagnosis.finish().map_err(|e| e.to_string());
    }
    while !diagnosis.advance_on_all_threads(1 << 16).map_err(|e| e.to_string())? {
        let (done, all) = diagnosis.progress();
        let found = diagnosis.answer().advices.len();
        common::bar(done as f64 / all.max(1) as f64, &format!("{found} found"));
    }
    common::no_bar();
    Ok(())
}

fn main() -> ExitCode {
    common::end(run())
}
