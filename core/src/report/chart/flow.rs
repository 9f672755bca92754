//! Where the paint went: one stem that splits, widths true to the volumes.

use super::svg::{escape, n, rect};

/// How an end is filled, so that it never hangs on colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill {
    /// On the part.
    Solid,
    /// Passed it by.
    DenseDots,
    /// Fog and bounce.
    WideDots,
    /// Left in cup and gun.
    Rules,
}

/// One end of the flow.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Volume, any one unit.
    pub amount: f64,
    /// Figure with its unit, as shown.
    pub figure: String,
    /// Where it went.
    pub words: String,
    /// Its pattern.
    pub fill: Fill,
}

/// Drawing `width` px wide and 170 high; `total` is written at the stem. Ends that are not positive are left out.
pub fn flow(ids: &str, width: f64, total: &str, ends: &[End]) -> String {
    let ends: Vec<&End> = ends.iter().filter(|e| e.amount.is_finite() && e.amount > 0.0).collect();
    let sum: f64 = ends.iter().map(|e| e.amount).sum();
    if ends.is_empty() || sum <= 0.0 {
        return String::new();
    }
    let (stem_x, stem_w, fan_x) = (46.0, 11.0, (0.5 * width).max(130.0));
    let (height, gap) = (124.0, 12.0);
    let scale = height / sum;
    let mut out = patterns(ids);
    out += &rect("paint edge", stem_x, 22.0, stem_w, height, 0.0);
    let mut words = String::new();
    let spread = gap * (ends.len() - 1) as f64;
    let (mut from, mut to) = (22.0, 22.0 - 0.5 * spread);
    let mut label_floor = f64::NEG_INFINITY;
    for end in ends {
        let thick = end.amount * scale;
        let (a, b, bend) = (stem_x + stem_w, fan_x, 0.5 * (stem_x + stem_w + fan_x));
        let d = format!(
            "M{a} {f}C{bend} {f} {bend} {t} {b} {t}V{t2}C{bend} {t2} {bend} {f2} {a} {f2}Z",
            a = n(a),
            b = n(b),
            bend = n(bend),
            f = n(from),
            t = n(to),
            t2 = n(to + thick),
            f2 = n(from + thick)
        );
        let fill = match end.fill {
            Fill::Solid => String::from(r#"class="paint edge""#),
            Fill::DenseDots => format!(r#"class="flow-edge" fill="url(#{ids}-dense)""#),
            Fill::WideDots => format!(r#"class="flow-edge" fill="url(#{ids}-wide)""#),
            Fill::Rules => format!(r#"class="flow-edge" fill="url(#{ids}-rules)""#),
        };
        out += &format!(r#"<path {fill} d="{d}"/>"#);
        let y = (to + 0.5 * thick + 5.0).max(label_floor + 20.0);
        label_floor = y;
        words += &format!(
            r#"<text class="flow-words" x="{x}" y="{y}"><tspan class="strong">{}</tspan></text><text class="flow-words quiet" x="{x2}" y="{y}">{}</text>"#,
            escape(&end.figure),
            escape(&end.words),
            x = n(fan_x + 8.0),
            x2 = n(fan_x + 66.0),
            y = n(y)
        );
        from += thick;
        to += thick + gap;
    }
    let (figure, unit) = total.split_once('\u{202f}').unwrap_or((total, ""));
    out += &format!(
        r#"<text class="flow-words strong" x="38" y="84" text-anchor="end">{}</text><text class="axis-figure" x="38" y="101" text-anchor="end">{}</text>"#,
        escape(figure),
        escape(unit)
    );
    out + &words
}

/// The flow's patterns, in paint on the sheet.
fn patterns(ids: &str) -> String {
    let dots = |name: &str, pitch: f64, r: f64| {
        let (p, q, t) = (n(pitch), n(0.25 * pitch), n(0.75 * pitch));
        format!(
            r#"<pattern id="{ids}-{name}" width="{p}" height="{p}" patternUnits="userSpaceOnUse"><rect class="sheet" width="{p}" height="{p}"/><circle class="paint-dot" cx="{q}" cy="{q}" r="{r}"/><circle class="paint-dot" cx="{t}" cy="{t}" r="{r}"/></pattern>"#,
            r = n(r)
        )
    };
    format!(
        r#"<defs>{}{}<pattern id="{ids}-rules" width="4" height="4" patternUnits="userSpaceOnUse"><rect class="sheet" width="4" height="4"/><path class="paint-rule" d="M0 2H4"/></pattern></defs>"#,
        dots("dense", 4.2, 0.75),
        dots("wide", 9.0, 0.95)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn end(amount: f64, fill: Fill) -> End {
        End { amount, figure: format!("{amount}\u{202f}mL"), words: "there".into(), fill }
    }

    #[test]
    fn widths_are_true() {
        let drawn = flow("f", 300.0, "4\u{202f}mL", &[end(1.0, Fill::Solid), end(3.0, Fill::DenseDots)]);
        // A quarter of the stem's 124 px, then the rest: the first strip ends where the second begins.
        assert!(drawn.contains("57 53Z") || drawn.contains(" 53Z"), "{drawn}");
    }

    #[test]
    fn nothing_sprayed_draws_nothing() {
        assert!(flow("f", 300.0, "0", &[end(0.0, Fill::Solid), end(f64::NAN, Fill::Rules)]).is_empty());
    }
}
