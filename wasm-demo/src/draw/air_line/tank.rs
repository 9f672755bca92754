//! Tank, pump, and the mask on the same tank.

use super::super::svg::{circle, line, n, path, rect, text};
use super::{AirLine, TANK_X, TANK_Y, WAY_Y};

/// Tank, pump and the tank's marks.
pub(super) fn tank(a: &AirLine) -> String {
    let (left, right) = TANK_X;
    let (top, foot) = TANK_Y;
    let (w, h) = (right - left, foot - top);
    let share = |bar: f64| if a.full > 0.0 { (bar / a.full).clamp(0.0, 1.0) } else { 0.0 };
    let y = |bar: f64| foot - 8.0 - share(bar) * (h - 16.0);
    let level = y(a.tank.bar);
    let mut out = rect("sheet", left, top, w, h, 22.0);
    out += &format!(
        r#"<clipPath id="al-tank"><rect x="{}" y="{}" width="{}" height="{}" rx="22"/></clipPath><g clip-path="url(#al-tank)">{}{}</g>"#,
        n(left),
        n(top),
        n(w),
        n(h),
        rect("air", left, level, w, (foot - level).max(0.0), 0.0),
        line("outline-2", (left, level), (right, level)),
    );
    out += &rect("none outline", left, top, w, h, 22.0);
    for x in [left + 12.0, right - 12.0] {
        out += &line("outline", (x, foot - 2.0), (x, foot + 16.0));
    }
    out += &line("part", (left - 14.0, foot + 16.0), (right + 14.0, foot + 16.0));
    // Pump and motor on top.
    let (x, t) = (left + 2.0, top - 54.0);
    out += &rect("metal part", x, t + 12.0, 26.0, 40.0, 2.0);
    for i in 0..5 {
        let fin = t + 16.0 + 6.0 * f64::from(i);
        out += &line("inside-line", (x - 4.0, fin), (x + 30.0, fin));
    }
    out += &circle("metal part", (x + 56.0, t + 34.0), 17.0);
    out += &circle("none inside-line", (x + 56.0, t + 34.0), 5.0);
    out += &line("part", (x + 10.0, t + 52.0), (right - 8.0, t + 52.0));
    let mut last = f64::NEG_INFINITY;
    for mark in &a.marks {
        let at = y(mark.bar);
        // Marks that lie close keep their words apart.
        let words = (at + 4.5).max(last + 17.0);
        last = words;
        out += &line("dotted", (left, at), (right, at));
        out += &line("part", (left - 5.0, at), (left, at));
        out += &text("word", (left - 9.0, words), "end", &mark.words);
    }
    out += &text("dim-figure", (0.5 * (left + right), level + 22.0), "middle", &a.tank.words);
    out += &text("word on", (TANK_X.1 + 20.0, 28.0), "end", &a.labels.pump[0]);
    out += &text("word", (TANK_X.1 + 20.0, 47.0), "end", &a.labels.pump[1]);
    out
}

/// The mask on the same tank, where there is one.
pub(super) fn mask(a: &AirLine) -> String {
    if a.labels.mask.is_empty() {
        return String::new();
    }
    let x = 330.0;
    let tee = format!("M502 {}V78H{}", n(WAY_Y), n(x + 22.0));
    [
        path("line-edge pipe", &tee),
        path("line-bore pipe", &tee),
        path(
            "sheet outline-2",
            &format!(
                "M{} 52C{} 40 {} 40 {} 52V88C{} 104 {} 104 {} 88Z",
                n(x - 22.0),
                n(x - 18.0),
                n(x + 18.0),
                n(x + 22.0),
                n(x + 18.0),
                n(x - 18.0),
                n(x - 22.0)
            ),
        ),
        path("air part", &format!("M{} 56H{}V74H{}Z", n(x - 16.0), n(x + 16.0), n(x - 16.0))),
        text("word on", (x, 28.0), "middle", &a.labels.mask),
    ]
    .concat()
}
