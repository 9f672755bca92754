//! The one plain range: an axis, the likely range on it, the figure as a dot.

use super::svg::{circle, line, n, rect, text};

/// Ends and step of an axis from 0 that holds `top`: a round step with three to six steps.
pub fn round_axis(top: f64) -> (f64, f64) {
    if !(top.is_finite() && top > 0.0) {
        return (1.0, 0.25);
    }
    let decade = 10_f64.powf(top.log10().floor());
    let step = [0.2, 0.25, 0.5, 1.0, 2.0]
        .map(|m| m * decade)
        .into_iter()
        .find(|s| top / s <= 5.0)
        .unwrap_or(2.0 * decade);
    ((top / step).ceil().max(1.0) * step, step)
}

/// Range bar, `width` px wide and 44 high. `low`, `value`, `high` in the axis' unit; `end`, `step` of the axis;
/// `unit` is written after the last figure.
pub fn range_bar(width: f64, low: f64, value: f64, high: f64, end: f64, step: f64, unit: &str) -> String {
    let (left, right) = (2.0, width - 2.0);
    let x = |v: f64| left + (right - left) * if end > 0.0 { (v / end).clamp(0.0, 1.0) } else { 0.0 };
    let y = 14.0;
    let mut out = rect("range-band", x(low), y - 5.0, (x(high) - x(low)).max(2.0), 10.0, 0.0);
    out += &line("range-axis", (left, y), (right, y));
    let steps = if step > 0.0 { (end / step).round().clamp(1.0, 12.0) as i32 } else { 1 };
    for k in 0..=steps {
        let at = x(step * f64::from(k));
        out += &line("range-axis", (at, y - 3.0), (at, y + 3.0));
        let anchor = if k == 0 {
            "start"
        } else if k == steps {
            "end"
        } else {
            "middle"
        };
        let figure = n(step * f64::from(k));
        let words = if k == steps && !unit.is_empty() { format!("{figure}\u{202f}{unit}") } else { figure };
        out += &text("axis-figure", (at, y + 22.0), anchor, &words);
    }
    for v in [low, high] {
        out += &line("range-end", (x(v), y - 8.0), (x(v), y + 8.0));
    }
    out + &circle("solid", (x(value), y), 5.6)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_are_round() {
        assert_eq!(round_axis(100.0), (100.0, 20.0));
        assert_eq!(round_axis(350.0), (400.0, 100.0));
        assert_eq!(round_axis(0.0), (1.0, 0.25));
        for top in [0.013, 1.0, 7.3, 46.0, 999.0] {
            let (end, step) = round_axis(top);
            assert!(end >= top && (2.0..=6.01).contains(&(end / step)), "{top}: {end} by {step}");
        }
    }

    #[test]
    fn the_bar_stays_on_its_axis() {
        let drawn = range_bar(300.0, -5.0, 20.0, 400.0, 100.0, 25.0, "mL");
        assert!(drawn.contains(r#"x="2""#) && drawn.contains("100\u{202f}mL"));
        assert!(!drawn.contains("NaN"));
    }
}
