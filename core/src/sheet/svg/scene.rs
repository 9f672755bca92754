//! What the hand holds, to scale: distance, fan and the next pass.

use super::super::SetUpSheet;
use super::LEFT;
use crate::report::chart::svg::{line, n, text};

/// Distance, fan and the next pass to scale, in a box of the left column.
pub(super) fn drawn(sheet: &SetUpSheet, (x, y): (f64, f64)) -> (String, f64) {
    let view = &sheet.view;
    let [away, fan, below] = &view.said;
    let scale = ((LEFT - 12.0) / view.distance.max(1.0)).min(42.0 / (view.fan + view.down).max(1.0)).min(0.4);
    let (far, high, down) = (view.distance * scale, view.fan * scale, view.down * scale);
    let (tip, face) = (x + 2.0, x + 2.0 + far);
    let (top, middle) = (y + 5.0, y + 5.0 + 0.5 * high);
    let mut out = String::new();
    let ray = |class: &str, from: f64, to: f64| line(class, (tip, from), (face, to));
    out += &ray("rule", middle, top);
    out += &ray("rule", middle, top + high);
    if view.down > 0.0 {
        out += &format!(
            r#"<g stroke-dasharray="1.4 1.1">{}{}</g>"#,
            ray("rule", middle + down, top + down),
            ray("rule", middle + down, top + high + down)
        );
    }
    let foot = top + high + down;
    out += &line("rule", (face, top - 2.0), (face, foot + 2.0));
    out += &format!(r#"<circle cx="{}" cy="{}" r="1.1"/>"#, n(tip), n(middle));
    let said = |class: &str, at: (f64, f64), anchor: &str, words: &str| {
        text(class, at, anchor, words).replacen("<text", r#"<text font-size="3.2""#, 1)
    };
    out += &said("quiet", (0.5 * (tip + face), foot + 6.0), "middle", &format!("{} away", away));
    out += &said("quiet", (x, y + 2.0), "start", &format!("fan {} high, to scale", fan));
    if view.down > 0.0 {
        let beside = face + 3.0;
        out += &line("rule", (beside, middle), (beside, middle + down));
        for end in [middle, middle + down] {
            out += &line("rule", (beside - 1.0, end), (beside + 1.0, end));
        }
        let half = middle + 0.5 * down;
        out += &said("strong", (beside + 1.5, half), "start", below);
        out += &said("quiet", (beside + 1.5, half + 4.0), "start", "down");
    }
    (out, foot + 9.0)
}
