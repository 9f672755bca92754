//! A tube along x among others of any direction.

use super::Part;
use crate::lanes::{Lanes, Real};
use crate::rod::{MOST_RODS, Rod};
use crate::surface::Vec3;

/// The tube aimed at and its neighbours: a droplet lands on whichever it meets first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmongPart<T> {
    /// The tube aimed at, with its two ends.
    pub aimed: Rod<T>,
    count: usize,
    rods: [Rod<T>; MOST_RODS],
    /// The thinnest radius [m].
    thinnest: T,
    /// A droplet this far from the tip has passed them all [m].
    far: T,
    /// A droplet this far to the side of the gun's axis has passed by [m].
    half: T,
}

impl AmongPart<f64> {
    /// The tube aimed at among others, of these the first [`MOST_RODS`]; `far` and `half` where droplets have passed by [m].
    #[must_use]
    pub fn new(aimed: Rod<f64>, others: &[Rod<f64>], far: f64, half: f64) -> Self {
        let count = others.len().min(MOST_RODS);
        let rods = core::array::from_fn(|i| *others.get(i).unwrap_or(&aimed));
        let thinnest = rods.iter().map(|r| r.radius).fold(aimed.radius, f64::min);
        Self { aimed, count, rods, thinnest, far, half }
    }

    /// The same part in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> AmongPart<T> {
        AmongPart {
            aimed: self.aimed.cast(),
            count: self.count,
            rods: self.rods.map(|rod| rod.cast()),
            thinnest: T::from_f64(self.thinnest),
            far: T::from_f64(self.far),
            half: T::from_f64(self.half),
        }
    }

    /// The nearest tube, none for the one aimed at, and the way to the point from its axis.
    #[must_use]
    pub fn nearest(&self, point: [f64; 3]) -> (Option<usize>, [f64; 3]) {
        let mut best = (None, self.aimed.out(point), self.aimed.gap(point));
        for (i, rod) in self.rods[..self.count].iter().enumerate() {
            let gap = rod.gap(point);
            if gap < best.2 {
                best = (Some(i), rod.out(point), gap);
            }
        }
        (best.0, best.1)
    }
}

impl<L: Lanes> Part<L> for AmongPart<L::Scalar> {
    #[inline(always)]
    fn gap(&self, point: Vec3<L>) -> L {
        let mut gap: L = self.aimed.gap(point);
        for rod in &self.rods[..self.count] {
            gap = gap.min(rod.gap(point));
        }
        gap
    }
    #[inline(always)]
    fn passed(&self, [x, y, z]: Vec3<L>) -> L::Mask {
        let half = x.splat(self.half);
        let behind = x.splat(self.far).lt(z);
        L::or(behind, L::or(half.lt(x.abs()), half.lt(y.abs())))
    }
    #[inline(always)]
    fn change(&self, [x, _, z]: Vec3<L>, _velocity: Vec3<L>, speed: L, gap: L) -> L {
        let near = gap + x.splat(self.thinnest) * x.lit(0.1);
        (speed / z.max(x.lit(1e-3)) * x.lit(0.5)).max(speed / near)
    }
}
