//! What hangs below a gun that is not fed by gravity: the suction cup with its tube, or the paint hose from the pot.

use super::GunFace;
use super::geometry::COLUMN_X;
use crate::gun::Feed;
use crate::report::chart::svg::{filled, line, n, open, path, rect};

/// Middle of the suction cup: forward of the neck, clear of the trigger [u].
const MIDDLE: f64 = 58.0;
/// Inside: radius, brim, foot, radius of the foot's round [u].
const R: f64 = 78.0;
const BRIM: f64 = 142.0;
const FOOT: f64 = 338.0;
const ROUND: f64 = 18.0;
/// Wall thickness [u].
const WALL: f64 = 6.0;

/// Middle line of the tube, from the neck to a little over the cup's foot.
const TUBE: &str = "M118 84V150C118 236 62 236 62 326";

/// Inside of the cup up to `top`, `out` outside the inner wall.
fn outline(top: f64, out: f64) -> String {
    let (l, r, foot) = (MIDDLE - R - out, MIDDLE + R + out, FOOT + out);
    let round = ROUND + out;
    format!(
        "M{} {}V{}A{q} {q} 0 0 0 {} {}H{}A{q} {q} 0 0 0 {} {}V{}Z",
        n(l),
        n(top),
        n(foot - round),
        n(l + round),
        n(foot),
        n(r - round),
        n(r),
        n(foot - round),
        n(top),
        q = n(round)
    )
}

/// Height of the surface when the cup holds this share of its volume [u].
pub fn surface(share: f64) -> f64 {
    let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
    FOOT - share * (FOOT - BRIM)
}

/// Suction cup: walls, lid with vent.
pub fn cup() -> String {
    let mut out = path("metal outline", &outline(122.0, WALL));
    out += &path("sheet part", &outline(122.0, 0.0));
    // Lid over the brim, its vent forward, and the yoke's stud.
    out += &path("metal outline-2", "M2 104L5 92H15L18 104Z");
    out += &line("outline-2", (10.0, 92.0), (10.0, 106.0));
    out += &rect("sheet outline", MIDDLE - R - 14.0, 104.0, 2.0 * R + 28.0, 20.0, 5.0);
    let left = MIDDLE - R - 8.0;
    for i in 0..28 {
        let at = left + 6.2 * f64::from(i);
        out += &line("knurl", (at, 110.0), (at, 121.0));
    }
    out
}

/// Paint in the suction cup with a scale at the wall, and up the tube.
pub fn level(face: &GunFace) -> String {
    let y = surface(face.cup_level);
    let mut out = String::new();
    if y < FOOT - 1.0 {
        out += &path("paint", &outline(y.min(FOOT - ROUND), 0.0));
        if y > FOOT - ROUND {
            // A puddle below the foot's round: cover what stands above the surface.
            let inside =
                [(MIDDLE - R, FOOT - ROUND), (MIDDLE + R, FOOT - ROUND), (MIDDLE + R, y), (MIDDLE - R, y)];
            out += &path("sheet", &(open(&inside) + "Z"));
        }
        out += &line("part", (MIDDLE - R, y), (MIDDLE + R, y));
    }
    for k in 1..8 {
        let at = surface(f64::from(k) / 8.0);
        let long = if k % 2 == 0 { 18.0 } else { 10.0 };
        let class = if at > y { "scale-in-paint" } else { "scale" };
        out += &line(class, (MIDDLE + R - 5.0 - long, at), (MIDDLE + R - 5.0, at));
    }
    // The tube in the cup; full of paint while there is some.
    out += &path("tube-edge", TUBE);
    out += &path(if face.cup_level > 0.0 { "tube-paint" } else { "tube-bore" }, TUBE);
    out += &rect("sheet outline-2", COLUMN_X - 16.0, 82.0, 32.0, 24.0, 2.0);
    out
}

/// Paint hose of a pressure gun, off to the pot; it passes behind the air hose.
pub fn hose(feed: Feed) -> String {
    if feed != Feed::Pressure {
        return String::new();
    }
    let way = "M118 100C118 260 74 330 92 452C110 560 190 604 320 604H3000";
    ["hose-edge", "hose-wall", "hose-paint"].map(|class| path(class, way)).concat()
}

/// What closes or joins the neck: a nut below for suction and pressure, and a cap on a pressure gun's upper neck.
pub fn neck(ids: &str, feed: Feed) -> String {
    let b = format!("{ids}-b");
    let nut = |d: &str| filled("part", &b, d) + &path("outline-2 none", d);
    // Cut open: the paint's way goes through.
    let halves = nut("M92 58H106V86H92Z") + &nut("M130 58H144V86H130Z");
    match feed {
        Feed::Gravity => String::new(),
        Feed::Suction => halves,
        Feed::Pressure => {
            let cap = "M90 -98V-116C90 -124 96 -128 104 -128H132C140 -128 146 -124 146 -116V-98Z";
            let joint = rect("sheet outline-2", COLUMN_X - 15.0, 84.0, 30.0, 20.0, 2.0);
            halves + &joint + &nut(cap)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_suction_cup_shows_its_level_and_hangs_clear_of_the_trigger() {
        let at = |cup_level| level(&GunFace { cup_level, feed: Feed::Suction, ..GunFace::default() });
        assert_eq!(at(1.0).matches("scale-in-paint").count(), 7);
        assert_eq!(at(0.0).matches("scale-in-paint").count(), 0);
        assert!(at(0.5).contains("tube-paint") && at(0.0).contains("tube-bore"));
        assert!(surface(0.5) > surface(1.0) && surface(f64::NAN) == FOOT);
        const { assert!(MIDDLE + R + WALL + 14.0 < 168.0, "the trigger's blade begins at 168") };
    }

    #[test]
    fn only_a_pressure_gun_has_a_second_hose() {
        assert!(hose(Feed::Pressure).contains("hose-paint"));
        assert!(hose(Feed::Gravity).is_empty() && hose(Feed::Suction).is_empty());
    }
}
