//! Tracers in the free jet; small droplets at a panel.

use crate::jet::{free, jet};
use crate::table::below;
use fearless_simd::{Level, dispatch};
use mistcoat::airflow::PanelFlow;
use mistcoat::flight::{Batch, END_HIT, FlightSettings, Noise, STEP, Scene, Start, fly, fly_lanes};
use mistcoat::lanes::Wide;
use mistcoat::normal;
use mistcoat::part::{CARD_HALF, PanelPart};
use mistcoat::stream::{Purpose, Stream, start};
use mistcoat_tests::fields::FreeJet;

const VISCOSITY: f64 = 1.81e-5;

/// Droplets that leave 20 mm from the tip with the air's speed on rays of slope 0.1.
fn leave(count: u64, seed: u64, diameter: f64, slope_y: f64, speed: f64) -> Batch<f32> {
    let mut batch = Batch::default();
    for i in 0..count {
        let mut draw = Stream::new(seed, i, Purpose::Emission);
        let mut next = || normal::quantile(draw.open01());
        let (tx, ty) = (0.1 * next(), (0.1 + 0.4 * slope_y) * next());
        batch.push(&Start {
            position: [tx * 0.02, ty * 0.02, 0.02],
            velocity: [tx * speed, ty * speed, speed],
            omega: [next(), next(), next()],
            diameter,
            stream: start(seed, i, Purpose::Flight),
        });
    }
    batch
}

#[test]
fn tracers_fill_the_jet_as_a_scalar() {
    // C/C0 = exp(-q/1.43), q = r^2/b^2: turbulent Schmidt number 0.7 (Pope 2000, from memory). A steady cloud is all ages at
    // once: snapshots at ages that grow by a factor, each weighted by its age.
    let jet = jet(0.0, 0.0, 1.2, 280.0);
    let flow = free(jet).cast::<f32>();
    let mut set = FlightSettings::plain(1e-12, VISCOSITY, 1e-3);
    set.step = STEP;
    let mut rings = [0.0f64; 15];
    let mut age = 2.5e-3;
    while age < 0.12 {
        set.aloft = age;
        let mut batch = leave(20_000, (age * 1e7) as u64, 1e-5, 0.0, 20.0);
        let set = set.cast::<f32>();
        dispatch!(Level::new(), simd => fly_lanes(Wide::zero(simd), &flow, &FreeJet, &set, Noise::Sum2, &mut batch));
        for k in 0..batch.len() {
            let [x, y, z] = std::array::from_fn(|i| f64::from(batch.end_position[i][k]));
            if (0.28..0.32).contains(&z) {
                let ring = (x * x + y * y) / jet.section(z).bx.powi(2) * 10.0;
                if ring < 15.0 {
                    rings[ring as usize] += age;
                }
            }
        }
        age *= 1.04;
    }
    // C0 from the three innermost rings.
    let shape = |q: f64| (-q / 1.43f64).exp();
    let centre = rings[..3].iter().sum::<f64>() / (shape(0.05) + shape(0.15) + shape(0.25));
    let mut worst = 0.0f64;
    for (i, count) in rings.iter().enumerate() {
        let q = 0.1 * (i as f64 + 0.5);
        let (model, wanted) = (count / centre, shape(q));
        println!("tracer cloud at 0.3 m, q {q:.2}: C/C0 {model:.3}, wanted {wanted:.3}");
        worst = worst.max((model - wanted).abs());
    }
    below(
        "Tracer cloud at 0.3 m beside exp(-q/1.43), q to 1.5, C/C0",
        worst,
        0.05,
        "scalar spread with Sc_t 0.7; used up in part",
    );
}

/// Landed share of droplets of one size, fan of slope 0.5 at 200 mm, and the steps a droplet.
fn landed(um: f64, step: f64, noise: Noise) -> (f64, f64) {
    let distance = 0.2;
    let flow = PanelFlow::new(jet(0.0, 0.5, 1.2, 280.0), distance).unwrap();
    let layer = 1.0 / flow.inverse_layer;
    let scene = Scene::Panel(flow, PanelPart { distance, half: CARD_HALF, layer }).narrow();
    let speed = 0.35 * flow.jet.section(0.02).centre;
    let mut set = FlightSettings::plain(1.204, VISCOSITY, 1000.0);
    set.step = step;
    let mut batch = leave(20_000, 3, um * 1e-6, 0.5, speed / (1.0 + um / 40.0f64).sqrt());
    fly(Level::new(), &scene, &set.cast(), noise, &mut batch);
    let n = batch.len() as f64;
    (batch.end.iter().filter(|e| **e == END_HIT).count() as f64 / n, batch.steps as f64 / n)
}

#[test]
fn small_droplets_follow_the_air_past_the_panel() {
    for (um, most) in [(1.0, 0.01), (5.0, 0.03), (8.0, 0.1)] {
        for step in [STEP, 0.5 * STEP, 0.25 * STEP] {
            let (share, steps) = landed(um, step, Noise::Sum2);
            println!("landed share of {um} um at step {step}: {share:.4}, {steps:.0} steps");
        }
        println!("  with normals {:.4}", landed(um, STEP, Noise::Normal).0);
        let share = landed(um, STEP, Noise::Sum2).0;
        below(
            &format!("Landed share of {um} um, fan at 200 mm"),
            share,
            most,
            "such droplets follow the air (no single source)",
        );
    }
    // Half of the droplets of a size between 10 and 20 um land.
    let share = |um| landed(um, STEP, Noise::Sum2).0;
    let (ten, twenty, thirty) = (share(10.0), share(20.0), share(30.0));
    println!("landed share of 10 um {ten:.3}, 20 um {twenty:.3}, 30 um {thirty:.3}");
    assert!(ten < 0.5 && twenty > 0.5 && thirty > 0.85, "{ten} {twenty} {thirty}");
}
