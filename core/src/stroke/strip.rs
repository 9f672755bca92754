//! The film of many passes, column by column, from the profile of one: quick enough to try hundreds of plans under dozens of hands.
//!
//! A spot sees the gun go by in a tenth of a second, while a hand's errors last half a second: at each column every pass is taken straight,
//! with the aim, distance and speed that the hand has there (the same errors as those of `moved`). Profiles are laid at a few distances
//! and, before a tube, at a few aims beside it, and taken linearly between. Not for arcs, tilts, drift, cross coats: `Layer` does those.

use super::hand::{Hand, Wander};
use super::moved::{DISTANCES, SLOWEST};
use super::route::Leg;
use crate::film::{Face, FilmMap};
use crate::job::{PassOrder, StrokePlan};
use crate::tally::GROUPS;
use core::ops::Range;

/// All groups, then dry and wet film.
const LANES: usize = GROUPS + 2;
/// Places of the profiles, in standard deviations of a hand.
const DISTANCE_PLACES: [f64; 5] = [-2.2, -1.1, 0.0, 1.1, 2.2];
const ASIDE_PLACES: [f64; 7] = [-2.4, -1.4, -0.7, 0.0, 0.7, 1.4, 2.4];

/// Film of one pass at 1 m/s, row by row, and the rows that it reaches.
#[derive(Debug, Clone)]
struct Profile {
    rows: Vec<[f64; LANES]>,
    reach: [usize; 2],
}

/// Where profiles are laid: one column, tall enough for the fan, or once round a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rows {
    /// Number of rows.
    pub count: usize,
    /// Height of one [m].
    pub step: f64,
    /// The last lies beside the first.
    pub closed: bool,
}

/// A pose of the gun, off the planned one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Off {
    /// Gun to part [m].
    pub distance: f64,
    /// Aim beside a tube's axis [m].
    pub aside: f64,
}

/// Profiles of a plan's passes under a hand.
#[derive(Debug, Clone)]
pub struct Strip {
    rows: Rows,
    plan: StrokePlan,
    hand: Hand,
    /// Radius of a round part [m].
    radius: Option<f64>,
    distances: Vec<f64>,
    asides: Vec<f64>,
    /// Distance by distance, aside by aside.
    profiles: Vec<Profile>,
}

impl Strip {
    /// Whether the passes of a plan may be taken so.
    #[must_use]
    pub fn does(plan: &StrokePlan) -> bool {
        let hand = &plan.hand;
        let straight = hand.pivot.is_none() && hand.heel == 0.0 && hand.drift == 0.0;
        let square = plan.heel == 0.0 && plan.swing == 0.0 && plan.feather == 0.0;
        straight && square && plan.order == PassOrder::Raster && plan.burst.is_none()
    }

    /// Lays the profiles: `lay` gives the film of one long pass at 1 m/s and a pose, over one column of these rows.
    #[must_use]
    pub fn new(plan: StrokePlan, radius: Option<f64>, rows: Rows, lay: impl Fn(Off) -> FilmMap) -> Self {
        let hand = plan.hand;
        let places = |all: &[f64], deviation: f64, about: f64| -> Vec<f64> {
            if deviation > 0.0 { all.iter().map(|p| about + p * deviation).collect() } else { vec![about] }
        };
        let ends = DISTANCES.map(|share| (share * plan.distance).max(0.02));
        let mut distances = places(&DISTANCE_PLACES, hand.distance, plan.distance);
        distances.iter_mut().for_each(|d| *d = d.clamp(ends[0], ends[1]));
        distances.dedup();
        let asides = places(&ASIDE_PLACES, if radius.is_some() { hand.aim } else { 0.0 }, 0.0);
        let mut profiles = Vec::new();
        for &distance in &distances {
            for &aside in &asides {
                let film = lay(Off { distance, aside });
                let n = film.len();
                let row = |cell: usize| {
                    let mut lanes = [0.0; LANES];
                    for (g, lane) in lanes.iter_mut().take(GROUPS).enumerate() {
                        *lane = film.groups[g * n + cell];
                    }
                    (lanes[GROUPS], lanes[GROUPS + 1]) = (film.dry[cell], film.wet[cell]);
                    lanes
                };
                let rows: Vec<[f64; LANES]> = (0..n).map(row).collect();
                let any = |lanes: &[f64; LANES]| lanes.iter().any(|v| *v > 0.0);
                let first = rows.iter().position(any).unwrap_or(0);
                let last = rows.iter().rposition(any).map_or(0, |last| last + 1);
                profiles.push(Profile { rows, reach: [first, last] });
            }
        }
        Self { rows, plan, hand, radius, distances, asides, profiles }
    }

