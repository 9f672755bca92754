//! Sets guns side by side on a job: your gun as set, your gun at its best, then kits at their best.
//!
//! `cargo run --release -q -p mistcoat --example compare_kits -- JOB.toml [--kits ID,ID,...] [--json]`
//!
//! The kits are those of the job's `[compare]` and those of `--kits`, out of the catalogue. With `--json` the rows as JSON,
//! alone. On bad input the message goes to standard error, nothing to standard output, and the exit code is 2.

use mistcoat::catalogue;
use mistcoat::compare::{Candidate, Comparison, Money, words};
use mistcoat::job::Job;
use std::io::{IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;

const USAGE: &str = "usage: compare_kits JOB.toml [--kits ID,ID,...] [--json]";

struct Options {
    job: PathBuf,
    kits: Vec<String>,
    json: bool,
}

fn options(mut words: impl Iterator<Item = String>) -> Result<Options, String> {
    let (mut job, mut kits, mut json) = (None, None, false);
    while let Some(word) = words.next() {
        match word.as_str() {
            "--json" => json = true,
            "--kits" if kits.is_some() => return Err(format!("--kits: given twice\n{USAGE}")),
            "--kits" => {
                let ids = words.next().filter(|ids| !ids.starts_with("--") && !ids.is_empty());
                let ids = ids.ok_or_else(|| format!("--kits: no kit is named\n{USAGE}"))?;
                kits = Some(ids.split(',').map(|id| id.trim().to_string()).collect());
            }
            _ if word.starts_with('-') => return Err(format!("{word}: no such option\n{USAGE}")),
            _ if job.is_some() => return Err(format!("{word}: one job file at a time\n{USAGE}")),
            _ => job = Some(word.into()),
        }
    }
    Ok(Options { job: job.ok_or(USAGE)?, kits: kits.unwrap_or_default(), json })
}

fn run(options: &Options) -> Result<String, String> {
    let named = |error: std::io::Error| format!("{}: {error}", options.job.display());
    let text = std::fs::read_to_string(&options.job).map_err(named)?;
    let job = Job::from_toml(&text).map_err(|e| e.to_string())?;
    let mut candidates = Candidate::of(&job).map_err(|e| e.to_string())?;
    let money = Money::of(&job);
    for id in &options.kits {
        let kit = catalogue::kit(id).map_err(|e| format!("--kits: {e}"))?;
        candidates.push(Candidate { kit, price: None, neighbours: Vec::new() });
    }
    let mut comparison = Comparison::new(job, candidates, money).map_err(|e| e.to_string())?;
    fly(&mut comparison);
    let answer = comparison.answer();
    Ok(if options.json { answer.to_json() } else { words(&answer) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(comparison: &mut Comparison) {
    let mut screen = std::io::stderr();
    if !screen.is_terminal() {
        comparison.finish();
        return;
    }
    while !comparison.advance_on_all_threads(1 << 16) {
        let (done, all) = comparison.progress();
        let filled = (30.0 * done as f64 / all.max(1) as f64) as usize;
        let bar =
            format!("\r[{:<30}] {} guns done", "=".repeat(filled.min(30)), comparison.answer().rows.len());
        // A bar that cannot be shown is no reason to stop.
        let _ = screen.write_all(bar.as_bytes()).and_then(|()| screen.flush());
    }
    let _ = screen.write_all(b"\r\x1b[K");
}

fn main() -> ExitCode {
    match options(std::env::args().skip(1)).and_then(|options| run(&options)) {
        // A reader that went away needs no report.
        Ok(answer) => match writeln!(std::io::stdout(), "{answer}") {
            Ok(()) => ExitCode::SUCCESS,
            Err(_) => ExitCode::FAILURE,
        },
        Err(message) => {
            let _ = writeln!(std::io::stderr(), "{message}");
            ExitCode::from(2)
        }
    }
}
