//! Whole sweeps in the page's workers, dealt out as the page deals them.

use anyhow::Result;
use mistcoat::job::Job;
use mistcoat::sweep::{Axis, Plan};
use mistcoat_benches::LAID;
use mistcoat_page::pool::Pool;
use mistcoat_page::protocol::Work;
use mistcoat_page::task::Task;
use mistcoat_tests::browser::Page;

use super::workers::Workers;
use super::{job_text, median};

const SURE: (&str, &str) = ("run.standard_error", "0.5 %");
const TWO: usize = 2;

struct Asked {
    job: String,
    axes: Vec<Axis>,
    columns: Vec<String>,
    plan: Plan,
}

impl Asked {
    fn new(keys: &[(&str, &str)], axes: &[&str], columns: &[&str]) -> Result<Self> {
        let text = job_text(keys)?;
        let axes = axes.iter().map(|axis| Axis::read(axis)).collect::<Result<Vec<_>, _>>()?;
        let job = Job::from_toml(&text).map_err(|e| anyhow::anyhow!("{e}"))?;
        let plan = Plan::new(&job, axes.clone(), columns)?;
        Ok(Self { job: text, axes, columns: columns.iter().map(ToString::to_string).collect(), plan })
    }

    /// A work for each hand of points, as the page deals them.
    fn works(&self, workers: usize) -> Vec<Work> {
        let mut pool = Pool::new(&self.plan, workers);
        let next = || {
            let points = pool.next(0)?;
            pool.over(0);
            let (job, axes, columns) = (self.job.clone(), self.axes.clone(), self.columns.clone());
            Some(Work::Task(Task::Sweep { job, axes, columns, points }))
        };
        std::iter::from_fn(next).collect()
    }
}

/// Prints a row: medians by the clock and on the cores.
fn row(what: &str, workers: usize, goal: &str, times: Vec<(f64, f64)>) {
    let (wall, core): (Vec<f64>, Vec<f64>) = times.into_iter().unzip();
    println!("| {what} | {workers} | {:.2} | {:.2} | {goal} |", median(wall), median(core));
}

/// All sweeps.
pub fn all(page: &Page, runs: u64) -> Result<()> {
    println!("\n| sweep | workers | by the clock [s] | core seconds | goal [s] |\n|---|---|---|---|---|");
    let map = Asked::new(&[], &["stroke.overlap=0.25..0.75:21", "stroke.speed=200..600 mm/s:21"], &LAID)?;
    for count in [1, TWO] {
        let mut times = Vec::new();
        for _ in 0..runs.min(5) {
            let workers = Workers::open(page, count)?;
            workers.start(&map.works(count))?;
            // A thousand is a point: the footprint is there.
            workers.until(Some(1000))?;
            let took = workers.until(None)?;
            times.push((took.wall, took.seconds()));
        }
        row("overlap x speed, 21 x 21, after the footprint", count, "0.3", times);
    }
    let column = ["transfer_efficiency.value"];
    let still = [SURE, ("stroke.burst", "1 s")];
    for (what, keys, axis) in [
        ("25 overlaps, 0.5 %", &[SURE][..], "stroke.overlap=0.2..0.8:25"),
        ("25 pressures, held still, 0.5 %", &still[..], "gun.inlet_pressure=1.4..2.6 bar:25"),
        ("25 pressures, passes, 0.5 %", &[SURE][..], "gun.inlet_pressure=1.4..2.6 bar:25"),
    ] {
        let asked = Asked::new(keys, &[axis], &column)?;
        let mut times = Vec::new();
        for _ in 0..runs.min(3) {
            let workers = Workers::open(page, TWO)?;
            workers.start(&asked.works(TWO))?;
            let took = workers.until(None)?;
            times.push((took.wall, took.seconds()));
        }
        row(what, TWO, "3", times);
    }
    Ok(())
}
