//! Small drawings of what to measure on a card, 132 by 104 px: where the ruler lies, what stands on the scales, where the comb goes.

use mistcoat::report::chart::dimension;

use super::svg::{circle, line, n, path, polygon, rect};

/// A still spot, standing or lying: solid middle, speckle round it; `half` its solid half sizes.
fn spot(at: (f64, f64), half: (f64, f64)) -> String {
    let solid = format!(
        r#"<ellipse class="paint" cx="{}" cy="{}" rx="{}" ry="{}"/>"#,
        n(at.0),
        n(at.1),
        n(half.0),
        n(half.1)
    );
    // Speckle by the golden angle, thinning outwards.
    (0..90).fold(solid, |out, i| {
        let turn = 2.399_963 * f64::from(i);
        let share = f64::from(i) / 90.0;
        let far = 1.02 + 0.38 * share * share;
        let place = (at.0 + half.0 * far * turn.cos(), at.1 + half.1 * far * turn.sin());
        out + &circle("paint-dot", place, 0.95 - 0.4 * share)
    })
}

/// Ruler with ticks, from `a` along x or y.
fn ruler(x: f64, y: f64, w: f64, h: f64) -> String {
    let mut out = rect("ruler part", x, y, w, h, 1.0);
    let upright = h > w;
    let length = w.max(h);
    let mut at = 4.0;
    let mut k = 0;
    while at < length {
        let tick = if k % 5 == 0 { 6.0 } else { 3.5 };
        out += &if upright {
            line("inside", (x, y + at), (x + tick, y + at))
        } else {
            line("inside", (x + at, y), (x + at, y + tick))
        };
        at += 4.0;
        k += 1;
    }
    out
}

/// A drawing on the card itself, which keeps its own colours in light and dark.
fn on_card(inner: &str) -> String {
    format!(r#"<g class="on-card">{inner}</g>"#)
}

/// Fan height: the ruler along the long way, from where the speckle starts to where it ends.
#[must_use]
pub fn height() -> String {
    let mut out = rect("bare", 2.0, 2.0, 128.0, 100.0, 1.0) + &spot((42.0, 52.0), (9.0, 30.0));
    out += &ruler(70.0, 4.0, 14.0, 96.0);
    for y in [12.5, 91.5] {
        out += &line("how-line", (26.0, y), (112.0, y));
    }
    on_card(&(out + &dimension((106.0, 12.5), (106.0, 91.5), "")))
}

/// Fan thickness: the short way, at the middle.
#[must_use]
pub fn thickness() -> String {
    let mut out = rect("bare", 2.0, 2.0, 128.0, 100.0, 1.0) + &spot((66.0, 44.0), (13.0, 32.0));
    out += &ruler(18.0, 58.0, 96.0, 14.0);
    for x in [48.0, 84.0] {
        out += &line("how-line", (x, 30.0), (x, 92.0));
    }
    on_card(&(out + &dimension((48.0, 86.0), (84.0, 86.0), "")))
}

/// The gun on the scales.
#[must_use]
pub fn weigh() -> String {
    let mut out = rect("metal part", 14.0, 82.0, 104.0, 16.0, 3.0);
    out += &rect("sheet part", 50.0, 86.0, 32.0, 9.0, 1.0);
    out += &super::svg::text("axis-figure", (66.0, 94.0), "middle", "g");
    out += &rect("metal part", 24.0, 76.0, 84.0, 6.0, 1.0);
    // Lying on its side: cup, body, handle.
    out += &path("metal part", "M40 52H92L98 58L92 64H40L34 60V56Z");
    out += &path("metal part", "M74 64L84 76H98L90 64Z");
    out += &path("sheet part", "M50 20H82V38L70 46V52H62V46L50 38Z");
    out += &path("paint", "M51.500 30H80.500V37.500L69 45.200V51H63V45.200L51.500 37.500Z");
    out + &path("metal part", "M26 54H34V62H26Z")
}

/// The comb in the middle of one pass.
#[must_use]
pub fn film() -> String {
    let mut out = rect("bare", 2.0, 2.0, 128.0, 100.0, 1.0);
    out += &rect("paint how-pass", 2.0, 34.0, 128.0, 36.0, 0.0);
    out = (0..64).fold(out, |out, i| {
        let x = 5.0 + 2.0 * f64::from(i);
        let wander = (f64::from(i) * 2.4).sin();
        let y = if i % 2 == 0 { 31.0 - 3.0 * wander.abs() } else { 73.0 + 3.0 * wander.abs() };
        out + &circle("paint-dot", (x, y), 0.8)
    });
    // A comb whose teeth end at growing gaps from the foot line.
    let mut points = vec![(46.0, 8.0), (86.0, 8.0), (86.0, 52.0), (82.0, 52.0)];
    for (k, gap) in [2.0, 4.0, 6.0, 8.0, 10.0].into_iter().enumerate() {
        let x = 80.0 - 6.0 * k as f64;
        points.extend([(x, 44.0), (x, 52.0 - gap), (x - 3.0, 52.0 - gap), (x - 3.0, 44.0)]);
    }
    points.extend([(50.0, 44.0), (50.0, 52.0), (46.0, 52.0)]);
    out += &path("metal part", &polygon(&points));
    out += &line("how-line", (20.0, 52.0), (112.0, 52.0));
    on_card(&(out + &path("lead", "M104 88H126M126 88l-6 -3.500M126 88l-6 3.500")))
}

/// A second card farther off.
#[must_use]
pub fn second() -> String {
    let mut out = path("metal part", "M2 44H18L26 50V54L18 60H2Z");
    let tip = (26.0, 52.0);
    for (x, half) in [(74.0, 22.0), (118.0, 40.0)] {
        let class = if x < 100.0 { "dashed" } else { "part" };
        out += &rect(&format!("bare {class}"), x, 52.0 - half - 6.0, 4.0, 2.0 * half + 12.0, 0.0);
        out += &rect("paint", x, 52.0 - half, 4.0, 2.0 * half, 0.0);
    }
    out += &line("how-line", tip, (118.0, 12.0));
    out += &line("how-line", tip, (118.0, 92.0));
    out + &dimension((26.0, 100.0), (118.0, 100.0), "")
}

#[cfg(test)]
mod tests {
    #[test]
    fn drawings_are_of_finite_numbers() {
        for drawn in [super::height(), super::thickness(), super::weigh(), super::film(), super::second()] {
            assert!(drawn.contains("<") && !drawn.contains("NaN") && !drawn.contains("inf\""), "{drawn}");
        }
    }
}
