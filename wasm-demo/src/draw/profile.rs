//! Film profiles beside the card and under it.

pub use mistcoat::report::chart::dimension;

use super::svg::{line, n, text};

/// A profile for drawing: values at even steps from `start`, both in the drawing's length unit and any film unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Place of the first value.
    pub start: f64,
    /// Step.
    pub step: f64,
    /// Values, not negative.
    pub values: Vec<f64>,
}

impl Curve {
    /// The largest value, 0 when there is none.
    pub fn peak(&self) -> f64 {
        self.values.iter().copied().filter(|v| v.is_finite()).fold(0.0, f64::max)
    }

    fn points(&self) -> impl Iterator<Item = (f64, f64)> {
        let peak = self.peak().max(f64::MIN_POSITIVE);
        self.values.iter().enumerate().map(move |(i, v)| {
            (self.start + self.step * i as f64, if v.is_finite() { v.max(0.0) / peak } else { 0.0 })
        })
    }
}

/// Profile upright: place runs down over `height` px for `span` length units about 0, film runs right over `width` px.
pub fn upright(curve: &Curve, span: f64, width: f64, height: f64) -> String {
    let y = |place: f64| 0.5 * height + place / span * height;
    let mut d = String::from("M0 ");
    let mut edge = String::new();
    let mut last = 0.0;
    for (i, (place, share)) in curve.points().filter(|(p, _)| p.abs() <= 0.5 * span).enumerate() {
        last = y(place);
        if i == 0 {
            d += &n(last);
        }
        d += &format!("L{} {}", n(width * share), n(last));
        edge += &format!("{}{} {}", if i == 0 { 'M' } else { 'L' }, n(width * share), n(last));
    }
    if edge.is_empty() {
        return line("part", (0.0, 0.0), (0.0, height));
    }
    d += &format!("L0 {}Z", n(last));
    [
        format!(r#"<path class="profile-fill" d="{d}"/>"#),
        format!(r#"<path class="profile-line" d="{edge}"/>"#),
        line("part", (0.0, 0.0), (0.0, height)),
    ]
    .concat()
}

/// Profile lying: place runs right over `width` px for `span` about 0, film runs up over `height` px, axis figures below.
pub fn lying(curve: &Curve, span: f64, width: f64, height: f64, ticks: &[f64], unit: &str) -> String {
    let x = |place: f64| 0.5 * width + place / span * width;
    let points: Vec<_> = curve
        .points()
        .filter(|(p, _)| p.abs() <= 0.5 * span)
        .map(|(p, s)| (x(p), height * (1.0 - s)))
        .collect();
    let mut out = String::new();
    if let (Some(first), Some(last)) = (points.first(), points.last()) {
        let edge = super::svg::open(&points);
        out += &format!(
            r#"<path class="profile-fill" d="{edge}L{} {h}L{} {h}Z"/>"#,
            n(last.0),
            n(first.0),
            h = n(height)
        );
        out += &format!(r#"<path class="profile-line" d="{edge}"/>"#);
    }
    out += &line("part", (0.0, height), (width, height));
    for &at in ticks.iter().filter(|t| t.abs() <= 0.5 * span) {
        out += &line("part", (x(at), height), (x(at), height + 4.0));
        out += &text("axis-figure", (x(at), height + 18.0), "middle", &n(at).replace('-', "\u{2212}"));
    }
    out + &text("axis-figure", (width + 8.0, height + 5.0), "start", unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_peak_reaches_the_edge() {
        let curve = Curve { start: -1.0, step: 1.0, values: vec![0.0, 4.0, 1.0] };
        assert!(upright(&curve, 4.0, 80.0, 100.0).contains("L80 50"));
        assert_eq!(curve.peak(), 4.0);
    }

    #[test]
    fn an_empty_profile_is_a_bare_axis() {
        let none = Curve { start: 0.0, step: 1.0, values: vec![] };
        assert!(!upright(&none, 4.0, 80.0, 100.0).contains("profile-fill"));
        assert!(!lying(&none, 4.0, 80.0, 30.0, &[0.0], "mm").contains("NaN"));
    }
}
