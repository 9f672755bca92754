//! Where the gun stands before a tube of a frame, and how the booth looks from there.
//!
//! A gun swung along the tube by s is flown square on at the distance along its own axis and then leant: from the tip, X along the
//! tube, Y across and Z into it become X cos s - Z sin s, Y and Z / cos s. That keeps volumes, rays near the gun's axis and the tube's
//! direction; off the axis by x it moves depth by x tan s. Ours: geometry, as on a single tube.

use crate::film::Place;
use crate::math::{cos, sin};
use crate::rod::Rod;
use crate::stroke::{BeforeTube, Moment};
use glam::DVec3;

/// Nearest a gun comes to a tube [m].
const NEAREST: f64 = 0.02;
/// Farthest the tube's axis passes beside the gun's [m].
const BESIDE: f64 = 0.9;

/// The gun at one place of its way, told from the tube it goes along.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Visit {
    /// Number of the pass; a hand's are counted through all coats.
    pub pass: usize,
    /// Tube it goes along.
    pub member: usize,
    /// Tip's foot along it, from the tube's middle [m].
    pub x: f64,
    /// Side it stands at, turned from the first [rad].
    pub turn: f64,
    /// Tip to the tube along the gun's direction, before it is swung [m].
    pub distance: f64,
    /// How far the tube's axis passes beside the gun's, towards larger angles [m].
    pub aside: f64,
    /// Swung along the tube [rad].
    pub swing: f64,
}

impl Visit {
    /// The gun of a hand at a moment of pass `pass`, before a tube of `radius` [m].
    pub(super) fn of(moment: &Moment, pass: usize, radius: f64) -> Self {
        let straight = BeforeTube::of(moment, radius);
        Self {
            pass,
            member: moment.member,
            x: moment.x,
            turn: straight.turn,
            distance: straight.distance.max(NEAREST),
            aside: straight.aside.clamp(-BESIDE, BESIDE),
            swing: moment.swing,
        }
    }

    /// Tip to the tube along the gun's axis [m].
    #[must_use]
    pub fn reach(&self) -> f64 {
        if self.swing == 0.0 { self.distance } else { self.distance / cos(self.swing) }
    }
}

/// The gun's frame in the booth: where its tip is, and its directions.
pub(super) struct Stand {
    tip: DVec3,
    along: DVec3,
    up: DVec3,
    out: DVec3,
    /// Sine and cosine of the swing; none where the gun is square on.
    lean: Option<(f64, f64)>,
}

impl Stand {
    pub fn new(visit: &Visit, place: &Place) -> Self {
        let out = place.normal(visit.turn * place.radius);
        let on = place.middle + place.along * visit.x + out * place.radius;
        let up = out.cross(place.along);
        let mut tip = on + out * visit.distance;
        if visit.aside != 0.0 {
            tip -= up * visit.aside;
        }
        let lean = (visit.swing != 0.0).then(|| (sin(visit.swing), cos(visit.swing)));
        Self { tip, along: place.along, up, out, lean }
    }

    /// A direction of the booth in the gun's frame.
    pub fn turned(&self, v: DVec3) -> [f64; 3] {
        let [x, y, z] = [v.dot(self.along), v.dot(self.up), -v.dot(self.out)];
        match self.lean {
            Some((s, c)) => [x * c - z * s, y, z / c],
            None => [x, y, z],
        }
    }

    /// A point of the booth in the gun's frame.
    pub fn seen(&self, point: DVec3) -> [f64; 3] {
        self.turned(point - self.tip)
    }

    /// A tube of the booth in the gun's frame.
    pub fn rod(&self, from: DVec3, to: DVec3, radius: f64) -> Rod<f64> {
        let end = DVec3::from_array(self.seen(from));
        match self.lean {
            Some(_) => {
                let other = DVec3::from_array(self.seen(to));
                let length = (other - end).length();
                Rod { end: end.to_array(), axis: ((other - end) / length).to_array(), length, radius }
            }
            None => {
                let length = (to - from).length();
                Rod { end: end.to_array(), axis: self.turned((to - from) / length), length, radius }
            }
        }
    }

    /// A place of the gun's frame: along the tube, across it, into it, from the tip [m].
    fn straight(&self, at: DVec3) -> DVec3 {
        match self.lean {
            Some((s, c)) => DVec3::new(at.x / c + at.z * s, at.y, at.z * c),
            None => at,
        }
    }

    /// How far along the tube a place of the gun's frame is from the tip's foot [m].
    pub fn along(&self, x: f64, z: f64) -> f64 {
        self.straight(DVec3::new(x, 0.0, z)).x
    }

    /// A place of the gun's frame in the booth.
    pub fn booth(&self, at: DVec3) -> DVec3 {
        let at = self.straight(at);
        self.tip + self.along * at.x + self.up * at.y - self.out * at.z
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place() -> Place {
        Place {
            middle: DVec3::new(0.2, 0.7, -0.1),
            along: DVec3::X,
            front: DVec3::new(0.0, 0.6, 0.8),
            radius: 0.011,
        }
    }

    fn visit(swing: f64, aside: f64) -> Visit {
        Visit { pass: 0, member: 0, x: 0.1, turn: 0.4, distance: 0.15, aside, swing }
    }

    #[test]
    fn what_is_seen_is_where_it_was() {
        for (swing, aside) in [(0.0, 0.0), (0.5, 0.0), (-0.6, 0.03)] {
            let stand = Stand::new(&visit(swing, aside), &place());
            for point in [DVec3::new(0.3, 0.6, 0.2), DVec3::new(-0.1, 0.71, -0.3)] {
                let back = stand.booth(DVec3::from_array(stand.seen(point)));
                assert!((back - point).length() < 1e-14, "{swing} {back} {point}");
            }
        }
    }

    #[test]
    fn the_tube_lies_across_the_gun_at_the_distance_along_its_axis() {
        for (swing, aside) in [(0.0, 0.02), (0.4, -0.01)] {
            let (v, place) = (visit(swing, aside), place());
            let stand = Stand::new(&v, &place);
            let front = place.middle + place.normal(v.turn * place.radius) * place.radius;
            let rod = stand.rod(front - DVec3::X * 0.3, front + DVec3::X * 0.3, place.radius);
            assert!((rod.axis[0] - 1.0).abs() < 1e-12, "{:?}", rod.axis);
            assert!((rod.end[2] - v.reach()).abs() < 1e-12 && (rod.end[1] - aside).abs() < 1e-12, "{rod:?}");
            // The gun's own axis meets it where a swung gun points.
            let meets = v.x + v.distance * crate::math::sin(swing) / crate::math::cos(swing);
            assert!((v.x + stand.along(0.0, v.reach()) - meets).abs() < 1e-12);
        }
    }
}
