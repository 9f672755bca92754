//! Gravity cup with neck, lid and vent, and the level in it, true to the volume left.

use super::GunFace;
use super::geometry::COLUMN_X;
use crate::gun::Feed;
use crate::report::chart::svg::{filled, line, n, open, path, rect};

/// Inside of a cup: a funnel under a cylinder [u].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CupShape {
    /// y of the funnel's foot.
    pub foot: f64,
    /// y where the funnel meets the wall.
    pub shoulder: f64,
    /// y of a full cup.
    pub brim: f64,
    /// Radius at the foot.
    pub neck_r: f64,
    /// Radius of the wall.
    pub wall_r: f64,
}

/// The drawn cup.
pub const CUP: CupShape =
    CupShape { foot: -124.0, shoulder: -206.0, brim: -284.0, neck_r: 12.0, wall_r: 84.0 };

/// Wall thickness [u].
const WALL: f64 = 6.5;

impl CupShape {
    /// Radius inside at height `y` [u].
    pub fn radius(&self, y: f64) -> f64 {
        let up = ((self.foot - y) / (self.foot - self.shoulder)).clamp(0.0, 1.0);
        let bow = up * up * (3.0 - 2.0 * up);
        self.neck_r + (0.35 * up + 0.65 * bow) * (self.wall_r - self.neck_r)
    }

    /// Heights from the foot up to `top`, close enough together for a smooth wall.
    fn heights(&self, top: f64) -> impl Iterator<Item = f64> + use<> {
        let foot = self.foot;
        (0..=48).map(move |i| foot + (top - foot) * f64::from(i) / 48.0)
    }

    /// Volume below `y`, without the factor pi [u3].
    fn volume(&self, y: f64) -> f64 {
        let step = (self.foot - y) / 96.0;
        (0..96).map(|i| self.radius(self.foot - step * (f64::from(i) + 0.5))).map(|r| r * r * step).sum()
    }

    /// Height of the surface when the cup holds this share of its volume [u]; 0 gives the foot, 1 the brim.
    pub fn surface(&self, share: f64) -> f64 {
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        let wanted = share * self.volume(self.brim);
        let (mut low, mut high) = (self.foot, self.brim);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if self.volume(middle) < wanted {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }

    /// Closed outline from the column's foot up to `top`, `out` outside the inner wall.
    fn outline(&self, top: f64, out: f64, column_foot: f64) -> String {
        let x = COLUMN_X;
        let mut left = vec![(x - self.neck_r - out, column_foot)];
        left.extend(self.heights(top).map(|y| (x - self.radius(y) - out, y - 0.35 * out)));
        let right: Vec<_> = left.iter().rev().map(|&(px, py)| (2.0 * x - px, py)).collect();
        left.extend(right);
        open(&left) + "Z"
    }
}

/// Walls, neck, nut, lid, vent; for another feed the cup below, or the cap on the neck. The inside is left for [`level`].
pub fn still(ids: &str, feed: Feed) -> String {
    match feed {
        Feed::Gravity => {}
        Feed::Suction => return super::below::cup(),
        Feed::Pressure => return String::new(),
    }
    let mut out = path("metal outline", &CUP.outline(-292.0, WALL, -96.0));
    out += &path("sheet part", &CUP.outline(-294.0, 0.0, -96.0));
    // Nut that holds the cup on its boss.
    out += &filled("part", &format!("{ids}-b"), "M92 -124H144V-96H92Z");
    out += &path("outline-2 none", "M92 -124H144V-96H92Z");
    // Lid with its rim and vent.
    out += &path("metal outline-2", "M106 -318L110 -332H126L130 -318Z");
    out += &line("outline-2", (118.0, -332.0), (118.0, -316.0));
    out += &rect("sheet outline", 16.0, -318.0, 204.0, 22.0, 5.0);
    for i in 0..33 {
        let at = 22.0 + 6.0 * f64::from(i);
        out += &line("knurl", (at, -310.0), (at, -299.0));
    }
    out += &line("inside-line", (18.0, -311.0), (218.0, -311.0));
    out
}

/// Paint in the cup, down through nut and boss to the tip's room, with a scale at the wall.
pub fn level(face: &GunFace) -> String {
    match face.feed {
        Feed::Gravity => {}
        Feed::Suction => return super::below::level(face),
        Feed::Pressure => return String::new(),
    }
    let y = CUP.surface(face.cup_level);
    let mut out = path("paint", &CUP.outline(y, 0.0, -90.0));
    if y < CUP.foot - 0.5 {
        let r = CUP.radius(y);
        out += &line("part", (COLUMN_X - r, y), (COLUMN_X + r, y));
    }
    // Eighths of the cup's volume.
    for k in 1..8 {
        let at = CUP.surface(f64::from(k) / 8.0);
        let r = CUP.radius(at) - 5.0;
        let long = if k % 2 == 0 { 18.0 } else { 10.0 };
        let class = if at > y { "scale-in-paint" } else { "scale" };
        out += &line(class, (COLUMN_X + r - long, at), (COLUMN_X + r, at));
    }
    // The column's edges inside nut and boss.
    out += &path("inside-line", &format!("M106 -124V-20M130 -124V{}", n(-20.0)));
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_level_is_true_to_the_volume() {
        assert!((CUP.surface(0.0) - CUP.foot).abs() < 1e-6);
        assert!((CUP.surface(1.0) - CUP.brim).abs() < 1e-6);
        let half = CUP.surface(0.5);
        assert!(half < 0.5 * (CUP.foot + CUP.brim), "the funnel holds less than the cylinder: {half}");
        assert!((CUP.volume(half) / CUP.volume(CUP.brim) - 0.5).abs() < 1e-6);
    }

    #[test]
    fn the_scale_shows_in_paint_and_above_it() {
        let full = level(&GunFace { cup_level: 1.0, ..GunFace::default() });
        assert_eq!(full.matches("scale-in-paint").count(), 7);
        assert_eq!(level(&GunFace::default()).matches("scale-in-paint").count(), 0);
    }
}
