//! Where the gun's rays meet a face: the tilted gun's frame, and the tilted gun before a tube as a straight one.

use super::Moment;
use crate::math::{cos, sin};
use glam::DVec3;

/// Right, up and ahead of a gun in the frame of the face at its foot: along x, along y, out of the face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// The gun's right.
    pub right: DVec3,
    /// Up the gun's upright fan.
    pub up: DVec3,
    /// Where it points.
    pub ahead: DVec3,
}

impl Frame {
    /// A gun tipped up by `heel` and swung along x by `swing` [rad].
    #[must_use]
    pub fn tilted(heel: f64, swing: f64) -> Self {
        let (sh, ch, ss, cs) = (sin(heel), cos(heel), sin(swing), cos(swing));
        Self {
            right: DVec3::new(cs, 0.0, ss),
            up: DVec3::new(-ss * sh, ch, cs * sh),
            ahead: DVec3::new(ss * ch, sh, -cs * ch),
        }
    }

    /// The same with the cap turned clockwise by `turn` [rad], as seen from behind the gun.
    #[must_use]
    pub fn turned(&self, turn: f64) -> Self {
        if turn == 0.0 {
            return *self;
        }
        let (c, s) = (cos(turn), sin(turn));
        Self { right: self.right * c - self.up * s, up: self.right * s + self.up * c, ahead: self.ahead }
    }

    /// A direction of the face in this frame.
    #[must_use]
    pub fn of(&self, v: DVec3) -> DVec3 {
        DVec3::new(self.right.dot(v), self.up.dot(v), self.ahead.dot(v))
    }
}

/// A gun before a tube of a radius, as a gun that is not tipped: the tube is round, so tipping is standing at another side
/// with the aim beside the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeforeTube {
    /// Side it stands at, turned from the first [rad].
    pub turn: f64,
    /// Tip to the tube's nearest face, along its own direction [m].
    pub distance: f64,
    /// How far the tube's axis passes beside the gun's, towards larger angles [m].
    pub aside: f64,
}

impl BeforeTube {
    /// The straight pose of a moment.
    #[must_use]
    pub fn of(moment: &Moment, radius: f64) -> Self {
        let (s, c) = (sin(moment.heel), cos(moment.heel));
        let out = radius + moment.distance;
        Self {
            turn: moment.turn - moment.heel,
            distance: (out * c - moment.y * s) - radius,
            aside: -(moment.y * c + out * s),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tilted_frame_is_square() {
        let f = Frame::tilted(0.3, -0.5).turned(0.7);
        for (a, b) in [(f.right, f.up), (f.up, f.ahead), (f.right, f.ahead)] {
            assert!(a.dot(b).abs() < 1e-15);
        }
        for v in [f.right, f.up, f.ahead] {
            assert!((v.length() - 1.0).abs() < 1e-15);
        }
        // Square on: right is x, up is y, ahead is into the face.
        assert_eq!(Frame::tilted(0.0, 0.0).of(DVec3::new(1.0, 2.0, -3.0)), DVec3::new(1.0, 2.0, 3.0));
        // A quarter clockwise lays the upright fan's top to the right.
        let quarter = Frame::tilted(0.0, 0.0).turned(core::f64::consts::FRAC_PI_2);
        assert!((quarter.up - DVec3::X).length() < 1e-15);
    }

    #[test]
    fn a_gun_tipped_up_before_a_tube_aims_over_its_axis() {
        let moment = Moment { distance: 0.18, heel: 0.1, ..Moment::default() };
        let straight = BeforeTube::of(&moment, 0.011);
        // It passes 0.191 sin(0.1) over the axis, which so lies below its own.
        assert!((straight.aside + 0.191 * sin(0.1)).abs() < 1e-15);
        assert!((straight.distance - (0.191 * cos(0.1) - 0.011)).abs() < 1e-15);
    }
}