    /// The film of some of these passes at a speed [m/s] on columns of a face, by the hand of a seed, and the time that they take [s].
    #[must_use]
    pub fn lay(&self, legs: &[Leg], some: Range<usize>, by: &Passing, face: &Face) -> (FilmMap, f64) {
        let width = face.nx as f64 * face.cell_x;
        let columns = if self.hand.is_machine() { 1 } else { by.columns.max(1) };
        let own = Face { nx: columns, cell_x: width / columns as f64, ..face.clone() };
        let mut film = FilmMap::over(vec![own.clone()]);
        let (n, mut seconds) = (film.len(), 0.0);
        let mut sum = vec![[0.0; LANES]; face.ny * columns];
        for (i, leg) in legs.iter().enumerate().take(some.end).skip(some.start) {
            let [aim, pace, far] = [0, 1, 2].map(|kind| Wander::new(by.seed, i as u64, kind));
            let length = (leg.ends[1] - leg.ends[0]).abs();
            for column in 0..columns {
                let time = (own.x(column) - leg.ends[0]).abs() / by.speed;
                let off = self.hand.aim * aim.at(time);
                let factor = (1.0 + self.hand.speed * pace.at(time)).max(SLOWEST);
                let distance = self.plan.distance + self.hand.distance * far.at(time);
                seconds += length / (by.speed * factor) / columns as f64;
                let (aside, up) = match self.radius {
                    Some(radius) => (off, leg.turn * radius),
                    None => (0.0, leg.offset + off),
                };
                let rows = &mut sum[column * face.ny..(column + 1) * face.ny];
                for (d, by_distance) in between(&self.distances, distance) {
                    for (a, by_aside) in between(&self.asides, aside) {
                        let scale = by_distance * by_aside / (by.speed * factor);
                        if scale > 0.0 {
                            self.add(&self.profiles[d * self.asides.len() + a], up, scale, &own, rows);
                        }
                    }
                }
            }
        }
        for column in 0..columns {
            for row in 0..face.ny {
                let (cell, lanes) = (row * columns + column, &sum[column * face.ny + row]);
                for (g, lane) in lanes[..GROUPS].iter().enumerate() {
                    film.groups[g * n + cell] = *lane;
                }
                (film.dry[cell], film.wet[cell]) = (lanes[GROUPS], lanes[GROUPS + 1]);
            }
        }
        (film, seconds)
    }

    /// Adds a profile, moved up by `up` [m], to the rows of a face.
    fn add(&self, profile: &Profile, up: f64, scale: f64, face: &Face, sum: &mut [[f64; LANES]]) {
        let Rows { count, step, closed } = self.rows;
        let [first, last] = profile.reach;
        let (ratio, start) = (face.cell_y / step, (face.y(0) - up) / step + 0.5 * count as f64 - 0.5);
        let rows = if closed {
            0..sum.len()
        } else {
            let at = |place: f64| ((place - start) / ratio).clamp(0.0, sum.len() as f64);
            at(first as f64 - 1.0).floor() as usize..at(last as f64).ceil() as usize
        };
        let count = count as i64;
        for (row, lanes) in rows.clone().zip(&mut sum[rows]) {
            let place = start + ratio * row as f64;
            // Its floor, without a call.
            let low = place as i64 - i64::from(place < 0.0);
            let share = place - low as f64;
            for (at, weight) in [(low, 1.0 - share), (low + 1, share)] {
                let at = if closed && !(0..count).contains(&at) { at.rem_euclid(count) } else { at };
                let Some(from) = usize::try_from(at).ok().and_then(|at| profile.rows.get(at)) else {
                    continue;
                };
                let weight = scale * weight;
                for (s, l) in lanes.iter_mut().zip(from) {
                    *s += weight * l;
                }
            }
        }
    }
}

/// How passes are gone over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passing {
    /// Speed [m/s].
    pub speed: f64,
    /// Seed of the hand.
    pub seed: u64,
    /// Columns of the film; one for a machine.
    pub columns: usize,
}

/// The two neighbours of a value in a rising list, with their weights; past its ends the end itself.
fn between(list: &[f64], value: f64) -> [(usize, f64); 2] {
    if list.len() < 2 {
        return [(0, 1.0), (0, 0.0)];
    }
    let above = list.partition_point(|v| *v <= value).clamp(1, list.len() - 1);
    let (low, high) = (list[above - 1], list[above]);
    let share = ((value - low) / (high - low).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    [(above - 1, 1.0 - share), (above, share)]
}
