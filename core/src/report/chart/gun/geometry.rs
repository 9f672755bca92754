//! Where the drawn gun's moving pieces stand for a given setting.
//!
//! Drawing units [u]: the tip's face is the origin, x runs back along the needle's axis, y runs down. The section
//! is not to scale: needle travel is drawn about twice too long so that the eye can see it.

use super::GunFace;
use crate::math::{atan, tan};

/// Needle travel with the fluid knob fully open [u].
pub const NEEDLE_TRAVEL: f64 = 10.0;
/// Trigger angle at which the air valve is open and the trigger meets the needle's collar [rad].
pub const AIR_STAGE: f64 = 0.0785;
/// Trigger pivot [u].
pub const PIVOT: (f64, f64) = (184.0, -62.0);
/// Height of the air valve's stem under the needle's axis [u].
pub const VALVE_Y: f64 = 54.0;
/// Slide of the fan and air knobs for each turn [u].
pub const SLIDE_PER_TURN: f64 = 8.0;
/// Foot of the fan valve's axis (its seat) [u], and the axis' slope [degrees].
pub const FAN_SEAT: (f64, f64) = (282.0, -62.0);
/// Slope of the fan valve's axis [degrees].
pub const FAN_SLOPE: f64 = -32.0;
/// Foot of the air knob's axis [u].
pub const AIR_FOOT: (f64, f64) = (352.0, 378.0);
/// Slope of the air knob's axis [degrees].
pub const AIR_SLOPE: f64 = 8.0;
/// Centre of the gauge [u].
pub const GAUGE: (f64, f64) = (374.0, 506.0);
/// Radius of the gauge [u].
pub const GAUGE_R: f64 = 47.0;
/// Where the paint column stands [u].
pub const COLUMN_X: f64 = 118.0;

/// Positions that follow from one setting [u, rad].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pose {
    /// How far the needle has come back.
    pub needle: f64,
    /// How far the fluid knob (and its stop) stands out.
    pub stop: f64,
    /// How far the fan valve's needle and knob stand out.
    pub fan: f64,
    /// How far the air knob stands out.
    pub air: f64,
    /// Trigger angle from rest.
    pub trigger: f64,
    /// How far the air valve's stem is pushed in.
    pub valve: f64,
}

impl Pose {
    /// Pose of a setting; shares outside 0..=1 are taken at the nearer end.
    pub fn of(face: &GunFace) -> Self {
        let share = |v: f64| if v.is_finite() { v.clamp(0.0, 1.0) } else { 0.0 };
        let stop = share(face.fluid) * NEEDLE_TRAVEL;
        let lever = -PIVOT.1;
        let (trigger, needle) = match face.stage {
            super::Stage::Rest => (0.0, 0.0),
            super::Stage::Air => (AIR_STAGE, 0.0),
            super::Stage::Paint => {
                let needle = stop.min(share(face.pull) * NEEDLE_TRAVEL);
                (AIR_STAGE + atan(needle / lever), needle)
            }
        };
        Self {
            needle,
            stop,
            fan: share(face.fan) * face.fan_turns * SLIDE_PER_TURN,
            air: share(face.air) * face.air_turns * SLIDE_PER_TURN,
            trigger,
            valve: (VALVE_Y - PIVOT.1) * tan(trigger),
        }
    }
}

/// Gauge needle's angle from straight up, clockwise [degrees]; 0 to `full` bar sweep 270 degrees.
pub fn gauge_angle(bar: f64, full: f64) -> f64 {
    let share = if bar.is_finite() && full > 0.0 { (bar / full).clamp(0.0, 1.05) } else { 0.0 };
    -135.0 + 270.0 * share
}

#[cfg(test)]
mod tests {
    use super::super::Stage;
    use super::*;

    #[test]
    fn the_fluid_knob_is_a_stop_for_the_needle() {
        let mut face = GunFace { stage: Stage::Paint, pull: 1.0, fluid: 0.5, ..GunFace::default() };
        let pose = Pose::of(&face);
        assert!((pose.needle - 0.5 * NEEDLE_TRAVEL).abs() < 1e-12);
        face.pull = 0.25;
        assert!((Pose::of(&face).needle - 0.25 * NEEDLE_TRAVEL).abs() < 1e-12);
        face.fluid = 0.0;
        assert_eq!(Pose::of(&face).needle, 0.0);
    }

    #[test]
    fn air_comes_before_paint() {
        let face = GunFace { stage: Stage::Air, ..GunFace::default() };
        let pose = Pose::of(&face);
        assert_eq!(pose.needle, 0.0);
        assert!(pose.valve > 5.0 && pose.trigger == AIR_STAGE);
        assert_eq!(Pose::of(&GunFace { stage: Stage::Rest, ..face }).valve, 0.0);
    }

    #[test]
    fn bad_values_draw_the_shut_gun() {
        let face = GunFace { fan: f64::NAN, fluid: f64::INFINITY, air: -3.0, ..GunFace::default() };
        let pose = Pose::of(&face);
        assert!(pose.fan == 0.0 && pose.air == 0.0 && pose.stop == 0.0);
        assert_eq!(gauge_angle(f64::NAN, 6.0), -135.0);
    }
}
