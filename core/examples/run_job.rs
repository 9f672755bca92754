//! Runs a job file.
//!
//! `cargo run --release -q -p mistcoat --example run_job -- JOB.toml [--json]`
//!
//! With `--json` the report alone is printed. On bad input the message goes to standard error, exit code 2.

use mistcoat::job::Job;
use mistcoat::run::Run;
use std::process::ExitCode;

fn report(path: &str) -> Result<String, String> {
    let text = std::fs::read_to_string(path).map_err(|e| format!("{path}: {e}"))?;
    let job = Job::from_toml(&text).map_err(|e| e.to_string())?;
    let mut run = Run::new(job).map_err(|e| e.to_string())?;
    run.finish();
    Ok(run.report().map_err(|e| e.to_string())?.to_json())
}

fn main() -> ExitCode {
    let Some(path) = std::env::args().nth(1) else {
        eprintln!("usage: run_job JOB.toml [--json]");
        return ExitCode::from(2);
    };
    match report(&path) {
        Ok(json) => {
            println!("{json}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}
