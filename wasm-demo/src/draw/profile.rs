//! Film profiles beside the card and under it.

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

/// Dimension line from `a` to `b` with cross ticks; the figure breaks the line.
pub fn dimension(a: (f64, f64), b: (f64, f64), figure: &str) -> String {
    let upright = (a.0 - b.0).abs() < (a.1 - b.1).abs();
    let (mx, my) = (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1));
    if upright && (a.1 - b.1).abs() < 9.0 * figure.chars().count() as f64 {
        // Too short to be broken: the figure stands under it.
        let foot = (mx, a.1.max(b.1) + 16.0);
        return [
            line("dim", a, b),
            line("dim", (a.0 - 5.0, a.1), (a.0 + 5.0, a.1)),
            line("dim", (b.0 - 5.0, b.1), (b.0 + 5.0, b.1)),
            text("dim-figure", foot, "middle", figure),
        ]
        .concat();
    }
    let gap = 4.2 * figure.chars().count() as f64 + 5.0;
    let mut out = String::new();
    if upright {
        out += &line("dim", a, (mx, my - gap));
        out += &line("dim", (mx, my + gap), b);
        for p in [a, b] {
            out += &line("dim", (p.0 - 5.0, p.1), (p.0 + 5.0, p.1));
        }
    } else {
        out += &line("dim", a, (mx - gap, my));
        out += &line("dim", (mx + gap, my), b);
        for p in [a, b] {
            out += &line("dim", (p.0, p.1 - 5.0), (p.0, p.1 + 5.0));
        }
    }
    if upright {
        let turned = format!("translate({} {}) rotate(-90)", n(mx + 4.5), n(my));
        return out + &super::svg::group(&turned, &text("dim-figure", (0.0, 0.0), "middle", figure));
    }
    out + &text("dim-figure", (mx, my + 4.5), "middle", figure)
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
    fn a_short_dimension_is_not_broken() {
        assert_eq!(dimension((0.0, 0.0), (0.0, 30.0), "72 mm").matches("<path").count(), 3);
        assert_eq!(dimension((0.0, 0.0), (0.0, 130.0), "172 mm").matches("<path").count(), 4);
    }

    #[test]
    fn an_empty_profile_is_a_bare_axis() {
        let none = Curve { start: 0.0, step: 1.0, values: vec![] };
        assert!(!upright(&none, 4.0, 80.0, 100.0).contains("profile-fill"));
        assert!(!lying(&none, 4.0, 80.0, 30.0, &[0.0], "mm").contains("NaN"));
    }
}
