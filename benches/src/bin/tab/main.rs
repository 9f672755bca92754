//! The page's workers in a headless browser against the native library: `cargo run --release -p mistcoat-benches --features browser
//! --bin tab`, after `cargo checks --only page`.
//!
//! `--runs N` (7), `--site FOLDER` of another build. Prints Markdown. Core seconds are those of the workers' threads, wall times the
//! page's clock.

mod core_time;
mod sweeps;
mod workers;

use anyhow::{Context, Result, bail};
use fearless_simd::Level;
use mistcoat::flight::{Noise, levels};
use mistcoat::job::{Job, with_key};
use mistcoat::run::{CARD_DROPLETS, Run};
use mistcoat_benches::clock::Clock;
use mistcoat_benches::kernel::Task as TaskT;
use mistcoat_benches::scalar::{self, Draw, STEP};
use mistcoat_page::host::serve::Server;
use mistcoat_page::protocol::Work;
use mistcoat_page::state::hand::practice_job;
use mistcoat_page::task::Task;
use mistcoat_tests::browser::{Browser, Page, site};
use workers::Workers;

const TABLE_TOP: &str = include_str!("../../../../core/examples/jobs/table-top.toml");
/// Droplets of a stretch that is timed.
const STRETCH: u64 = 60_000;
/// A frame [s].
const FRAME: f64 = 0.016;

/// A job with some keys set otherwise.
fn job_text(keys: &[(&str, &str)]) -> Result<String> {
    let text = keys.iter().try_fold(TABLE_TOP.to_string(), |text, (key, value)| with_key(&text, key, value));
    text.map_err(|e| anyhow::anyhow!("{e}"))
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// The SSE2 level: lanes as wide as the browser's.
fn four_lanes() -> Result<Level> {
    levels().into_iter().find(|l| format!("{l:?}").starts_with("Sse2")).context("this machine has no SSE2")
}

/// Droplets a core second of one worker and of the native library on the table top, gun held still; and of the task's kernel and peer.
fn throughput(page: &Page, runs: u64) -> Result<()> {
    let wanted = CARD_DROPLETS + (runs + 2) * STRETCH;
    let text = job_text(&[("stroke.burst", "1 s"), ("run.droplets", &(wanted + STRETCH).to_string())])?;
    let level = four_lanes()?;
    let job = Job::from_toml(&text).map_err(|e| anyhow::anyhow!("{e}"))?;
    let mut native = Run::with_card(job, 0, level)?;
    native.advance(STRETCH);
    let workers = Workers::open(page, 1)?;
    workers.start(&[Work::Job(text)])?;
    let mut done = workers.until(Some(CARD_DROPLETS + STRETCH))?.done;
    let task = TaskT::default();
    let mut rates: [Vec<f64>; 4] = Default::default();
    for seed in 1..=runs {
        let took = workers.until(Some(done as u64 + STRETCH))?;
        rates[0].push((took.done - done) / took.seconds());
        done = took.done;
        let clock = Clock::start();
        native.advance(STRETCH);
        rates[1].push(STRETCH as f64 / clock.seconds());
        let clock = Clock::start();
        std::hint::black_box(task.run(level, Noise::Sum2, seed, 0, 4 * STRETCH));
        rates[2].push(4.0 * STRETCH as f64 / clock.seconds());
        let clock = Clock::start();
        std::hint::black_box(scalar::run::<f32>(seed, STRETCH / 4, STEP, Draw::Number));
        rates[3].push(STRETCH as f64 / 4.0 / clock.seconds());
    }
    let against = |a: usize, b: usize| median(rates[a].iter().zip(&rates[b]).map(|(a, b)| a / b).collect());
    println!("| one thread | droplets/s | ratio |\n|---|---|---|");
    println!(
        "| one worker, table top, gun held still | {:.3e} | {:.2} of native SSE2 |",
        median(rates[0].clone()),
        against(0, 1)
    );
    println!("| native, SSE2, the same | {:.3e} | |", median(rates[1].clone()));
    println!(
        "| native, SSE2, the task | {:.3e} | {:.1} times the scalar peer |",
        median(rates[2].clone()),
        against(2, 3)
    );
    println!("| scalar peer, the task | {:.3e} | |", median(rates[3].clone()));
    println!("| worker against the scalar peer, by both ratios | | {:.1} |", against(0, 1) * against(2, 3));
    Ok(())
}

/// Two workers against one, each with a flight of its own.
fn two_workers(page: &Page, runs: u64) -> Result<()> {
    let wanted = (runs + 2) * 4 * STRETCH + CARD_DROPLETS;
    let text = job_text(&[("stroke.burst", "1 s"), ("run.droplets", &wanted.to_string())])?;
    let mut rates: [[Vec<f64>; 2]; 2] = Default::default();
    for _ in 0..runs {
        for (count, rates) in [1, 2].into_iter().zip(&mut rates) {
            let workers = Workers::open(page, count)?;
            workers.start(&vec![Work::Job(text.clone()); count])?;
            let before = workers.until(Some(STRETCH))?.done;
            let took = workers.until(Some(3 * STRETCH))?;
            rates[0].push((took.done - before) / took.wall);
            rates[1].push((took.done - before) / took.seconds() * count as f64);
        }
    }
    let times = |i: usize| median(rates[1][i].iter().zip(&rates[0][i]).map(|(two, one)| two / one).collect());
    println!(
        "\nTwo workers against one: {:.2} times the droplets by the clock, {:.2} by core seconds",
        times(0),
        times(1)
    );
    Ok(())
}

/// Droplets in a frame's time of a worker that flies By hand's footprints, alone.
fn by_hand(page: &Page, runs: u64) -> Result<()> {
    let workers = Workers::open(page, 1)?;
    workers.start(&[Work::Task(Task::Practise { job: practice_job() })])?;
    let mut done = workers.until(Some(STRETCH))?.done;
    let mut rates = Vec::new();
    for _ in 0..runs.min(4) {
        let took = workers.until(Some(done as u64 + STRETCH / 2))?;
        rates.push((took.done - done) / took.seconds());
        done = took.done;
    }
    println!(
        "\nBy hand's footprints, one worker: {:.0} droplets in 16 ms on the core",
        FRAME * median(rates)
    );
    Ok(())
}

fn main() -> Result<()> {
    let (mut runs, mut folder) = (7, site());
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let value = arguments.next().unwrap_or_default();
        match argument.as_str() {
            "--runs" => runs = value.parse().context("--runs: a whole number")?,
            "--site" => folder = value.into(),
            _ => bail!("{argument}: allowed are --runs N and --site FOLDER"),
        }
    }
    let server = Server::start_anywhere(&folder)?;
    let browser = Browser::start()?;
    let page = browser.open(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    let runs = runs.max(1);
    throughput(&page, runs)?;
    two_workers(&page, runs)?;
    by_hand(&page, runs)?;
    sweeps::all(&page, runs)
}
