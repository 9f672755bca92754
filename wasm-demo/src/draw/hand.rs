//! By hand: chalk ticks, the passes as they were, the ruler beside them, the report card's bar and charts.

use super::plume::Sprinkle;
use super::svg::{circle, line, n, open, path, text};

/// A rough chalk stroke from `a` to `b`.
fn chalk(a: (f64, f64), b: (f64, f64), dice: &mut Sprinkle) -> String {
    let mut out = String::new();
    for _ in 0..3 {
        let points: Vec<_> = (0..=8)
            .map(|i| {
                let t = f64::from(i) / 8.0;
                (a.0 + (b.0 - a.0) * t + 0.9 * dice.bell(), a.1 + (b.1 - a.1) * t + 1.4 * dice.bell())
            })
            .collect();
        out += &path("hand-chalk", &open(&points));
    }
    out
}

/// Ticks beside the panel where passes lie, and small ones along its edges where the beats fall. `rows` and `beats` are
/// places [px] down and along a panel of this size [px].
pub fn ticks(rows: &[f64], beats: &[f64], size: (f64, f64), turned: bool) -> String {
    let mut dice = Sprinkle::new(5);
    let at = |along: f64, down: f64| if turned { (size.0 - down, along) } else { (along, down) };
    let length = if turned { size.1 } else { size.0 };
    let depth = if turned { size.0 } else { size.1 };
    let mut out = String::new();
    for &row in rows {
        out += &chalk(at(-24.0, row), at(-4.0, row), &mut dice);
        out += &chalk(at(length + 4.0, row), at(length + 14.0, row), &mut dice);
    }
    for &beat in beats {
        out += &chalk(at(beat, -9.0), at(beat, -3.0), &mut dice);
        out += &chalk(at(beat, depth + 3.0), at(beat, depth + 9.0), &mut dice);
    }
    out
}

/// Begin and end of a pass [px].
pub type Line = ((f64, f64), (f64, f64));

/// Passes as dotted lines with the way they went: begin and end of each [px].
pub fn passes(lines: &[Line], chosen: Option<usize>) -> String {
    let mut out = String::new();
    for (i, &(a, b)) in lines.iter().enumerate() {
        let class = if chosen == Some(i) { "hand-pass now" } else { "hand-pass" };
        out += &line(class, a, b);
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let length = (dx * dx + dy * dy).sqrt().max(1.0);
        let (ux, uy) = (dx / length, dy / length);
        let wing = |side: f64| (b.0 - 8.0 * ux - side * 4.5 * uy, b.1 - 8.0 * uy + side * 4.5 * ux);
        out += &path("hand-arrow", &open(&[wing(1.0), b, wing(-1.0)]));
    }
    out
}

/// Numbered discs, moved apart where they would touch.
pub fn discs(places: &[(f64, f64)], size: (f64, f64)) -> String {
    let mut put: Vec<(f64, f64)> = Vec::new();
    let mut out = String::new();
    for (i, &(x, y)) in places.iter().enumerate() {
        let near = |p: &(f64, f64), q: (f64, f64)| (p.0 - q.0).abs() < 30.0 && (p.1 - q.1).abs() < 30.0;
        let mut at = (x.clamp(16.0, (size.0 - 16.0).max(16.0)), y.clamp(16.0, (size.1 - 16.0).max(16.0)));
        while put.iter().any(|p| near(p, at)) && at.0 < size.0 - 20.0 {
            at.0 += 32.0;
        }
        put.push(at);
        out += &circle("hand-disc", at, 13.5);
        out += &text("hand-disc-figure", (at.0, at.1 + 5.0), "middle", &(i + 1).to_string());
    }
    out
}

/// The ruler: pass places down it [px], the figure of each gap and a word where it is off.
pub fn ruler(places: &[f64], figures: &[(String, Option<&str>)]) -> String {
    let (Some(&first), Some(&last)) = (places.first(), places.last()) else { return String::new() };
    let mut out = line("hand-rule", (1.0, first), (1.0, last));
    for &y in places {
        out += &line("hand-rule", (1.0, y), (9.0, y));
    }
    for (gap, (figure, off)) in places.windows(2).zip(figures) {
        let y = 0.5 * (gap[0] + gap[1]) + 5.0;
        if let Some(word) = off {
            out += &line("hand-off", (5.0, gap[0].min(gap[1]) + 2.0), (5.0, gap[0].max(gap[1]) - 2.0));
            out += &text("hand-figure off", (18.0, y), "start", figure);
            out += &text("hand-word", (46.0, y), "start", word);
        } else {
            out += &text("hand-figure", (18.0, y), "start", figure);
        }
    }
    out
}

