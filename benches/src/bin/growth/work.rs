//! What is timed.

use super::series::Series;
use mistcoat::flight::{Noise, STEP, levels};
use mistcoat::job::{Job, with_key, without_key};
use mistcoat::run::Run;
use mistcoat::sweep::{Axis, Plan, Sweep};
use mistcoat_benches::clock::Clock;
use mistcoat_benches::kernel::Task;

const TABLE_TOP: &str = include_str!("../../../../core/examples/jobs/table-top.toml");
const RAILING: &str = include_str!("../../../../core/examples/jobs/railing.toml");
/// Droplets where something else grows.
const FEW: u64 = 20_000;
const LAID: [&str; 4] =
    ["transfer_efficiency.value", "film.dry_um.mean", "film.thinnest_over_mean", "film.cv_percent.value"];

fn said(error: impl ToString) -> String {
    error.to_string()
}

fn text(text: &str, keys: &[(&str, &str)]) -> Result<String, String> {
    keys.iter().try_fold(text.to_string(), |text, (key, value)| with_key(&text, key, value)).map_err(said)
}

/// The table top with the gun held still: nothing waits for a card.
pub fn held_still(droplets: u64) -> Result<Run, String> {
    let text = text(TABLE_TOP, &[("stroke.burst", "1 s"), ("run.droplets", &droplets.to_string())])?;
    Run::with_card(Job::from_toml(&text).map_err(said)?, 0, levels()[0]).map_err(said)
}

/// Flight alone.
pub fn droplets() -> Series {
    Series::new(
        "droplets to a panel",
        &[1e4, 3e4, 1e5, 3e5, 1e6],
        Box::new(|size| {
            let mut run = held_still(size as u64)?;
            let clock = Clock::start();
            // All but the last, so that nothing is laid.
            run.advance(size as u64 - 1);
            Ok(clock.seconds())
        }),
    )
}

/// Laying, setting and report of what is flown.
pub fn cells() -> Series {
    Series::new(
        "cells of the film, laid, set and reported",
        &[2400.0, 4800.0, 9600.0, 19_200.0, 38_400.0],
        Box::new(|size| {
            // Cells of 5 mm.
            let millimetres = format!("{} mm", size / 9600.0 * 600.0);
            let keys = [("part.panel.width", millimetres.as_str()), ("run.droplets", &FEW.to_string())];
            let job = Job::from_toml(&text(TABLE_TOP, &keys)?).map_err(said)?;
            let mut run = Run::with_card(job, FEW, levels()[0]).map_err(said)?;
            run.advance(2 * FEW);
            if run.film().len() != size as usize {
                return Err(format!("{} cells, not {size}", run.film().len()));
            }
            let clock = Clock::start();
            while !run.advance(1) {}
            run.report().map_err(said)?;
            Ok(clock.seconds())
        }),
    )
}

/// The kernel by the steps of a droplet.
pub fn steps() -> Series {
    let share = |share: f64| STEP * share;
    let shares = [4.0, 2.0, 1.0, 0.5, 0.25, 0.125];
    let steps = |share: f64| {
        let tally = Task::new(share).run(levels()[0], Noise::Sum2, 1, 0, 4096);
        tally.steps as f64 / tally.droplets as f64
    };
    let sizes: Vec<f64> = shares.iter().map(|&s| steps(share(s))).collect();
    let of = sizes.clone();
    Series::new(
        "steps of a droplet, of 400,000 droplets",
        &sizes,
        Box::new(move |size| {
            let at = of.iter().position(|&s| s == size).ok_or("no such step")?;
            let task = Task::new(share(shares[at]));
            let clock = Clock::start();
            std::hint::black_box(task.run(levels()[0], Noise::Sum2, 1, 0, 20 * FEW));
            Ok(clock.seconds())
        }),
    )
}

