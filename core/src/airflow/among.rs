//! The fan jet among the tubes of a frame: the one aimed at, and its neighbours at any orientation.
//!
//! u = u_aimed + sum_i delta_i. The tube aimed at runs along x and has the exact field of [`TubeFlow`]. A neighbour of radius R and axis
//! a adds delta = -curl(g psi a), psi = a . (U x r), g = ((R/r)^2 - 1/36) 36/35 up to r = 6 R and 0 beyond, U the free jet at the
//! foot of the point on its axis, r the way from there. In planes across a that is the doublet of potential flow, so the sum stays
//! free of divergence for any U that changes along the axis; in an even stream no air goes through the neighbour (p = 2, R/r to the
//! second). What is left at its own wall is the change of the free jet over R; at another tube's wall (R/distance)^2 U. Past an end it
//! fades over one radius.
//!
//! Behind a tube (s > R) the air is sheltered: u times 1 - Cd D / (2 sqrt(pi) bw) exp(-(n/bw)^2), bw^2 = R^2 + 0.09 Cd D s, Cd 1.1 by the
//! square of the sine between tube and gun axis. Ours, after the plane wake's form (from memory); not free of divergence.

use super::fan_jet::{FanJet, HALF_ROOT_PI};
use super::{AirFlow, TubeFlow};
use crate::lanes::{Lanes, Real};
use crate::rod::{MOST_RODS, Rod};
use crate::surface::{Air, Vec3, Wall, along, dot, minus, scale};

/// Drag coefficient of a tube across the stream [-]: 1.0 to 1.2 for Re 1e3 to 1e5 (common practice, no source).
const DRAG: f64 = 1.1;
/// A neighbour is felt up to this many radii.
const FELT: f64 = 6.0;

/// What a tube leaves behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Wake<T> {
    /// Downstream, square to the tube; of length 1, or 0 for a tube along the gun's axis.
    downstream: [T; 3],
    /// Square to both.
    aside: [T; 3],
    /// Cd D sin^2 [m].
    drag: T,
}

impl Wake<f64> {
    fn new(axis: [f64; 3], radius: f64) -> Self {
        let [x, y, z] = axis;
        let across = [-x * z, -y * z, 1.0 - z * z];
        let sine = (across[0] * across[0] + across[1] * across[1] + across[2] * across[2]).sqrt();
        // Nearly along the gun's axis there is no wake to speak of, nor a direction for it.
        let inverse = if sine > 0.05 { 1.0 / sine } else { 0.0 };
        let [a, b, c] = across.map(|v| v * inverse);
        Self {
            downstream: [a, b, c],
            aside: [y * c - z * b, z * a - x * c, x * b - y * a],
            drag: DRAG * 2.0 * radius * sine * sine,
        }
    }

    fn cast<T: Real>(&self) -> Wake<T> {
        Wake {
            downstream: self.downstream.map(T::from_f64),
            aside: self.aside.map(T::from_f64),
            drag: T::from_f64(self.drag),
        }
    }
}

impl<T: Real> Wake<T> {
    /// Share of the air's speed that is left at a place `across` from the tube's axis.
    #[inline(always)]
    fn left<L: Lanes<Scalar = T>>(&self, across: Vec3<L>, radius: T) -> L {
        let like = across[0];
        let one = like.lit(1.0);
        let way =
            [like.splat(self.downstream[0]), like.splat(self.downstream[1]), like.splat(self.downstream[2])];
        let s = dot(across, way);
        let radius = like.splat(radius);
        let behind = radius.lt(s);
        if L::bits(behind) == 0 {
            return one;
        }
        let aside = [like.splat(self.aside[0]), like.splat(self.aside[1]), like.splat(self.aside[2])];
        let n = dot(across, aside);
        let drag = like.splat(self.drag);
        let width2 = radius * radius + drag * s.max(radius) * like.lit(0.09);
        let inverse2 = one / width2;
        let lost = drag * inverse2.sqrt() * like.lit(0.25 / HALF_ROOT_PI) * (n * n * inverse2).fade();
        L::select(behind, one - lost, one)
    }
}

/// A neighbour as the air meets it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Neighbour<T> {
    rod: Rod<T>,
    wake: Wake<T>,
}

/// The fan jet on a tube along x with neighbours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmongFlow<T> {
    /// The tube aimed at.
    pub aimed: TubeFlow<T>,
    wake: Wake<T>,
    count: usize,
    neighbours: [Neighbour<T>; MOST_RODS],
}

