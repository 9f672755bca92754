//! The kernel: look up the air, push the droplet, did it land. Written once over [`Lanes`].
//!
//! One step: midpoint field; exact exponential of the frozen slip with consistent position; step-averaged turbulence;
//! step length a share of the distance over which the air changes. Position, velocity and time at the hit are
//! interpolated along the step.

use super::batch::{Batch, END_DRIFTED, END_HIT, END_PASSED};
use super::damping::Damped;
use super::drag::drag_factor_of_square;
use super::noise::{Noise, draw};
use super::settings::FlightSettings;
use super::turbulence::{Crossing, Response};
use crate::airflow::AirFlow;
use crate::lanes::{Lanes, Real};
use crate::part::Part;
use crate::stream::LaneStream;
use crate::surface::{Air, Vec3, along, dot, minus, scale};

/// A vector of droplets in flight.
#[derive(Clone, Copy)]
struct Aloft<L: Lanes> {
    position: Vec3<L>,
    velocity: Vec3<L>,
    /// Velocity it would have on this path without turbulence: its lag behind the mean air crosses the eddies.
    calm: Vec3<L>,
    omega: Vec3<L>,
    stream: LaneStream<L>,
    diameter: L,
    diameter2: L,
    gap: L,
    /// Exposure times the square of the first diameter [s]: saves a division a step.
    exposure: L,
    time: L,
    /// See [`pace2`], at the last step [m2/s2].
    pace2: L,
}

/// Square of the speed at which the air moves a droplet on [m2/s2]: see `FlightSettings::pace`.
#[inline(always)]
fn pace2<L: Lanes, const GUSTY: bool>(air: &Air<L>, set: &FlightSettings<L::Scalar>) -> L {
    let mean2 = dot(air.velocity, air.velocity);
    if GUSTY { mean2 + air.sigma * air.sigma * air.sigma.splat(set.pace) } else { mean2 }
}

#[inline(always)]
fn advance<L: Lanes, F: AirFlow<L>, P: Part<L>, const GUSTY: bool>(
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
    // relaxation time of now), what turbulence adds does not on average.
    let slip = minus(now.velocity, air.velocity);
    let relative = along(slip, wall.free(now.omega), -air.sigma);
    let reynolds2_now = dot(relative, relative) * per_speed2;
    let free_step = h * inverse_stokes;
    let rough = (free_step * drag_factor_of_square(reynolds2_now)).max(like.lit(1e-4));
    let lasting = (one - rough.fade()) / rough;
    let lagging = minus(now.calm, air.velocity);
    let g = [like.splat(set.gravity[0]), like.splat(set.gravity[1]), like.splat(set.gravity[2])];
    // It decays to the fall, g tau.
    let meant = along(relative, along(lagging, g, -(h / rough)), lasting - one);
    let mut slip2 = dot(meant, meant);
    if GUSTY {
        // Gusts that come and go within the step: see `FlightSettings::gusts`.
        let time = air.time_scale.max(like.lit(1e-9));
        let lasts = Crossing::new(scale(lagging, lasting), air.sigma, time, h).along();
        let passing = lasts / (lasts + like.lit(2.0));
        slip2 = slip2 + air.sigma * air.sigma * (like.splat(set.gusts) * passing);
    }
    let reynolds2 = slip2 * per_speed2;
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
    let time_scale = air.time_scale.max(like.lit(1e-9));
    let heavy = time_scale / (time_scale + stokes);
    let push = scale(wall.drift(&air), heavy);
    let crossing = Crossing::new(scale(lagging, lasting), air.sigma, time_scale, h);
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
        pace2: pace2::<L, GUSTY>(&air, set),
    }
}

const NONE: usize = usize::MAX;

/// Puts droplet `k` of the batch into lane `lane`.
#[inline(always)]
fn board<L: Lanes>(aloft: &mut Aloft<L>, batch: &Batch<L::Scalar>, lane: usize, k: usize) {
    for axis in 0..3 {
        aloft.position[axis] = aloft.position[axis].with_lane(lane, batch.position[axis][k]);
        aloft.velocity[axis] = aloft.velocity[axis].with_lane(lane, batch.velocity[axis][k]);
        aloft.calm[axis] = aloft.calm[axis].with_lane(lane, batch.velocity[axis][k]);
        aloft.omega[axis] = aloft.omega[axis].with_lane(lane, batch.omega[axis][k]);
    }
    for (word, value) in aloft.stream.0.iter_mut().zip(batch.stream[k]) {
        *word = L::with_word(*word, lane, value);
    }
    let zero = L::Scalar::from_f64(0.0);
    aloft.diameter = aloft.diameter.with_lane(lane, batch.diameter[k]);
    aloft.exposure = aloft.exposure.with_lane(lane, zero);
    aloft.time = aloft.time.with_lane(lane, zero);
    aloft.pace2 = aloft.pace2.with_lane(lane, batch.pace2[k]);
    aloft.gap = aloft.gap.with_lane(lane, batch.gap[k]);
}

/// What follows from where the droplets start: a vector at a time, which a refill of single lanes could not.
#[inline(always)]
fn look_ahead<L: Lanes, F: AirFlow<L>, P: Part<L>, const GUSTY: bool>(
    like: L,
    flow: &F,
    part: &P,
    set: &FlightSettings<L::Scalar>,
    batch: &mut Batch<L::Scalar>,
) {
    let mut first = 0;
    while first < batch.len() {
        let [x, y, z] = &batch.position;
        let position = [like.load(x, first), like.load(y, first), like.load(z, first)];
        let (pace2, gap) = (pace2::<L, GUSTY>(&flow.at(position), set), part.gap(position));
        for lane in 0..L::LEN.min(batch.len() - first) {
            batch.pace2[first + lane] = pace2.lane(lane);
            batch.gap[first + lane] = gap.lane(lane);
        }
        first += L::LEN;
    }
}

