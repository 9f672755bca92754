//! Dew point and surface on a line of temperature; hatched where the surface is too near.

use super::svg::{circle, filled, line, polygon, text};

/// Temperatures in any one unit, with their words.
#[derive(Debug, Clone, PartialEq)]
pub struct DewLine {
    /// Dew point.
    pub dew: (f64, String),
    /// Least surface.
    pub least: (f64, String),
    /// The part.
    pub part: (f64, String),
}

/// The drawing, `width` px wide and 84 high. `id` keeps its hatch apart from others'.
pub fn dew_line(d: &DewLine, width: f64, id: &str) -> String {
    let ends = [d.dew.0, d.least.0, d.part.0];
    let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let margin = (0.18 * (high - low)).max(1.5);
    let (from, to) = (low - margin, high + margin);
    let (left, right, y) = (4.0, width - 4.0, 42.0);
    let x = |t: f64| left + (right - left) * ((t - from) / (to - from)).clamp(0.0, 1.0);
    let mut out = format!(
        r#"<pattern id="{id}" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path class="hatch-line" d="M0 4.500H9"/></pattern>"#
    );
    let band = [(left, y - 8.0), (x(d.least.0), y - 8.0), (x(d.least.0), y + 8.0), (left, y + 8.0)];
    out += &filled("clock-wait", id, &polygon(&band));
    out += &line("clock-line", (left, y), (right, y));
    let anchor = |at: f64| {
        if at < left + 70.0 {
            "start"
        } else if at > right - 70.0 {
            "end"
        } else {
            "middle"
        }
    };
    // The two limits lie close: one speaks above, one below.
    for ((t, words), above) in [(&d.dew, true), (&d.least, false)] {
        let at = x(*t);
        out += &line("clock-mark", (at, y - 10.0), (at, y + 10.0));
        out += &text("word", (at, if above { y - 16.0 } else { y + 26.0 }), anchor(at), words);
    }
    let at = x(d.part.0);
    out += &circle("solid", (at, y), 5.6);
    // Above the line, unless the dew point's words stand there.
    let close = (at - x(d.dew.0)).abs() < 150.0;
    let below_free = (at - x(d.least.0)).abs() >= 120.0;
    let place = if close && below_free {
        y + 26.0
    } else if close {
        y + 40.0
    } else {
        y - 16.0
    };
    out + &text("word on", (at, place), anchor(at), &d.part.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_all_three_are_there() {
        for part in [-5.0, 9.3, 12.0, 20.0, 60.0] {
            let d = DewLine {
                dew: (9.3, "dew".into()),
                least: (12.3, "least".into()),
                part: (part, "part".into()),
            };
            let svg = dew_line(&d, 336.0, "d");
            assert!(["dew", "least", "part"].iter().all(|w| svg.contains(&format!(">{w}<"))), "{svg}");
            assert!(!svg.contains("NaN"), "{svg}");
        }
    }
}
