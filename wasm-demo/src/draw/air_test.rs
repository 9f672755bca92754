//! The air test: gun gauge and tank over one minute.

use super::svg::{circle, line, n, open, path, text};

/// Height of the chart [px].
pub const HEIGHT: f64 = 236.0;
/// Width of the chart on wide screens and on phones [px].
pub const WIDTH: (f64, f64) = (784.0, 328.0);
const LEFT: f64 = 44.0;
/// Room for the curves' names at the right [px].
const NAMES: f64 = 84.0;
const TOP: f64 = 18.0;
const FOOT: f64 = 206.0;

/// Curves over time [s], both in the unit shown.
#[derive(Debug, Clone, PartialEq)]
pub struct AirTest {
    /// Time [s], gun gauge, tank.
    pub points: Vec<[f64; 3]>,
    /// Wanted at the gun.
    pub wanted: f64,
    /// End and step of the pressure's axis.
    pub axis: (f64, f64),
    /// End of the time axis [s].
    pub seconds: f64,
    /// The moment shown [s], with its gun gauge.
    pub now: Option<(f64, f64)>,
    /// Words: gun, tank, wanted, unit.
    pub words: [String; 4],
}

/// The chart.
pub fn air_test(a: &AirTest, width: f64) -> String {
    let right = width - NAMES;
    let x = |t: f64| LEFT + (t / a.seconds.max(1e-9)).clamp(0.0, 1.0) * (right - LEFT);
    let y = |p: f64| FOOT - (p / a.axis.0.max(1e-9)).clamp(0.0, 1.0) * (FOOT - TOP);
    let mut out = String::new();
    let steps = (a.axis.0 / a.axis.1.max(1e-9)).round().clamp(1.0, 12.0) as i32;
    for k in 0..=steps {
        let v = a.axis.1 * f64::from(k);
        out += &line("grid", (LEFT, y(v)), (right, y(v)));
        out += &text("axis-figure", (LEFT - 8.0, y(v) + 4.0), "end", &n(v));
    }
    out += &text("axis-figure", (LEFT + 6.0, TOP - 5.0), "start", &a.words[3]);
    for k in 0..=6 {
        let t = a.seconds / 6.0 * f64::from(k);
        out += &line("part", (x(t), FOOT), (x(t), FOOT + 4.0));
        let words = if k == 6 { format!("{}\u{202f}s", n(t)) } else { n(t) };
        out += &text("axis-figure", (x(t), FOOT + 19.0), "middle", &words);
    }
    out += &line("part", (LEFT, FOOT), (right, FOOT));
    out += &line("dotted", (LEFT, y(a.wanted)), (right, y(a.wanted)));
    let curve = |i: usize| open(&a.points.iter().map(|p| (x(p[0]), y(p[i]))).collect::<Vec<_>>());
    out += &path("dashed", &curve(2));
    out += &path("profile-line strong", &curve(1));
    if let Some(last) = a.points.last() {
        let (gun, tank) = (y(last[1]), y(last[2]));
        // The two names keep apart.
        let tank = if (gun - tank).abs() < 18.0 { gun - 18.0 } else { tank };
        out += &text("word on", (right + 8.0, gun + 4.5), "start", &a.words[0]);
        out += &text("word", (right + 8.0, tank + 4.5), "start", &a.words[1]);
    }
    out += &text("axis-figure", (right - 4.0, y(a.wanted) - 5.0), "end", &a.words[2]);
    if let Some((t, gun)) = a.now {
        out += &line("lead now", (x(t), TOP), (x(t), FOOT));
        out += &circle("accent-dot", (x(t), y(gun)), 6.0);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_dot_stands_on_the_curve() {
        let a = AirTest {
            points: vec![[0.0, 2.0, 8.0], [30.0, 2.0, 4.0], [60.0, 1.0, 1.5]],
            wanted: 2.0,
            axis: (8.0, 2.0),
            seconds: 60.0,
            now: Some((30.0, 2.0)),
            words: ["gun".into(), "tank".into(), "asked".into(), "bar".into()],
        };
        let svg = air_test(&a, WIDTH.0);
        let (x, y) = (LEFT + 0.5 * (WIDTH.0 - NAMES - LEFT), FOOT - 0.25 * (FOOT - TOP));
        assert!(svg.contains(&format!("cx=\"{}\" cy=\"{}\"", n(x), n(y))));
        assert!(svg.contains(&format!("L{} {}", n(x), n(y))));
        let none =
            air_test(&AirTest { points: vec![], seconds: 0.0, axis: (0.0, 0.0), now: None, ..a }, WIDTH.1);
        assert!(!none.contains("NaN"));
    }
}
