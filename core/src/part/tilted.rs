//! A flat face aslant to the gun.

use super::Part;
use crate::lanes::{Lanes, Real};
use crate::surface::{Vec3, dot};

/// The face n . p = distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltedPart<T> {
    /// Unit normal into the face.
    pub normal: [T; 3],
    /// Tip to face, square on [m].
    pub distance: T,
    /// A droplet further from the gun's axis along x or y has missed [m].
    pub half: T,
    /// Wall layer of the air [m].
    pub layer: T,
}

impl TiltedPart<f64> {
    /// The same part in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> TiltedPart<T> {
        TiltedPart {
            normal: self.normal.map(T::from_f64),
            distance: T::from_f64(self.distance),
            half: T::from_f64(self.half),
            layer: T::from_f64(self.layer),
        }
    }
}

impl<L: Lanes> Part<L> for TiltedPart<L::Scalar> {
    #[inline(always)]
    fn gap(&self, point: Vec3<L>) -> L {
        let x = point[0];
        let [a, b, c] = self.normal;
        x.splat(self.distance) - dot(point, [x.splat(a), x.splat(b), x.splat(c)])
    }
    #[inline(always)]
    fn passed(&self, [x, y, _]: Vec3<L>) -> L::Mask {
        let half = x.splat(self.half);
        L::or(half.lt(x.abs()), half.lt(y.abs()))
    }
    #[inline(always)]
    fn change(&self, [x, _, z]: Vec3<L>, velocity: Vec3<L>, speed: L, gap: L) -> L {
        let [a, b, c] = self.normal;
        let towards =
            dot(velocity, [x.splat(a), x.splat(b), x.splat(c)]).abs() + speed * x.lit(super::ANY_WAY);
        let layer = gap + x.splat(self.layer) * x.lit(0.1);
        (speed / z.max(x.lit(1e-3)) * x.lit(0.5)).max(towards / layer)
    }
}
