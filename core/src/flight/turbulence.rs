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

use crate::lanes::{Lanes, inverses};
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

/// The droplet's own numbers over a step.
#[derive(Clone, Copy)]
pub struct Response<L: Lanes> {
    /// Relaxation time tau [s].
    pub tau: L,
    /// h / tau [-].
    pub step: L,
    /// tau / h [-].
    pub inverse: L,
    /// exp(-h/(2 tau)) [-].
    pub half_fade: L,
    /// exp(-h/tau) [-].
    pub fade: L,
}

/// One direction's part way to its answer: what needs no division.
#[derive(Clone, Copy)]
struct Course<L: Lanes> {
    x: L,
    decay: L,
    /// decay times the droplet's fade [-].
    both: L,
    /// sqrt(both) [-].
    root_both: L,
    gap: L,
    near: L::Mask,
}

impl<L: Lanes> Course<L> {
    #[inline(always)]
    fn new(x: L, response: &Response<L>) -> Self {
        let half = (x * x.lit(0.5)).fade();
        let root_both = half * response.half_fade;
        let gap = response.step - x;
        let near = gap.abs().lt(gap.lit(NEAR));
        Self { x, decay: half * half, both: root_both * root_both, root_both, gap, near }
    }

    /// The answer, from T [s] and the inverses of the gap, of 1 - both and of 1 + tau/T.
    #[inline(always)]
    fn answer(&self, response: &Response<L>, time: L, apart: L, open: L, ratio: L) -> Answer<L> {
        let one = time.lit(1.0);
        let (decay, fade) = (self.decay, response.fade);
        // phi = (decay - fade)/(1 - tau/T) = h/tau (decay - fade)/gap; near tau = T by the series of sinh.
        let gap2 = self.gap * self.gap;
        let series = self.root_both * (one + gap2 * (one.lit(1.0 / 24.0) + gap2 * one.lit(1.0 / 1920.0)));
        let phi = response.step * L::select(self.near, series, (decay - fade) * apart);
        let noise = (one - decay * decay).sqrt();
        // n from <v^2> = T/(T + tau): n^2 + 2 b n + d = 0.
        let b = fade * phi * noise * open;
        let d = phi * phi * (one + one.lit(2.0) * self.both * open) - (one - fade * fade) * ratio;
        let n = (b * b - d).max(one.lit(0.0)).sqrt() - b;
        let root = (self.x + self.x).sqrt();
        Answer {
            end: [decay, noise],
            velocity: [phi, n],
            position: [time * (one - decay) - response.tau * phi, time * (root - noise) - response.tau * n],
        }
    }
}

/// Answers along and across the slip, their divisions shared; x = h/T and T [s] of each.
#[inline(always)]
fn answers<L: Lanes>(x: (L, L), time: (L, L), response: &Response<L>) -> (Answer<L>, Answer<L>) {
    let one = x.0.lit(1.0);
    let (p, q) = (Course::new(x.0, response), Course::new(x.1, response));
    let apart = inverses(L::select(p.near, one, p.gap), L::select(q.near, one, q.gap));
    let open = inverses(one - p.both, one - q.both);
    let ratio = inverses(one + x.0 * response.inverse, one + x.1 * response.inverse);
    (
        p.answer(response, time.0, apart.0, open.0, ratio.0),
        q.answer(response, time.1, apart.1, open.1, ratio.1),
    )
}

/// Below this gap the series serves.
const NEAR: f64 = 0.3;

/// The eddies of one step as the droplet crosses them: how long they last for it.
#[derive(Clone, Copy)]
pub struct Crossing<L: Lanes> {
    /// Calm slip [m/s], and 1 over its square.
    slip: Vec3<L>,
    inverse2: L,
    /// h/T along the slip and across it [-].
    x: (L, L),
}

impl<L: Lanes> Crossing<L> {
    /// `slip` the droplet's calm velocity minus the mean air's [m/s], `sigma` [m/s], `time` T_L [s], at least 1e-9, `h` the step [s].
    #[inline(always)]
    pub fn new(slip: Vec3<L>, sigma: L, time: L, h: L) -> Self {
        let one = h.lit(1.0);
        let slip2 = dot(slip, slip);
        // The part along the slip is (v . slip) slip / slip^2.
        let (inverse_sigma2, inverse2) = inverses(sigma * sigma + h.lit(1e-8), slip2 + h.lit(1e-12));
        let crossing = (slip2 * inverse_sigma2).min(h.lit(1e6));
        // T no shorter than a ten-thousandth of the step.
        let rate = h / time;
        let most = h.lit(1e4);
        let x = (
            (rate * (one + crossing).sqrt()).min(most),
            (rate * (one + h.lit(4.0) * crossing).sqrt()).min(most),
        );
        Self { slip, inverse2, x }
    }

    /// h/T along the slip [-].
    #[inline(always)]
    pub fn along(&self) -> L {
        self.x.0
    }

    /// The step of length `h` [s]. `response` the droplet's answer, `push` the drift d sigma_i/dx_i over (1 + tau/T_L) [1/s],
    /// `noise` three numbers of variance 1.
    #[inline(always)]
    pub fn turn(
        &self,
        omega: Vec3<L>,
        response: &Response<L>,
        push: Vec3<L>,
        noise: Vec3<L>,
        h: L,
    ) -> Turn<L> {
        let one = h.lit(1.0);
        let (x, slip) = (self.x, self.slip);
        let inverse_x = inverses(x.0, x.1);
        let (along, across) = answers(x, (h * inverse_x.0, h * inverse_x.1), response);
        let across_time = h * inverse_x.1;
        let (omega_slip, noise_slip) = (dot(omega, slip) * self.inverse2, dot(noise, slip) * self.inverse2);
        let split = |a: [L; 2], b: [L; 2]| (a[0] - b[0]) * omega_slip + (a[1] - b[1]) * noise_slip;
        let end = split(along.end, across.end);
        let velocity = split(along.velocity, across.velocity);
        let position = split(along.position, across.position);
        // Drift, weighted as it decays within the step: T (1 - a) at its end, T (1 - (1 - a)/x) in its mean.
        let settled = across_time * (one - across.end[0]);
        let mean = across_time - settled * inverse_x.1;
        let of =
            |share: [L; 2], more: L, i: usize| share[0] * omega[i] + share[1] * noise[i] + more * slip[i];
        Turn {
            end: core::array::from_fn(|i| of(across.end, end, i) + settled * push[i]),
            velocity: core::array::from_fn(|i| of(across.velocity, velocity, i)),
            position: core::array::from_fn(|i| of(across.position, position, i)),
            drift: core::array::from_fn(|i| mean * push[i]),
        }
    }
}
