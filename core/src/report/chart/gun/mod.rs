//! The drawn gun: a section through the middle, nozzle left, that is also the control panel.
//!
//! Each moving piece is its own function, so that the page redraws that piece alone. Order from back to front:
//! [`still_back`], [`cup`](cup::level), paint, needle, knobs, trigger, gauge needle.

pub mod air;
pub mod below;
pub mod body;
pub mod cap;
pub mod closer;
pub mod cup;
mod face;
pub mod fan;
pub mod fluid;
pub mod gauge;
pub mod geometry;
pub mod hit;
pub mod trigger;

pub use self::face::{GunFace, Knob, Stage, face_of};
use crate::gun::Feed;
use crate::report::chart::svg::{group, n};
use geometry::Pose;

/// The whole gun as one piece of SVG in drawing units (for pictures and small signs); `ids` names its patterns.
pub fn whole(face: &GunFace, ids: &str, pitch: f64) -> String {
    drawn(face, ids, pitch, &gauge::moving(face))
}

/// The same without a letter in it: for drawings so small that the dial's figures cannot be read.
pub fn mute(face: &GunFace, ids: &str, pitch: f64) -> String {
    drawn(face, ids, pitch, &gauge::dial(face, 1.0, "", 1.0))
}

fn drawn(face: &GunFace, ids: &str, pitch: f64, dial: &str) -> String {
    let pose = Pose::of(face);
    let gun = [
        still_back(ids, pitch, face.feed),
        fluid::moving(&pose, face, ids),
        cup::level(face),
        fan::moving(&pose, face, ids),
        air::moving(&pose, face),
        dial.into(),
        trigger::moving(&pose),
    ]
    .concat();
    mirror(face.mirror, &gun)
}

/// What does not move but with the kit: hoses, body, cap, cup.
pub fn still_back(ids: &str, pitch: f64, feed: Feed) -> String {
    format!(
        "<defs>{}</defs>{}{}{}{}{}{}",
        crate::report::chart::svg::hatches(ids, pitch),
        [below::hose(feed), gauge::still(ids)].concat(),
        cup::still(ids, feed),
        body::still(ids, feed),
        fluid::still(ids, feed) + &below::neck(ids, feed),
        cap::section(ids),
        fan::still(ids),
    )
}

/// Turns a drawing over for the left hand, about the gun's middle.
pub fn mirror(left_hand: bool, inner: &str) -> String {
    if left_hand {
        group(&format!("translate({} 0) scale(-1 1)", n(2.0 * MIDDLE)), inner)
    } else {
        inner.into()
    }
}

/// The line about which the gun is turned over for the left hand [u].
pub const MIDDLE: f64 = 210.0;

#[cfg(test)]
mod tests {
    use super::*;
    use super::{Knob, Stage};

    fn balanced(svg: &str) -> bool {
        let mut depth = 0_i32;
        for tag in svg.split('<').skip(1) {
            if tag.starts_with('/') {
                depth -= 1;
            } else if !tag.split('>').next().unwrap_or_default().ends_with('/') {
                depth += 1;
            }
            if depth < 0 {
                return false;
            }
        }
        depth == 0
    }

    #[test]
    fn every_setting_draws_sound_svg() {
        for stage in [Stage::Rest, Stage::Air, Stage::Paint] {
            for v in [0.0, 0.4, 1.0, f64::NAN] {
                for in_hand in [None, Some(Knob::Fan), Some(Knob::Air), Some(Knob::Fluid)] {
                    for feed in [Feed::Gravity, Feed::Suction, Feed::Pressure] {
                        let face = GunFace {
                            feed,
                            fan: v,
                            fluid: v,
                            air: v,
                            cup_level: v,
                            stage,
                            in_hand,
                            ..GunFace::default()
                        };
                        let svg = whole(&face, "t", 8.0);
                        assert!(balanced(&svg));
                        assert!(!svg.contains("NaN") && !svg.contains("inf") && !svg.contains("style="));
                    }
                }
            }
        }
    }

    #[test]
    fn turning_a_knob_changes_its_piece_alone() {
        let shut = GunFace { stage: Stage::Rest, ..GunFace::default() };
        let open = GunFace { fan: 0.5, ..shut };
        let (a, b) = (Pose::of(&shut), Pose::of(&open));
        assert_ne!(fan::moving(&a, &shut, "t"), fan::moving(&b, &open, "t"));
        assert_eq!(fluid::moving(&a, &shut, "t"), fluid::moving(&b, &open, "t"));
        assert_eq!(air::moving(&a, &shut), air::moving(&b, &open));
    }
}
