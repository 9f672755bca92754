//! Bias of the kernel's step against a plain scheme in steps of 1e-6 s: `cargo run --release -p mistcoat-benches --bin bias`.
//!
//! The same droplets start in both, so that differences are paired. Prints a Markdown table. `--droplets N` (20000), `--keep FOLDER` of
//! the reference's ends, which take minutes (target/bias), `--steps A,B,..`.

use fearless_simd::Level;
use mistcoat::flight::{Batch, END_HIT, Noise, fly};
use mistcoat::stream::{Purpose, start};
use mistcoat_benches::cases::{Case, Place, STRIPS};
use mistcoat_benches::plain::End;
use std::path::PathBuf;
use std::process::ExitCode;

/// Flights of each start, turbulence on.
const FLIGHTS: u64 = 4;
const BATCH: u64 = 4096;

/// Mean of a difference, and its standard error, both in percent of a value.
struct Bias {
    sum: f64,
    squares: f64,
}

impl Bias {
    fn of(differences: impl Iterator<Item = f64>) -> Self {
        differences
            .fold(Self { sum: 0.0, squares: 0.0 }, |b, d| Self { sum: b.sum + d, squares: b.squares + d * d })
    }

    fn told(&self, n: f64, whole: f64) -> String {
        let (mean, part) = (self.sum / n, 100.0 * n / whole);
        let error = ((self.squares / n - mean * mean).max(0.0) / n).sqrt();
        format!("{:+.2} +- {:.2}", mean * part, error * part)
    }
}

/// Means over the flights of one start: whether it hit, counted, and the hits' times and speeds.
#[derive(Clone, Copy, Default)]
struct Met {
    hits: f64,
    counted: f64,
    time: f64,
    speed: f64,
}

impl Met {
    fn add(&mut self, case: &Case, end: &End, share: f64) {
        if !end.landed {
            return;
        }
        self.hits += share;
        self.time += share * end.time;
        self.speed += share * end.speed;
        if case.counts(end.position) {
            self.counted += share;
        }
    }
}

fn end_of(batch: &Batch<f32>, k: usize) -> End {
    let three = |of: &[Vec<f32>; 3]| [0, 1, 2].map(|i| f64::from(of[i][k]));
    let speed = three(&batch.end_velocity).iter().map(|v| v * v).sum::<f64>().sqrt();
    let (position, time) = (three(&batch.end_position), f64::from(batch.end_time[k]));
    End { landed: batch.end[k] == END_HIT, position, speed, time }
}

/// One row: the kernel at a step.
fn row(case: &Case, reference: &[End], step: f64) {
    let n = reference.len() as u64;
    let flights = if case.turbulent { FLIGHTS } else { 1 };
    let share = 1.0 / flights as f64;
    let mut set = case.set;
    set.step = step;
    let (scene, set) = (case.scene.narrow(), set.cast());
    let (mut own, mut strips, mut steps) = (vec![Met::default(); reference.len()], [0.0; STRIPS], 0);
    let mut batch = Batch::default();
    for flight in 0..flights {
        for first in (0..n).step_by(BATCH as usize) {
            batch.clear();
            for k in first..n.min(first + BATCH) {
                let mut begun = case.start(k);
                if flight > 0 {
                    begun.stream = start(1000 + flight, k, Purpose::Flight);
                }
                batch.push(&begun);
            }
            fly(Level::new(), &scene, &set, Noise::Sum2, &mut batch);
            steps += batch.steps;
            for k in 0..batch.len() {
                let end = end_of(&batch, k);
                own[first as usize + k].add(case, &end, share);
                if end.landed {
                    strips[case.strip(end.position)] += share;
                }
            }
        }
    }
    let n = n as f64;
    let mut truth = vec![Met::default(); reference.len()];
    let mut wanted = [0.0; STRIPS];
    for (met, end) in truth.iter_mut().zip(reference) {
        met.add(case, end, 1.0);
        if end.landed {
            wanted[case.strip(end.position)] += 1.0;
        }
    }
    let sum = |of: fn(&Met) -> f64| truth.iter().map(of).sum::<f64>();
    let (hits, time, speed) = (sum(|m| m.hits), sum(|m| m.time), sum(|m| m.speed));
    let counted = sum(|m| m.counted);
    let pairs = || own.iter().zip(&truth);
    let (mean_time, mean_speed) = (time / hits, speed / hits);
    // Of a ratio: to first order that of its numerator less the mean times that of its denominator.
    let times = Bias::of(pairs().map(|(a, b)| a.time - b.time - mean_time * (a.hits - b.hits)));
    let speeds = Bias::of(pairs().map(|(a, b)| a.speed - b.speed - mean_speed * (a.hits - b.hits)));
    let landed = Bias::of(pairs().map(|(a, b)| a.counted - b.counted));
    let off: f64 = strips.iter().zip(&wanted).map(|(a, b): (&f64, &f64)| (a - b).abs()).sum();
    let chance: f64 =
        wanted.iter().map(|b| (2.0 / std::f64::consts::PI * b * (1.0 - b / n) * (1.0 + share)).sqrt()).sum();
    println!(
        "| {} | {step} | {:.1} | {:.2} of it chance {:.2} | {} | {} | {} |",
        case.name(),
        steps as f64 * share / n,
        100.0 * off / hits,
        100.0 * chance / hits,
        speeds.told(n, speed),
        times.told(n, time),
        landed.told(n, counted),
    );
}

fn main() -> ExitCode {
    let (mut droplets, mut keep) = (20_000, PathBuf::from("target/bias"));
    let mut steps = vec![0.02, 0.04, 0.08, 0.16];
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let value = arguments.next().unwrap_or_default();
        let list: Option<Vec<f64>> = value.split(',').map(|v| v.parse().ok()).collect();
        match (argument.as_str(), value.parse::<u64>(), list) {
            ("--droplets", Ok(n), _) if n > 1 => droplets = n,
            ("--steps", _, Some(list)) if list.iter().all(|s| *s > 0.0 && *s < 1.0) => steps = list,
            ("--keep", ..) if !value.is_empty() => keep = PathBuf::from(value),
            _ => {
                eprintln!(
                    "{argument} {value}: allowed are --droplets N (2 or more), --steps A,B (0..1), --keep FOLDER"
                );
                return ExitCode::from(2);
            }
        }
    }
    println!(
        "| case | step | steps a droplet | film profile L1 [%] | impact speed [%] | flight time [%] | landed [%] |"
    );
    println!("|---|---|---|---|---|---|---|");
    for place in [Place::Jet, Place::Panel, Place::Tube] {
        for turbulent in [true, false] {
            // Without turbulence the starts are all that is random, and they are the same.
            let n = if turbulent { droplets } else { droplets / 10 };
            let flown = Case::new(place, turbulent).map_err(|e| e.to_string()).and_then(|case| {
                case.reference(n, &keep).map(|ends| (case, ends)).map_err(|e| e.to_string())
            });
            match flown {
                Ok((case, ends)) => steps.iter().for_each(|step| row(&case, &ends, *step)),
                Err(why) => {
                    eprintln!("{why}");
                    return ExitCode::FAILURE;
                }
            }
        }
    }
    ExitCode::SUCCESS
}
