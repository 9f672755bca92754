//! A measuring jug to scale: straight walls, so that heights are true to volumes.

use super::range::round_axis;
use super::svg::{circle, escape, line, n, path, text};

/// Width and height of the drawing [px].
pub const SIZE: (f64, f64) = (336.0, 236.0);

/// One pour.
#[derive(Debug, Clone, PartialEq)]
pub struct Pour {
    /// Volume, in the unit of the drawing.
    pub volume: f64,
    /// What it is.
    pub name: String,
    /// The line it is poured up to, as shown.
    pub up_to: String,
}

/// Jugs that one finds in a shop, for mL and for US fl oz; larger ones by doubling.
const JUGS_ML: [f64; 11] = [10.0, 25.0, 50.0, 100.0, 250.0, 400.0, 600.0, 1000.0, 2000.0, 3000.0, 5000.0];
const JUGS_FL_OZ: [f64; 9] = [0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0];

/// The smallest jug with a little room over `volume`.
pub fn jug_for(volume: f64, ml: bool) -> f64 {
    let jugs: &[f64] = if ml { &JUGS_ML } else { &JUGS_FL_OZ };
    let fits = |size: &&f64| **size >= 1.05 * volume;
    let mut size = jugs.iter().find(fits).copied().unwrap_or(jugs[jugs.len() - 1]);
    while size < 1.05 * volume {
        size *= 2.0;
    }
    size
}

const LEFT: f64 = 44.0;
const RIGHT: f64 = 168.0;
const TOP: f64 = 24.0;
const FOOT: f64 = 214.0;

/// The jug with its pours, first at the bottom. Empty when there is nothing to pour.
pub fn jug(pours: &[Pour], ml: bool, unit: &str) -> String {
    let pours: Vec<&Pour> = pours.iter().filter(|p| p.volume.is_finite() && p.volume > 0.0).collect();
    let total: f64 = pours.iter().map(|p| p.volume).sum();
    if pours.is_empty() || total <= 0.0 {
        return String::new();
    }
    let size = jug_for(total, ml);
    let y = |v: f64| FOOT - (FOOT - TOP - 6.0) * v / size;
    let mut out = patterns();
    let mut words = String::new();
    let (mut below, mut ceiling) = (0.0, FOOT + 16.0);
    for (i, pour) in pours.iter().enumerate() {
        let (foot, top) = (y(below), y(below + pour.volume));
        let fill = [
            "class=\"paint edge\"",
            "class=\"flow-edge\" fill=\"url(#jug-hatch)\"",
            "class=\"flow-edge\" fill=\"url(#jug-dots)\"",
        ][i.min(2)];
        out += &format!(
            r#"<rect {fill} x="{}" y="{}" width="{}" height="{}"/>"#,
            n(LEFT),
            n(top),
            n(RIGHT - LEFT),
            n((foot - top).max(0.5))
        );
        // Labels stand at their line, and never on one another.
        let at = (top + 5.0).min(ceiling - 34.0).max(TOP);
        ceiling = at;
        out += &line("jug-line", (LEFT, top), (RIGHT + 6.0, top));
        out += &path(
            "lead",
            &format!(
                "M{} {}L{} {}L{} {}",
                n(RIGHT + 6.0),
                n(top),
                n(RIGHT + 22.0),
                n(at - 5.0),
                n(RIGHT + 28.0),
                n(at - 5.0)
            ),
        );
        out += &circle("jug-disc", (RIGHT + 40.0, at - 5.0), 10.0);
        words += &text("jug-step", (RIGHT + 40.0, at - 0.7), "middle", &(i + 1).to_string());
        words += &text("flow-words strong", (RIGHT + 56.0, at - 5.0), "start", &pour.name);
        words += &text("flow-words quiet", (RIGHT + 56.0, at + 11.0), "start", &pour.up_to);
        below += pour.volume;
    }
    // Walls, spout, handle side and foot.
    out += &path(
        "outline-2 none",
        &format!(
            "M{} {}L{l} {}V{f}H{r}V{t}M{l2} {f2}H{r2}",
            n(LEFT - 12.0),
            n(TOP - 10.0),
            n(TOP + 4.0),
            l = n(LEFT),
            l2 = n(LEFT - 5.0),
            r = n(RIGHT),
            r2 = n(RIGHT + 5.0),
            f = n(FOOT),
            f2 = n(FOOT + 4.0),
            t = n(TOP - 10.0)
        ),
    );
    let (end, step) = round_axis(size);
    let steps = (end / step).round() as i32;
    for k in 1..=2 * steps {
        let v = 0.5 * step * f64::from(k);
        if v > size * 1.0001 {
            break;
        }
        let whole = k % 2 == 0;
        out += &line("scale", (LEFT - if whole { 10.0 } else { 5.0 }, y(v)), (LEFT, y(v)));
        if whole {
            let last = v + step > size * 1.0001;
            let figure = if last { format!("{}\u{202f}{unit}", n(v)) } else { n(v) };
            let shift = if last { -8.0 } else { 0.0 };
            words += &text(
                "axis-figure",
                (LEFT - 13.0, y(v) + 4.0 + shift),
                "end",
                if last { "" } else { &figure },
            );
            if last {
                words += &text("axis-figure", (LEFT + 6.0, y(v) - 4.0), "start", &figure);
            }
        }
    }
    out + &words
}

/// Hardener hatched, thinner dotted: never by colour alone.
fn patterns() -> String {
    String::from(
        r#"<defs><pattern id="jug-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="sheet" width="6" height="6"/><path class="paint-rule" d="M0 3H6"/></pattern><pattern id="jug-dots" width="8" height="8" patternUnits="userSpaceOnUse"><rect class="sheet" width="8" height="8"/><circle class="paint-dot" cx="2" cy="2" r="1"/><circle class="paint-dot" cx="6" cy="6" r="1"/></pattern></defs>"#,
    )
}

/// The pours in words, for those who do not see the drawing.
pub fn spoken(pours: &[Pour]) -> String {
    let said = pours.iter().filter(|p| p.volume > 0.0).map(|p| format!("{} {}", p.name, p.up_to));
    escape(&said.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pour(volume: f64, name: &str) -> Pour {
        Pour { volume, name: name.into(), up_to: format!("up to {volume}") }
    }

    #[test]
    fn heights_are_true_to_volumes() {
        let drawn = jug(&[pour(300.0, "base"), pour(150.0, "hardener")], true, "mL");
        let height = |nth: usize| {
            let rect = drawn.split("<rect ").filter(|r| r.contains("x=\"44\"")).nth(nth).unwrap();
            let value = rect.split("height=\"").nth(1).unwrap().split('"').next().unwrap();
            value.parse::<f64>().unwrap()
        };
        assert!((height(0) / height(1) - 2.0).abs() < 0.01, "{} {}", height(0), height(1));
        // 450 mL go into the 600 mL jug: three quarters of its 184 px.
        assert!((height(0) + height(1) - 0.75 * 184.0).abs() < 0.1);
    }

    #[test]
    fn there_is_a_jug_for_everything() {
        assert_eq!((jug_for(460.0, true), jug_for(9.8, true), jug_for(15.6, false)), (600.0, 25.0, 32.0));
        for volume in [0.1, 7.0, 999.0, 123_456.0] {
            let size = jug_for(volume, true);
            assert!(size >= 1.05 * volume);
            assert!(!jug(&[pour(volume, "base")], true, "mL").contains("NaN"));
        }
        assert!(jug(&[pour(0.0, "base"), pour(f64::NAN, "x")], true, "mL").is_empty());
    }
}
