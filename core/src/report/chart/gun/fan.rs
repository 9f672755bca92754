//! Fan valve on its slanting axis, with the fan knob above.

use super::fluid::knurled;
use super::geometry::{FAN_SEAT, FAN_SLOPE, Pose};
use super::{GunFace, Knob};
use crate::report::chart::svg::{filled, group, n, path};

/// Frame of the fan valve: x out along its axis from the seat.
pub fn frame() -> String {
    format!("translate({} {}) rotate({})", n(FAN_SEAT.0), n(FAN_SEAT.1), n(FAN_SLOPE))
}

/// Valve room and gland.
pub fn still(ids: &str) -> String {
    let b = format!("{ids}-b");
    let inner = [
        path("air inside", "M0 -4.500L4 -11H50V11H4L0 4.500Z"),
        filled("part", &b, "M50 -25H84V25H50Z"),
        path("outline-2 none", "M56 -25H84V25H56Z"),
    ]
    .concat();
    group(&frame(), &inner)
}

/// Needle and knob; a plug on a gun whose cap has no horns.
pub fn moving(pose: &Pose, face: &GunFace, _ids: &str) -> String {
    if face.fan_turns <= 0.0 {
        return group(&frame(), &path("metal part", "M84 -19H96V19H84Z"));
    }
    let class = if face.in_hand == Some(Knob::Fan) { "knob in-hand" } else { "knob" };
    let turned = face.fan.clamp(0.0, 1.0) * face.fan_turns;
    let inner = [
        path("sheet part", "M-2 0L16 -6.500H50V6.500H16Z"),
        path("sheet part", "M84 -9H104V9H84Z"),
        path("metal", "M40 -6H90V6H40Z"),
        path("inside-line", "M50 -6.500H84M50 6.500H84"),
        format!(r#"<g class="{class}" transform="translate(98 0)">{}</g>"#, knurled(58.0, 32.0, turned)),
    ]
    .concat();
    group(&frame(), &group(&format!("translate({} 0)", n(pose.fan)), &inner))
}
