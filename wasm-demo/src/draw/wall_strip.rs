//! Paper strips for the wall, drawn in mm: ticks where passes lie, ticks where beats fall.

use super::svg::{line, n, text};

/// Longest piece of paper [mm]: an A4 or Letter sheet less its margins.
pub const LONGEST: f64 = 240.0;
/// Width of a strip [mm].
pub const WIDE: f64 = 30.0;

/// A strip of a length with ticks at places from its upper end [mm], each with a word; cut into pieces that fit a sheet.
/// Each piece: its height [mm] and its drawing. Pieces are named "1/2" and begin where the one before ends.
pub fn pieces(length: f64, ticks: &[(f64, String)], name: &str) -> Vec<(f64, String)> {
    let length = if length.is_finite() { length.clamp(1.0, 5_000.0) } else { 1.0 };
    let count = (length / LONGEST).ceil().max(1.0) as usize;
    (0..count)
        .map(|i| {
            let (from, to) = (LONGEST * i as f64, (LONGEST * (i + 1) as f64).min(length));
            let high = to - from;
            let mut out = format!(
                r#"<rect class="strip-edge" x="0.2" y="0.2" width="{}" height="{}"/>"#,
                n(WIDE - 0.4),
                n(high - 0.4)
            );
            for (at, word) in ticks.iter().filter(|(at, _)| (from - 1e-6..=to + 1e-6).contains(at)) {
                let y = at - from;
                out += &line("strip-tick", (0.0, y), (0.5 * WIDE, y));
                out += &text(
                    "strip-word",
                    (0.5 * WIDE + 1.5, (y + 1.2).clamp(3.5, (high - 1.0).max(3.5))),
                    "start",
                    word,
                );
            }
            let mark = if count > 1 { format!("{name} {}/{count}", i + 1) } else { name.to_string() };
            out += &format!(
                r#"<text class="strip-word" transform="translate(4 {}) rotate(-90)">{}</text>"#,
                n(0.5 * high + 20.0),
                super::svg::escape(&mark)
            );
            (high, out)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_tick_stands_on_a_piece_that_fits_a_sheet() {
        let ticks: Vec<(f64, String)> =
            (0..6).map(|i| (92.0 * f64::from(i), format!("pass {}", i + 1))).collect();
        let pieces = pieces(460.0, &ticks, "down");
        assert_eq!(pieces.len(), 2);
        assert!(pieces.iter().all(|(high, _)| *high <= LONGEST));
        assert!((pieces.iter().map(|(high, _)| high).sum::<f64>() - 460.0).abs() < 1e-9);
        let drawn: String = pieces.into_iter().map(|(_, out)| out).collect();
        assert_eq!(drawn.matches("strip-tick").count(), 6);
    }
}
