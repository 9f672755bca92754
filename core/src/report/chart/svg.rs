//! Small pieces of SVG text.

use std::fmt::Write;

/// A number for an attribute: at most two decimals, no negative zero; what is not finite becomes 0.
pub fn n(value: f64) -> String {
    if !value.is_finite() {
        return "0".into();
    }
    let mut text = format!("{value:.2}");
    while text.contains('.') && (text.ends_with('0') || text.ends_with('.')) {
        text.pop();
    }
    if text == "-0" { "0".into() } else { text }
}

/// Text made safe for SVG and HTML.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// A path with a class.
pub fn path(class: &str, d: &str) -> String {
    format!(r#"<path class="{class}" d="{d}"/>"#)
}

/// A path filled with a hatch or dot pattern.
pub fn filled(class: &str, fill: &str, d: &str) -> String {
    format!(r#"<path class="{class}" fill="url(#{fill})" d="{d}"/>"#)
}

/// A straight line.
pub fn line(class: &str, a: (f64, f64), b: (f64, f64)) -> String {
    format!(r#"<path class="{class}" d="M{} {}L{} {}"/>"#, n(a.0), n(a.1), n(b.0), n(b.1))
}

/// A circle.
pub fn circle(class: &str, c: (f64, f64), r: f64) -> String {
    format!(r#"<circle class="{class}" cx="{}" cy="{}" r="{}"/>"#, n(c.0), n(c.1), n(r))
}

/// A rectangle with rounded corners.
pub fn rect(class: &str, x: f64, y: f64, w: f64, h: f64, r: f64) -> String {
    format!(
        r#"<rect class="{class}" x="{}" y="{}" width="{}" height="{}" rx="{}"/>"#,
        n(x),
        n(y),
        n(w.max(0.0)),
        n(h.max(0.0)),
        n(r)
    )
}

/// A line of text; `anchor` is "start", "middle" or "end".
pub fn text(class: &str, at: (f64, f64), anchor: &str, words: &str) -> String {
    format!(
        r#"<text class="{class}" x="{}" y="{}" text-anchor="{anchor}">{}</text>"#,
        n(at.0),
        n(at.1),
        escape(words)
    )
}

/// A group with a transform.
pub fn group(transform: &str, inner: &str) -> String {
    format!(r#"<g transform="{transform}">{inner}</g>"#)
}

/// A closed polygon's path data.
pub fn polygon(points: &[(f64, f64)]) -> String {
    let mut d = open(points);
    d.push('Z');
    d
}

/// An open line's path data.
pub fn open(points: &[(f64, f64)]) -> String {
    let mut d = String::new();
    for (i, (x, y)) in points.iter().enumerate() {
        let _ = write!(d, "{}{} {}", if i == 0 { 'M' } else { 'L' }, n(*x), n(*y));
    }
    d
}

/// The same points on the other side of the axis.
pub fn mirrored(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    points.iter().map(|&(x, y)| (x, -y)).collect()
}

/// Two hatches, opposite, over the section's ground; `pitch` in the drawing's units.
pub fn hatches(prefix: &str, pitch: f64) -> String {
    let p = n(pitch);
    let half = n(0.5 * pitch);
    let one = |name: &str, turn: i32| {
        format!(
            r#"<pattern id="{prefix}-{name}" width="{p}" height="{p}" patternUnits="userSpaceOnUse" patternTransform="rotate({turn})"><rect class="metal" width="{p}" height="{p}"/><path class="hatch" d="M{half} 0V{p}"/></pattern>"#
        )
    };
    one("a", 45) + &one("b", -45)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_finite() {
        assert_eq!(n(1.0), "1");
        assert_eq!(n(-0.001), "0");
        assert_eq!(n(2.345), "2.35");
        assert_eq!(n(100.0), "100");
        assert_eq!(n(f64::NAN), "0");
        assert_eq!(n(f64::INFINITY), "0");
    }

    #[test]
    fn words_cannot_break_out() {
        assert_eq!(escape("<a \"b\" & c>"), "&lt;a &quot;b&quot; &amp; c&gt;");
    }
}