/// Flies a whole batch. `like` is any vector of the kind to fly with.
///
/// A lane's result depends on its droplet alone; a finished lane takes the next droplet of the batch.
#[inline(always)]
pub fn fly_lanes<L: Lanes, F: AirFlow<L>, P: Part<L>>(
    like: L,
    flow: &F,
    part: &P,
    set: &FlightSettings<L::Scalar>,
    noise: Noise,
    batch: &mut Batch<L::Scalar>,
) {
    fly_with::<L, F, P, false>(like, flow, part, set, noise, batch);
}

/// The same with gusts in drag and pace (`FlightSettings::gusty`). Chosen when compiled: asked at every step it costs the flight
/// without them 1.5 to 3 % of its instructions.
#[inline(always)]
pub fn fly_gusty_lanes<L: Lanes, F: AirFlow<L>, P: Part<L>>(
    like: L,
    flow: &F,
    part: &P,
    set: &FlightSettings<L::Scalar>,
    noise: Noise,
    batch: &mut Batch<L::Scalar>,
) {
    fly_with::<L, F, P, true>(like, flow, part, set, noise, batch);
}

#[inline(always)]
fn fly_with<L: Lanes, F: AirFlow<L>, P: Part<L>, const GUSTY: bool>(
    like: L,
    flow: &F,
    part: &P,
    set: &FlightSettings<L::Scalar>,
    noise: Noise,
    batch: &mut Batch<L::Scalar>,
) {
    batch.open();
    if batch.is_empty() {
        return;
    }
    look_ahead::<L, F, P, GUSTY>(like, flow, part, set, batch);
    let zero = like.lit(0.0);
    let word = like.word(0);
    let mut aloft = Aloft {
        position: [zero; 3],
        velocity: [zero; 3],
        calm: [zero; 3],
        omega: [zero; 3],
        stream: LaneStream([word; 4]),
        diameter: zero,
        diameter2: zero,
        gap: zero,
        exposure: zero,
        time: zero,
        pace2: zero,
    };
    // A lane beyond the batch flies a copy of its last droplet, uncounted.
    let mut holder = [NONE; 64];
    let mut waiting = 0;
    let mut active = 0usize;
    for (lane, held) in holder.iter_mut().enumerate().take(L::LEN) {
        let k = waiting.min(batch.len() - 1);
        board(&mut aloft, batch, lane, k);
        if waiting < batch.len() {
            *held = waiting;
            waiting += 1;
            active += 1;
        }
    }
    aloft.diameter2 = aloft.diameter * aloft.diameter;
    let long = like.splat(set.aloft);
    while active > 0 {
        let next = advance::<L, F, P, GUSTY>(flow, part, set, noise, &aloft);
        batch.steps += active as u64;
        let hit = next.gap.lt(zero);
        let passed = part.passed(next.position);
        let drifted = long.lt(next.time);
        let over = L::bits(L::or(hit, L::or(passed, drifted)));
        if over == 0 {
            aloft = next;
            continue;
        }
        // Share of the step at which a hitting droplet met the face.
        let share = aloft.gap / (aloft.gap - next.gap).max(like.lit(1e-12));
        let (hits, passes) = (L::bits(hit), L::bits(passed));
        let back = |old: L, new: L| old + (new - old) * share;
        let met =
            |old: Vec3<L>, new: Vec3<L>| [back(old[0], new[0]), back(old[1], new[1]), back(old[2], new[2])];
        let (position, velocity) = (met(aloft.position, next.position), met(aloft.velocity, next.velocity));
        let (exposure, time) = (back(aloft.exposure, next.exposure), back(aloft.time, next.time));
        let inverse2 = like.lit(1.0) / next.diameter2;
        let (exposure, whole_exposure) = (exposure * inverse2, next.exposure * inverse2);
        aloft = next;
        for (lane, held) in holder.iter_mut().enumerate().take(L::LEN) {
            if over & (1 << lane) == 0 {
                continue;
            }
            if *held != NONE {
                let k = *held;
                let landed = hits & (1 << lane) != 0;
                let left = passes & (1 << lane) != 0;
                batch.end[k] = if landed {
                    END_HIT
                } else if left {
                    END_PASSED
                } else {
                    END_DRIFTED
                };
                let of = |at_hit: L, at_end: L| if landed { at_hit.lane(lane) } else { at_end.lane(lane) };
                for axis in 0..3 {
                    batch.end_position[axis][k] = of(position[axis], next.position[axis]);
                    batch.end_velocity[axis][k] = of(velocity[axis], next.velocity[axis]);
                }
                batch.end_exposure[k] = of(exposure, whole_exposure);
                batch.end_time[k] = of(time, next.time);
            }
            if waiting < batch.len() {
                board(&mut aloft, batch, lane, waiting);
                *held = waiting;
                waiting += 1;
            } else {
                if *held != NONE {
                    active -= 1;
                    *held = NONE;
                }
                board(&mut aloft, batch, lane, batch.len() - 1);
            }
        }
        aloft.diameter2 = aloft.diameter * aloft.diameter;
    }
}
