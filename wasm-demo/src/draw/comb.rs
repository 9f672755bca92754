//! The wet-film comb, standing in the film: feet on the part, teeth above it by rising gaps, wetted up to the reading.

use super::svg::{line, n, path, rect, text};

/// Teeth shown at most.
pub const TEETH: usize = 9;

/// What is drawn. Gaps rise; `wetted` of them are wetted; the film is as thick as `film` in the same unit.
#[derive(Debug, Clone, PartialEq)]
pub struct CombPicture {
    /// Gap of each tooth shown, and its figure.
    pub teeth: Vec<(f64, String)>,
    /// How many of them are wetted, from the left.
    pub wetted: usize,
    /// The wet film.
    pub film: f64,
}

/// Picks the teeth about a reading out of a comb, and counts those wetted.
///
/// Gaps in any unit; `say` gives a tooth its figure.
pub fn about(teeth: &[f64], film: f64, say: impl Fn(f64) -> String) -> CombPicture {
    let wetted = teeth.partition_point(|&t| t <= film * (1.0 + 1e-9));
    let first = wetted.saturating_sub(TEETH / 2 + 1).min(teeth.len().saturating_sub(TEETH));
    let shown = &teeth[first..(first + TEETH).min(teeth.len())];
    CombPicture { teeth: shown.iter().map(|&t| (t, say(t))).collect(), wetted: wetted - first, film }
}

/// The drawing, `width` px wide and 150 high.
pub fn comb(picture: &CombPicture, width: f64) -> String {
    const BASE: f64 = 128.0;
    const TALLEST: f64 = 58.0;
    let count = picture.teeth.len();
    let largest = picture.teeth.last().map_or(1.0, |t| t.0).max(picture.film);
    let tall = |gap: f64| if largest > 0.0 { TALLEST * (gap / largest).clamp(0.0, 1.0) } else { 0.0 };
    let top = 18.0;
    let foot = 26.0;
    let (left, right) = (14.0, width - 14.0);
    let step = (right - left - 2.0 * foot) / count.max(1) as f64;
    let tooth = 0.62 * step;
    let film = BASE - tall(picture.film);
    // The film, then the plate over it, then what clings to the wetted teeth.
    let mut out = rect("comb-film", 0.0, film, width, BASE - film, 0.0);
    out += &line("part", (0.0, BASE), (width, BASE));
    let root = BASE - TALLEST - 14.0;
    let mut d = format!("M{} {}H{}V{}H{}V{}", n(left), n(top), n(right), n(BASE), n(right - foot), n(root));
    for (i, (gap, _)) in picture.teeth.iter().enumerate().rev() {
        let x = left + foot + (i as f64 + 0.5) * step;
        let y = BASE - tall(*gap);
        d += &format!("H{}V{}H{}V{}", n(x + 0.5 * tooth), n(y), n(x - 0.5 * tooth), n(root));
    }
    d += &format!("H{}V{}H{}Z", n(left + foot), n(BASE), n(left));
    out += &path("metal outline comb-plate", &d);
    for (i, (gap, figure)) in picture.teeth.iter().enumerate() {
        let x = left + foot + (i as f64 + 0.5) * step;
        let y = BASE - tall(*gap);
        let wet = i < picture.wetted;
        if wet {
            out += &rect("comb-wet", x - 0.5 * tooth, y - 7.0, tooth, 7.0, 0.0);
        }
        let last = wet && i + 1 == picture.wetted;
        out += &text(if last { "dim-figure" } else { "axis-figure" }, (x, top + 22.0), "middle", figure);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_reading_stands_in_the_picture() {
        let teeth: Vec<f64> = (1..=20).map(|k| 13.0 * f64::from(k)).collect();
        for film in [0.0, 12.9, 13.0, 61.0, 259.9, 260.0, 999.0] {
            let p = about(&teeth, film, |t| format!("{t}"));
            assert_eq!(p.teeth.len(), TEETH);
            let wet: Vec<bool> = p.teeth.iter().map(|(t, _)| *t <= film).collect();
            assert_eq!(p.wetted, wet.iter().filter(|w| **w).count(), "{film}");
            let svg = comb(&p, 336.0);
            assert_eq!(svg.matches("comb-wet").count(), p.wetted);
            assert!(!svg.contains("NaN"), "{svg}");
        }
        assert!(about(&[], 5.0, |t| format!("{t}")).teeth.is_empty());
    }
}
