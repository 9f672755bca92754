//! What should I set? Least paint for a part with the film inside the band, for the job's gun, paint and part.
//!
//! `cargo run --release -q -p mistcoat --example search_job -- JOB.toml [--json]`
//!
//! For a steady hand where the job names none. With `--json` the answer as JSON, alone. On bad input the message goes to standard
//! error, nothing to standard output, and the exit code is 2.

use mistcoat::job::Job;
use mistcoat::search::{Search, words};
use mistcoat::units::System;
use std::io::{IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;

const USAGE: &str = "usage: search_job JOB.toml [--json]";

struct Options {
    job: PathBuf,
    json: bool,
}

fn options(words: impl Iterator<Item = String>) -> Result<Options, String> {
    let (mut job, mut json) = (None, false);
    for word in words {
        match word.as_str() {
            "--json" => json = true,
            _ if word.starts_with('-') => return Err(format!("{word}: no such option\n{USAGE}")),
            _ if job.is_some() => return Err(format!("{word}: one job file at a time\n{USAGE}")),
            _ => job = Some(word.into()),
        }
    }
    Ok(Options { job: job.ok_or(USAGE)?, json })
}

fn run(options: &Options) -> Result<String, String> {
    let named = |error: std::io::Error| format!("{}: {error}", options.job.display());
    let text = std::fs::read_to_string(&options.job).map_err(named)?;
    let job = Job::from_toml(&text).map_err(|e| e.to_string())?;
    let mut search = Search::new(job).map_err(|e| e.to_string())?;
    fly(&mut search)?;
    let answer = search.answer();
    Ok(if options.json { answer.to_json() } else { words(answer, System::Metric) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(search: &mut Search) -> Result<(), String> {
    let mut screen = std::io::stderr();
    if !screen.is_terminal() {
        return search.finish().map_err(|e| e.to_string());
    }
    while !search.advance_on_all_threads(1 << 16).map_err(|e| e.to_string())? {
        let filled = (30.0 * search.done()) as usize;
        let best = search.answer().best.as_ref().map_or(String::new(), |b| format!("{:.1} mL", b.ml));
        let bar = format!("\r[{:<30}] {best:<12}", "=".repeat(filled));
        // A bar that cannot be shown is no reason to stop.
        let _ = screen.write_all(bar.as_bytes()).and_then(|()| screen.flush());
    }
    let _ = screen.write_all(b"\r\x1b[K");
    Ok(())
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
