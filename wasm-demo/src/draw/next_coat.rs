//! The next coat's clock: a line of time from the coat on, hatched while it must wait.

use super::svg::{filled, line, n, polygon, text};

/// Times after the coat [s] with their words; the axis runs from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Clock {
    /// Earliest, where there is one.
    pub earliest: Option<(f64, String)>,
    /// Latest, where the data sheet says.
    pub latest: Option<(f64, String)>,
    /// The plan's wait.
    pub plan: Option<(f64, String)>,
    /// The word over the hatch.
    pub wait: String,
}

/// The drawing, `width` px wide and 92 high. `id` keeps its hatch apart from others'.
pub fn clock(c: &Clock, width: f64, id: &str) -> String {
    let all = [&c.earliest, &c.latest, &c.plan].into_iter().flatten().map(|(t, _)| *t);
    let times: Vec<f64> = all.filter(|t| t.is_finite() && *t >= 0.0).collect();
    let earliest = c.earliest.as_ref().map(|(t, _)| *t);
    // A latest that is days off would leave no room for the rest: it stands at the end, behind a break.
    let near =
        times.iter().copied().filter(|t| earliest.is_none_or(|e| *t <= 6.0 * e.max(1.0))).fold(0.0, f64::max);
    let (left, right, y) = (4.0, width - 4.0, 46.0);
    let full = (right - left) * if near < times.iter().copied().fold(0.0, f64::max) { 0.72 } else { 0.8 };
    let x = |t: f64| if near > 0.0 && t <= near * 1.0001 { left + full * t / near } else { right - 26.0 };
    let wait_to = earliest.map_or(right, x);
    let mut out = format!(
        r#"<pattern id="{id}" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path class="hatch-line" d="M0 4.500H9"/></pattern>"#
    );
    let band = |a: f64, b: f64| polygon(&[(a, y - 9.0), (b, y - 9.0), (b, y + 9.0), (a, y + 9.0)]);
    out += &filled("clock-wait", id, &band(left, wait_to));
    out += &line("clock-line", (left, y), (right, y));
    for i in [-1.0, 1.0] {
        out += &line("clock-line", (right, y), (right - 7.0, y + 5.0 * i));
    }
    out += &line("clock-line", (left, y - 11.0), (left, y + 11.0));
    if wait_to - left > 44.0 {
        out += &text("axis-figure", (left + 4.0, y - 15.0), "start", &c.wait);
    }
    let anchor = |at: f64| {
        if at < left + 60.0 {
            "start"
        } else if at > right - 60.0 {
            "end"
        } else {
            "middle"
        }
    };
    for (t, words) in c.earliest.iter().chain(&c.latest) {
        let at = x(*t);
        if *t > near * 1.0001 {
            out += &line("clock-break", (at - 18.0, y + 7.0), (at - 12.0, y - 7.0));
            out += &line("clock-break", (at - 13.0, y + 7.0), (at - 7.0, y - 7.0));
        }
        out += &line("clock-mark", (at, y - 11.0), (at, y + 11.0));
        out += &text("word on", (at, y - 15.0), anchor(at), words);
    }
    if let Some((t, words)) = &c.plan {
        let at = x(*t);
        out += &format!(
            r#"<path class="solid" d="M{0} {1}L{2} {3}H{4}Z"/>"#,
            n(at),
            n(y + 10.0),
            n(at - 5.5),
            n(y + 20.0),
            n(at + 5.5)
        );
        out += &text("word", (at, y + 36.0), anchor(at), words);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_time_stands_on_the_line() {
        let w = |t: f64| Some((t, format!("{t}")));
        for c in [
            Clock { earliest: w(450.0), latest: None, plan: w(480.0), wait: "wait".into() },
            Clock { earliest: w(450.0), latest: w(86_400.0), plan: w(60.0), wait: "wait".into() },
            Clock { earliest: None, latest: None, plan: None, wait: "wait".into() },
            Clock { earliest: w(0.0), latest: w(0.0), plan: w(1e9), wait: String::new() },
        ] {
            let svg = clock(&c, 336.0, "t");
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
            for (_, words) in [&c.earliest, &c.latest, &c.plan].into_iter().flatten() {
                assert!(svg.contains(words.as_str()), "{svg}");
            }
        }
    }
}
