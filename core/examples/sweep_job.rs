//! Flies a job file over a range of one key or two.
//!
//! `cargo run --release -q -p mistcoat --example sweep_job -- JOB.toml --vary stroke.overlap=0.3..0.7:21 [--vary KEY=A,B,...]
//! [--columns PATH,PATH,...] [--csv | --json] [--svg FILE] [--shard 0/4]`
//!
//! Prints a short table; with `--csv` a line a point with all digits, with `--json` the points and what paired
//! differences are made of: each figure with one replicate group left out. `--svg` draws curves (one key) or maps (two). With `--shard i/n` point k belongs to shard k mod n: every shard prints the
//! header, and the shards' lines sorted together are those of the whole. On bad input the message goes to standard error, nothing to
//! standard output, and the exit code is 2. `docs/methods/sweep.md`, `docs/scale.md`.

use mistcoat::job::Job;
use mistcoat::sweep::{Axis, Plan, Shard, Sweep, header, line, picture, words};
use std::io::{IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;

const USAGE: &str = "usage: sweep_job JOB.toml --vary KEY=FROM..TO:COUNT or KEY=A,B,... [--vary ...] [--columns PATH,...] \
                     [--csv | --json] [--svg FILE] [--shard I/N]";
/// Droplets of a piece on each thread between two looks at the screen.
const PIECE: u64 = 8192;

#[derive(Default)]
struct Options {
    job: PathBuf,
    vary: Vec<String>,
    columns: Vec<String>,
    csv: bool,
    json: bool,
    svg: Option<PathBuf>,
    shard: Option<String>,
}

fn options(mut words: impl Iterator<Item = String>) -> Result<Options, String> {
    let mut options = Options::default();
    let mut job = None;
    while let Some(word) = words.next() {
        let mut next = |what: &str| {
            let value = words.next().filter(|value| !value.starts_with("--") && !value.is_empty());
            value.ok_or_else(|| format!("{word}: no {what} is named\n{USAGE}"))
        };
        match word.as_str() {
            "--csv" => options.csv = true,
            "--json" => options.json = true,
            "--vary" => options.vary.push(next("key")?),
            "--columns" => {
                let paths = next("figure")?;
                options.columns.extend(paths.split(',').map(|path| path.trim().to_string()));
            }
            "--svg" if options.svg.is_some() => return Err(format!("--svg: given twice\n{USAGE}")),
            "--svg" => options.svg = Some(next("file")?.into()),
            "--shard" if options.shard.is_some() => return Err(format!("--shard: given twice\n{USAGE}")),
            "--shard" => options.shard = Some(next("shard")?),
            _ if word.starts_with('-') => return Err(format!("{word}: no such option\n{USAGE}")),
            _ if job.is_some() => return Err(format!("{word}: one job file at a time\n{USAGE}")),
            _ => job = Some(word.into()),
        }
    }
    if options.csv && options.json {
        return Err(format!("--csv and --json: one of them\n{USAGE}"));
    }
    Ok(Options { job: job.ok_or(USAGE)?, ..options })
}

fn prepare(options: &Options) -> Result<Sweep, String> {
    let named = |error: std::io::Error| format!("{}: {error}", options.job.display());
    let text = std::fs::read_to_string(&options.job).map_err(named)?;
    let job = Job::from_toml(&text).map_err(|e| e.to_string())?;
    let axes: Result<Vec<_>, _> = options.vary.iter().map(|text| Axis::read(text)).collect();
    let columns: Vec<&str> = options.columns.iter().map(String::as_str).collect();
    let plan =
        Plan::new(&job, axes.map_err(|e| format!("--vary: {e}"))?, &columns).map_err(|e| e.to_string())?;
    let Some(shard) = &options.shard else { return Ok(Sweep::new(plan)) };
    let shard = Shard::read(shard).map_err(|e| format!("--shard: {e}"))?;
    let points: Vec<usize> = shard.points(&plan).collect();
    Ok(Sweep::of_points(plan, points))
}

/// Flies to the end, and prints lines in the order of the points as soon as they are there; where a person watches, with a bar on
/// standard error.
fn fly(sweep: &mut Sweep, csv: bool) -> std::io::Result<()> {
    let (mut out, mut screen) = (std::io::stdout(), std::io::stderr());
    if csv {
        writeln!(out, "{}", header(sweep.plan()))?;
    }
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
        if screen.is_terminal() && !out.is_terminal() | !csv {
            let (done, all) = sweep.progress();
            let filled = "=".repeat((30.0 * sweep.done()) as usize);
            // A bar that cannot be shown is no reason to stop.
            let _ = write!(screen, "\r[{filled:<30}] {done} of {all} points");
            let _ = if over { write!(screen, "\r\x1b[K") } else { screen.flush() };
        }
        if over {
            return Ok(());
        }
    }
}

fn run(options: &Options) -> Result<ExitCode, String> {
    let mut sweep = prepare(options)?;
    // A reader that went away needs no more lines.
    if fly(&mut sweep, options.csv).is_err() {
        return Ok(ExitCode::FAILURE);
    }
    let answer = sweep.answer();
    if let Some(path) = &options.svg {
        let failed = |error: std::io::Error| format!("{}: {error}", path.display());
        std::fs::write(path, picture(&answer)).map_err(failed)?;
    }
    let text = match (options.csv, options.json) {
        (true, _) => return Ok(ExitCode::SUCCESS),
        (_, true) => answer.to_json(),
        _ => words(&answer),
    };
    Ok(writeln!(std::io::stdout(), "{text}").map_or(ExitCode::FAILURE, |()| ExitCode::SUCCESS))
}

fn main() -> ExitCode {
    match options(std::env::args().skip(1)).and_then(|options| run(&options)) {
        Ok(code) => code,
        Err(message) => {
            let _ = writeln!(std::io::stderr(), "{message}");
            ExitCode::from(2)
        }
    }
}
