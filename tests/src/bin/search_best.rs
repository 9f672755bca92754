//! Twenty jobs searched, and five hundred random set-ups of each held against the optimum: the figures of `docs/methods/search.md`.
//!
//! `cargo run --release -p mistcoat-tests --bin search_best [-- COUNT]`: about a quarter of an hour on two quiet cores.

use mistcoat_tests::search_check::{JOBS, check, job_of};
use std::io::Write;

fn main() {
    let count = std::env::args().nth(1).and_then(|word| word.parse().ok()).unwrap_or(500);
    let mut out = std::io::stdout();
    let mut missed = 0;
    let _ = writeln!(
        out,
        "| job | optimum [mL] | random | keep to all | best of them, less paint [%] | optimum holds | miss |"
    );
    let _ = writeln!(out, "|---|---|---|---|---|---|---|");
    for (row, (name, ..)) in JOBS.iter().enumerate() {
        let checked = check(&job_of(row), count);
        let best = checked.best.as_ref().map_or("none".into(), |b| {
            let nearest = if b.stops.is_empty() { "" } else { ", nearest" };
            format!("{:.2}{nearest}", b.ml)
        });
        let gain = |&(gain, error, sound): &(f64, f64, bool)| {
            format!("{:+.1} ± {:.1}{}", 100.0 * gain, 100.0 * error, if sound { "" } else { " (out)" })
        };
        let again = checked.again.iter().map(gain).collect::<Vec<_>>().join(", ");
        let bad = !checked.missed().is_empty();
        missed += u32::from(bad);
        let holds = if checked.holds { "yes" } else { "no" };
        let miss = if bad { "miss" } else { "" };
        let _ = writeln!(
            out,
            "| {name} | {best} | {} | {} | {again} | {holds} | {miss} |",
            checked.flown, checked.feasible
        );
        let _ = out.flush();
    }
    let _ = writeln!(out, "{missed} of {} missed", JOBS.len());
}
