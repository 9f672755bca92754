//! A gun that hangs on an elbow and swings in an arc, unless its painter steps along.
//!
//! The elbow is a pivot [`Elbow::ARM`] behind the tip (a forearm and the gun; the figure of the arcing hand elsewhere in
//! this library). Aimed at a place s beside the pivot the arm turns by atan(s / (arm + distance)): the tip goes back from
//! the face and points outwards.

use crate::math;
use crate::stroke::Moment;

/// The pivot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elbow {
    /// Where it stands along the face [m].
    pub x: f64,
}

impl Elbow {
    /// Pivot to tip [m].
    pub const ARM: f64 = 0.7;

    /// The gun aimed where `square` has its foot; `square.distance` is the distance it has right before the pivot [m].
    #[must_use]
    pub fn swung(self, square: &Moment) -> Moment {
        let from_face = Self::ARM + square.distance;
        let angle = math::atan((square.x - self.x) / from_face);
        Moment {
            x: self.x + Self::ARM * math::sin(angle),
            distance: from_face - Self::ARM * math::cos(angle),
            swing: angle,
            ..*square
        }
    }
}
