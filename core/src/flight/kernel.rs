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
use crate::lanes::{Lanes, Real, inverses};
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
    /// Drag over Stokes drag, at the last step [-].
    drag: L,
}

/// Variances of the turbulence that count in the square of the air's speed, from which a step's length follows [-]: two standard
/// deviations, so that a droplet where the mean air stands and gusts do not takes shorter steps.
const PACE: f64 = 4.0;

/// Square of the speed at which the air moves a droplet on [m2/s2].
#[inline(always)]
fn pace2<L: Lanes>(air: &Air<L>) -> L {
    dot(air.velocity, air.velocity) + air.sigma * air.sigma * air.sigma.lit(PACE)
}

#[inline(always)]
fn advance<L: Lanes, F: AirFlow<L>, P: Part<L>>(
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

const NONE: usize = usize::MAX;

/// Vectors in flight side by side: one finds its numbers where the last round left them, long written, and their chains overlap.
const ABREAST: usize = 2;

/// Most lanes of a vector.
const LANES: usize = 32;

/// Puts droplet `k` of the batch into lane `lane`.
#[inline(always)]
fn board<L: Lanes>(aloft: &mut Aloft<L>, batch: &Batch<L::Scalar>, lane: usize, k: usize) {
    for axis in 0..3 {
        aloft.position[axis].put(lane, batch.position[axis][k]);
        aloft.velocity[axis].put(lane, batch.velocity[axis][k]);
        aloft.calm[axis].put(lane, batch.velocity[axis][k]);
        aloft.omega[axis].put(lane, batch.omega[axis][k]);
    }
    for (word, from) in aloft.stream.0.iter_mut().zip(&batch.stream) {
        L::put_word(word, lane, from[k]);
    }
    let zero = L::Scalar::from_f64(0.0);
    aloft.diameter.put(lane, batch.diameter[k]);
    aloft.exposure.put(lane, zero);
    aloft.time.put(lane, zero);
    aloft.pace2.put(lane, batch.pace2[k]);
    aloft.drag.put(lane, batch.drag[k]);
    aloft.gap.put(lane, batch.gap[k]);
}

/// `LEN` droplets' vectors from the place `first` on.
#[inline(always)]
fn load<L: Lanes>(like: L, [x, y, z]: &[Vec<L::Scalar>; 3], first: usize) -> Vec3<L> {
    [like.load(x, first), like.load(y, first), like.load(z, first)]
}

/// What follows from where the droplets start: a vector at a time, which a refill of single lanes could not.
#[inline(always)]
fn look_ahead<L: Lanes, F: AirFlow<L>, P: Part<L>>(
    like: L,
    flow: &F,
    part: &P,
    set: &FlightSettings<L::Scalar>,
    batch: &mut Batch<L::Scalar>,
) {
    let mut first = 0;
    while first < batch.len() {
        let position = load(like, &batch.position, first);
        let (velocity, omega) = (load(like, &batch.velocity, first), load(like, &batch.omega, first));
        let air = flow.at(position);
        let (pace2, gap) = (pace2(&air), part.gap(position));
        let relative = along(minus(velocity, air.velocity), omega, -air.sigma);
        let per_speed = like.load(&batch.diameter, first) * like.splat(set.inverse_viscosity);
        let drag = drag_factor_of_square(dot(relative, relative) * (per_speed * per_speed));
        pace2.store(&mut batch.pace2, first);
        gap.store(&mut batch.gap, first);
        drag.store(&mut batch.drag, first);
        first += L::LEN;
    }
}

/// Takes the lowest lane from a mask that has one, and gives it with its bit: a loop over them stays a loop, where one over all lanes
/// would be written out for each.
#[inline(always)]
fn lowest(mask: &mut u32) -> (usize, u32) {
    let lane = mask.trailing_zeros();
    *mask &= *mask - 1;
    (lane as usize, 1 << lane)
}

/// Which droplets are in flight, and which comes next.
struct Queue {
    holder: [[usize; LANES]; ABREAST],
    /// Droplets in flight, a row.
    active: [usize; ABREAST],
    waiting: usize,
    len: usize,
}

impl Queue {
    /// The droplet that boards the lane now; beyond the batch a copy of its last one, uncounted.
    #[inline(always)]
    fn next(&mut self, row: usize, lane: usize) -> usize {
        let held = &mut self.holder[row][lane];
        if self.waiting < self.len {
            *held = self.waiting;
            self.waiting += 1;
            self.active[row] += 1;
        } else {
            *held = NONE;
        }
        (*held).min(self.len - 1)
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
    batch.open();
    if batch.is_empty() {
        return;
    }
    look_ahead(like, flow, part, set, batch);
    let zero = like.lit(0.0);
    let word = like.word(0);
    let empty = Aloft {
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
        drag: zero,
    };
    let mut rows = [empty; ABREAST];
    let mut queue =
        Queue { holder: [[NONE; LANES]; ABREAST], active: [0; ABREAST], waiting: 0, len: batch.len() };
    for (row, aloft) in rows.iter_mut().enumerate() {
        let mut free = u32::MAX >> (32 - L::LEN);
        while free != 0 {
            let (lane, _) = lowest(&mut free);
            let k = queue.next(row, lane);
            board(aloft, batch, lane, k);
        }
        aloft.diameter2 = aloft.diameter * aloft.diameter;
    }
    let long = like.splat(set.aloft);
    while queue.active.iter().any(|n| *n > 0) {
        for (row, aloft) in rows.iter_mut().enumerate() {
            if queue.active[row] == 0 {
                continue;
            }
            batch.steps += queue.active[row] as u64;
            let now = *aloft;
            let next = advance(flow, part, set, noise, &now);
            let hit = next.gap.lt(zero);
            let passed = part.passed(next.position);
            let drifted = long.lt(next.time);
            let over = L::bits(L::or(hit, L::or(passed, drifted)));
            *aloft = next;
            if over == 0 {
                continue;
            }
            // Share of the step at which a hitting droplet met the face.
            let share = now.gap / (now.gap - next.gap).max(like.lit(1e-12));
            let (hits, passes) = (L::bits(hit), L::bits(passed));
            let inverse2 = like.lit(1.0) / next.diameter2;
            let met = Ended {
                position: back3(now.position, next.position, share),
                velocity: back3(now.velocity, next.velocity, share),
                exposure: back(now.exposure, next.exposure, share) * inverse2,
                time: back(now.time, next.time, share),
            };
            let Aloft { position, velocity, exposure, time, .. } = next;
            let left = Ended { position, velocity, exposure: exposure * inverse2, time };
            let mut ends = over;
            while ends != 0 {
                let (lane, bit) = lowest(&mut ends);
                let k = queue.holder[row][lane];
                if k != NONE {
                    queue.active[row] -= 1;
                    if hits & bit != 0 {
                        batch.end[k] = END_HIT;
                        met.write(lane, k, batch);
                    } else {
                        batch.end[k] = if passes & bit != 0 { END_PASSED } else { END_DRIFTED };
                        left.write(lane, k, batch);
                    }
                }
                let k = queue.next(row, lane);
                board(aloft, batch, lane, k);
            }
            aloft.diameter2 = aloft.diameter * aloft.diameter;
        }
    }
}

/// How droplets of a vector ended.
struct Ended<L: Lanes> {
    position: Vec3<L>,
    velocity: Vec3<L>,
    exposure: L,
    time: L,
}

impl<L: Lanes> Ended<L> {
    /// Writes a lane's end for droplet `k`.
    #[inline(always)]
    fn write(&self, lane: usize, k: usize, batch: &mut Batch<L::Scalar>) {
        for axis in 0..3 {
            batch.end_position[axis][k] = self.position[axis].lane(lane);
            batch.end_velocity[axis][k] = self.velocity[axis].lane(lane);
        }
        batch.end_exposure[k] = self.exposure.lane(lane);
        batch.end_time[k] = self.time.lane(lane);
    }
}

/// Between two steps' ends.
#[inline(always)]
fn back<L: Lanes>(old: L, new: L, share: L) -> L {
    old + (new - old) * share
}

#[inline(always)]
fn back3<L: Lanes>(old: Vec3<L>, new: Vec3<L>, share: L) -> Vec3<L> {
    [back(old[0], new[0], share), back(old[1], new[1], share), back(old[2], new[2], share)]
}
