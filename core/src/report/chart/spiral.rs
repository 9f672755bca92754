//! Turn counter: a spiral with one loop for each turn, out is anticlockwise.

use super::svg::{circle, line, open};
use crate::math::{cos, sin};

/// Turn counter in a box of 44 by 44 [px], centre (22, 22).
///
/// Full turns out are inked, what is left is faint; a knob sits at the end; eight ticks stand round it.
/// `turns` and `full` [turns].
pub fn spiral(turns: f64, full: f64) -> String {
    let full = if full.is_finite() { full.clamp(0.25, 12.0) } else { 1.0 };
    let turns = if turns.is_finite() { turns.clamp(0.0, full) } else { 0.0 };
    let (inner, outer) = (3.0, 15.5);
    let place = |t: f64| {
        // From straight up, anticlockwise, growing outward.
        let r = inner + (outer - inner) * t / full;
        let a = -std::f64::consts::FRAC_PI_2 - std::f64::consts::TAU * t;
        (22.0 + r * cos(a), 22.0 + r * sin(a))
    };
    let run = |from: f64, to: f64| {
        let steps = ((to - from) * 36.0).ceil().max(1.0) as usize;
        let points: Vec<_> =
            (0..=steps).map(|i| place(from + (to - from) * i as f64 / steps as f64)).collect();
        open(&points)
    };
    let mut out = String::new();
    for k in 0..8 {
        let a = std::f64::consts::FRAC_PI_4 * f64::from(k);
        let (s, c) = (sin(a), cos(a));
        out += &line("tick", (22.0 + 18.5 * c, 22.0 + 18.5 * s), (22.0 + 20.5 * c, 22.0 + 20.5 * s));
    }
    if turns < full {
        out += &format!(r#"<path class="loop-left" d="{}"/>"#, run(turns, full));
    }
    out += &format!(r#"<path class="loop" d="{}"/>"#, run(0.0, turns));
    out += &circle("loop-knob", place(turns), 3.2);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_knob_ends_at_the_edge_when_fully_out() {
        // Three whole turns end straight up on the outer loop.
        assert!(spiral(3.0, 3.0).contains(r#"cx="22" cy="6.5""#));
        assert!(!spiral(3.0, 3.0).contains("loop-left"));
    }

    #[test]
    fn a_quarter_turn_out_goes_left() {
        let drawn = spiral(0.25, 3.0);
        let knob = drawn.split("loop-knob").nth(1).unwrap_or_default();
        let cx: f64 = knob.split('"').nth(2).and_then(|v| v.parse().ok()).unwrap_or(99.0);
        assert!(cx < 19.0, "anticlockwise from the top is to the left: {cx}");
    }

    #[test]
    fn bad_turns_draw_a_shut_knob() {
        assert_eq!(spiral(f64::NAN, 3.0), spiral(0.0, 3.0));
    }
}
