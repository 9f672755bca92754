//! The chalk arrow: the page's only pointer, one at a time.

use super::plume::Sprinkle;
use super::svg::{n, open};

/// An arrow along a bow from `from` to `to`, bulging by `bow` px to its left, in three rough strokes.
pub fn arrow(from: (f64, f64), to: (f64, f64), bow: f64) -> String {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = (dx * dx + dy * dy).sqrt().max(1.0);
    let (nx, ny) = (dy / length, -dx / length);
    let place = |t: f64| {
        let lift = 4.0 * bow * t * (1.0 - t);
        (from.0 + dx * t + nx * lift, from.1 + dy * t + ny * lift)
    };
    let mut dice = Sprinkle::new(11);
    let mut out = String::from(r#"<g class="chalk">"#);
    for _ in 0..3 {
        let points: Vec<_> = (0..=40)
            .map(|i| {
                let (x, y) = place(f64::from(i) / 40.0);
                (x + 1.6 * dice.bell(), y + 1.6 * dice.bell())
            })
            .collect();
        out += &format!(r#"<path pathLength="1" d="{}"/>"#, open(&points));
    }
    // Head: two strokes back from the end, along the last bit of the bow.
    let (bx, by) = place(0.93);
    let (ux, uy) = (bx - to.0, by - to.1);
    let unit = (ux * ux + uy * uy).sqrt().max(1e-6);
    for turn in [0.62_f64, -0.62] {
        let (s, c) = turn.sin_cos();
        let (hx, hy) = ((ux * c - uy * s) / unit, (ux * s + uy * c) / unit);
        for _ in 0..2 {
            let jitter = (0.9 * dice.bell(), 0.9 * dice.bell());
            out += &format!(
                r#"<path pathLength="1" d="M{} {}L{} {}"/>"#,
                n(to.0 + jitter.0),
                n(to.1 + jitter.1),
                n(to.0 + 24.0 * hx - jitter.1),
                n(to.1 + 24.0 * hy + jitter.0)
            );
        }
    }
    out + "</g>"
}
