//! Air knob at the foot of the handle.

use super::fluid::knurled;
use super::geometry::{AIR_FOOT, AIR_SLOPE, Pose};
use super::{GunFace, Knob};
use crate::report::chart::svg::{group, n, path};

/// Frame of the air knob: x out along its axis.
pub fn frame() -> String {
    format!("translate({} {}) rotate({})", n(AIR_FOOT.0), n(AIR_FOOT.1), n(AIR_SLOPE))
}

/// Gland, needle that narrows the way in the handle, and knob; a plug on a gun without one.
pub fn moving(pose: &Pose, face: &GunFace) -> String {
    if face.air_turns <= 0.0 {
        // Nothing to turn: the boss stands closed.
        return group(&frame(), &path("metal part", "M44 -17H56V17H44Z"));
    }
    let class = if face.in_hand == Some(Knob::Air) { "knob in-hand" } else { "knob" };
    let turned = face.air.clamp(0.0, 1.0) * face.air_turns;
    let slide = |inner: String| group(&format!("translate({} 0)", n(pose.air)), &inner);
    let inner = [
        slide(path("sheet part", "M-10 -9L-2 -11H10V11H-2L-10 9ZM10 -6.500H50V6.500H10Z")),
        slide(path("sheet part", "M44 -8H84V8H44Z")),
        path("metal part", "M46 -21H66V21H46Z"),
        path("inside-line", "M53 -21V21M59 -21V21"),
        slide(format!(
            r#"<g class="{class}" transform="translate(78 0)">{}</g>"#,
            knurled(52.0, 28.0, turned)
        )),
    ]
    .concat();
    group(&frame(), &inner)
}