impl AmongFlow<f64> {
    /// A tube aimed at among others; of these the first [`MOST_RODS`].
    #[must_use]
    pub fn new(aimed: TubeFlow<f64>, rods: &[Rod<f64>]) -> Self {
        let far = Rod { end: [0.0, 0.0, 1e3], axis: [1.0, 0.0, 0.0], length: 1.0, radius: 1e-3 };
        let neighbours = core::array::from_fn(|i| {
            let rod = *rods.get(i).unwrap_or(&far);
            Neighbour { rod, wake: Wake::new(rod.axis, rod.radius) }
        });
        let wake = Wake::new([1.0, 0.0, 0.0], aimed.radius);
        Self { aimed, wake, count: rods.len().min(MOST_RODS), neighbours }
    }

    /// The same flow in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> AmongFlow<T> {
        AmongFlow {
            aimed: self.aimed.cast(),
            wake: self.wake.cast(),
            count: self.count,
            neighbours: self.neighbours.map(|n| Neighbour { rod: n.rod.cast(), wake: n.wake.cast() }),
        }
    }

    /// The same without the sheltered air behind tubes: what is free of divergence.
    #[must_use]
    pub fn without_wakes(mut self) -> Self {
        self.wake.drag = 0.0;
        self.neighbours.iter_mut().for_each(|n| n.wake.drag = 0.0);
        self
    }
}

impl<T: Real> Neighbour<T> {
    /// What it adds to the air at a point `across` from its axis, `place` along it.
    #[inline(always)]
    fn adds<L: Lanes<Scalar = T>>(
        &self,
        jet: &FanJet<T>,
        point: Vec3<L>,
        place: L,
        across: Vec3<L>,
    ) -> Vec3<L> {
        let like = place;
        let (zero, one) = (like.lit(0.0), like.lit(1.0));
        let rod = &self.rod;
        let radius = like.splat(rod.radius);
        let radius2 = radius * radius;
        let felt = like.lit(1.0 / (FELT * FELT));
        let distance2 = dot(across, across).max(radius2);
        let near = distance2.lt(radius2 * like.lit(FELT * FELT));
        if L::bits(near) == 0 {
            return [zero; 3];
        }
        let axis = [like.splat(rod.axis[0]), like.splat(rod.axis[1]), like.splat(rod.axis[2])];
        let stream = jet.free(minus(point, across));
        let stream = along(stream, axis, -dot(stream, axis));
        let inverse2 = one / distance2;
        let share = radius2 * inverse2;
        let whole = like.lit(FELT * FELT / (FELT * FELT - 1.0));
        let g = (share - felt) * whole;
        // psi a . (U x r), and r x a.
        let round = [
            across[1] * axis[2] - across[2] * axis[1],
            across[2] * axis[0] - across[0] * axis[2],
            across[0] * axis[1] - across[1] * axis[0],
        ];
        let psi = dot(stream, round);
        let added = along(scale(stream, -g), round, psi * share * inverse2 * whole * like.lit(2.0));
        // Past an end it fades over one radius.
        let inside = place.min(like.splat(rod.length) - place);
        let window = (one + inside / radius).max(zero).min(one);
        let window = L::select(near, window, zero);
        scale(added, window)
    }
}

impl<L: Lanes> AirFlow<L> for AmongFlow<L::Scalar> {
    #[inline(always)]
    fn at(&self, point: Vec3<L>) -> Air<L> {
        let like = point[0];
        let zero = like.lit(0.0);
        let mut air = self.aimed.at(point);
        let aside =
            [zero, point[1] - like.splat(self.aimed.axis_y), point[2] - like.splat(self.aimed.axis_z)];
        let mut left = self.wake.left(aside, self.aimed.radius);
        for neighbour in &self.neighbours[..self.count] {
            let rod = &neighbour.rod;
            let (place, across) = rod.foot(point);
            let added = neighbour.adds(&self.aimed.jet, point, place, across);
            air.velocity = along(air.velocity, added, like.lit(1.0));
            left = left * neighbour.wake.left(across, rod.radius);
            let out = rod.out(point);
            let distance = dot(out, out).sqrt().max(like.lit(1e-6));
            let radius = like.splat(rod.radius);
            let gap = (distance - radius).max(zero);
            let nearer = gap.lt(air.wall.gap);
            let inverse = like.lit(1.0) / distance;
            let bend = like.lit(1.0) / distance.max(radius);
            let normal = air.wall.normal;
            air.wall = Wall {
                gap: L::select(nearer, gap, air.wall.gap),
                normal: [
                    L::select(nearer, out[0] * inverse, normal[0]),
                    L::select(nearer, out[1] * inverse, normal[1]),
                    L::select(nearer, out[2] * inverse, normal[2]),
                ],
                bend: L::select(nearer, bend, air.wall.bend),
                damping: L::select(nearer, radius.min(like.splat(self.aimed.damping)), air.wall.damping),
            };
        }
        air.velocity = scale(air.velocity, left);
        air
    }
}
