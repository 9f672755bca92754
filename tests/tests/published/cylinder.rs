//! Droplets on a cylinder in a uniform stream: bisection for the grazing one, and the tally of the f32 lanes.

use crate::table::{near, numbers};
use crate::tube_flow::uniform;
use fearless_simd::Level;
use mistcoat::flight::{Batch, END_HIT, FlightSettings, Noise, Scene, Start, fly, fly_lanes};
use mistcoat::part::TubePart;
use mistcoat::stream::{Purpose, Stream};

const RADIUS: f64 = 0.0125;
const AIR_VISCOSITY: f64 = 1.81e-5;
const AIR_DENSITY: f64 = 1.204;
const DENSITY: f64 = 1000.0;

/// A droplet of impaction parameter K in a stream that has this phi on a tube of 25 mm.
struct Case {
    speed: f64,
    diameter: f64,
    set: FlightSettings<f64>,
    scene: Scene<f64>,
}

impl Case {
    fn new(phi: f64, k: f64, step: f64) -> Self {
        // phi = 18 rho^2 U R / (mu rho_p) gives U; for phi 0 air without inertia, so that Re is 0.
        let speed = if phi > 0.0 {
            phi * AIR_VISCOSITY * DENSITY / (18.0 * AIR_DENSITY * AIR_DENSITY * RADIUS)
        } else {
            5.0
        };
        let air = if phi > 0.0 { AIR_DENSITY } else { 1e-12 };
        let mut set = FlightSettings::plain(air, AIR_VISCOSITY, DENSITY);
        (set.step, set.aloft) = (step, 1e3);
        let flow = uniform(speed, RADIUS);
        let part = TubePart {
            radius: RADIUS,
            axis_y: 0.0,
            axis_z: flow.axis_z,
            behind: 2.0 * RADIUS,
            half: 20.0 * RADIUS,
        };
        let diameter = (18.0 * AIR_VISCOSITY * k * RADIUS / (speed * DENSITY)).sqrt();
        Self { speed, diameter, set, scene: Scene::Tube(flow, part) }
    }

    fn start(&self, y: f64, stream: [u32; 4]) -> Start {
        // 60 R ahead of the face.
        Start {
            position: [0.0, y, 0.0],
            velocity: [0.0, 0.0, self.speed],
            omega: [0.0; 3],
            diameter: self.diameter,
            stream,
        }
    }

    /// Where a droplet that starts at y [m] hits, as an angle from the stagnation line [degrees], and how fast [U].
    fn hit(&self, y: f64) -> Option<(f64, f64)> {
        let Scene::Tube(flow, part) = &self.scene else { unreachable!("built as a tube") };
        let mut batch = Batch::default();
        batch.push(&self.start(y, [1, 2, 3, 4]));
        fly_lanes(0.0f64, flow, part, &self.set, Noise::Sum2, &mut batch);
        let at = [batch.end_position[1][0], part.axis_z - batch.end_position[2][0]];
        let speed = (batch.end_velocity[1][0].powi(2) + batch.end_velocity[2][0].powi(2)).sqrt();
        (batch.end[0] == END_HIT).then(|| (at[0].atan2(at[1]).to_degrees(), speed / self.speed))
    }

    /// E, theta_m [degrees], beta_0, impact speed on the stagnation line over U.
    fn solve(&self) -> [f64; 4] {
        let (mut low, mut high) = (0.0, 1.2 * RADIUS);
        for _ in 0..34 {
            let middle = 0.5 * (low + high);
            if self.hit(middle).is_some() { low = middle } else { high = middle }
        }
        let edge = if low > 0.0 { self.hit(low).map_or(0.0, |h| h.0) } else { 0.0 };
        let small = 1e-4 * low.max(1e-3 * RADIUS);
        let (angle, speed) = self.hit(small).unwrap_or((f64::INFINITY, 0.0));
        [low / RADIUS, edge, small / (RADIUS * angle.to_radians()), speed]
    }
}

#[test]
fn efficiency_and_edge_by_bisection() {
    let mut worst = [0.0f64; 4];
    for row in numbers("cylinder-potential-flow/e1.csv") {
        let got = Case::new(row[0], row[1], 0.01).solve();
        for i in 0..4 {
            worst[i] = worst[i].max((got[i] - row[i + 2]).abs());
        }
        let name = format!("Cylinder phi {} K {}: E", row[0], row[1]);
        near(&name, got[0], row[2], 0.003, "computed independently");
        println!("  {:.4} / {:.2} / {:.4} / {:.4}, table {:?}", got[0], got[1], got[2], got[3], &row[2..]);
        assert!((got[1] - row[3]).abs() < 0.5, "theta_m {got:?} {row:?}");
        assert!((got[2] - row[4]).abs() < 0.003, "beta_0 {got:?} {row:?}");
        assert!((got[3] - row[5]).abs() < 0.003, "impact speed {got:?} {row:?}");
    }
    println!(
        "largest difference E {:.4}, theta_m {:.2}, beta_0 {:.4}, V0 {:.4}",
        worst[0], worst[1], worst[2], worst[3]
    );
}

#[test]
fn nothing_lands_below_the_critical_parameter() {
    assert!(Case::new(0.0, 0.12, 0.01).solve()[0] < 1e-3);
}

#[test]
fn langmuir_and_blodgett() {
    for row in numbers("langmuir-blodgett-1946/table_2.csv").iter().filter(|r| (0.25..=40.0).contains(&r[1]))
    {
        let got = Case::new(row[0], row[1], 0.02).solve();
        let name = format!("Cylinder phi {} K {}: E", row[0], row[1]);
        near(&name, got[0], row[2], 0.025, "Langmuir & Blodgett 1946, seen second-hand");
        assert!((got[1] - row[4]).abs() < 3.0, "theta_m {got:?} {row:?}");
    }
}

#[test]
fn the_tally_of_the_lanes_gives_the_bisected_efficiency() {
    let droplets = 40_000;
    for (phi, k) in [(0.0, 0.5), (0.0, 2.0), (100.0, 1.0), (100.0, 8.0)] {
        let exact = Case::new(phi, k, 0.01).solve()[0];
        // The step that runs.
        let case = Case::new(phi, k, mistcoat::flight::STEP);
        let mut batch = Batch::<f32>::default();
        for i in 0..droplets {
            let mut draw = Stream::new(5, i, Purpose::Emission);
            batch.push(&case.start(RADIUS * draw.open01(), [1, 2, 3, 4]));
        }
        fly(Level::new(), &case.scene.narrow(), &case.set.cast(), Noise::Sum2, &mut batch);
        let share = batch.end.iter().filter(|e| **e == END_HIT).count() as f64 / droplets as f64;
        let error = (exact * (1.0 - exact) / droplets as f64).sqrt();
        println!("phi {phi} K {k}: tally {share:.4}, bisection {exact:.4}, standard error {error:.4}");
        assert!((share - exact).abs() < 3.0 * error, "{share} {exact} {error}");
    }
}
