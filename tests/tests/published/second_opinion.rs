//! The flight beside a general-purpose solver: the same equations written again in Python (`tests/reference/flight.py`), baked.

use crate::table::{below, number, rows};
use fearless_simd::Level;
use mistcoat::airflow::{FanJet, JetSpec, PanelFlow, SPREAD, TubeFlow};
use mistcoat::flight::{Batch, END_HIT, FlightSettings, Noise, Scene, Start, fly};
use mistcoat::part::{CARD_HALF, PanelPart, TubePart};
use mistcoat::stream::{Purpose, start};
use rand::rngs::SmallRng;
use rand::{RngExt, SeedableRng};
use rand_distr::{Beta, Distribution, LogNormal, Normal, StandardNormal};

/// Longest time aloft there [s].
const ALOFT: f64 = 0.05;
/// A step so short that what is left is the equations [-].
const SHORT: f64 = 0.004;

/// A scene of the tables.
fn scene(name: &str, turbulence: f64) -> Scene<f64> {
    let jet = |momentum, slope_y| {
        FanJet::new(&JetSpec {
            momentum,
            exit_speed: 280.0,
            slope_x: 0.0,
            slope_y,
            spread: SPREAD,
            turbulence,
        })
        .expect("a jet")
    };
    let (fan, spot) = (jet(1.2, 0.45), jet(0.6, 0.0));
    let panel = |jet, distance| {
        let flow = PanelFlow::new(jet, distance).expect("a panel");
        Scene::Panel(flow, PanelPart { distance, half: CARD_HALF, layer: 1.0 / flow.inverse_layer })
    };
    let tube = |jet, distance, radius, offset| {
        let flow = TubeFlow::new(jet, distance, radius, offset).expect("a tube");
        let behind = 3.0 * flow.damping + radius;
        Scene::Tube(flow, TubePart { radius, axis_y: offset, axis_z: flow.axis_z, behind, half: CARD_HALF })
    };
    match name {
        "panel" => panel(fan, 0.19),
        "panel round" => panel(spot, 0.15),
        "tube" => tube(fan, 0.19, 0.011, 0.0),
        "tube beside" => tube(spot, 0.15, 0.021, 0.008),
        other => panic!("{other}: no such scene"),
    }
}

fn settings(step: f64) -> FlightSettings<f64> {
    let mut set = FlightSettings::plain(1.204, 1.81e-5, 1000.0);
    set.gravity = [0.0, -9.80665, 0.0];
    (set.step, set.aloft) = (step, ALOFT);
    set
}

fn speed(batch: &Batch<f64>, k: usize) -> f64 {
    batch.end_velocity.iter().map(|v| v[k] * v[k]).sum::<f64>().sqrt()
}

#[test]
fn calm_droplets_land_where_another_solver_has_them() {
    let table = rows("scipy-flight/calm.csv");
    let (mut apart, mut slower, mut landed, mut fates) = (0.0f64, 0.0f64, 0, 0);
    for name in ["panel", "panel round", "tube", "tube beside"] {
        let of_scene: Vec<_> = table.iter().filter(|row| row[0] == name).collect();
        assert_eq!(of_scene.len(), 250, "{name}");
        let mut batch = Batch::default();
        for row in &of_scene {
            batch.push(&Start {
                position: [number(&row[2]), number(&row[3]), number(&row[4])],
                velocity: [number(&row[5]), number(&row[6]), number(&row[7])],
                omega: [0.0; 3],
                diameter: number(&row[1]),
                stream: [1, 2, 3, 4],
            });
        }
        scene(name, 0.0).fly_reference(&settings(SHORT), Noise::Sum2, &mut batch);
        for (k, row) in of_scene.iter().enumerate() {
            let hit = row[8] == "hit";
            if (batch.end[k] == END_HIT) != hit {
                // A droplet that only just meets the part, or only just does not, may do the other.
                fates += 1;
                continue;
            }
            if hit {
                let at = |i: usize| batch.end_position[i][k] - number(&row[10 + i]);
                let off = (at(0) * at(0) + at(1) * at(1) + at(2) * at(2)).sqrt();
                (apart, slower) =
                    (apart.max(off), slower.max((speed(&batch, k) / number(&row[13]) - 1.0).abs()));
                landed += 1;
            }
        }
    }
    let solver = "scipy, DOP853";
    below("Calm droplets, landing places beside another solver's, m apart", apart, 1e-4, solver);
    below("Calm droplets, impact speeds beside another solver's, share", slower, 5e-3, solver);
    assert!(landed > 700 && fates <= 2, "{landed} land in both, {fates} fates differ");
}

