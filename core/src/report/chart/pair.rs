//! Two settings of a gun before the same tube, seen from its end, at one scale: what a wide fan costs.

use super::alone;
use super::end_view::{EndView, end_view, fit};
use super::svg::{group, text};

/// One of the two.
#[derive(Debug, Clone, PartialEq)]
pub struct TubeSide<'a> {
    /// Its name: "wide fan".
    pub name: String,
    /// How the gun is set, in a line.
    pub setting: String,
    /// The figure in large: "20 mL".
    pub number: String,
    /// What the figure is, and the next one, line by line.
    pub lines: Vec<String>,
    /// The drawing.
    pub view: EndView<'a>,
}

const WIDE: f64 = 500.0;
const TALL: f64 = 320.0;

/// Both side by side at the smaller of their scales.
#[must_use]
pub fn tube_pair(title: &str, sides: [&TubeSide; 2]) -> String {
    let scale = fit(&sides[0].view, WIDE, TALL).min(fit(&sides[1].view, WIDE, TALL));
    let mut out = text("voice", (24.0, 42.0), "start", title);
    for (side, x) in sides.into_iter().zip([24.0, 24.0 + WIDE + 48.0]) {
        let mut part = text("strong", (0.0, 0.0), "start", &side.name);
        part += &text("quiet", (0.0, 20.0), "start", &side.setting);
        part += &group("translate(0 30)", &end_view(&side.view, WIDE, TALL, scale));
        part += &text("number", (0.0, 396.0), "start", &side.number);
        for (i, line) in side.lines.iter().enumerate() {
            part += &text("quiet", (170.0, 376.0 + 20.0 * i as f64), "start", line);
        }
        out += &group(&format!("translate({x} 78)"), &part);
        out.push('\n');
    }
    alone(title, 2.0 * WIDE + 96.0, 494.0, &out)
}
