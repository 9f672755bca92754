//! Numbered spots over a film map. They stand on the film, so their colours stay in light and dark.

use mistcoat::judge::{Spot, Verdict};

use super::svg::{circle, line, n, text};

/// The spots of one face, over its map of `px` for a face of `size` [m]; rows of the map run from large y to small.
pub fn spots(all: &[Spot], face: usize, size: (f64, f64), px: (f64, f64)) -> String {
    if !(size.0 > 0.0 && size.1 > 0.0) {
        return String::new();
    }
    let at =
        |x_mm: f64, y_mm: f64| (px.0 * (0.5 + x_mm * 1e-3 / size.0), px.1 * (0.5 - y_mm * 1e-3 / size.1));
    let mut out = String::new();
    for spot in all.iter().filter(|s| s.place.face == face) {
        let (x, y) = at(spot.place.x_mm, spot.place.y_mm);
        if spot.readings.len() > 1 {
            for r in &spot.readings {
                out += &circle("spot-reading", at(r.place.x_mm, r.place.y_mm), 2.2);
            }
        }
        let kind = match spot.verdict {
            Verdict::Pass => "spot-disc",
            Verdict::Fail => "spot-disc broken",
            Verdict::CannotTell => "spot-disc open",
        };
        let r = 10.0;
        let (x, y) = (x.clamp(r + 1.0, px.0 - r - 1.0), y.clamp(r + 1.0, (px.1 - r - 1.0).max(r + 1.0)));
        out += &format!("<g data-spot=\"{}\">", spot.number);
        out += &circle(kind, (x, y), r);
        if spot.verdict == Verdict::Fail {
            for i in [-1.0, 1.0] {
                out += &line("spot-cross", (x - r - 4.0, y - (r + 4.0) * i), (x - 0.7 * r, y - 0.7 * r * i));
                out += &line("spot-cross", (x + 0.7 * r, y + 0.7 * r * i), (x + r + 4.0, y + (r + 4.0) * i));
            }
        }
        out += &text("spot-number", (x, y + 4.2), "middle", &n(spot.number as f64));
        out += "</g>";
    }
    out
}
