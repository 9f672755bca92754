//! The set-up sheet of a job: one page to pin up beside the booth.
//!
//! `cargo run --release -q -p mistcoat --example set_up_sheet -- JOB.toml [--us] [--svg FILE]`
//!
//! Prints the sheet as text, in metric or US units. `--svg FILE` also writes it as one page, A4 or US Letter. On bad input the message
//! goes to standard error, nothing to standard output, and the exit code is 2.

mod common;

use common::{Given, end};
use mistcoat::run::Run;
use mistcoat::sheet::{SetUpSheet, svg};
use mistcoat::units::System;
use std::process::ExitCode;

const USAGE: &str = "usage: set_up_sheet JOB.toml [--us] [--svg FILE]";

fn sheet() -> Result<String, String> {
    let given = Given::read(USAGE, &["--us"], &[("--svg", "no file is named")])?;
    let system = if given.has("--us") { System::Us } else { System::Metric };
    let mut run = Run::new(given.job()?).map_err(|e| e.to_string())?;
    run.finish();
    let report = run.report().map_err(|e| e.to_string())?;
    let sheet = SetUpSheet::new(&run, &report, system);
    if let Some(file) = given.value("--svg") {
        std::fs::write(file, svg(&sheet, None)).map_err(|error| format!("{file}: {error}"))?;
    }
    Ok(sheet.words())
}

fn main() -> ExitCode {
    end(sheet())
}
