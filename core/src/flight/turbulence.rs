//! Turbulence that a droplet sees, and what a step of any length makes of it.
//!
//! omega = u'/sigma: d omega_i = -omega_i dt/T + (d sigma_i/dx_i) dt/(1 + tau/T_L) + sqrt(2/T) dW_i (Thomson 1987 for
//! tracers; the factor for heavy droplets of Bocksell and Loth's kind, from memory). T along the slip
//! T_L/sqrt(1 + X^2), across T_L/sqrt(1 + 4 X^2), X = |slip|/sigma (Csanady 1963, from memory); the slip is
//! that of the droplet's calm velocity, so that T does not depend on omega (which would give omega a mean of its own).
//!
//! A droplet answers with its relaxation time tau. Over a step h the answer to the omega of now is exact; one random
//! number a component then drives omega, velocity and position together, scaled so that for a homogeneous flow
//! and ANY h/T and tau/T the variance of omega is 1, that of the velocity T/(T + tau) and the spread of a cloud
//! 2 sigma^2 T t (Tchen 1947, Hinze 1975). Derivation: `docs/methods/flight.md`.

use crate::lanes::Lanes;
use crate::surface::{Vec3, dot};

/// What one step does, in units of sigma.
#[derive(Clone, Copy)]
pub struct Turn<L: Lanes> {
    /// omega at the end of the step [-].
    pub end: Vec3<L>,
    /// Gain of the droplet's velocity [-].
    pub velocity: Vec3<L>,
    /// Gain of its position [s].
    pub position: Vec3<L>,
    /// Mean of omega that the drift alone gives over the step [-].
    pub drift: Vec3<L>,
}

/// Answer of one direction: shares of omega and of the random number in the end, the velocity and the position.
#[derive(Clone, Copy)]
struct Answer<L: Lanes> {
    end: [L; 2],
    velocity: [L; 2],
    position: [L; 2],
}

/// `x` h/T, `time` T [s], `tau` [s], `fade` exp(-h/tau).
#[inline(always)]
fn answer<L: Lanes>(x: L, time: L, tau: L, fade: L) -> Answer<L> {
    let one = x.lit(1.0);
    let decay = (-x).exp();
    let noise = (one - decay * decay).sqrt();
    let ratio = tau / time;
    // phi = (decay - fade)/(1 - tau/T); near tau = T by the series of sinh.
    let gap = x * (one - ratio) / ratio;
    let gap2 = gap * gap;
    let series =
        (decay * fade).sqrt() * x / ratio * (one + gap2 * (x.lit(1.0 / 24.0) + gap2 * x.lit(1.0 / 1920.0)));
    let apart = one - ratio;
    let safe = L::select(gap2.lt(x.lit(NEAR2)), one, apart);
    let phi = L::select(gap2.lt(x.lit(NEAR2)), series, (decay - fade) / safe);
    // n from <v^2> = T/(T + tau): n^2 + 2 b n + d = 0.
    let inverse = one / (one - decay * fade);
    let b = fade * phi * noise * inverse;
    let d = phi * phi * (one + x.lit(2.0) * decay * fade * inverse) - (one - fade * fade) / (one + ratio);
    let n = (b * b - d).max(x.lit(0.0)).sqrt() - b;
    Answer {
        end: [decay, noise],
        velocity: [phi, n],
        position: [time * (one - decay) - tau * phi, time * ((x + x).sqrt() - noise) - tau * n],
    }
}

/// Below this gap^2 the series serves.
const NEAR2: f64 = 0.09;

/// One step of length `h` [s]. `slip` the droplet's calm velocity minus the mean air's [m/s], `sigma` [m/s], `time` T_L [s], `tau` the droplet's
/// relaxation time [s] with `fade` = exp(-h/tau), `push` the drift d sigma_i/dx_i over (1 + tau/T_L) [1/s], `noise`
/// three numbers of variance 1.
#[inline(always)]
#[allow(clippy::too_many_arguments, reason = "one call in the kernel; a struct would only rename them")]
pub fn turn_eddies<L: Lanes>(
    omega: Vec3<L>,
    slip: Vec3<L>,
    sigma: L,
    time: L,
    tau: L,
    fade: L,
    push: Vec3<L>,
    noise: Vec3<L>,
    h: L,
) -> Turn<L> {
    let one = h.lit(1.0);
    let slip2 = dot(slip, slip);
    let crossing = (slip2 / (sigma * sigma + h.lit(1e-8))).min(h.lit(1e6));
    let floor = h * h.lit(1e-4);
    let time = time.max(h.lit(1e-9));
    let along_time = (time / (one + crossing).sqrt()).max(floor);
    let across_time = (time / (one + h.lit(4.0) * crossing).sqrt()).max(floor);
    let along = answer(h / along_time, along_time, tau, fade);
    let x = h / across_time;
    let across = answer(x, across_time, tau, fade);
    // Split along the slip: the part along e is (v . e) e with e = slip/|slip|.
    let inverse2 = one / (slip2 + h.lit(1e-12));
    let (omega_slip, noise_slip) = (dot(omega, slip) * inverse2, dot(noise, slip) * inverse2);
    let split = |a: [L; 2], b: [L; 2]| (a[0] - b[0]) * omega_slip + (a[1] - b[1]) * noise_slip;
    let end = split(along.end, across.end);
    let velocity = split(along.velocity, across.velocity);
    let position = split(along.position, across.position);
    // Drift, weighted as it decays within the step: T (1 - a) at its end, T (1 - (1 - a)/x) in its mean.
    let settled = across_time * (one - across.end[0]);
    let mean = across_time - settled / x;
    let of = |share: [L; 2], more: L, i: usize| share[0] * omega[i] + share[1] * noise[i] + more * slip[i];
    Turn {
        end: core::array::from_fn(|i| of(across.end, end, i) + settled * push[i]),
        velocity: core::array::from_fn(|i| of(across.velocity, velocity, i)),
        position: core::array::from_fn(|i| of(across.position, position, i)),
        drift: core::array::from_fn(|i| mean * push[i]),
    }
}
