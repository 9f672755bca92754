//! The peer: the task in plain scalar Rust, as it would be written first. One droplet at a time, a fixed time step,
//! f32, the system's mathematics library, droplets drawn by number.
//!
//! Generic over f32 (what is timed) and f64 (the same at a step of 1e-6 s is the reference for both contenders).
//! The physics is that of `mistcoat::flight`, methods page "flight"; nothing but the integrator differs.

use crate::tally::Tally;
use crate::task;
use rand::SeedableRng;
use rand_distr::{Distribution, LogNormal, StandardNormal};
use rand_xoshiro::Xoshiro128PlusPlus;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// Step that is timed [s].
pub const STEP: f64 = 5e-5;
/// Step of the reference [s].
pub const REFERENCE_STEP: f64 = 1e-6;

/// f32 or f64.
pub trait Float:
    Copy
    + PartialOrd
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + AddAssign
{
    /// A constant.
    fn of(value: f64) -> Self;
    /// Widened.
    fn wide(self) -> f64;
    /// e^x.
    fn exp(self) -> Self;
    /// x^y.
    fn powf(self, y: Self) -> Self;
    /// Square root.
    fn sqrt(self) -> Self;
    /// A standard normal number.
    fn normal(rng: &mut Xoshiro128PlusPlus) -> Self;
}

macro_rules! float {
    ($($kind:ident)*) => {$(
        impl Float for $kind {
            #[inline(always)]
            fn of(value: f64) -> Self {
                value as $kind
            }
            #[inline(always)]
            fn wide(self) -> f64 {
                f64::from(self)
            }
            #[inline(always)]
            fn exp(self) -> Self {
                $kind::exp(self)
            }
            #[inline(always)]
            fn powf(self, y: Self) -> Self {
                $kind::powf(self, y)
            }
            #[inline(always)]
            fn sqrt(self) -> Self {
                $kind::sqrt(self)
            }
            #[inline(always)]
            fn normal(rng: &mut Xoshiro128PlusPlus) -> Self {
                StandardNormal.sample(rng)
            }
        }
    )*};
}
float!(f32 f64);

/// How droplets are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Draw {
    /// By number; a droplet weighs its volume.
    Number,
    /// By volume; all weigh the same.
    Volume,
}

/// Air at a point of the jet.
struct Air<F> {
    velocity: [F; 3],
    sigma: F,
    slope: [F; 3],
    time: F,
}

/// Constants of the jet.
struct Jet<F> {
    strength: F,
    core4: F,
    growth: F,
}

impl<F: Float> Jet<F> {
    fn new() -> Self {
        let strength = (2.0 * task::MOMENTUM / std::f64::consts::PI).sqrt();
        Self {
            strength: F::of(strength),
            core4: F::of((strength / task::EXIT_SPEED).powi(4)),
            growth: F::of(mistcoat::airflow::SPREAD.powi(4)),
        }
    }

    /// Width b, b'/b and axis speed.
    fn section(&self, z: F) -> (F, F, F) {
        let z3 = z * z * z;
        let b4 = self.core4 + self.growth * z3 * z;
        let b = b4.sqrt().sqrt();
        (b, self.growth * z3 / b4, self.strength / b)
    }

    fn at(&self, [x, y, z]: [F; 3]) -> Air<F> {
        let one = F::of(1.0);
        let (b, alpha, centre) = self.section(z);
        let q = (x * x + y * y) / (b * b);
        let eq = (-q).exp();
        let (k, k_slope) = if q < F::of(0.05) {
            (
                one - q * (F::of(0.5) - q * (F::of(1.0 / 6.0) - q * F::of(1.0 / 24.0))),
                F::of(-0.5) + q * (F::of(1.0 / 3.0) - q * (F::of(0.125) - q * F::of(1.0 / 30.0))),
            )
        } else {
            let k = (one - eq) / q;
            (k, (eq - k) / q)
        };
        let uz = centre * eq;
        let lateral = uz * alpha - centre * alpha * k * F::of(0.5);
        let sixth = q / F::of(6.0);
        let sixth3 = sixth * sixth * sixth;
        let tail = one + sixth3 * sixth;
        let sigma = F::of(0.23) * centre * (k / tail).sqrt();
        // d sigma / dq
        let g = F::of(0.5) * sigma * (k_slope / k - F::of(4.0 / 6.0) * sixth3 / tail);
        let side = F::of(2.0) * g / (b * b);
        Air {
            velocity: [x * lateral, y * lateral, uz],
            sigma,
            slope: [side * x, side * y, -(F::of(2.0) * g * q * alpha) - sigma * alpha],
            time: F::of(0.95 * 0.832_554_6) * b / centre,
        }
    }
}

fn length<F: Float>([x, y, z]: [F; 3]) -> F {
    (x * x + y * y + z * z).sqrt()
}

