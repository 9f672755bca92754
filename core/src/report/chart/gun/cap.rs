//! Air cap: section with its horns, ring, and the view from the front with its eight clicks.

use crate::math::{cos, sin};
use std::f64::consts::{FRAC_PI_4, TAU};

use crate::report::chart::svg::{circle, filled, group, line, mirrored, n, path, polygon};

/// Upper half of the cap outside the horn's way: horn's nose, back to the flange.
const OUTER: [(f64, f64); 14] = [
    (-30.0, -50.5),
    (-34.0, -55.0),
    (-37.5, -62.0),
    (-37.0, -69.0),
    (-32.0, -74.0),
    (-24.0, -74.0),
    (-8.0, -69.0),
    (16.0, -64.0),
    (40.0, -62.0),
    (40.0, -66.0),
    (52.0, -66.0),
    (52.0, -55.0),
    (20.0, -56.0),
    (-13.0, -64.5),
];

/// Upper half between the horn's way and the centre.
const INNER: [(f64, f64); 11] = [
    (-25.0, -44.0),
    (-5.0, -24.0),
    (-2.0, -9.5),
    (2.0, -9.5),
    (6.0, -11.0),
    (12.0, -25.0),
    (30.0, -36.0),
    (58.0, -36.0),
    (58.0, -44.0),
    (20.0, -46.0),
    (-9.0, -54.0),
];

/// The horn's way: from the ring-shaped room to the hole that points at the spray.
const HORN_WAY: [(f64, f64); 8] = [
    (60.0, -55.0),
    (20.0, -56.0),
    (-13.0, -64.5),
    (-30.0, -50.5),
    (-25.0, -44.0),
    (-9.0, -54.0),
    (20.0, -46.0),
    (60.0, -44.0),
];

/// Room round the tip, which feeds the ring of air at the centre.
const CENTRE_ROOM: [(f64, f64); 7] =
    [(-2.0, -9.5), (6.0, -11.0), (12.0, -25.0), (30.0, -36.0), (68.0, -36.0), (68.0, 0.0), (-2.0, 0.0)];

/// Ring that holds the cap, cut.
const RING: [(f64, f64); 8] = [
    (22.0, -64.0),
    (22.0, -71.0),
    (33.0, -81.0),
    (96.0, -81.0),
    (96.0, -66.0),
    (52.0, -66.0),
    (40.0, -66.0),
    (40.0, -62.5),
];

/// Cap and ring in section; the tip is drawn by [`super::fluid`] over the room left for it.
pub fn section(ids: &str) -> String {
    let mut out = String::new();
    let a = format!("{ids}-a");
    let b = format!("{ids}-b");
    let halves = |points: &[(f64, f64)]| [polygon(points), polygon(&mirrored(points))];
    for d in halves(&HORN_WAY) {
        out += &path("air inside", &d);
    }
    for (d, fill) in halves(&OUTER).iter().zip([&b, &a]) {
        out += &filled("outline-2", fill, d);
    }
    for (d, fill) in halves(&INNER).iter().zip([&b, &a]) {
        out += &filled("part", fill, d);
    }
    for (d, fill) in halves(&RING).iter().zip([&a, &b]) {
        out += &filled("part", fill, d);
    }
    for side in [-1.0, 1.0] {
        // Knurl on the ring's outside edge.
        for x in (0..8).map(|i| 40.0 + 7.0 * f64::from(i)) {
            out += &line("inside-line", (x, side * 81.0), (x, side * 78.0));
        }
    }
    out
}

/// The room round the tip; lies under the tip and the cap.
pub fn centre_room() -> String {
    [polygon(&CENTRE_ROOM), polygon(&mirrored(&CENTRE_ROOM))].iter().map(|d| path("air", d)).collect()
}

/// The cap seen from the front, centre (0, 0), radius 54 [px]; `eighths` of a turn from horns left and right.
pub fn front(eighths: u8) -> String {
    let mut out = String::new();
    for k in 0..8 {
        let a = f64::from(k) * FRAC_PI_4;
        let (s, c) = (sin(a), cos(a));
        let class = if k % 2 == 0 { "part" } else { "lead" };
        let (near, far) = if k % 2 == 0 { (68.0, 82.0) } else { (70.0, 80.0) };
        out += &line(class, (near * c, near * s), (far * c, far * s));
    }
    out += &circle("metal outline", (0.0, 0.0), 54.0);
    out += &circle("sheet part", (0.0, 0.0), 46.0);
    let mut face = String::new();
    for k in 0..48 {
        let a = f64::from(k) * TAU / 48.0;
        let (s, c) = (sin(a), cos(a));
        face += &line("inside-line", (47.0 * c, 47.0 * s), (53.0 * c, 53.0 * s));
    }
    // Two horns, left and right, each with a large and a small hole.
    for side in ["", "rotate(180)"] {
        face += &format!(
            r#"<g transform="{side}"><path class="metal outline-2" d="M-53 -14L-22 -13Q-19 0 -22 13L-53 14A54.8 54.8 0 0 1 -53 -14Z"/>"#
        );
        face += &(circle("solid", (-38.0, 0.0), 4.2) + &circle("solid", (-28.0, 0.0), 2.6) + "</g>");
    }
    for side in [-1.0, 1.0] {
        face += &circle("solid", (0.0, side * 15.0), 1.9);
    }
    out += &group(&format!("rotate({})", n(45.0 * f64::from(eighths % 8))), &face);
    // The tip does not turn with the cap.
    out += &circle("solid", (0.0, 0.0), 8.6);
    out += &circle("sheet", (0.0, 0.0), 5.6);
    out += &circle("paint", (0.0, 0.0), 3.3);
    out
}

/// Mark outside the clicks that turns with the cap: a triangle at the first horn.
pub fn front_mark(eighths: u8) -> String {
    group(
        &format!("rotate({})", n(45.0 * f64::from(eighths % 8))),
        &path("accent-fill", "M-86 0L-96 -5.5V5.5Z"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eight_clicks_bring_the_cap_home() {
        assert_eq!(front(8), front(0));
        assert_ne!(front(4), front(0));
    }

    #[test]
    fn the_horn_jets_meet_on_the_axis_before_the_cap() {
        // Middle line of the drilled hole, from inside to its mouth.
        let (inside, mouth) = ((-11.0, -59.25), (-27.5, -47.25));
        let slope: f64 = (mouth.1 - inside.1) / (mouth.0 - inside.0);
        let x = mouth.0 - mouth.1 / slope;
        assert!(x < -60.0 && x > -120.0, "{x}");
    }
}
