//! A face curved outwards about an axis along x.

use super::{Part, TubePart};
use crate::lanes::{Lanes, Real};
use crate::surface::Vec3;

/// A curved face: met as a tube, stepped towards as a panel, by the layer in which the air stops and not by its radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurvedPart<T> {
    /// The whole round that it is a piece of.
    pub tube: TubePart<T>,
    /// Wall layer of the air [m].
    pub layer: T,
}

impl CurvedPart<f64> {
    /// The same part in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> CurvedPart<T> {
        CurvedPart { tube: self.tube.cast(), layer: T::from_f64(self.layer) }
    }
}

impl<L: Lanes> Part<L> for CurvedPart<L::Scalar> {
    #[inline(always)]
    fn gap(&self, point: Vec3<L>) -> L {
        self.tube.gap(point)
    }
    #[inline(always)]
    fn passed(&self, point: Vec3<L>) -> L::Mask {
        self.tube.passed(point)
    }
    #[inline(always)]
    fn change(&self, [x, y, z]: Vec3<L>, [_, vy, vz]: Vec3<L>, speed: L, gap: L) -> L {
        let (dy, dz) = (y - x.splat(self.tube.axis_y), z - x.splat(self.tube.axis_z));
        let inverse = x.lit(1.0) / (gap + x.splat(self.tube.radius)).max(x.lit(1e-6));
        let towards = ((vy * dy + vz * dz) * inverse).abs() + speed * x.lit(super::ANY_WAY);
        let layer = gap + x.splat(self.layer) * x.lit(0.1);
        (speed / z.max(x.lit(1e-3)) * x.lit(0.5)).max(towards / layer)
    }
}
