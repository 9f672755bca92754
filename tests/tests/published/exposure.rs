//! Drying in flight: exposure in the kernel beside the curve it is read on.

use crate::table::{close, held};
use mistcoat::evaporation::{Drying, DryingAir};
use mistcoat::flight::{Batch, FlightSettings, Noise, Start, fly_lanes};
use mistcoat::paint::{Paint, Solvent};
use mistcoat_tests::fields::{Space, Still};

const AIR_DENSITY: f64 = 1.204;
const AIR_VISCOSITY: f64 = 1.81e-5;

/// Exposure [s/m2] of a droplet after `time`, starting at `speed`; gravity, relaxation time times `heavy`.
fn exposure(diameter: f64, speed: f64, time: f64, ventilation: f64, heavy: f64) -> f64 {
    let mut set = FlightSettings::plain(AIR_DENSITY, AIR_VISCOSITY, 1000.0 * heavy);
    (set.step, set.aloft, set.ventilation) = (1.0, time - 1e-3 * time / 400.0, ventilation);
    let mut batch = Batch::default();
    batch.push(&Start {
        position: [0.0; 3],
        velocity: [0.0, 0.0, speed],
        omega: [0.0; 3],
        diameter,
        stream: [1, 2, 3, 4],
    });
    fly_lanes(0.0f64, &Still, &Space { rate: 400.0 / time }, &set, Noise::Sum2, &mut batch);
    batch.end_exposure[0]
}

#[test]
fn lives_of_pure_droplets() {
    // Still air, no slip: life t of a droplet is where its exposure t/d^2 reaches the end of the curve. Water 0 % humidity,
    // 20 C: 10 um 0.081 s, 40 um 1.3 s (Hinds 1999, from memory).
    let mut water: Paint = mistcoat::catalogue::paint("two-pack-clear").unwrap();
    water.volume_solids = 0.0;
    water.solvents = vec![Solvent { name: "water".to_owned(), volume_share: 1.0 }];
    let curve = Drying::new(&water, DryingAir { temperature: 293.15, humidity: 0.0 }).unwrap().curve();
    for (um, life) in [(10.0, 0.08), (40.0, 1.3)] {
        let left = |t: f64| curve.volume_at(exposure(um * 1e-6, 0.0, t, 0.0, 1.0));
        let (mut low, mut high) = (0.1 * life, 3.0 * life);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if left(middle) > 1e-3 { low = middle } else { high = middle }
        }
        held(
            &format!("Life of a {um} um water droplet in flight, s"),
            low,
            life,
            0.05,
            "Hinds 1999, from memory",
        );
        // 0.1 % of the volume is left, as on the curve: 1 % of a d^2 law's life.
        // d^2 law at half its life.
        let half = left(0.5 * low);
        assert!((half - 0.5f64.powf(1.5)).abs() < 0.02, "{half}");
    }
}

#[test]
fn wind_raises_exposure_as_ranz_and_marshall() {
    // Sh 4.46 for butyl acetate of 30 um at 5 m/s slip (computed): held at that slip by a droplet too heavy to slow down.
    let schmidt = AIR_VISCOSITY / AIR_DENSITY / 7.03e-6;
    let (d, time) = (30e-6, 1e-3);
    let sherwood = 2.0 * exposure(d, 5.0, time, 0.3 * schmidt.cbrt(), 1e6) * d * d / time;
    held("Sh of 30 um at 5 m/s slip, butyl acetate", sherwood, 4.46, 0.01, "Ranz & Marshall 1952, computed");
}

#[test]
fn drying_makes_a_droplet_slower_to_fall() {
    // shrink 0.2 at half the exposure: d = 0.9 d0, volatile density 1: fall speed falls as d^2.
    let mut set = FlightSettings::plain(1e-12, AIR_VISCOSITY, 1000.0);
    let d = 20e-6;
    let tau = 1000.0 * d * d / (18.0 * AIR_VISCOSITY);
    let time = 40.0 * tau;
    (set.step, set.aloft) = (1.0, time);
    set.gravity = [0.0, 0.0, 9.80665];
    (set.shrink, set.half_exposure) = (0.2, time / (d * d));
    let mut batch = Batch::default();
    batch.push(&Start {
        position: [0.0; 3],
        velocity: [0.0; 3],
        omega: [0.0; 3],
        diameter: d,
        stream: [1, 2, 3, 4],
    });
    fly_lanes(0.0f64, &Still, &Space { rate: 20.0 / tau }, &set, Noise::Sum2, &mut batch);
    // It lags the falling terminal speed by a relaxation time: 0.2 %.
    close("fall", batch.end_velocity[2][0], 9.80665 * tau * 0.81, 0.005);
}
