//! A place in words: "at the lower left edge", "on the back, near the upper end".

use super::place::At;
use crate::film::FilmMap;
use glam::DVec3;

/// From the middle, as a share of half the size: beyond this it is to one side, and at an edge [-].
const ASIDE: f64 = 0.33;
const AT_EDGE: f64 = 0.85;

/// The word for a direction in the booth: x to the painter's right, y up, z towards the painter.
fn word(
    direction: DVec3,
    [right, left]: [&'static str; 2],
    [up, down]: [&'static str; 2],
    [to, from]: [&'static str; 2],
) -> &'static str {
    let a = direction.abs();
    if a.x >= a.y && a.x >= a.z {
        if direction.x > 0.0 { right } else { left }
    } else if a.y >= a.z {
        if direction.y > 0.0 { up } else { down }
    } else if direction.z > 0.0 {
        to
    } else {
        from
    }
}

/// The side that a direction in the booth points to: "left", "upper", "near" and so on.
#[must_use]
pub fn side(direction: DVec3) -> &'static str {
    word(direction, ["right", "left"], ["upper", "lower"], ["near", "far"])
}

/// Where a place is, as the painter sees the part.
pub fn whereabouts(film: &FilmMap, at: At) -> String {
    let face = &film.faces()[at.face];
    let (sx, sy) = face.size();
    let (fx, fy) = (2.0 * at.x / sx, 2.0 * at.y / sy);
    let place = &face.place;
    let name = if face.name.is_empty() { String::new() } else { format!("{}, ", face.name) };
    let along = |f: f64| side(place.along * f.signum());
    if face.closed {
        let round = word(
            place.normal(at.y),
            ["on the right side", "on the left side"],
            ["on top", "underneath"],
            ["on the front", "on the back"],
        );
        let where_along = match fx.abs() {
            f if f < ASIDE => "in the middle".to_string(),
            f if f < AT_EDGE => format!("towards the {} end", along(fx)),
            _ => format!("at the {} end", along(fx)),
        };
        return format!("{name}{round}, {where_along}");
    }
    let (aside_x, aside_y) = (fx.abs() >= ASIDE, fy.abs() >= ASIDE);
    let (edge_x, edge_y) = (fx.abs() >= AT_EDGE, fy.abs() >= AT_EDGE);
    if !aside_x && !aside_y {
        return format!("{name}in the middle");
    }
    let mut words: Vec<&str> = Vec::new();
    if aside_y {
        words.push(side(place.up() * fy.signum()));
    }
    if aside_x {
        words.push(along(fx));
    }
    // "Lower" before "left", however the face is turned.
    words.sort_by_key(|w| ["upper", "lower", "near", "far", "left", "right"].iter().position(|k| k == w));
    words.push(match (edge_x, edge_y) {
        (true, true) => "corner",
        (false, false) => "part",
        _ => "edge",
    });
    let preposition = if edge_x || edge_y { "at" } else { "in" };
    format!("{name}{preposition} the {}", words.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::film::{Face, Place};
    use core::f64::consts::{FRAC_PI_2, PI};

    fn film(lean: f64, radius: f64) -> FilmMap {
        let (cell_y, ny) = if radius > 0.0 { (2.0 * PI * radius / 24.0, 24) } else { (5e-3, 80) };
        let place = Place::leaning(lean, radius);
        FilmMap::over(vec![Face {
            name: String::new(),
            first: 0,
            nx: 120,
            ny,
            cell_x: 5e-3,
            cell_y,
            closed: radius > 0.0,
            place,
        }])
    }

    fn at(x: f64, y: f64) -> At {
        At { face: 0, x, y }
    }

    #[test]
    fn an_upright_panel() {
        let film = film(FRAC_PI_2, 0.0);
        for (x, y, words) in [
            (0.0, 0.0, "in the middle"),
            (-0.2, -0.19, "at the lower left edge"),
            (-0.29, -0.19, "at the lower left corner"),
            (0.29, 0.0, "at the right edge"),
            (0.0, 0.1, "in the upper part"),
            (0.15, 0.1, "in the upper right part"),
        ] {
            assert_eq!(whereabouts(&film, at(x, y)), words);
        }
    }

    #[test]
    fn a_flat_panel_and_tubes() {
        assert_eq!(whereabouts(&film(0.0, 0.0), at(-0.29, 0.19)), "at the far left corner");
        let upright = film(FRAC_PI_2, 0.011);
        assert_eq!(whereabouts(&upright, at(0.29, 0.0)), "on the front, at the upper end");
        assert_eq!(whereabouts(&upright, at(0.0, PI * 0.011)), "on the back, in the middle");
        let level = film(0.0, 0.011);
        assert_eq!(whereabouts(&level, at(0.2, 0.0)), "on top, towards the far end");
    }
}
