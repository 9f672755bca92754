//! A usual spray, its flights, and the figures read from them.

use fearless_simd::Level;
use mistcoat::airflow::{FanJet, JetSpec, PanelFlow, SPREAD, TubeFlow};
use mistcoat::emission::Emission;
use mistcoat::evaporation::EvaporationCurve;
use mistcoat::flight::{Batch, END_HIT, FlightSettings, Noise, STEP, Scene, fly};
use mistcoat::lanes::Real;
use mistcoat::part::{CARD_HALF, PanelPart, TubePart};
use mistcoat::spray::{Along, Askew, SizeDistribution, Spray};
use mistcoat::stream::Purpose;

/// Full fan of an HVLP gun: J/rho 1.2 m4/s2, slope 0.45, balanced, Sauter mean 22 um.
pub fn usual() -> Spray {
    Spray {
        axial_momentum: 1.2 * 1.204,
        exit_speed: 280.0,
        fan_slope: 0.45,
        ray_spread: 0.05,
        along: Along::Exponent(1.5),
        sizes: SizeDistribution::from_sauter(22e-6, 1.9, 2e-6, 4.0).unwrap(),
        volume_flow: 2.5e-6,
        density: 1000.0,
        viscosity: 0.03,
        surface_tension: 0.028,
        volume_solids: 0.45,
        volatile_density: 870.0,
        schmidt: 2.1,
        askew: Askew::default(),
        slugs: None,
        evaporation: EvaporationCurve::none(),
    }
}

/// Its jet, turbulent or not.
pub fn jet(spray: &Spray, turbulent: bool) -> FanJet<f64> {
    FanJet::new(&JetSpec {
        momentum: spray.axial_momentum / 1.204,
        exit_speed: spray.exit_speed,
        slope_x: 0.0,
        slope_y: spray.fan_slope,
        spread: SPREAD,
        turbulence: f64::from(u8::from(turbulent)),
    })
    .unwrap()
}

/// A panel at 190 mm.
pub fn panel() -> Scene<f64> {
    let distance = 0.19;
    let flow = PanelFlow::new(jet(&usual(), true), distance).unwrap();
    let part = PanelPart { distance, half: CARD_HALF, layer: 1.0 / flow.inverse_layer };
    Scene::Panel(flow, part)
}

/// A tube of 22 mm, the fan across it, at 190 mm.
pub fn tube() -> Scene<f64> {
    tube_of(0.011, usual().fan_slope)
}

/// A tube of some radius [m] under a fan of some slope.
pub fn tube_of(radius: f64, slope: f64) -> Scene<f64> {
    let jet = jet(&fan(slope), true);
    let flow = TubeFlow::new(jet, 0.19, radius, 0.0).unwrap();
    let behind = 3.0 * flow.damping + radius;
    let part = TubePart { radius, axis_y: 0.0, axis_z: flow.axis_z, behind, half: CARD_HALF };
    Scene::Tube(flow, part)
}

/// The usual spray with its fan at some slope; the spread of the rays goes with it as in the pattern.
fn fan(slope: f64) -> Spray {
    Spray { fan_slope: slope, ray_spread: 0.10 - 0.05 * (slope / 0.4).min(1.0), ..usual() }
}

/// Settings with gravity down the fan, no drying.
pub fn settings(step: f64) -> FlightSettings<f64> {
    let mut set = FlightSettings::plain(1.204, 1.81e-5, 1000.0);
    set.gravity = [0.0, -9.80665, 0.0];
    set.step = step;
    set
}

/// Batch of droplets `first..first + count`; flights from the streams of `flight`.
pub fn batch<T: Real + Default>(first: u64, count: u64, flight: Purpose) -> Batch<T> {
    leave(&usual(), first, count, flight)
}

fn leave<T: Real + Default>(spray: &Spray, first: u64, count: u64, flight: Purpose) -> Batch<T> {
    let emission = Emission::new(spray, &jet(spray, true), false);
    let mut batch = Batch::default();
    for i in first..first + count {
        batch.push(&emission.start(7, i, Purpose::Emission, flight));
    }
    batch
}

/// Cells of 10 mm over 400 mm along x and y each, or x and the angle round a tube.
pub const CELLS: usize = 80;

/// What a run of one scene shows.
#[derive(Debug, Clone, Default)]
pub struct Figures {
    /// Droplets flown.
    pub flown: f64,
    /// Landed.
    pub landed: f64,
    /// Sum of impact speeds [m/s], of their squares.
    pub speed: [f64; 2],
    /// Sum of flight times [s], of their squares.
    pub time: [f64; 2],
    /// Two profiles of 40 cells each, counts, of the droplets with even numbers and of those with odd ones.
    pub profile: [Vec<f64>; 2],
}

