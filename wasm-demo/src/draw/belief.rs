//! What was known of a constant before a card and after it: two bars on one axis of "times the catalogue's".

use super::svg::{circle, line, rect, text};

/// Ends of the axis: half and twice.
const SPAN: f64 = std::f64::consts::LN_2;

/// Bars `width` px wide and 44 high. Before: an open bar; after: a filled one under it with the most likely value as a dot.
#[must_use]
pub fn belief(width: f64, before: [f64; 2], after: [f64; 2], value: f64) -> String {
    let (left, right) = (8.0, width - 8.0);
    let x = |factor: f64| {
        let place = if factor > 0.0 && factor.is_finite() { factor.ln() / SPAN } else { 0.0 };
        left + 0.5 * (right - left) * (1.0 + place.clamp(-1.0, 1.0))
    };
    let bar = |class, y, [low, high]: [f64; 2]| rect(class, x(low), y, (x(high) - x(low)).max(1.5), 8.0, 0.0);
    let mut out = bar("belief-before", 2.0, before) + &bar("belief-after", 13.0, after);
    out += &line("range-axis", (left, 26.0), (right, 26.0));
    for (factor, words) in [(0.5, "½"), (1.0, "1"), (2.0, "2")] {
        out += &line("range-axis", (x(factor), 23.0), (x(factor), 29.0));
        out += &text("axis-figure", (x(factor), 42.0), "middle", words);
    }
    out += &line("dotted", (x(1.0), 0.0), (x(1.0), 23.0));
    out + &circle("solid", (x(value), 17.0), 4.4)
}

#[cfg(test)]
mod tests {
    use super::belief;

    #[test]
    fn bars_stay_on_their_axis() {
        let drawn = belief(200.0, [0.1, 30.0], [0.9, f64::NAN], 0.0);
        assert!(drawn.contains(r#"x="8""#) && !drawn.contains("NaN"), "{drawn}");
    }
}
