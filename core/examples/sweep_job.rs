//! Flies a job file over a range of one key or two.
//!
//! `cargo run --release -q -p mistcoat --example sweep_job -- JOB.toml --vary stroke.overlap=0.3..0.7:21 [--vary KEY=A,B,...]
//! [--columns PATH,PATH,...] [--csv | --json] [--svg FILE] [--shard 0/4]`
//!
//! Prints a short table; with `--csv` a line a point with all digits, with `--json` the points, each figure also with one replicate group
//! left out in turn, and `differences`: from each point to its neighbours along the keys, with their paired errors. `--svg` draws curves
//! (one key) or maps (two). With `--shard i/n` point k belongs to shard k mod n: every shard prints the header, and the shards' lines sorted
//! together are those of the whole. On bad input the message goes to standard error, nothing to
//! standard output, and the exit code is 2. `docs/methods/sweep.md`, `docs/scale.md`.

mod common;

use common::{Given, bar, end, no_bar, watched};
use mistcoat::sweep::{Axis, Plan, Shard, Sweep, header, line, picture, words};
use std::io::{IsTerminal, Write};
use std::process::ExitCode;

const USAGE: &str = "usage: sweep_job JOB.toml --vary KEY=FROM..TO:COUNT or KEY=A,B,... [--vary ...] [--columns PATH,...] \
                     [--csv | --json] [--svg FILE] [--shard I/N]";
const ONCE: [(&str, &str); 2] = [("--svg", "no file is named"), ("--shard", "no shard is named")];
const MANY: [(&str, &str); 2] = [("--vary", "no key is named"), ("--columns", "no figure is named")];
/// Droplets of a piece on each thread between two looks at the screen.
const PIECE: u64 = 32_768;

fn prepare(given: &Given) -> Result<Sweep, String> {
    let job = given.job()?;
    let axes: Result<Vec<_>, _> = given.values("--vary").map(Axis::read).collect();
    let columns: Vec<&str> =
        given.values("--columns").flat_map(|paths| paths.split(',').map(str::trim)).collect();
    let plan =
        Plan::new(&job, axes.map_err(|e| format!("--vary: {e}"))?, &columns).map_err(|e| e.to_string())?;
    let Some(shard) = given.value("--shard") else { return Ok(Sweep::new(plan)) };
    let shard = Shard::read(shard).map_err(|e| format!("--shard: {e}"))?;
    let points: Vec<usize> = shard.points(&plan).collect();
    Ok(Sweep::of_points(plan, points))
}

/// Flies to the end, and prints lines in the order of the points as soon as they are there; where a person watches, with a bar on
/// standard error.
fn fly(sweep: &mut Sweep, csv: bool) -> std::io::Result<()> {
    let mut out = std::io::stdout();
    if csv {
        writeln!(out, "{}", header(sweep.plan()))?;
    }
    let watched = watched() && (!csv || !out.is_terminal());
    let mut printed = 0;
    loop {
        let over = sweep.advance_on_all_threads(PIECE);
        if csv {
            let ready: Vec<String> = sweep.in_order(printed).map(|point| line(sweep.plan(), point)).collect();
            printed += ready.len();
            for line in ready {
                writeln!(out, "{line}")?;
            }
        }
        if watched {
            let (done, all) = sweep.progress();
            bar(sweep.done(), &format!("{done} of {all} points"));
        }
        if over {
            if watched {
                no_bar();
            }
            return Ok(());
        }
    }
}

/// The answer; none where it is printed already, or nobody reads it any more.
fn run() -> Result<Option<String>, String> {
    let given = Given::read_with(USAGE, &["--csv", "--json"], &ONCE, &MANY)?;
    let (csv, json) = (given.has("--csv"), given.has("--json"));
    if csv && json {
        return Err(format!("--csv and --json: one of them\n{USAGE}"));
    }
    let mut sweep = prepare(&given)?;
    if fly(&mut sweep, csv).is_err() {
        return Ok(None);
    }
    let answer = sweep.answer();
    if let Some(path) = given.value("--svg") {
        std::fs::write(path, picture(&answer)).map_err(|error| format!("{path}: {error}"))?;
    }
    Ok((!csv).then(|| if json { answer.to_json() } else { words(&answer) }))
}

fn main() -> ExitCode {
    match run() {
        Ok(None) => ExitCode::SUCCESS,
        Ok(Some(text)) => end(Ok(text)),
        Err(message) => end(Err(message)),
    }
}