/// Hatch and dots of the bar.
fn patterns() -> &'static str {
    r#"<defs><pattern id="hand-thin" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="hand-thin" width="8" height="8"/><path class="hand-hatch" d="M0 0V8"/></pattern><pattern id="hand-thick" width="8" height="8" patternUnits="userSpaceOnUse"><rect class="hand-thick" width="8" height="8"/><circle class="hand-dot" cx="2" cy="2" r="1.7"/><circle class="hand-dot" cx="6" cy="6" r="1.7"/></pattern></defs>"#
}

/// Thin, right and thick of a panel as one bar.
pub fn shares_bar(shares: [f64; 3], width: f64) -> String {
    let mut out = String::from(patterns());
    let mut x = 0.0;
    for (share, fill) in shares.iter().zip(["url(#hand-thin)", "", "url(#hand-thick)"]) {
        let w = share.clamp(0.0, 1.0) * width;
        let (class, fill) = if fill.is_empty() {
            ("hand-right", String::new())
        } else {
            ("hand-part", format!(r#" fill="{fill}""#))
        };
        out += &format!(r#"<rect class="{class}"{fill} x="{}" y="0" width="{}" height="16"/>"#, n(x), n(w));
        x += w;
    }
    out + &format!(r#"<rect class="hand-frame" x="0.5" y="0.5" width="{}" height="15"/>"#, n(width - 1.0))
}

/// Pace along each pass, pass beside pass.
#[derive(Debug, Clone, Default)]
pub struct PaceChart {
    /// By pass: place along it 0..=1 in the order it went, and pace, in the unit shown.
    pub passes: Vec<Vec<(f64, f64)>>,
    /// The plan's pace.
    pub plan: f64,
    /// The pass drawn strong.
    pub chosen: Option<usize>,
    /// Passes that stood still.
    pub still: Vec<usize>,
    /// Words: the plan's, stood still, pass.
    pub words: [&'static str; 3],
}

/// The chart, `width` by `height` px and 34 more below it.
pub fn pace_chart(chart: &PaceChart, width: f64, height: f64) -> String {
    let left = 26.0;
    let most =
        chart.passes.iter().flatten().map(|p| p.1).fold(1.4 * chart.plan, f64::max).min(3.0 * chart.plan);
    if !(most > 0.0 && most.is_finite()) || chart.passes.is_empty() {
        return String::new();
    }
    let step =
        [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0].into_iter().find(|s| most / s <= 5.0).unwrap_or(50.0);
    let top = (most / step).ceil() * step;
    let y = |pace: f64| height * (1.0 - pace.clamp(0.0, top) / top);
    let wide = (width - left - 26.0) / chart.passes.len() as f64;
    let mut out = format!(
        r#"<rect class="hand-band" x="{}" y="{}" width="{}" height="{}"/>"#,
        n(left),
        n(y(1.1 * chart.plan)),
        n(width - left - 26.0),
        n(y(0.9 * chart.plan) - y(1.1 * chart.plan))
    );
    let mut at = 0.0;
    while at <= top + 1e-9 {
        out += &line(if at == 0.0 { "part" } else { "grid" }, (left, y(at)), (width - 26.0, y(at)));
        out += &text("axis-figure", (left - 6.0, y(at) + 4.0), "end", &n(at));
        at += step;
    }
    out += &line("dotted strong", (left, y(chart.plan)), (width - 26.0, y(chart.plan)));
    out += &text("axis-figure", (width - 22.0, y(chart.plan) + 4.0), "start", chart.words[0]);
    for (i, pass) in chart.passes.iter().enumerate() {
        let x = |share: f64| left + wide * (i as f64 + 0.1 + 0.8 * share);
        let points: Vec<_> = pass.iter().map(|&(share, pace)| (x(share), y(pace))).collect();
        let still = chart.still.contains(&i);
        let class = if still { "hand-pace off" } else { "hand-pace" };
        out += &path(class, &open(&points));
        if still && let Some(&(px, py)) = points.last() {
            out += &text(
                "axis-figure strong",
                (px.min(width - 60.0), (py - 8.0).max(10.0)),
                "middle",
                chart.words[1],
            );
        }
        let class = if chart.chosen == Some(i) { "axis-figure strong" } else { "axis-figure" };
        out += &text(class, (x(0.5), height + 18.0), "middle", &(i + 1).to_string());
    }
    out + &text("axis-figure", (left, height + 34.0), "start", chart.words[2])
}

/// The last tries: shares 0..=1, their figures, the goal and its word.
pub fn tries_chart(tries: &[f64], goal: f64, word: &str, width: f64) -> String {
    let (left, height) = (28.0, 66.0);
    let low = tries.iter().copied().fold(goal, f64::min);
    let floor = ((low * 5.0).floor() / 5.0 - 0.2).max(0.0);
    let y = |v: f64| 6.0 + height * (1.0 - (v - floor) / (1.0 - floor).max(0.1));
    let mut out = String::new();
    let mut at = floor;
    while at <= 1.0 + 1e-9 {
        out += &line("grid", (left, y(at)), (width, y(at)));
        out += &text("axis-figure", (left - 6.0, y(at) + 4.0), "end", &n((100.0 * at).round()));
        at += 0.2;
    }
    out += &line("dotted strong", (left, y(goal)), (width, y(goal)));
    out += &text("axis-figure", (left + 4.0, y(goal) - 4.0), "start", word);
    let x = |i: usize| left + (width - left) * (i as f64 + 0.5) / tries.len().max(1) as f64;
    let points: Vec<_> = tries.iter().enumerate().map(|(i, &v)| (x(i), y(v))).collect();
    out += &path("hand-pace", &open(&points));
    for (i, &(px, py)) in points.iter().enumerate() {
        let last = i + 1 == points.len();
        out +=
            &circle(if last { "hand-try now" } else { "hand-try" }, (px, py), if last { 4.5 } else { 3.0 });
        let below = py < y(goal) + 22.0 && py > y(goal) - 6.0;
        let class = if last { "axis-figure strong" } else { "axis-figure" };
        let figure = n((100.0 * tries[i]).round());
        out += &text(class, (px, if below { py + 18.0 } else { py - 8.0 }), "middle", &figure);
    }
    out
}

/// When the trigger was on: from and to of each pass [s] over the whole try.
pub fn replay_line(passes: &[[f64; 2]], seconds: f64, chosen: Option<usize>, width: f64) -> String {
    let x = |t: f64| width * (t / seconds.max(1e-3)).clamp(0.0, 1.0);
    let mut out = line("hand-time", (0.0, 14.0), (width, 14.0));
    for (i, &[from, to]) in passes.iter().enumerate() {
        let class = if chosen == Some(i) { "hand-on now" } else { "hand-on" };
        let w = (x(to) - x(from)).max(2.0);
        out += &format!(r#"<rect class="{class}" x="{}" y="9" width="{}" height="10"/>"#, n(x(from)), n(w));
        out += &text("axis-figure", (x(0.5 * (from + to)), 38.0), "middle", &(i + 1).to_string());
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_drawing_is_finite_and_empty_without_figures() {
        let chart = PaceChart {
            passes: vec![vec![(0.0, 2.0), (1.0, 2.2)], vec![(0.0, 9.0)]],
            plan: 2.2,
            still: vec![1],
            chosen: Some(0),
            words: ["job", "stood still", "pass"],
        };
        let drawn = [
            ticks(&[10.0, 50.0], &[100.0], (300.0, 200.0), false),
            ticks(&[10.0], &[], (200.0, 300.0), true),
            passes(&[((0.0, 5.0), (100.0, 5.0)), ((100.0, 60.0), (0.0, 60.0))], Some(1)),
            ruler(&[0.0, 50.0, 130.0], &[("52".into(), None), ("78".into(), Some("wide"))]),
            shares_bar([0.1, 0.8, 0.1], 300.0),
            pace_chart(&chart, 360.0, 170.0),
            tries_chart(&[0.48, 0.79], 0.85, "goal 85", 290.0),
            replay_line(&[[0.0, 1.0], [2.0, 3.0]], 3.0, Some(1), 600.0),
        ];
        for out in drawn {
            assert!(!out.is_empty() && !out.contains("NaN") && !out.contains("inf"), "{out}");
        }
        assert_eq!(pace_chart(&PaceChart::default(), 300.0, 100.0), "");
        assert_eq!(ruler(&[], &[]), "");
    }

    #[test]
    fn discs_stand_apart() {
        let out = discs(&[(100.0, 50.0), (104.0, 52.0)], (300.0, 200.0));
        assert!(out.contains(r#"cx="104""#) || out.contains(r#"cx="136""#), "{out}");
        assert_eq!(out.matches("<circle").count(), 2);
    }
}
