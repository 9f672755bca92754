//! A figure over one knob: a curve with its range, as a piece of SVG.

use super::scale::{share, ticks};
use super::svg::{circle, line, open, path, polygon, rect, text};

/// One point of a curve.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CurvePoint {
    /// Its place on the axis.
    pub x: f64,
    /// Its setting in words, for the axis where settings are words.
    pub name: String,
    /// The figure; none where it is not known.
    pub y: Option<f64>,
    /// One standard error of the count.
    pub error: Option<f64>,
    /// The model's likely range.
    pub likely: Option<[f64; 2]>,
    /// It cannot be sprayed.
    pub impossible: bool,
}

/// A curve.
#[derive(Debug, Clone, Copy)]
pub struct Curve<'a> {
    /// What the figure is, with its unit.
    pub title: &'a str,
    /// What the axis is, with its unit.
    pub axis: &'a str,
    /// Points in the order of the axis.
    pub points: &'a [CurvePoint],
    /// Settings are words: places are even and named.
    pub by_name: bool,
    /// Band of figures that are wanted.
    pub wanted: Option<[f64; 2]>,
}

const LEFT: f64 = 56.0;
const RIGHT: f64 = 16.0;
const TOP: f64 = 34.0;
const FOOT: f64 = 42.0;

/// Where things stand in a curve's drawing.
#[derive(Debug, Clone, Copy)]
pub struct CurveFrame {
    size: [f64; 2],
    x: [f64; 2],
    y: [f64; 2],
}

impl CurveFrame {
    /// Place of a value on the axis [px].
    #[must_use]
    pub fn x(&self, value: f64) -> f64 {
        LEFT + (self.size[0] - LEFT - RIGHT) * share(value, self.x)
    }

    /// Place of a figure [px].
    #[must_use]
    pub fn y(&self, value: f64) -> f64 {
        self.size[1] - FOOT - (self.size[1] - TOP - FOOT) * share(value, self.y)
    }
}

impl Curve<'_> {
    /// Scales of a drawing so large [px]; none without a figure.
    #[must_use]
    pub fn frame(&self, width: f64, height: f64) -> Option<CurveFrame> {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for point in self.points {
            let Some(y) = point.y.filter(|y| y.is_finite()) else { continue };
            let error = 2.0 * point.error.unwrap_or(0.0);
            let likely = point.likely.unwrap_or([y, y]);
            low = low.min(y - error).min(likely[0]);
            high = high.max(y + error).max(likely[1]);
        }
        if low > high {
            return None;
        }
        // From nothing on where that does not flatten the curve.
        let flat = high - low < 0.02 * high;
        let from = if low >= 0.0 && (flat || low < 0.6 * high) { 0.0 } else { low - 0.08 * (high - low) };
        let to = if high > from { high + 0.08 * (high - from) } else { from + 1.0 };
        let xs = || self.points.iter().map(|p| p.x);
        let x = [xs().fold(f64::INFINITY, f64::min), xs().fold(f64::NEG_INFINITY, f64::max)];
        let edge = if self.by_name { 0.5 } else { 0.0 };
        Some(CurveFrame { size: [width, height], x: [x[0] - edge, x[1] + edge], y: [from, to] })
    }

    /// The drawing, `width` by `height` [px].
    #[must_use]
    pub fn svg(&self, width: f64, height: f64) -> String {
        let mut out = text("chart-title", (0.0, 16.0), "start", self.title);
        let Some(at) = self.frame(width, height) else {
            return out + &text("axis-figure", (0.0, 38.0), "start", "no figure yet");
        };
        let (right, foot) = (width - RIGHT, height - FOOT);
        if let Some([low, high]) = self.wanted {
            let (a, b) = (at.y(high).clamp(TOP, foot), at.y(low).clamp(TOP, foot));
            out += &rect("wanted", LEFT, a, right - LEFT, b - a, 0.0);
        }
        let (steps, places) = ticks(at.y[0], at.y[1]);
        for y in steps {
            out += &line("chart-grid", (LEFT, at.y(y)), (right, at.y(y)));
            out += &text("axis-figure", (LEFT - 8.0, at.y(y) + 4.0), "end", &format!("{y:.places$}"));
        }
        out += &line("chart-axis", (LEFT, foot), (right, foot));
        out += &self.below(&at, foot);
        out += &text("axis-figure", (0.5 * (LEFT + right), height - 5.0), "middle", self.axis);
        out += &self.marks(&at, foot);
        out
    }

    /// Ticks and their words.
    fn below(&self, at: &CurveFrame, foot: f64) -> String {
        let tick = |x: f64, words: &str| {
            line("chart-axis", (x, foot), (x, foot + 5.0))
                + &text("axis-figure", (x, foot + 18.0), "middle", words)
        };
        if self.by_name {
            return self.points.iter().map(|p| tick(at.x(p.x), &p.name)).collect();
        }
        let (steps, places) = ticks(at.x[0], at.x[1]);
        steps.into_iter().map(|x| tick(at.x(x), &format!("{x:.places$}"))).collect()
    }

    /// Range, curve, points with two standard errors either way, and what is impossible.
    fn marks(&self, at: &CurveFrame, foot: f64) -> String {
        let mut out = String::new();
        for run in self.points.chunk_by(|a, b| a.y.is_some() == b.y.is_some()) {
            let known: Vec<(&CurvePoint, f64)> = run.iter().filter_map(|p| p.y.map(|y| (p, y))).collect();
            let likely: Vec<_> = known.iter().filter_map(|(p, _)| Some((p.x, p.likely?))).collect();
            if likely.len() > 1 && !self.by_name {
                let mut ring: Vec<_> = likely.iter().map(|(x, l)| (at.x(*x), at.y(l[1]))).collect();
                ring.extend(likely.iter().rev().map(|(x, l)| (at.x(*x), at.y(l[0]))));
                out += &path("likely", &polygon(&ring));
            } else {
                for (x, l) in likely {
                    out += &rect("likely", at.x(x) - 7.0, at.y(l[1]), 14.0, at.y(l[0]) - at.y(l[1]), 0.0);
                }
            }
            if known.len() > 1 && !self.by_name {
                let way: Vec<_> = known.iter().map(|(p, y)| (at.x(p.x), at.y(*y))).collect();
                out += &path("curve", &open(&way));
            }
            for (p, y) in known {
                let (x, error) = (at.x(p.x), p.error.unwrap_or(0.0));
                out += &line("whisker", (x, at.y(y - 2.0 * error)), (x, at.y(y + 2.0 * error)));
                out += &circle("curve-dot", (x, at.y(y)), if self.points.len() > 40 { 1.6 } else { 2.6 });
            }
        }
        for p in self.points.iter().filter(|p| p.impossible) {
            let (x, y) = (at.x(p.x), foot - 9.0);
            out += &line("impossible", (x - 4.0, y - 4.0), (x + 4.0, y + 4.0));
            out += &line("impossible", (x - 4.0, y + 4.0), (x + 4.0, y - 4.0));
        }
        out
    }
}
