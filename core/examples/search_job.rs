//! What should I set? Least paint for a part with the film inside the band, for the job's gun, paint and part.
//!
//! `cargo run --release -q -p mistcoat --example search_job -- JOB.toml [--json] [--us]`
//!
//! For a steady hand where the job names none. With `--json` the answer as JSON, alone; with `--us` the words in US units. On bad input the
//! message goes to standard error, nothing to standard output, and the exit code is 2.

mod common;

use common::Given;
use mistcoat::search::{Search, words};
use mistcoat::units::System;
use std::process::ExitCode;

const USAGE: &str = "usage: search_job JOB.toml [--json] [--us]";

fn run(given: &Given) -> Result<String, String> {
    let mut search = Search::new(given.job()?).map_err(|e| e.to_string())?;
    fly(&mut search)?;
    let system = if given.has("--us") { System::Us } else { System::Metric };
    let answer = search.answer();
    Ok(if given.has("--json") { answer.to_json() } else { words(answer, system) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(search: &mut Search) -> Result<(), String> {
    if !common::watched() {
        return search.finish().map_err(|e| e.to_string());
    }
    while !search.advance_on_all_threads(1 << 16).map_err(|e| e.to_string())? {
        let best = search.answer().best.as_ref().map_or(String::new(), |b| format!("{:.1} mL", b.ml));
        common::bar(search.done(), &format!("{best:<12}"));
    }
    common::no_bar();
    Ok(())
}

fn main() -> ExitCode {
    common::end(Given::read(USAGE, &["--json", "--us"], &[]).and_then(|given| run(&given)))
}
