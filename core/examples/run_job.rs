//! Runs a job file.
//!
//! `cargo run --release -q -p mistcoat --example run_job -- JOB.toml [--json] [--out DIR]`
//!
//! Prints a short report; with `--json` the report as JSON, alone, keys as in `docs/job-file.md`. `--out DIR` also writes
//! the film as picture and table, profiles and where the paint went. On bad input the message goes to standard error,
//! nothing to standard output, and the exit code is 2.

mod common;

use common::Given;
use mistcoat::report::chart::{Axis, map_png, map_svg, profile_svg, run_flow, wanted};
use mistcoat::report::{Report, film_csv, words};
use mistcoat::run::Run;
use std::path::Path;
use std::process::ExitCode;

const USAGE: &str = "usage: run_job JOB.toml [--json] [--out DIR]";

fn run() -> Result<String, String> {
    let given = Given::read(USAGE, &["--json"], &[("--out", "no folder is named")])?;
    let mut run = Run::new(given.job()?).map_err(|e| e.to_string())?;
    fly(&mut run);
    let report = run.report().map_err(|e| e.to_string())?;
    if let Some(folder) = given.value("--out") {
        write_all(Path::new(folder), &run, &report)?;
    }
    Ok(if given.has("--json") { report.to_json() } else { words(&report, &run.prepared().job) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(run: &mut Run) {
    if !common::watched() {
        run.finish();
        return;
    }
    let piece = (run.progress().1 / 50).max(1 << 16);
    while !run.advance_on_all_threads(piece) {
        let (flown, all) = run.progress();
        common::bar(flown as f64 / all.max(1) as f64, &format!("{flown} of {all} droplets"));
    }
    common::no_bar();
}

/// Everything that `--out` gives.
fn write_all(folder: &Path, run: &Run, report: &Report) -> Result<(), String> {
    let job = &run.prepared().job;
    let film = run.film();
    let wanted = wanted(job);
    let round = job.part.is_of_tubes();
    let chart = |what: &str, axis| {
        let title = format!("{}: {what}", report.name);
        profile_svg(&title, &film, axis, round && axis == Axis::Across, wanted).map(String::into_bytes)
    };
    let files = [
        ("report.json", Some(report.to_json().into_bytes())),
        ("film.csv", Some(film_csv(&film, &job.part).into_bytes())),
        ("film-map.png", map_png(&film, wanted, 1600)),
        ("film-map.svg", map_svg(&report.name, &film, wanted, 900.0).map(String::into_bytes)),
        ("profile-along.svg", chart("film along the strokes", Axis::Along)),
        ("profile-across.svg", chart("film across the strokes", Axis::Across)),
        ("where-the-paint-went.svg", Some(run_flow(report).into_bytes())),
    ];
    let failed = |path: &Path, error: std::io::Error| format!("{}: {error}", path.display());
    std::fs::create_dir_all(folder).map_err(|error| failed(folder, error))?;
    for (name, bytes) in files {
        let path = folder.join(name);
        let bytes = bytes.ok_or_else(|| format!("{}: could not be drawn", path.display()))?;
        std::fs::write(&path, bytes).map_err(|error| failed(&path, error))?;
    }
    Ok(())
}

fn main() -> ExitCode {
    common::end(run())
}
