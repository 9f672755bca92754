//! Runs a job file.
//!
//! `cargo run --release -q -p mistcoat --example run_job -- JOB.toml [--json] [--out DIR]`
//!
//! Prints a short report; with `--json` the report as JSON, alone, keys as in `docs/job-file.md`. `--out DIR` also writes
//! the film as picture and table, profiles and where the paint went. On bad input the message goes to standard error,
//! nothing to standard output, and the exit code is 2.

use mistcoat::job::Job;
use mistcoat::report::chart::{Axis, map_png, map_svg, profile_svg, run_flow, wanted};
use mistcoat::report::{Report, film_csv, words};
use mistcoat::run::Run;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

const USAGE: &str = "usage: run_job JOB.toml [--json] [--out DIR]";

struct Options {
    job: PathBuf,
    json: bool,
    out: Option<PathBuf>,
}

fn options(mut words: impl Iterator<Item = String>) -> Result<Options, String> {
    let (mut job, mut json, mut out) = (None, false, None);
    while let Some(word) = words.next() {
        match word.as_str() {
            "--json" => json = true,
            "--out" => {
                let folder = words.next().filter(|folder| !folder.starts_with("--"));
                out = Some(folder.ok_or_else(|| format!("--out: no folder is named\n{USAGE}"))?.into());
            }
            _ if word.starts_with('-') => return Err(format!("{word}: no such option\n{USAGE}")),
            _ if job.is_some() => return Err(format!("{word}: one job file at a time\n{USAGE}")),
            _ => job = Some(word.into()),
        }
    }
    Ok(Options { job: job.ok_or(USAGE)?, json, out })
}

fn run(options: &Options) -> Result<String, String> {
    let named = |error: std::io::Error| format!("{}: {error}", options.job.display());
    let text = std::fs::read_to_string(&options.job).map_err(named)?;
    let job = Job::from_toml(&text).map_err(|e| e.to_string())?;
    let mut run = Run::new(job).map_err(|e| e.to_string())?;
    fly(&mut run);
    let report = run.report().map_err(|e| e.to_string())?;
    if let Some(folder) = &options.out {
        write_all(folder, &run, &report)?;
    }
    Ok(if options.json { report.to_json() } else { words(&report, &run.prepared().job) })
}

/// Flies to the end; where a person watches, with a bar on standard error.
fn fly(run: &mut Run) {
    let mut screen = std::io::stderr();
    if !screen.is_terminal() {
        run.finish();
        return;
    }
    let piece = (run.progress().1 / 50).max(1 << 16);
    while !run.advance_on_all_threads(piece) {
        let (flown, all) = run.progress();
        let done = (30.0 * flown as f64 / all.max(1) as f64) as usize;
        let bar = format!("\r[{:<30}] {flown} of {all} droplets", "=".repeat(done.min(30)));
        // A bar that cannot be shown is no reason to stop.
        let _ = screen.write_all(bar.as_bytes()).and_then(|()| screen.flush());
    }
    let _ = screen.write_all(b"\r\x1b[K");
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
    match options(std::env::args().skip(1)).and_then(|options| run(&options)) {
        // A reader that went away needs no report.
        Ok(report) => match writeln!(std::io::stdout(), "{report}") {
            Ok(()) => ExitCode::SUCCESS,
            Err(_) => ExitCode::FAILURE,
        },
        Err(message) => {
            let _ = writeln!(std::io::stderr(), "{message}");
            ExitCode::from(2)
        }
    }
}
