//! Share of the solids that lands on a large card.

use super::Band::{Above, Below, Told, Within};
use super::{Anchor, anchor};
use crate::scenes::{card_course, job, landings, paired, share};
use mistcoat::atomizer::Correlation;
use mistcoat::job::Job;
use mistcoat::set_up::{self, Model};

const DROPLETS: u64 = 60_000;
const GATANO: &str = "Gatano, UNC report: 0.66-0.87, HVLP on a flat plate, measured (abstract seen)";
const FALLS: &str =
    "Hicks 1995: only painting distance has a significant effect on transport (abstract seen)";
const RATIO: &str = "Gatano, UNC report: falls linearly with air over paint by mass (abstract seen)";
const ORDER: &str = "conventional about 0.35, HVLP 0.65 or more (trade article, 2001: seen)";
const SIGN: &str = "sign told, no pass or fail";

fn hvlp(distance: f64) -> Job {
    let mut job = job("hvlp-gravity-1.3", "two-pack-clear");
    job.stroke.distance = distance;
    job
}

fn landed(job: &Job, model: &Model) -> Vec<bool> {
    landings(&card_course(job, model), DROPLETS, |_| true)
}

pub(super) fn anchors() -> Vec<Anchor> {
    let standard = Model::default();
    let mut all = Vec::new();

    let distances = [0.15, 0.18, 0.20, 0.23, 0.26, 0.30];
    let by_distance = distances.map(|d| landed(&hvlp(d), &standard));
    for i in [1, 2] {
        let what = format!("landed share, HVLP at {:.0} mm, burst on a large card", distances[i] * 1e3);
        let fitted = "`sauter_reference`";
        all.push(anchor(what, share(&by_distance[i]), "", Within(0.66, 0.87), GATANO).fitted(fitted));
    }
    all.push(anchor(
        "landed share against distance, 150 to 300 mm: largest rise from one to the next of six",
        largest_rise(&by_distance),
        "",
        Below(0.0),
        FALLS,
    ));

    let (ratios, by_ratio) = by_air_liquid_ratio(&standard);
    all.push(anchor(
        format!(
            "landed share against air/liquid ratio {:.1} to {:.1}, by pressure at fixed fluid: largest rise",
            ratios[0],
            ratios[ratios.len() - 1]
        ),
        largest_rise(&by_ratio),
        "",
        Below(0.0),
        RATIO,
    ));
    let shares: Vec<f64> = by_ratio.iter().map(|l| share(l).0).collect();
    all.push(Anchor {
        error: None,
        ..anchor("the same: R2 of a straight line", (r_squared(&ratios, &shares), 0.0), "", Above(0.9), RATIO)
    });

    for correlation in Correlation::PLAIN_JET {
        let model = Model { correlation, ..standard };
        let mut conventional = job("conventional-gravity-1.4", "two-pack-clear");
        conventional.stroke.distance = 0.23;
        let difference = paired(&landed(&conventional, &model), &landed(&hvlp(0.15), &model));
        let what = format!(
            "conventional at 230 mm less HVLP at 150 mm, sizes by {}",
            correlation.id().to_uppercase()
        );
        all.push(anchor(what, difference, "", Below(0.0), ORDER));
        conventional.stroke.distance = 0.2;
        let difference = paired(&landed(&conventional, &model), &landed(&hvlp(0.2), &model));
        let what =
            format!("conventional less HVLP, both at 200 mm, sizes by {}", correlation.id().to_uppercase());
        all.push(anchor(what, difference, "", Told, SIGN));
    }
    let mut harder = hvlp(0.2);
    harder.gun.inlet_pressure = 3e5;
    let difference = paired(&landed(&harder, &standard), &by_distance[2]);
    all.push(anchor(
        "HVLP at 3 bar less the same at 2 bar, pressure alone, 200 mm",
        difference,
        "",
        Told,
        SIGN,
    ));
    all
}

/// Largest of the differences from each to the next, with its paired standard error.
fn largest_rise(rows: &[Vec<bool>]) -> (f64, f64) {
    rows.windows(2)
        .map(|pair| paired(&pair[1], &pair[0]))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .expect("two rows at least")
}

/// Pressures that give ratios from 1 to 4 while the fluid knob is turned so that the paint flow stays.
fn by_air_liquid_ratio(model: &Model) -> (Vec<f64>, Vec<Vec<bool>>) {
    let mut ratios = Vec::new();
    let mut rows = Vec::new();
    for i in 0..7 {
        let wanted = 1.0 + 0.5 * f64::from(i);
        let mut job = hvlp(0.19);
        job.kit.cup_head = POT;
        let ratio = |job: &mut Job, pressure: f64| {
            job.gun.inlet_pressure = pressure;
            hold_flow(job);
            let state = set_up::state(&job.kit, &job.gun, &job.paint, &job.booth).expect("a state");
            state.air_liquid_ratio().expect("paint flows")
        };
        let (mut low, mut high) = (0.3e5, job.kit.highest_pressure);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if ratio(&mut job, middle) < wanted { low = middle } else { high = middle }
        }
        let reached = ratio(&mut job, 0.5 * (low + high));
        assert!((reached - wanted).abs() < 0.01, "ratio {reached}, wanted {wanted}");
        let flow = set_up::state(&job.kit, &job.gun, &job.paint, &job.booth).expect("a state").paint_flow;
        assert!((flow / HELD_FLOW - 1.0).abs() < 1e-3, "the knob cannot hold the flow at ratio {wanted}");
        ratios.push(reached);
        rows.push(landed(&job, model));
    }
    (ratios, rows)
}

/// Paint flow held while the pressure changes [m3/s]: 110 mL/min.
const HELD_FLOW: f64 = 110.0 / 6e7;
/// Head that brings it even at the least suction, as a pot would [m].
const POT: f64 = 0.30;

fn hold_flow(job: &mut Job) {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        job.gun.fluid = 0.5 * (low + high);
        let state = set_up::state(&job.kit, &job.gun, &job.paint, &job.booth).expect("a state");
        if state.paint_flow < HELD_FLOW { low = job.gun.fluid } else { high = job.gun.fluid }
    }
}

fn r_squared(x: &[f64], y: &[f64]) -> f64 {
    let n = x.len() as f64;
    let mean = |v: &[f64]| v.iter().sum::<f64>() / n;
    let (mx, my) = (mean(x), mean(y));
    let sum = |f: &dyn Fn(f64, f64) -> f64| x.iter().zip(y).map(|(&a, &b)| f(a - mx, b - my)).sum::<f64>();
    let (xx, xy, yy) = (sum(&|a, _| a * a), sum(&|a, b| a * b), sum(&|_, b| b * b));
    xy * xy / (xx * yy)
}