/// As in the script: droplets of a log-normal spray on rays from the tip, in eddies.
fn stirred(name: &str, count: u64, step: f64) -> Batch<f32> {
    let slope = if name == "panel" || name == "tube" { 0.45 } else { 0.0 };
    let mut draw = SmallRng::seed_from_u64(11);
    let normal = Normal::new(0.0, 0.06).expect("a normal");
    let sizes = LogNormal::new(40e-6f64.ln(), 0.6).expect("sizes");
    let place = Beta::new(2.5, 2.5).expect("a beta");
    let mut batch = Batch::default();
    for i in 0..count {
        let diameter = loop {
            let d = sizes.sample(&mut draw);
            if (15e-6..160e-6).contains(&d) {
                break d;
            }
        };
        let ty = 1.25 * slope * (2.0 * place.sample(&mut draw) - 1.0) + normal.sample(&mut draw);
        let tx: f64 = normal.sample(&mut draw);
        let speed = draw.random_range(20.0..60.0) / (1.0 + tx * tx + ty * ty).sqrt();
        batch.push(&Start {
            position: [0.02 * tx, 0.02 * ty, 0.02],
            velocity: [tx * speed, ty * speed, speed],
            omega: std::array::from_fn(|_| StandardNormal.sample(&mut draw)),
            diameter,
            stream: start(5, i, Purpose::Flight),
        });
    }
    fly(Level::new(), &scene(name, 1.0).narrow(), &settings(step).cast(), Noise::Sum2, &mut batch);
    batch
}

/// Mean and spread of a figure, each with its standard error.
fn moments(values: &[f64]) -> [(f64, f64); 2] {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let of = |power: i32| values.iter().map(|v| (v - mean).powi(power)).sum::<f64>() / n;
    let spread = of(2).sqrt();
    let tails = (of(4) / of(2).powi(2) - 1.0).max(0.1);
    [(mean, spread / n.sqrt()), (spread, spread * (tails / (4.0 * n)).sqrt())]
}

#[test]
fn a_stirred_cloud_has_the_moments_of_a_plain_scheme() {
    let table = rows("scipy-flight/stirred.csv");
    for name in ["panel", "panel round", "tube", "tube beside"] {
        let count = 12_000;
        let batch = stirred(name, count, STIRRED);
        let hits: Vec<usize> = (0..batch.len()).filter(|&k| batch.end[k] == END_HIT).collect();
        let of = |value: &dyn Fn(usize) -> f32| -> Vec<f64> {
            hits.iter().map(|&k| f64::from(value(k))).collect()
        };
        let speed = |k: usize| batch.end_velocity.iter().map(|v| v[k] * v[k]).sum::<f32>().sqrt();
        for row in table.iter().filter(|row| row[0] == name) {
            let other = (number(&row[2]), number(&row[3]));
            if row[1] == "landed" {
                let share = hits.len() as f64 / count as f64;
                let error = (share * (1.0 - share) / count as f64).sqrt();
                same(&format!("{name}: landed share"), (share, error), other);
                continue;
            }
            let values = match row[1].as_str() {
                "x" => of(&|k| batch.end_position[0][k]),
                "y" => of(&|k| batch.end_position[1][k]),
                "speed" => of(&speed),
                _ => of(&|k| batch.end_time[k]),
            };
            let [mean, spread] = moments(&values);
            same(&format!("{name}: mean {}", row[1]), mean, other);
            same(&format!("{name}: spread of {}", row[1]), spread, (number(&row[4]), number(&row[5])));
        }
    }
}

/// A short step: what is left is the equations and chance.
const STIRRED: f64 = 0.02;

/// Two figures agree within four standard errors of their difference (40 comparisons: a false alarm once in 400 suites).
fn same(what: &str, (a, error): (f64, f64), (b, other): (f64, f64)) {
    let both = (error * error + other * other).sqrt();
    println!(
        "{what}: {a:.6} +- {error:.6}, plain scheme {b:.6} +- {other:.6}: {:+.2} errors",
        (a - b) / both
    );
    assert!((a - b).abs() < 4.0 * both, "{what}: {a} +- {error}, {b} +- {other}");
}
