//! The reference of the bias table: the library's air and parts, flown in f64 by the plainest scheme, in steps so short that
//! the scheme does not matter.
//!
//! Equations: methods page "flight". Drag by the exact exponential over a step, the turbulence of each direction on its own, true
//! normals, all of it met at the start of the step. It shares air, part and the drag's law with the library, and none of its integrator.

use mistcoat::airflow::AirFlow;
use mistcoat::flight::{FlightSettings, Start, drag_factor};
use mistcoat::part::Part;
use mistcoat::surface::{Vec3, Wall, along, dot, minus, scale};
use rand::SeedableRng;
use rand_distr::{Distribution, StandardNormal};
use rand_xoshiro::Xoshiro128PlusPlus;

/// How a droplet ended.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct End {
    /// It met the part.
    pub landed: bool,
    /// Where [m].
    pub position: [f64; 3],
    /// How fast [m/s].
    pub speed: f64,
    /// When after its start [s].
    pub time: f64,
}

/// What the wall leaves of v.
fn free(wall: &Wall<f64>, v: Vec3<f64>) -> Vec3<f64> {
    let left = (wall.gap / wall.damping).tanh();
    along(v, wall.normal, (left - 1.0) * dot(v, wall.normal))
}

/// Divergence of sigma (1 - (1 - left) n n).
fn drift(wall: &Wall<f64>, sigma: f64, slope: Vec3<f64>) -> Vec3<f64> {
    let left = (wall.gap / wall.damping).tanh();
    let rise = (1.0 - left * left) / wall.damping;
    let taken = (1.0 - left) * (dot(slope, wall.normal) + sigma * wall.bend);
    along(slope, wall.normal, sigma * rise - taken)
}

/// Flies one droplet in steps of `dt` [s], or of a share `eased` of T_L where that is longer (0: never). No drying.
pub fn fly<F: AirFlow<f64>, P: Part<f64>>(
    flow: &F,
    part: &P,
    set: &FlightSettings<f64>,
    start: &Start,
    (dt, eased): (f64, f64),
    seed: u64,
) -> End {
    let mut rng = Xoshiro128PlusPlus::seed_from_u64(seed);
    let mut normals = || -> [f64; 3] { core::array::from_fn(|_| StandardNormal.sample(&mut rng)) };
    let Start { mut position, mut velocity, mut omega, diameter, .. } = *start;
    let mut calm = velocity;
    let stokes = set.relaxation * diameter * diameter;
    let mut time = 0.0;
    let mut gap = part.gap(position);
    let short = dt;
    while time < set.aloft {
        let air = flow.at(position);
        let dt = short.max(eased * air.time_scale);
        // Drag.
        let felt = along(air.velocity, free(&air.wall, omega), air.sigma);
        let slip = minus(velocity, felt);
        let reynolds = dot(slip, slip).sqrt() * diameter * set.inverse_viscosity;
        let tau = stokes / drag_factor(reynolds);
        let fade = (-dt / tau).exp();
        let still = along(felt, set.gravity, tau);
        let before = (position, velocity, gap);
        let lag = minus(velocity, still);
        position = along(along(position, still, dt), lag, tau * (1.0 - fade));
        velocity = along(still, lag, fade);
        // Turbulence: slower along the slip than across it.
        let behind = minus(calm, air.velocity);
        let behind2 = dot(behind, behind);
        let crossing = behind2 / (air.sigma * air.sigma + 1e-8);
        let decay = [1.0, 4.0].map(|by| (-dt * (1.0 + by * crossing).sqrt() / air.time_scale).exp());
        let random = decay.map(|a: f64| (1.0 - a * a).sqrt());
        let noise = normals();
        let e = scale(behind, 1.0 / (behind2.sqrt() + 1e-9));
        let (omega_along, noise_along) = (dot(omega, e), dot(noise, e));
        let heavy = dt / (1.0 + stokes / air.time_scale);
        let push = drift(&air.wall, air.sigma, air.sigma_slope);
        for i in 0..3 {
            omega[i] = omega[i] * decay[1]
                + noise[i] * random[1]
                + e[i] * (omega_along * (decay[0] - decay[1]) + noise_along * (random[0] - random[1]))
                + push[i] * heavy;
        }
        let quiet = along(air.velocity, set.gravity, tau);
        calm = along(quiet, minus(calm, quiet), fade);
        time += dt;
        gap = part.gap(position);
        let landed = gap < 0.0;
        if landed || part.passed(position) {
            let share = if landed { before.2 / (before.2 - gap).max(1e-12) } else { 1.0 };
            let at = |a: [f64; 3], b: [f64; 3]| along(a, minus(b, a), share);
            let met = at(before.1, velocity);
            return End {
                landed,
                position: at(before.0, position),
                speed: dot(met, met).sqrt(),
                time: time - dt * (1.0 - share),
            };
        }
    }
    End { landed: false, position, speed: dot(velocity, velocity).sqrt(), time }
}
