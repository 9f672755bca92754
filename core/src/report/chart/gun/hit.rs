//! Where each control of the drawn gun can be taken hold of.

use super::Knob;
use super::geometry::Pose;
use super::{air, fan};
use crate::gun::Feed;
use crate::math::{cos, sin};
use crate::report::chart::svg::n;

/// A rectangle in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// Frame, as an SVG transform.
    pub transform: String,
    /// Left edge [u].
    pub x: f64,
    /// Upper edge [u].
    pub y: f64,
    /// Width [u].
    pub w: f64,
    /// Height [u].
    pub h: f64,
}

impl Hit {
    /// The same, `by` larger all round [u].
    #[must_use]
    pub fn grown(mut self, by: f64) -> Self {
        self.x -= by;
        self.y -= by;
        self.w += 2.0 * by;
        self.h += 2.0 * by;
        self
    }
}

/// A knob's face.
pub fn knob(knob: Knob, pose: &Pose) -> Hit {
    let slid = |frame: String, by: f64| format!("{frame} translate({} 0)", n(by));
    let (transform, x, w, half) = match knob {
        Knob::Fan => (slid(fan::frame(), pose.fan), 98.0, 58.0, 32.0),
        Knob::Air => (slid(air::frame(), pose.air), 78.0, 52.0, 28.0),
        Knob::Fluid => (slid(String::new(), pose.stop), 390.0, 66.0, 33.0),
    };
    Hit { transform, x, y: -half, w, h: 2.0 * half }
}

/// The trigger's blade.
pub fn trigger(pose: &Pose) -> Hit {
    let (px, py) = super::geometry::PIVOT;
    let transform = format!("rotate({} {} {})", n(-pose.trigger.to_degrees()), n(px), n(py));
    Hit { transform, x: 168.0, y: -82.0, w: 74.0, h: 322.0 }
}

/// The cup: where its level can be dragged, and its height from empty to full [u]; none for a pot.
pub fn cup(feed: Feed) -> Option<(Hit, f64)> {
    let hit = |x, y, w, h| Hit { transform: String::new(), x, y, w, h };
    match feed {
        Feed::Gravity => Some((hit(30.0, -290.0, 176.0, 168.0), 120.0)),
        Feed::Suction => Some((hit(-22.0, 130.0, 160.0, 210.0), 196.0)),
        Feed::Pressure => None,
    }
}

/// Middle of a knob's outer end, in the gun's frame [u]: where its leader starts.
pub fn leader_start(knob: Knob, pose: &Pose) -> (f64, f64) {
    use super::geometry::{AIR_FOOT, AIR_SLOPE, FAN_SEAT, FAN_SLOPE};
    let along = |foot: (f64, f64), slope: f64, s: f64, side: f64| {
        let a = slope.to_radians();
        let (sin, cos) = (sin(a), cos(a));
        (foot.0 + s * cos - side * sin, foot.1 + s * sin + side * cos)
    };
    match knob {
        Knob::Fan => along(FAN_SEAT, FAN_SLOPE, 160.0 + pose.fan, 10.0),
        Knob::Air => along(AIR_FOOT, AIR_SLOPE, 134.0 + pose.air, 0.0),
        Knob::Fluid => (460.0 + pose.stop, 6.0),
    }
}

#[cfg(test)]
mod tests {
    use super::super::GunFace;
    use super::*;

    #[test]
    fn the_hit_follows_its_knob() {
        let shut = Pose::of(&GunFace::default());
        let open = Pose::of(&GunFace { fan: 1.0, air: 1.0, fluid: 1.0, ..GunFace::default() });
        for k in Knob::ALL {
            assert_ne!(knob(k, &shut).transform, knob(k, &open).transform);
            assert!(leader_start(k, &open).0 > leader_start(k, &shut).0);
        }
        let h = knob(Knob::Fan, &shut).grown(10.0);
        assert_eq!((h.x, h.w, h.h), (88.0, 78.0, 84.0));
    }
}
