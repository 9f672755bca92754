//! A straight tube of any direction in the gun's frame: what the air round a frame and the frame's outline share.

use crate::lanes::{Lanes, Real};
use crate::surface::{Vec3, along, dot, minus};

/// Most tubes beside the one that is aimed at.
pub const MOST_RODS: usize = 6;

/// A straight tube with two ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rod<T> {
    /// One end of its axis [m].
    pub end: [T; 3],
    /// Direction of its axis, of length 1.
    pub axis: [T; 3],
    /// Length [m].
    pub length: T,
    /// Outer radius [m].
    pub radius: T,
}

impl Rod<f64> {
    /// The same tube in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> Rod<T> {
        Rod {
            end: self.end.map(T::from_f64),
            axis: self.axis.map(T::from_f64),
            length: T::from_f64(self.length),
            radius: T::from_f64(self.radius),
        }
    }
}

impl<T: Real> Rod<T> {
    /// Place along the axis of a point's foot on the line of it, and the way from there to the point.
    #[inline(always)]
    pub fn foot<L: Lanes<Scalar = T>>(&self, point: Vec3<L>) -> (L, Vec3<L>) {
        let like = point[0];
        let axis = [like.splat(self.axis[0]), like.splat(self.axis[1]), like.splat(self.axis[2])];
        let end = [like.splat(self.end[0]), like.splat(self.end[1]), like.splat(self.end[2])];
        let from = minus(point, end);
        let place = dot(from, axis);
        (place, along(from, axis, -place))
    }

    /// The way to a point from the nearest point of the axis between its ends.
    #[inline(always)]
    pub fn out<L: Lanes<Scalar = T>>(&self, point: Vec3<L>) -> Vec3<L> {
        let like = point[0];
        let axis = [like.splat(self.axis[0]), like.splat(self.axis[1]), like.splat(self.axis[2])];
        let (place, across) = self.foot(point);
        let kept = place.max(like.lit(0.0)).min(like.splat(self.length));
        along(across, axis, place - kept)
    }

    /// Distance of a point to the surface [m], negative inside; an end is rounded.
    #[inline(always)]
    pub fn gap<L: Lanes<Scalar = T>>(&self, point: Vec3<L>) -> L {
        let out = self.out(point);
        dot(out, out).sqrt() - point[0].splat(self.radius)
    }
}
