//! One step: midpoint field; exact exponential of the frozen slip with consistent position; step-averaged turbulence;
//! step length a share of the distance over which the air changes.

use super::damping::Damped;
use super::drag::drag_factor_of_square;
use super::noise::{Noise, draw};
use super::settings::FlightSettings;
use super::turbulence::{Crossing, Response};
use crate::airflow::AirFlow;
use crate::lanes::{Lanes, inverses};
use crate::part::Part;
use crate::stream::LaneStream;
use crate::surface::{Air, Vec3, along, dot, minus, scale};

/// A vector of droplets in flight.
#[derive(Clone, Copy)]
pub(super) struct Aloft<L: Lanes> {
    pub(super) position: Vec3<L>,
    pub(super) velocity: Vec3<L>,
    /// Velocity it would have on this path without turbulence: its lag behind the mean air crosses the eddies.
    pub(super) calm: Vec3<L>,
    pub(super) omega: Vec3<L>,
    pub(super) stream: LaneStream<L>,
    pub(super) diameter: L,
    pub(super) diameter2: L,
    pub(super) gap: L,
    /// Exposure times the square of the first diameter [s]: saves a division a step.
    pub(super) exposure: L,
    pub(super) time: L,
    /// See [`pace2`], at the last step [m2/s2].
    pub(super) pace2: L,
    /// Drag over Stokes drag, at the last step [-].
    pub(super) drag: L,
}

/// Variances of the turbulence that count in the square of the air's speed, from which a step's length follows [-]: two standard
/// deviations, so that a droplet where the mean air stands and gusts do not takes shorter steps.
const PACE: f64 = 4.0;

/// Square of the speed at which the air moves a droplet on [m2/s2].
#[inline(always)]
pub(super) fn pace2<L: Lanes>(air: &Air<L>) -> L {
    dot(air.velocity, air.velocity) + air.sigma * air.sigma * air.sigma.lit(PACE)
}

#[inline(always)]
pub(super) fn advance<L: Lanes, F: AirFlow<L>, P: Part<L>>(
    flow: &F,
    part: &P,
    set: &FlightSettings<L::Scalar>,
    noise: Noise,
    now: &Aloft<L>,
) -> Aloft<L> {
    let like = now.diameter;
    let one = like.lit(1.0);
    let speed = dot(now.velocity, now.velocity).max(now.pace2).max(like.lit(1e-4)).sqrt();
    let share = like.splat(set.step);
    let change = part.change(now.position, now.velocity, speed, now.gap);
    let h = share / change;

    let air = flow.at(along(now.position, now.velocity, h * like.lit(0.5)));

    // Size and weight after drying so far.
    let half_exposure = like.splat(set.half_exposure) * now.diameter2;
    let size = one - like.splat(set.shrink) * now.exposure / (now.exposure + half_exposure);
    let mass = one - like.splat(set.volatile_density) * (one - size * size * size);
    let stokes = like.splat(set.relaxation) * now.diameter2 * mass / size;
    let inverse_stokes = one / stokes;
    // Re = speed d / nu, squared.
    let per_speed = now.diameter * size * like.splat(set.inverse_viscosity);
    let per_speed2 = per_speed * per_speed;

    // The wall takes the normal part of the turbulence away.
    let wall = Damped::new(&air.wall, F::FLAT);

    // Drag at the slip's mean over the step, second order in h: the lag behind the mean air decays (first with the
    // drag of the last step), what turbulence adds does not on average.
    let slip = minus(now.velocity, air.velocity);
    let relative = along(slip, wall.free(now.omega), -air.sigma);
    let free_step = h * inverse_stokes;
    let rough = (free_step * now.drag).max(like.lit(1e-4));
    let lasting = (one - rough.fade()) / rough;
    let lagging = minus(now.calm, air.velocity);
    let g = [like.splat(set.gravity[0]), like.splat(set.gravity[1]), like.splat(set.gravity[2])];
    // It decays to the fall, g tau.
    let meant = along(relative, along(lagging, g, -(h / rough)), lasting - one);
    // Gusts that come and go within the step are felt with more drag where they add to the slip, with less where they take from it: in the
    // mean over them as if the slip's square were larger by twice their own along it (`docs/decisions/step.md`).
    let time_scale = air.time_scale.max(like.lit(1e-9));
    let crossing = Crossing::new(scale(lagging, lasting), air.sigma, time_scale, h);
    let x = crossing.along();
    let (inverse_gusts, inverse_time) = inverses(x + like.lit(2.0), time_scale + stokes);
    let gusts = air.sigma * air.sigma * (x + x) * inverse_gusts;
    let reynolds2 = (dot(meant, meant) + gusts) * per_speed2;
    let drag = drag_factor_of_square(reynolds2);
    let tau = stokes / drag;
    let response = {
        let step = free_step * drag;
        let half_fade = (step * like.lit(0.5)).fade();
        let inverse = tau * (change * (one / share));
        Response { tau, step, inverse, half_fade, fade: half_fade * half_fade }
    };

    // Turbulence, and the droplet's answer to it.
    let mut stream = now.stream;
    let random = draw(like, &mut stream, noise);
    let push = scale(wall.drift(&air), time_scale * inverse_time);
    let eddy = crossing.turn(now.omega, &response, push, random, h);

    // Exact over the step for the air as met at its middle.
    let fade = response.fade;
    let still = along(air.velocity, g, tau);
    let settle = along(still, wall.free(eddy.drift), air.sigma);
    let lag = minus(now.velocity, settle);
    let velocity = along(along(settle, lag, fade), wall.free(eddy.velocity), air.sigma);
    let calm = along(still, minus(now.calm, still), fade);
    let moved = along(along(now.position, settle, h), lag, tau * (one - fade));
    let position = along(moved, wall.free(eddy.position), air.sigma);

    let fresh = h * (one + like.splat(set.ventilation) * reynolds2.sqrt().sqrt());
    Aloft {
        position,
        velocity,
        calm,
        omega: eddy.end,
        stream,
        diameter: now.diameter,
        diameter2: now.diameter2,
        gap: part.gap(position),
        exposure: now.exposure + fresh,
        time: now.time + h,
        pace2: pace2(&air),
        drag,
    }
}
