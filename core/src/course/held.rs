//! How the gun's cap and its faults lie to the part: places flown in the cap's straight frame, brought to where they are.
//!
//! A pushed spray is flown straight and sheared afterwards, x + z (sideways slope at y/z): the shear keeps volumes, so the air
//! bent with the paint stays free of divergence. What that leaves out: the slant at which a bent jet meets the face
//! (slopes up to about 0.2), and on a tube the change of the shear round it. A turned cap is flown in its own frame, gravity turned
//! the other way, and the places turned back.

use super::Course;
use crate::flight::Scene;
use crate::math::{cos, sin};
use crate::spray::Askew;
use glam::DVec3;

/// Cap and faults as they stand before the part.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Held {
    askew: Askew,
    /// Cosine and sine of the cap's turn.
    turn: Option<[f64; 2]>,
    /// The fan lies along x.
    along_x: bool,
}

impl Held {
    pub(super) fn new(askew: Askew, cap_turn: f64, along_x: bool) -> Self {
        let turn = (cap_turn != 0.0).then(|| [cos(cap_turn), sin(cap_turn)]);
        Self { askew, turn, along_x }
    }

    /// Where a droplet at a place of the straight frame is [m].
    pub(super) fn place(&self, scene: &Scene<f64>, at: DVec3) -> DVec3 {
        if self.turn.is_none() && self.askew.is_none() {
            return at;
        }
        let z = at.z.max(1e-6);
        let mut p = at;
        match scene {
            // Before a slanting face this leaves the face a little, along a plane across the gun: slopes stay true.
            Scene::Panel(..) | Scene::Tilted(..) => p.x += z * self.askew.sideways(at.y / z),
            // A fan along the tube is pushed off it as a whole: `tube_scene` moved the tube instead.
            Scene::Tube(..) | Scene::Curved(..) | Scene::Among(..) if self.along_x => {}
            // What lands on a neighbour stays where it met it.
            Scene::Among(_, part) if part.nearest(at.to_array()).0.is_some() => {}
            Scene::Among(..) => p.x += z * self.askew.sideways(at.y / z),
            Scene::Tube(..) | Scene::Curved(..) => p.x += z * self.askew.sideways(at.y / z),
        }
        if let Some([c, s]) = self.turn {
            // Up the fan is (s, c) in the gun's frame, its right (c, -s).
            (p.x, p.y) = (p.x * c + p.y * s, p.y * c - p.x * s);
        }
        p
    }
}

/// A direction of the gun's frame in the frame of a cap turned by `turn` [rad].
#[must_use]
pub fn in_cap_frame(direction: [f64; 3], turn: f64) -> [f64; 3] {
    if turn == 0.0 {
        return direction;
    }
    let (c, s, [x, y, z]) = (cos(turn), sin(turn), direction);
    [x * c - y * s, x * s + y * c, z]
}

impl Course {
    /// The same with its cap turned clockwise by `turn` [rad] on the way from the flight's frame to the gun's.
    #[must_use]
    pub fn turned(mut self, turn: f64) -> Self {
        self.held = Held::new(self.spray.askew, turn, self.emission.fan_along_x());
        self
    }
}