impl Figures {
    /// Adds the ends of a batch.
    pub fn add(&mut self, batch: &Batch<f32>, axis_z: Option<f64>) {
        for half in &mut self.profile {
            half.resize(CELLS, 0.0);
        }
        self.flown += batch.len() as f64;
        for k in 0..batch.len() {
            if batch.end[k] != END_HIT {
                continue;
            }
            let of = |v: &[Vec<f32>; 3]| -> [f64; 3] { std::array::from_fn(|i| f64::from(v[i][k])) };
            let (p, v) = (of(&batch.end_position), of(&batch.end_velocity));
            let speed = v.iter().map(|v| v * v).sum::<f64>().sqrt();
            let time = f64::from(batch.end_time[k]);
            self.landed += 1.0;
            self.speed[0] += speed;
            self.speed[1] += speed * speed;
            self.time[0] += time;
            self.time[1] += time * time;
            // Round a tube the cell is 9 degrees.
            let around = axis_z.map_or(p[1] / 0.01, |z| p[1].atan2(z - p[2]).to_degrees() / 9.0);
            for (way, place) in [p[0] / 0.01, around].into_iter().enumerate() {
                let cell = (place + 20.0).floor().clamp(0.0, 39.0) as usize;
                self.profile[k % 2][40 * way + cell] += 1.0;
            }
        }
    }

    /// Landed share and its standard error.
    pub fn share(&self) -> (f64, f64) {
        let p = self.landed / self.flown;
        (p, (p * (1.0 - p) / self.flown).sqrt())
    }

    /// Mean of a sum and sum of squares over the landed, and its standard error.
    pub fn mean(&self, sums: [f64; 2]) -> (f64, f64) {
        let mean = sums[0] / self.landed;
        (mean, ((sums[1] / self.landed - mean * mean) / self.landed).sqrt())
    }

    /// Difference of the two films in every cell as a share of the film, from one half of the droplets, with the mean
    /// count of the cell: each profile scaled to its own total.
    fn differences(&self, other: &Self, half: usize) -> Vec<(f64, f64)> {
        let (p, q) = (&self.profile[half], &other.profile[half]);
        // Each droplet is in two profiles.
        let (n, m) = (0.5 * p.iter().sum::<f64>(), 0.5 * q.iter().sum::<f64>());
        p.iter().zip(q).map(|(a, b)| (a / n - b / m, a / (n * n) + b / (m * m))).collect()
    }

    /// L1 distance of two films, mean over both profiles, without the share that counting adds: each half of the droplets
    /// is summed with the signs that the other half has. Never above the true distance but by chance; its standard error.
    pub fn film_distance(&self, other: &Self) -> (f64, f64) {
        let halves = [self.differences(other, 0), self.differences(other, 1)];
        let (mut sum, mut variance) = (0.0, 0.0);
        for ((a, va), (b, vb)) in halves[0].iter().zip(&halves[1]) {
            sum += 0.5 * (a * b.signum() + b * a.signum());
            variance += 0.25 * (va + vb);
        }
        (0.5 * sum, 0.5 * variance.sqrt())
    }

    /// The same as counted, counting included.
    pub fn film_distance_raw(&self, other: &Self) -> f64 {
        let halves = [self.differences(other, 0), self.differences(other, 1)];
        0.5 * halves[0].iter().zip(&halves[1]).map(|(a, b)| 0.5 * (a.0 + b.0).abs()).sum::<f64>()
    }
}

/// Flies `count` droplets of the usual spray with its fan at some slope, by the usual step.
pub fn run_fan(scene: &Scene<f64>, count: u64, slope: f64) -> Figures {
    fly_all(scene, &fan(slope), count, USUAL_STEP, Noise::Sum2, Purpose::Flight)
}

/// Flies `count` droplets of the usual spray.
pub fn run(scene: &Scene<f64>, count: u64, step: f64, noise: Noise, flight: Purpose) -> Figures {
    fly_all(scene, &usual(), count, step, noise, flight)
}

fn fly_all(
    scene: &Scene<f64>,
    spray: &Spray,
    count: u64,
    step: f64,
    noise: Noise,
    flight: Purpose,
) -> Figures {
    let axis = match scene {
        Scene::Panel(..) | Scene::Tilted(..) | Scene::Curved(..) | Scene::Among(..) => None,
        Scene::Tube(_, part) => Some(part.axis_z),
    };
    let (narrow, set, level) = (scene.narrow(), settings(step).cast(), Level::new());
    let mut figures = Figures::default();
    for first in (0..count).step_by(20_000) {
        let mut batch = leave(spray, first, (count - first).min(20_000), flight);
        fly(level, &narrow, &set, noise, &mut batch);
        figures.add(&batch, axis);
    }
    figures
}

/// The step that runs.
pub const USUAL_STEP: f64 = STEP;