/// Flies `droplets` with steps of `dt` [s].
#[must_use]
pub fn run<F: Float>(seed: u64, droplets: u64, dt: f64, draw: Draw) -> Tally {
    let mut rng = Xoshiro128PlusPlus::seed_from_u64(seed);
    let jet = Jet::<F>::new();
    let log_sigma = task::SIGMA_G.ln();
    let median = match draw {
        Draw::Number => task::NUMBER_MEDIAN,
        Draw::Volume => task::NUMBER_MEDIAN * (3.0 * log_sigma * log_sigma).exp(),
    };
    let Ok(sizes) = LogNormal::new(median.ln(), log_sigma) else { unreachable!("constants are in range") };
    let mut tally = Tally::default();
    for _ in 0..droplets {
        let diameter = sizes.sample(&mut rng);
        let weight = if draw == Draw::Number { (diameter * 1e6).powi(3) } else { 1.0 };
        fly(&mut rng, &jet, F::of(diameter), F::of(dt), weight, &mut tally);
    }
    tally
}

fn fly<F: Float>(
    rng: &mut Xoshiro128PlusPlus,
    jet: &Jet<F>,
    diameter: F,
    dt: F,
    weight: f64,
    tally: &mut Tally,
) {
    let (zero, one) = (F::of(0.0), F::of(1.0));
    let from = F::of(task::FROM);
    let (tx, ty) = (F::of(task::RAY) * F::normal(rng), F::of(task::RAY) * F::normal(rng));
    let axis = F::of(task::PICK_UP) * jet.section(from).2;
    let speed = axis / (one + diameter / F::of(task::PICK_UP_SIZE)).sqrt();
    let axial = speed / (one + tx * tx + ty * ty).sqrt();
    let mut position = [tx * from, ty * from, from];
    let mut velocity = [tx * axial, ty * axial, axial];
    // The velocity without turbulence: its slip crosses the eddies.
    let mut calm = velocity;
    let mut omega = [F::normal(rng), F::normal(rng), F::normal(rng)];
    let stokes = F::of(task::DENSITY / (18.0 * task::AIR_VISCOSITY)) * diameter * diameter;
    let per_speed = diameter * F::of(task::AIR_DENSITY / task::AIR_VISCOSITY);
    let plane = F::of(task::TO);
    let mut time = zero;
    while time < F::of(task::ALOFT) {
        tally.steps += 1;
        let air = jet.at(position);
        // Drag.
        let felt: [F; 3] = std::array::from_fn(|i| air.velocity[i] + air.sigma * omega[i]);
        let slip: [F; 3] = std::array::from_fn(|i| velocity[i] - felt[i]);
        let reynolds = length(slip) * per_speed;
        let tau = stokes / (one + F::of(0.15) * reynolds.powf(F::of(0.687)));
        let fade = (-(dt / tau)).exp();
        let before = (position, velocity);
        for i in 0..3 {
            velocity[i] = felt[i] + slip[i] * fade;
            position[i] += (before.1[i] + velocity[i]) * F::of(0.5) * dt;
        }
        // Turbulence: slower along the slip than across it.
        let lag: [F; 3] = std::array::from_fn(|i| calm[i] - air.velocity[i]);
        let lag2 = lag[0] * lag[0] + lag[1] * lag[1] + lag[2] * lag[2];
        let cross = lag2 / (air.sigma * air.sigma + F::of(1e-8));
        let along_decay = (-(dt * (one + cross).sqrt() / air.time)).exp();
        let across_decay = (-(dt * (one + F::of(4.0) * cross).sqrt() / air.time)).exp();
        let along_noise = (one - along_decay * along_decay).sqrt();
        let across_noise = (one - across_decay * across_decay).sqrt();
        let noise = [F::normal(rng), F::normal(rng), F::normal(rng)];
        let unit = length(lag) + F::of(1e-6);
        let e: [F; 3] = std::array::from_fn(|i| lag[i] / unit);
        let part = |v: [F; 3]| v[0] * e[0] + v[1] * e[1] + v[2] * e[2];
        let (omega_along, noise_along) = (part(omega), part(noise));
        let heavy = dt / (one + stokes / air.time);
        for i in 0..3 {
            omega[i] = omega[i] * across_decay
                + noise[i] * across_noise
                + e[i]
                    * (omega_along * (along_decay - across_decay)
                        + noise_along * (along_noise - across_noise))
                + air.slope[i] * heavy;
            calm[i] = air.velocity[i] + lag[i] * fade;
        }
        time += dt;
        if position[2] > plane {
            let share = (plane - before.0[2]) / (position[2] - before.0[2]);
            let at = |a: F, b: F| a + (b - a) * share;
            let met: [F; 3] = std::array::from_fn(|i| at(before.1[i], velocity[i]));
            tally.land(
                weight,
                at(before.0[0], position[0]).wide(),
                at(before.0[1], position[1]).wide(),
                length(met).wide(),
                (time - dt * (one - share)).wide(),
            );
            return;
        }
    }
    tally.miss(weight);
}
