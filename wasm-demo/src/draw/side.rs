//! Bars of the Side by side table: paint for a part on one axis for all rows, air against yours.

use super::svg::{circle, line, n, rect, text};

/// Width of a paint cell [px], and of the axis inside it.
pub const WIDTH: f64 = 214.0;
const LEFT: f64 = 14.0;
const RIGHT: f64 = 200.0;
/// Height of a row [px].
pub const HEIGHT: f64 = 107.0;

fn place(value: f64, end: f64) -> f64 {
    LEFT + (RIGHT - LEFT) * if end > 0.0 { (value / end).clamp(0.0, 1.0) } else { 0.0 }
}

fn steps(end: f64, step: f64) -> i32 {
    if step > 0.0 { (end / step).round().clamp(1.0, 12.0) as i32 } else { 1 }
}

/// A row's bar: low, value, high on an axis to `end` by `step`, with what is written above and below; `as_set` is where
/// the dashed line of your gun as set stands, `first` leaves it out above the bar's middle.
pub fn paint_bar(
    [low, value, high]: [f64; 3],
    (end, step): (f64, f64),
    as_set: Option<f64>,
    (figure, range): (&str, &str),
) -> String {
    let middle = 0.5 * HEIGHT;
    let x = |v: f64| place(v, end);
    let mut out = String::new();
    for k in 0..=steps(end, step) {
        out += &line("side-grid", (x(step * f64::from(k)), 0.0), (x(step * f64::from(k)), HEIGHT));
    }
    if let Some(at) = as_set {
        out += &line("side-as-set", (x(at), 0.0), (x(at), HEIGHT));
    }
    out += &rect("side-band", x(low), middle - 7.0, (x(high) - x(low)).max(2.0), 14.0, 0.0);
    for v in [low, high] {
        out += &line("side-end", (x(v), middle - 11.0), (x(v), middle + 11.0));
    }
    out += &circle("paint side-dot", (x(value), middle), 6.4);
    // Words keep inside the cell.
    let at = |v: f64, half: f64| x(v).clamp(half, WIDTH - half);
    out += &text("side-figure", (at(value, 20.0), middle - 18.0), "middle", figure);
    out + &text("side-range", (at(0.5 * (low + high), 38.0), middle + 29.0), "middle", range)
}

/// The axis under the table.
pub fn paint_axis(end: f64, step: f64) -> String {
    let mut out = String::new();
    for k in 0..=steps(end, step) {
        let value = step * f64::from(k);
        out += &line("side-grid", (place(value, end), 0.0), (place(value, end), 4.0));
        out += &text("axis-figure", (place(value, end), 18.0), "middle", &n(value));
    }
    out
}

/// Air needed as a filled bar of 106 by 20 px on a scale to `most`; the tall tick is your delivered air.
pub fn air_bar(need: f64, yours: Option<f64>, most: f64) -> String {
    let x = |v: f64| if most > 0.0 { 105.0 * (v / most).clamp(0.0, 1.0) } else { 0.0 };
    let mut out = rect("side-air", 0.5, 6.5, 105.0, 7.0, 0.0) + &rect("solid", 0.5, 6.5, x(need), 7.0, 0.0);
    if let Some(yours) = yours {
        out += &rect("accent-fill", x(yours) - 1.0, 1.0, 2.5, 18.0, 0.0);
    }
    out
}

/// A gauge in a box of 44 by 44 px: its needle at `bar` of a scale to `full`, eight ticks over three quarters of a turn.
pub fn gauge(bar: f64, full: f64) -> String {
    let share = if full > 0.0 && bar.is_finite() { (bar / full).clamp(0.0, 1.0) } else { 0.0 };
    // From lower left over the top to lower right.
    let at = |share: f64, r: f64| {
        let (sin, cos) = (std::f64::consts::PI * (0.75 + 1.5 * share)).sin_cos();
        (22.0 + r * cos, 22.0 + r * sin)
    };
    let mut out = circle("side-gauge", (22.0, 22.0), 18.0);
    for k in 0..=8 {
        let share = f64::from(k) / 8.0;
        out += &line("tick", at(share, 13.5), at(share, 16.5));
    }
    out + &line("loop", (22.0, 22.0), at(share, 14.0)) + &circle("loop-knob", (22.0, 22.0), 2.4)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gauge_without_pressure_points_down_left() {
        assert_eq!(gauge(f64::NAN, 4.0), gauge(0.0, 4.0));
        let drawn = gauge(2.0, 4.0);
        assert!(
            drawn.contains(&line("loop", (22.0, 22.0), (22.0, 8.0))),
            "half of the scale is straight up: {drawn}"
        );
    }

    #[test]
    fn bars_stay_in_their_cell() {
        let drawn = paint_bar([-5.0, 20.0, 400.0], (100.0, 25.0), Some(1e9), ("20", "0-400"));
        assert!(drawn.contains(r#"x="14""#) && !drawn.contains("NaN"));
        let lost = paint_bar([f64::NAN; 3], (0.0, 0.0), None, ("-", "-"));
        assert!(lost.contains("side-dot"));
        assert!(air_bar(400.0, Some(160.0), 361.0).contains(r#"width="105""#));
    }
}
