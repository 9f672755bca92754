//! Why does one job take less paint than another? By swapping one cause at a time, in one order and the other way round, flown.
//!
//! `cargo run --release -q -p mistcoat --example why -- A.toml B.toml [--json]`
//!
//! Both jobs paint the same part. With `--json` the answer as JSON, alone. On bad input the message goes to standard error, nothing to
//! standard output, and the exit code is 2.

use mistcoat::job::Job;
use mistcoat::units::System;
use mistcoat::why::{Why, words};
use std::io::Write;
use std::process::ExitCode;

const USAGE: &str = "usage: why A.toml B.toml [--json]";

fn run(words_given: &[String]) -> Result<String, String> {
    let (mut jobs, mut json) = (Vec::new(), false);
    for word in words_given {
        match word.as_str() {
            "--json" => json = true,
            _ if word.starts_with('-') => return Err(format!("{word}: no such option\n{USAGE}")),
            _ => jobs.push(word),
        }
    }
    let [first, second] = jobs[..] else { return Err(USAGE.into()) };
    let read = |path: &String| {
        let text = std::fs::read_to_string(path).map_err(|e| format!("{path}: {e}"))?;
        Job::from_toml(&text).map_err(|e| format!("{path}: {e}"))
    };
    let mut why = Why::new(read(first)?, read(second)?).map_err(|e| e.to_string())?;
    why.finish().map_err(|e| e.to_string())?;
    Ok(if json { why.answer().to_json() } else { words(why.answer(), System::Metric) })
}

fn main() -> ExitCode {
    let given: Vec<String> = std::env::args().skip(1).collect();
    match run(&given) {
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
