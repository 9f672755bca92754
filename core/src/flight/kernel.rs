//! The kernel: look up the air, push the droplet, did it land. Written once over [`Lanes`].
//!
//! Vectors of droplets step in turn; a finished lane takes the next droplet of the batch. Position, velocity and time at the hit are
//! interpolated along the step.

use super::batch::{Batch, END_DRIFTED, END_HIT, END_PASSED};
use super::drag::drag_factor_of_square;
use super::noise::Noise;
use super::settings::FlightSettings;
use super::step::{Aloft, advance, pace2};
use crate::airflow::AirFlow;
use crate::lanes::{Lanes, Real};
use crate::part::Part;
use crate::stream::LaneStream;
use crate::surface::{Vec3, along, dot, minus};

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
