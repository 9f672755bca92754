//! Dimension lines of a drawing.

use super::svg::{group, line, n, text};

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
        return out + &group(&turned, &text("dim-figure", (0.0, 0.0), "middle", figure));
    }
    out + &text("dim-figure", (mx, my + 4.5), "middle", figure)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_dimension_is_not_broken() {
        assert_eq!(dimension((0.0, 0.0), (0.0, 30.0), "72 mm").matches("<path").count(), 3);
        assert_eq!(dimension((0.0, 0.0), (0.0, 130.0), "172 mm").matches("<path").count(), 4);
    }
}
