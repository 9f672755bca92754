//! Paint way: tip, needle, packing, needle spring, fluid knob.

use super::geometry::Pose;
use super::{GunFace, Knob};
use crate::gun::Feed;
use crate::math::{cos, sin};
use crate::report::chart::svg::{filled, group, line, mirrored, n, open, path, polygon, rect};

/// Upper half of the fluid tip, cut.
const TIP: [(f64, f64); 14] = [
    (-4.0, -3.4),
    (-4.0, -6.6),
    (8.0, -7.5),
    (34.0, -20.0),
    (56.0, -22.0),
    (56.0, -32.0),
    (68.0, -32.0),
    (68.0, -22.0),
    (106.0, -22.0),
    (106.0, -11.5),
    (60.0, -11.5),
    (40.0, -10.5),
    (18.0, -6.0),
    (8.0, -3.4),
];

/// Room for paint: tip's bore, round the needle, up to the cup; and down to a cup or hose below.
const PAINT: &str =
    "M-4 -3.400H8L18 -6L40 -10.500L60 -11.500H106V-96H130V-11.500H140V11.500H60L40 10.500L18 6L8 3.400H-4Z";
const PAINT_BELOW: &str =
    "M-4 -3.400H8L18 -6L40 -10.500L60 -11.500H140V11.500H130V86H106V11.500H60L40 10.500L18 6L8 3.400H-4Z";

/// Tip, packing, packing nut.
pub fn still(ids: &str, feed: Feed) -> String {
    let (a, b) = (format!("{ids}-a"), format!("{ids}-b"));
    let mut out = super::cap::centre_room();
    out += &path("paint inside", if feed == Feed::Gravity { PAINT } else { PAINT_BELOW });
    out += &filled("part", &a, &polygon(&TIP));
    out += &filled("part", &b, &polygon(&mirrored(&TIP)));
    // Packing, pressed by its nut.
    out += &path("solid", "M140 -11.500H158V11.500H140Z");
    out += &filled("part", &b, "M158 -11H166V-16H184V16H166V11H158Z");
    out
}

/// Needle with collar and spring, and the fluid knob on its axis.
pub fn moving(pose: &Pose, face: &GunFace, ids: &str) -> String {
    let back = pose.needle;
    // Shut, the cone fills the bore; the point stands a little before the tip.
    let mut needle = path("sheet part", "M-6 0L22 -4.500H318V4.500H22Z");
    needle += &rect("sheet part", 206.0, -11.0, 14.0, 22.0, 1.0);
    needle += &rect("sheet part", 282.0, -16.5, 8.0, 33.0, 1.0);
    needle += &line("inside-line", (22.0, -4.5), (22.0, 4.5));
    let mut out = stop(pose);
    out += &group(&format!("translate({} 0)", n(back)), &needle);
    out += &path("spring", &spring(291.0 + back, 354.0, 14.0, 5));
    out += &knob(pose, face, ids);
    out += &path("axis", "M-130 0H-8M190 0H204M384 0H470");
    out
}

/// Stem of the fluid knob: it ends where the needle's tail will stop.
fn stop(pose: &Pose) -> String {
    group(&format!("translate({} 0)", n(pose.stop)), &path("metal part", "M318 -7H392V7H318Z"))
}

fn knob(pose: &Pose, face: &GunFace, _ids: &str) -> String {
    let class = if face.in_hand == Some(Knob::Fluid) { "knob in-hand" } else { "knob" };
    let turned = face.fluid.clamp(0.0, 1.0) * face.fluid_turns;
    let inner = [
        path("sheet part", "M378 -8H390V8H378Z"),
        format!(r#"<g class="{class}" transform="translate(390 0)">{}</g>"#, knurled(66.0, 33.0, turned)),
    ]
    .concat();
    group(&format!("translate({} 0)", n(pose.stop)), &inner)
}

/// A knurled knob along +x from (0, 0): `length` long, half-width `half` [u]; the index line rolls with `turned` turns.
pub fn knurled(length: f64, half: f64, turned: f64) -> String {
    let mut out = rect("knob-face outline", 0.0, -half, length, 2.0 * half, 7.0);
    for i in 0..7 {
        let x = length * (0.2 + 0.1 * f64::from(i));
        out += &line("knurl", (x, -half + 3.0), (x, half - 3.0));
    }
    // One line on the knob's skin: seen only while it is on this side; a thin one stands opposite.
    let turned = if turned.is_finite() { turned } else { 0.0 };
    for (offset, class) in [(0.5, "index-back"), (0.0, "index")] {
        let angle = std::f64::consts::TAU * (turned + offset);
        if cos(angle) > -1e-6 {
            let y = -(half - 5.0) * sin(angle);
            out += &line(class, (0.14 * length, y), (0.86 * length, y));
        }
    }
    out
}

/// A spring's zigzag from `a` to `b` along x, half-height `h`, with `coils` turns.
pub fn spring(a: f64, b: f64, h: f64, coils: usize) -> String {
    let steps = 2 * coils;
    let points: Vec<_> = (0..=steps)
        .map(|i| (a + (b - a) * i as f64 / steps as f64, if i % 2 == 0 { h } else { -h }))
        .collect();
    open(&points)
}
