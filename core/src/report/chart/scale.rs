//! Scales of charts: round ticks, and figures as short as they say something.

/// Round values from about `low` to about `high`, four to eight of them, and their decimals.
#[must_use]
pub fn ticks(low: f64, high: f64) -> (Vec<f64>, usize) {
    let span = high - low;
    if !(span.is_finite() && low.is_finite() && span > 0.0) {
        return (vec![low], 0);
    }
    let (mut unit, mut places) = (1.0, 0usize);
    while unit > span && places < 12 {
        (unit, places) = (unit / 10.0, places + 1);
    }
    while unit * 10.0 <= span && unit < 1e15 {
        unit *= 10.0;
    }
    // A unit fits once to ten times.
    let (step, more) = match span / unit {
        n if n >= 5.0 => (unit, 0),
        n if n >= 2.0 => (0.5 * unit, 1),
        _ => (0.2 * unit, 1),
    };
    let places = if step >= 1.0 {
        0
    } else {
        places.max(usize::from(unit >= 1.0)) + if unit < 1.0 { more } else { 0 }
    };
    let first = (low / step - 1e-9).ceil() as i64;
    let last = (high / step + 1e-9).floor() as i64;
    ((first..=last).map(|i| i as f64 * step).collect(), places)
}

/// Share of the way from the lower end to the upper; the middle where they are one.
#[must_use]
pub fn share(value: f64, [low, high]: [f64; 2]) -> f64 {
    if high > low { (value - low) / (high - low) } else { 0.5 }
}

/// A figure to three digits, without needless zeros.
#[must_use]
pub fn short(value: f64) -> String {
    if !value.is_finite() {
        return "-".into();
    }
    let (mut places, mut size) = (2usize, value.abs());
    if size >= 9.995 {
        while size >= 9.995 && places > 0 {
            (size, places) = (size / 10.0, places - 1);
        }
    } else {
        while size > 0.0 && size < 0.9995 && places < 5 {
            (size, places) = (size * 10.0, places + 1);
        }
    }
    let mut text = format!("{value:.places$}");
    while text.contains('.') && text.ends_with(['0', '.']) {
        text.pop();
    }
    if text == "-0" { "0".into() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round() {
        for (low, high, first, n, places) in [
            (0.0, 1.0, 0.0, 6, 1),
            (0.0, 7.3, 0.0, 8, 0),
            (0.31, 0.44, 0.32, 7, 2),
            (120.0, 350.0, 150.0, 5, 0),
            (17.0, 18.9, 17.0, 10, 1),
        ] {
            let (ticks, p) = ticks(low, high);
            assert!(
                (ticks[0] - first).abs() < 1e-9 && ticks.len() == n && p == places,
                "{low}..{high}: {ticks:?} {p}"
            );
        }
        assert_eq!(ticks(1.0, 1.0).0, [1.0]);
        assert_eq!(ticks(f64::NAN, 1.0).0.len(), 1);
    }

    #[test]
    fn figures_are_short() {
        for (value, text) in [
            (0.0, "0"),
            (12.345, "12.3"),
            (1234.6, "1235"),
            (0.4567, "0.457"),
            (2.0, "2"),
            (99.96, "100"),
            (-0.0001, "-0.0001"),
        ] {
            assert_eq!(short(value), text, "{value}");
        }
        assert_eq!(short(f64::NAN), "-");
    }
}
