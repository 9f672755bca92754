//! Sweeps: overlap x speed on a panel after one footprint, and one knob until each point's efficiency is known to 0.5 %.

use criterion::{Criterion, criterion_group, criterion_main};
use mistcoat::job::{Job, with_key};
use mistcoat::sweep::{Answer, Axis, Plan, Sweep};
use mistcoat_benches::LAID;
use std::time::{Duration, Instant};

const TABLE_TOP: &str = include_str!("../../core/examples/jobs/table-top.toml");

fn plan(keys: &[(&str, &str)], axes: &[&str], columns: &[&str]) -> Plan {
    let text =
        keys.iter().fold(TABLE_TOP.to_string(), |text, (key, value)| match with_key(&text, key, value) {
            Ok(text) => text,
            Err(error) => panic!("{error}"),
        });
    let planned = Job::from_toml(&text).map_err(|e| e.to_string()).and_then(|job| {
        let axes: Result<Vec<Axis>, _> = axes.iter().map(|text| Axis::read(text)).collect();
        Plan::new(&job, axes.map_err(|e| e.to_string())?, columns).map_err(|e| e.to_string())
    });
    planned.unwrap_or_else(|error| panic!("{error}"))
}

fn swept(plan: &Plan) -> Answer {
    let mut sweep = Sweep::new(plan.clone());
    sweep.finish();
    sweep.answer()
}

/// Time from the first point that is done, when the footprint is there, to the last.
fn after_the_flight(plan: &Plan) -> Duration {
    let mut sweep = Sweep::new(plan.clone());
    while sweep.progress().0 == 0 && !sweep.advance_on_all_threads(1 << 13) {}
    let begun = Instant::now();
    sweep.finish();
    begun.elapsed()
}

fn sweeps(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("sweep");
    group.sample_size(10);
    let laid = plan(&[], &["stroke.overlap=0.25..0.75:21", "stroke.speed=200..600 mm/s:21"], &LAID);
    group.bench_function("overlap x speed, 21 x 21, laid", |b| {
        b.iter_custom(|times| (0..times).map(|_| after_the_flight(&laid)).sum());
    });
    let sure = [("run.standard_error", "0.5 %")];
    for (name, keys, axis) in [
        ("25 overlaps, panel, 0.5 %", &sure[..], "stroke.overlap=0.2..0.8:25"),
        ("25 pressures, panel, 0.5 %", &sure[..], "gun.inlet_pressure=1.4..2.6 bar:25"),
        (
            "25 pressures, panel, held still, 0.5 %",
            &[("run.standard_error", "0.5 %"), ("stroke.burst", "1 s")][..],
            "gun.inlet_pressure=1.4..2.6 bar:25",
        ),
    ] {
        let plan = plan(keys, &[axis], &["transfer_efficiency.value"]);
        group.bench_function(name, |b| b.iter(|| swept(&plan)));
    }
    group.finish();
}

criterion_group!(benches, sweeps);
criterion_main!(benches);
