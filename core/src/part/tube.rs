//! A tube along x.

use super::Part;
use crate::lanes::{Lanes, Real};
use crate::surface::Vec3;

/// A tube along x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubePart<T> {
    /// Radius [m].
    pub radius: T,
    /// Axis, y [m].
    pub axis_y: T,
    /// Axis, z [m].
    pub axis_z: T,
    /// A droplet that is this far behind the axis has passed by [m].
    pub behind: T,
    /// A droplet this far to the side of the gun's axis has passed by [m].
    pub half: T,
}

impl TubePart<f64> {
    /// The same part in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> TubePart<T> {
        TubePart {
            radius: T::from_f64(self.radius),
            axis_y: T::from_f64(self.axis_y),
            axis_z: T::from_f64(self.axis_z),
            behind: T::from_f64(self.behind),
            half: T::from_f64(self.half),
        }
    }
}

impl<L: Lanes> Part<L> for TubePart<L::Scalar> {
    #[inline(always)]
    fn gap(&self, [_, y, z]: Vec3<L>) -> L {
        let (dy, dz) = (y - y.splat(self.axis_y), z - y.splat(self.axis_z));
        (dy * dy + dz * dz).sqrt() - y.splat(self.radius)
    }
    #[inline(always)]
    fn passed(&self, [x, y, z]: Vec3<L>) -> L::Mask {
        let half = x.splat(self.half);
        let behind = x.splat(self.behind).lt(z - x.splat(self.axis_z));
        L::or(behind, L::or(half.lt(x.abs()), half.lt(y.abs())))
    }
    #[inline(always)]
    fn change(&self, [x, _, z]: Vec3<L>, _velocity: Vec3<L>, speed: L, gap: L) -> L {
        let near = gap + x.splat(self.radius) * x.lit(0.1);
        (speed / z.max(x.lit(1e-3)) * x.lit(0.5)).max(speed / near)
    }
}
