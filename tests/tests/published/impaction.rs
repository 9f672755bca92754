//! Droplets against a wall: closed form on the stagnation line, the 1/4 rule, impactors.

use crate::table::{held, numbers};
use mistcoat::flight::{Batch, END_HIT, FlightSettings, Noise, Start, fly_lanes};
use mistcoat_tests::fields::{Against, Floor};

const VISCOSITY: f64 = 1.81e-5;
const DIAMETER: f64 = 20e-6;

/// Speed over U with which a droplet of St = alpha tau lands that enters the layer with the air; `None` if it does not.
/// Steps of `step`/alpha.
fn land(st: f64, step: f64) -> Option<f64> {
    // Strain 1/s, layer 1 m, air without inertia: only St counts.
    let density = st * 18.0 * VISCOSITY / (DIAMETER * DIAMETER);
    let mut set = FlightSettings::plain(1e-12, VISCOSITY, density);
    (set.step, set.aloft) = (1.0, 400.0);
    let mut batch = Batch::default();
    batch.push(&Start {
        position: [0.0, 0.0, 1.0],
        velocity: [0.0, 0.0, -1.0],
        omega: [0.0; 3],
        diameter: DIAMETER,
        stream: [1, 2, 3, 4],
    });
    let flow = Against { speed: 1.0, strain: 1.0 };
    fly_lanes(0.0f64, &flow, &Floor { rate: 1.0 / step }, &set, Noise::Sum2, &mut batch);
    (batch.end[0] == END_HIT).then(|| -batch.end_velocity[2][0])
}

/// Smallest alpha tau that lands.
fn critical(step: f64) -> f64 {
    let (mut low, mut high) = (0.2, 0.4);
    for _ in 0..30 {
        let middle = 0.5 * (low + high);
        if land(middle, step).is_some() { high = middle } else { low = middle }
    }
    high
}

#[test]
fn impact_speed_on_the_stagnation_line() {
    for row in numbers("taylor-levin-stagnation/impact_speed.csv") {
        let speed = land(row[0], 0.002).unwrap_or_else(|| panic!("St {} does not land", row[0]));
        held(&format!("Impact speed, St {}", row[0]), speed, row[1], 5e-3, "closed form");
    }
}

#[test]
fn only_droplets_above_a_quarter_land() {
    let st = critical(0.01);
    held("Critical alpha tau", st, 0.25, 0.01, "Taylor 1940, Levin: exact for Stokes drag");
}

#[test]
fn cut_of_impactors() {
    // Uniform jet of width W, strain of the free streamline: round 1.832 U/W (Liu, Gabour and Lienhard 1993), slot pi/4 U/W.
    let st = critical(0.01);
    for (name, strain, published) in [("round", 1.832, 0.49), ("slot", std::f64::consts::FRAC_PI_4, 0.77)] {
        let model = (2.0 * st / strain).sqrt();
        held(&format!("sqrt(Stk50), {name}"), model, published, 0.12, "Marple & Willeke, seen second-hand");
    }
}
