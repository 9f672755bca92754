//! A frame: straight tubes, each with a name, as they stand in the booth.

mod own;

use crate::math::{cos, sin};
use glam::DVec3;

/// One straight tube of a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// Plain name ("front leg, left"), no two alike in a frame.
    pub name: String,
    /// One end of its axis: x to the painter's right, y up, z towards the painter [m].
    pub from: DVec3,
    /// The other end [m].
    pub to: DVec3,
    /// Outer diameter [m].
    pub diameter: f64,
    /// Strokes go along it.
    pub sprayed: bool,
}

impl Member {
    /// A tube that is sprayed.
    #[must_use]
    pub fn new(name: impl Into<String>, from: DVec3, to: DVec3, diameter: f64) -> Self {
        Self { name: name.into(), from, to, diameter, sprayed: true }
    }

    /// Length [m].
    #[must_use]
    pub fn length(&self) -> f64 {
        (self.to - self.from).length()
    }

    /// Its direction, of length 1.
    #[must_use]
    pub fn axis(&self) -> DVec3 {
        (self.to - self.from) / self.length()
    }

    /// Middle of its axis [m].
    #[must_use]
    pub fn middle(&self) -> DVec3 {
        0.5 * (self.from + self.to)
    }

    /// Outer radius [m].
    #[must_use]
    pub fn radius(&self) -> f64 {
        0.5 * self.diameter
    }

    /// Distance of a point from its axis, which ends where the tube ends [m].
    #[must_use]
    pub fn distance(&self, point: DVec3) -> f64 {
        let axis = self.axis();
        let along = (point - self.from).dot(axis).clamp(0.0, self.length());
        (point - self.from - axis * along).length()
    }
}

/// A frame of tubes. Its box's middle is the part's middle.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    /// Word of the job file ("chair"); none for a list of one's own.
    pub shape: Option<&'static str>,
    /// The tubes, at least one.
    pub members: Vec<Member>,
    /// Where its box's middle lay before it was moved to 0, as the list measures [m].
    pub middle: DVec3,
}

/// Most tubes of a frame.
pub const MOST_MEMBERS: usize = 40;

impl Frame {
    /// The frames that a job file may name.
    pub const SHAPES: [&'static str; 4] = ["chair", "bicycle", "railing", "rack"];

    /// The frame of a word of [`Frame::SHAPES`]; our own shapes, of the sizes such things usually have.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        let (shape, members) = match word {
            "chair" => (Self::SHAPES[0], own::chair()),
            "bicycle" => (Self::SHAPES[1], own::bicycle()),
            "railing" => (Self::SHAPES[2], own::railing()),
            "rack" => (Self::SHAPES[3], own::rack()),
            _ => return None,
        };
        Some(Self { shape: Some(shape), ..Self::of(members) })
    }

    /// A frame of these tubes, moved so that its box's middle is 0.
    #[must_use]
    pub fn of(mut members: Vec<Member>) -> Self {
        let ends = |m: &Member| [m.from, m.to];
        let low = members.iter().flat_map(ends).reduce(DVec3::min).unwrap_or_default();
        let high = members.iter().flat_map(ends).reduce(DVec3::max).unwrap_or_default();
        let middle = 0.5 * (low + high);
        for member in &mut members {
            member.from -= middle;
            member.to -= middle;
        }
        Self { shape: None, members, middle }
    }

    /// The frame as it stands: `lean` [rad] pi/2 as it is drawn, 0 laid on its back so that its front faces up, pi its
    /// front faces down.
    #[must_use]
    pub fn standing(&self, lean: f64) -> Self {
        let (s, c) = (sin(lean), cos(lean));
        // Turned about x: what faced the painter faces (0, cos, sin); as it is drawn, to the bit.
        let turn = |p: DVec3| {
            if lean == core::f64::consts::FRAC_PI_2 {
                p
            } else {
                DVec3::new(p.x, p.y * s + p.z * c, p.z * s - p.y * c)
            }
        };
        let members = self.members.iter();
        let members = members.map(|m| Member { from: turn(m.from), to: turn(m.to), ..m.clone() }).collect();
        Self { shape: self.shape, members, middle: self.middle }
    }

    /// Size of its box, the tubes' own thickness left out [m].
    #[must_use]
    pub fn size(&self) -> DVec3 {
        let ends = |m: &Member| [m.from, m.to];
        let low = self.members.iter().flat_map(ends).reduce(DVec3::min).unwrap_or_default();
        let high = self.members.iter().flat_map(ends).reduce(DVec3::max).unwrap_or_default();
        high - low
    }

    /// Length of all tubes together [m].
    #[must_use]
    pub fn length(&self) -> f64 {
        self.members.iter().map(Member::length).sum()
    }

    /// The thickest tube's diameter [m].
    #[must_use]
    pub fn thickest(&self) -> f64 {
        self.members.iter().map(|m| m.diameter).fold(0.0, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::{FRAC_PI_2, PI};

    #[test]
    fn every_shape_has_names_of_its_own_and_its_middle_at_0() {
        for word in Frame::SHAPES {
            let frame = Frame::named(word).expect("a shape");
            assert_eq!(frame.shape, Some(word));
            assert!(frame.members.len() <= MOST_MEMBERS && frame.members.iter().any(|m| m.sprayed));
            for (i, member) in frame.members.iter().enumerate() {
                assert!(frame.members[..i].iter().all(|m| m.name != member.name), "{}", member.name);
                assert!((0.02..3.0).contains(&member.length()) && (0.003..0.1).contains(&member.diameter));
            }
            let middle = Frame::of(frame.members.clone());
            assert!((middle.members[0].from - frame.members[0].from).length() < 1e-12);
        }
        assert!(Frame::named("table").is_none());
    }

    #[test]
    fn laid_flat_the_front_faces_up() {
        let tube = Member::new("one", DVec3::new(0.0, 0.0, 0.3), DVec3::new(0.0, 0.5, 0.3), 0.02);
        let other = Member::new("two", DVec3::new(0.0, 0.0, -0.3), DVec3::new(0.0, 0.5, -0.3), 0.02);
        let frame = Frame::of(vec![tube, other]);
        assert_eq!(frame.standing(FRAC_PI_2), frame);
        assert!(frame.standing(0.0).members[0].middle().y > 0.29);
        assert!(frame.standing(PI).members[0].middle().y < -0.29);
    }
}
