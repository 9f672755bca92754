//! The kernel against the plain scalar peer, runs alternated: `cargo run --release -p mistcoat-benches --bin peers`.
//!
//! Prints the ratio table and the bias columns as Markdown. `--runs N` (9), `--reference N` droplets of the reference
//! (100000; 0 leaves the bias out).

use fearless_simd::Level;
use mistcoat::flight::{Noise, levels};
use mistcoat_benches::clock::Clock;
use mistcoat_benches::kernel::Task;
use mistcoat_benches::scalar::{self, Draw, REFERENCE_STEP, STEP};
use mistcoat_benches::tally::{Tally, profile_difference, profile_noise};
use std::process::ExitCode;

/// Counting noise asked for in a cell.
const NOISE: f64 = 0.02;

struct Contender {
    name: String,
    droplets: u64,
    run: Box<dyn Fn(u64, u64) -> Tally>,
    seconds: Vec<f64>,
    /// CPU seconds until a core cell's noise is 2 %.
    waits: Vec<f64>,
    steps: f64,
}

impl Contender {
    fn new(name: String, droplets: u64, run: impl Fn(u64, u64) -> Tally + 'static) -> Self {
        Self { name, droplets, run: Box::new(run), seconds: Vec::new(), waits: Vec::new(), steps: 0.0 }
    }

    fn time(&mut self, seed: u64) {
        let clock = Clock::start();
        let tally = (self.run)(seed, self.droplets);
        let seconds = clock.seconds();
        self.steps = tally.steps as f64 / tally.droplets as f64;
        self.seconds.push(seconds / tally.droplets as f64);
        self.waits.push(seconds * tally.core_variance() / (NOISE * NOISE));
    }
}

fn kernel(level: Level, name: &str, task: Task) -> Contender {
    Contender::new(format!("kernel, {name}"), 400_000, move |seed, droplets| {
        task.run(level, Noise::Sum2, seed, 0, droplets)
    })
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

fn ratios(peer: &[f64], own: &[f64]) -> Vec<f64> {
    peer.iter().zip(own).map(|(a, b)| a / b).collect()
}

fn speed(runs: u64) {
    let mut all = vec![
        Contender::new("scalar peer, by number".into(), 20_000, |s, n| {
            scalar::run::<f32>(s, n, STEP, Draw::Number)
        }),
        Contender::new("scalar peer, by volume".into(), 20_000, |s, n| {
            scalar::run::<f32>(s, n, STEP, Draw::Volume)
        }),
    ];
    for level in levels() {
        let name = format!("{level:?}");
        let name = name.split('(').next().unwrap_or(&name);
        all.push(kernel(level, name, Task::default()));
    }
    for contender in &mut all {
        contender.time(0);
        (contender.seconds, contender.waits) = (Vec::new(), Vec::new());
    }
    for seed in 1..=runs {
        all.iter_mut().for_each(|c| c.time(seed));
    }
    println!(
        "| contender | steps a droplet | droplets/s | ratio | spread | time to 2 % a core cell | ratio |"
    );
    println!("|---|---|---|---|---|---|---|");
    let (peer_seconds, peer_waits) = (all[0].seconds.clone(), all[0].waits.clone());
    for c in &all {
        let mut speed = ratios(&peer_seconds, &c.seconds);
        speed.sort_by(f64::total_cmp);
        println!(
            "| {} | {:.1} | {:.3e} | {:.1} | {:.1} - {:.1} | {:.4} s | {:.0} |",
            c.name,
            c.steps,
            1.0 / median(c.seconds.clone()),
            median(speed.clone()),
            speed[0],
            speed[speed.len() - 1],
            median(c.waits.clone()),
            median(ratios(&peer_waits, &c.waits)),
        );
    }
}

/// Runs the scalar code on every core; `droplets` by volume.
fn spread<F: scalar::Float>(droplets: u64, dt: f64) -> Tally {
    let cores = std::thread::available_parallelism().map_or(1, |n| n.get() as u64);
    std::thread::scope(|scope| {
        let threads: Vec<_> = (0..cores)
            .map(|i| scope.spawn(move || scalar::run::<F>(100 + i, droplets / cores, dt, Draw::Volume)))
            .collect();
        let mut sum = Tally::default();
        for thread in threads {
            if let Ok(tally) = thread.join() {
                sum.merge(&tally);
            }
        }
        sum
    })
}

fn bias(droplets: u64) {
    eprintln!("The reference: {droplets} droplets at a step of 1e-6 s ...");
    let reference = spread::<f64>(droplets, REFERENCE_STEP);
    let truth = reference.figures();
    let many = 8 * droplets;
    let level = Level::new();
    let rows = [
        ("scalar peer, f32, 5e-5 s", spread::<f32>(2 * droplets, STEP)),
        ("kernel", Task::default().run(level, Noise::Sum2, 5, 0, many)),
        ("kernel, true normals", Task::default().run(level, Noise::Normal, 5, 0, many)),
        ("kernel, a tenth of its step", Task::new(0.008).run(level, Noise::Normal, 6, 0, many)),
    ];
    println!(
        "\n| against 1e-6 s, f64 | film profile L1 | of it chance | impact speed | flight time | landed |"
    );
    println!("|---|---|---|---|---|---|");
    println!(
        "| reference | {:.3e} droplets | | {:.3} m/s | {:.3} ms | {:.4} |",
        reference.droplets as f64,
        truth.speed,
        1e3 * truth.time,
        truth.landed
    );
    let percent = |a: f64, b: f64| 100.0 * (a / b - 1.0);
    for (name, tally) in rows {
        let own = tally.figures();
        println!(
            "| {name} | {:.2} % | {:.2} % | {:+.2} % | {:+.2} % | {:+.2} % |",
            100.0 * profile_difference(&own, &truth),
            100.0 * profile_noise(&truth, tally.droplets, reference.droplets),
            percent(own.speed, truth.speed),
            percent(own.time, truth.time),
            percent(own.landed, truth.landed),
        );
    }
}

fn main() -> ExitCode {
    let (mut runs, mut reference) = (9, 100_000);
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let value = arguments.next().and_then(|v| v.parse().ok());
        match (argument.as_str(), value) {
            ("--runs", Some(n)) if n > 0 => runs = n,
            ("--reference", Some(n)) => reference = n,
            _ => {
                eprintln!(
                    "{argument}: allowed are --runs N (1 or more) and --reference N (0 leaves the bias out)"
                );
                return ExitCode::from(2);
            }
        }
    }
    speed(runs);
    if reference > 0 {
        bias(reference);
    }
    ExitCode::SUCCESS
}
