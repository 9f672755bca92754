//! The set-up sheet of a job: one page to pin up beside the booth.
//!
//! `cargo run --release -q -p mistcoat --example set_up_sheet -- JOB.toml [--us] [--svg FILE]`
//!
//! Prints the sheet as text, in metric or US units. `--svg FILE` also writes it as one page, A4 or US Letter. On bad input the message
//! goes to standard error, nothing to standard output, and the exit code is 2.

use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat::sheet::{SetUpSheet, svg};
use mistcoat::units::System;
use std::process::ExitCode;

const USAGE: &str = "usage: set_up_sheet JOB.toml [--us] [--svg FILE]";

fn sheet(mut words: impl Iterator<Item = String>) -> Result<String, String> {
    let (mut path, mut file, mut system) = (None, None, System::Metric);
    while let Some(word) = words.next() {
        match word.as_str() {
            "--us" => system = System::Us,
            "--svg" => {
                file = Some(words.next().ok_or_else(|| format!("--svg: no file is named\n{USAGE}"))?);
            }
            _ if word.starts_with('-') => return Err(format!("{word}: no such option\n{USAGE}")),
            _ if path.is_some() => return Err(format!("{word}: one job file at a time\n{USAGE}")),
            _ => path = Some(word),
        }
    }
    let path = path.ok_or(USAGE)?;
    let text = std::fs::read_to_string(&path).map_err(|error| format!("{path}: {error}"))?;
    let mut run = Run::new(Job::from_toml(&text).map_err(|e| e.to_string())?).map_err(|e| e.to_string())?;
    run.finish();
    let report = run.report().map_err(|e| e.to_string())?;
    let sheet = SetUpSheet::new(&run, &report, system);
    if let Some(file) = file {
        std::fs::write(&file, svg(&sheet, None)).map_err(|error| format!("{file}: {error}"))?;
    }
    Ok(sheet.words())
}

fn main() -> ExitCode {
    match sheet(std::env::args().skip(1)) {
        Ok(words) => {
            println!("{words}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}