/// Flight along a row of upright bars.
pub fn tubes() -> Series {
    Series::new(
        "tubes in a frame, of 20,000 droplets",
        &[2.0, 5.0, 10.0, 20.0, 40.0],
        Box::new(|size| {
            let bar = |i: u32| {
                let x = 60 * i;
                format!(
                    "{{ name = \"bar {i}\", from = [\"{x} mm\", \"0 mm\", \"0 mm\"], to = [\"{x} mm\", \"400 mm\", \"0 mm\"], \
                 diameter = \"16 mm\" }}"
                )
            };
            let bars: Vec<String> = (0..size as u32).map(bar).collect();
            let frame = format!("{{ tubes = [{}] }}", bars.join(", "));
            let text = without_key(RAILING, "part.frame")
                .map_err(said)?
                .replace("[part]", &format!("[part]\nframe = {frame}"));
            let text = with_key(&text, "run.droplets", &FEW.to_string()).map_err(said)?;
            let mut run =
                Run::with_card(Job::from_toml(&text).map_err(said)?, 0, levels()[0]).map_err(said)?;
            let clock = Clock::start();
            run.advance(FEW - 1);
            Ok(clock.seconds())
        }),
    )
}

fn sweep(base: &[(&str, &str)], axes: &[String]) -> Result<Sweep, String> {
    let job = Job::from_toml(&text(TABLE_TOP, base)?).map_err(said)?;
    let axes: Result<Vec<Axis>, _> = axes.iter().map(|text| Axis::read(text)).collect();
    Ok(Sweep::new(Plan::new(&job, axes.map_err(said)?, &LAID).map_err(said)?))
}

/// Points that share a flight, after it.
pub fn laid_points() -> Series {
    Series::new(
        "points of a sweep laid from one flight",
        &[16.0, 64.0, 256.0, 1024.0],
        Box::new(|size| {
            let side = size.sqrt().round();
            let axes =
                [format!("stroke.overlap=0.25..0.75:{side}"), format!("stroke.speed=200..600 mm/s:{side}")];
            let mut sweep = sweep(&[("run.droplets", "200000")], &axes)?;
            while sweep.progress().0 == 0 {
                sweep.advance(1);
            }
            let clock = Clock::start();
            while !sweep.advance(1 << 16) {}
            Ok(clock.seconds())
        }),
    )
}

/// Points that are each flown.
pub fn flown_points() -> Series {
    Series::new(
        "points of a sweep, each flown by 8192 droplets",
        &[3.0, 6.0, 12.0, 24.0],
        Box::new(|size| {
            let axes = [format!("gun.inlet_pressure=1.4..2.6 bar:{size}")];
            let mut sweep = sweep(&[("run.droplets", "8192"), ("stroke.burst", "1 s")], &axes)?;
            let clock = Clock::start();
            while !sweep.advance(1 << 16) {}
            Ok(clock.seconds())
        }),
    )
}

/// Droplets that a worker of the page asks for at once (`task/sweeping.rs`).
const PAGE_PIECE: u64 = 256;

/// The longest piece of a sweep as the page asks for it, on one thread, in which it cannot be stopped [ms]: with all figures that a
/// sweep keeps by itself.
pub fn longest_pieces() -> Result<String, String> {
    let mut out = "| sweep | pieces | longest, core time [ms] |\n|---|---|---|".to_string();
    for (name, base, keys, axis) in [
        ("table top, passes", TABLE_TOP, &[][..], "stroke.overlap=0.3..0.7:5"),
        ("table top, a steady hand", TABLE_TOP, &[("stroke.hand", "steady")][..], "stroke.overlap=0.3,0.6"),
        (
            "table top, held still, to 0.5 %",
            TABLE_TOP,
            &[("stroke.burst", "1 s"), ("run.standard_error", "0.5 %")][..],
            "gun.fan=0.3,1",
        ),
        ("railing", RAILING, &[("run.droplets", "100000")][..], "stroke.speed=400,500 mm/s"),
    ] {
        let job = Job::from_toml(&text(base, keys)?).map_err(said)?;
        let plan = Plan::new(&job, vec![Axis::read(axis).map_err(said)?], &[]).map_err(said)?;
        let (mut sweep, mut longest, mut pieces, mut over) = (Sweep::new(plan), 0.0f64, 0, false);
        while !over {
            let clock = Clock::start();
            over = sweep.advance(PAGE_PIECE);
            longest = longest.max(clock.seconds());
            pieces += 1;
        }
        out += &format!("\n| {name} | {pieces} | {:.0} |", longest * 1e3);
    }
    Ok(out)
}
