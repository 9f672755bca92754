//! Twenty jobs searched, and five hundred random set-ups of each held against the optimum: the figures of `docs/methods/search.md`.
//!
//! `cargo run --release -p mistcoat-tests --bin search_best [-- COUNT [ROWS] [--all]]`: a minute a job on two quiet cores. ROWS are numbers of
//! the table's rows from 1 on ("3" or "3-7"), so that it can be taken up again. With `--all` no random set-up is left out after a quick
//! look; the numbers of the five best are printed either way.

use mistcoat::search::Stop;
use mistcoat_tests::search_check::{JOBS, check, job_of};
use std::io::Write;

/// Rows, from words like "3" or "3-7".
fn rows(word: &str) -> Option<Vec<usize>> {
    let (first, last) = word.split_once('-').unwrap_or((word, word));
    let (first, last): (usize, usize) = (first.parse().ok()?, last.parse().ok()?);
    (1 <= first && first <= last && last <= JOBS.len()).then(|| (first - 1..last).collect())
}

fn main() -> std::process::ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let (options, numbers): (Vec<_>, Vec<_>) = words.iter().partition(|word| word.starts_with("--"));
    let count = numbers.first().map_or(Some(500), |word| word.parse().ok());
    let rows = numbers.get(1).map_or_else(|| Some((0..JOBS.len()).collect()), |word| rows(word));
    let all = options.first().is_some_and(|word| *word == "--all");
    let (Some(count), Some(rows)) = (count, rows) else {
        eprintln!("usage: search_best [COUNT [ROWS] [--all]]; ROWS: 1 to {}, as 3 or 3-7", JOBS.len());
        return std::process::ExitCode::from(2);
    };
    let mut out = std::io::stdout();
    let mut missed = 0;
    let _ = writeln!(
        out,
        "| job | optimum [mL] | random | looked at closer | best of them, less paint [%] | optimum holds | miss |"
    );
    let _ = writeln!(out, "|---|---|---|---|---|---|---|");
    for &row in &rows {
        let checked = check(&job_of(row), count, all);
        let best = checked.best.as_ref().map_or("none".into(), |b| {
            let nearest = match b.rank().0 {
                0 => "",
                1 => ", not sure",
                _ => ", nearest",
            };
            format!("{:.2}{nearest}", b.ml)
        });
        let gain = |&(gain, error, sound): &(f64, f64, bool)| {
            format!("{:+.1} ± {:.1}{}", 100.0 * gain, 100.0 * error, if sound { "" } else { " (out)" })
        };
        let again = checked.again.iter().map(gain).collect::<Vec<_>>().join(", ");
        let bad = !checked.missed().is_empty();
        missed += u32::from(bad);
        let stop = |s: &Stop| format!("{:?} by {:.1} %", s.what, 100.0 * s.by);
        let holds = match checked.broken.iter().map(stop).collect::<Vec<_>>().join(", ") {
            none if none.is_empty() => "yes".into(),
            broken => format!("no: {broken}"),
        };
        let miss = if bad { "miss" } else { "" };
        let _ = writeln!(
            out,
            "| {} | {best} | {} | {} | {again} | {holds} | {miss} |",
            JOBS[row].0, checked.drawn, checked.closer
        );
        let _ = out.flush();
        let five: Vec<String> =
            checked.five.iter().map(|(i, v)| format!("{i} ({:.3} mL)", v * 1e6)).collect();
        eprintln!("{}: five best of the draw: {}", JOBS[row].0, five.join(", "));
    }
    let _ = writeln!(out, "{missed} of {} missed", rows.len());
    std::process::ExitCode::SUCCESS
}
