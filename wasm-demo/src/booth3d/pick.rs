//! Which face a ray meets first, and where.

use glam::DVec3;
use mistcoat::film::Face;

/// A place on a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hit {
    /// Number of the face.
    pub face: usize,
    /// Along its x, from its middle [m].
    pub x: f64,
    /// Along its y, over the face, from its middle line [m].
    pub y: f64,
    /// Way of the ray [m].
    pub way: f64,
}

/// The first face that a ray meets. Thin tubes are met within `slack` [m] of their surface, so that a finger finds them.
#[must_use]
pub fn pick(faces: &[Face], from: DVec3, way: DVec3, slack: f64) -> Option<Hit> {
    let met = |slack: f64| {
        let hits = faces.iter().enumerate().filter_map(|(i, face)| meet(i, face, from, way, slack));
        hits.min_by(|a, b| a.way.total_cmp(&b.way))
    };
    met(0.0).or_else(|| met(slack))
}

fn meet(number: usize, face: &Face, from: DVec3, way: DVec3, slack: f64) -> Option<Hit> {
    let place = &face.place;
    let (length, height) = face.size();
    let inside = |x: f64, y: f64, t: f64| {
        let on =
            x.abs() <= 0.5 * length + slack && y.abs() <= 0.5 * height + slack && t > 0.0 && t.is_finite();
        on.then_some(Hit { face: number, x, y, way: t })
    };
    if place.radius <= 0.0 {
        let t = (place.middle - from).dot(place.front) / way.dot(place.front);
        let p = from + way * t - place.middle;
        return inside(p.dot(place.along), p.dot(place.up()), t);
    }
    // A cylinder about `along`: of a closed face through its middle, of another one radius behind it.
    let axis = if face.closed { place.middle } else { place.middle - place.front * place.radius };
    let flat = |v: DVec3| v - place.along * v.dot(place.along);
    let (d, o) = (flat(way), flat(from - axis));
    let radius = place.radius + slack;
    let (a, b, c) = (d.dot(d), o.dot(d), o.dot(o) - radius * radius);
    let root = b * b - a * c;
    if a < 1e-12 || root < 0.0 {
        return None;
    }
    [-root.sqrt(), root.sqrt()].into_iter().find_map(|s| {
        let t = (s - b) / a;
        let p = from + way * t - axis;
        let angle = p.dot(place.up()).atan2(p.dot(place.front));
        inside(p.dot(place.along), angle * place.radius, t)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::film::Place;
    use std::f64::consts::{FRAC_PI_2, PI};

    fn tube(middle: DVec3, name: &str) -> Face {
        let place = Place { middle, ..Place::leaning(FRAC_PI_2, 0.011) };
        let (cell_x, cell_y) = (0.005, 2.0 * PI * 0.011 / 24.0);
        Face { name: name.into(), first: 0, nx: 120, ny: 24, cell_x, cell_y, closed: true, place }
    }

    #[test]
    fn the_nearer_of_two_legs_is_met_where_the_ray_says() {
        let legs = [tube(DVec3::new(0.0, 0.0, -0.4), "rear"), tube(DVec3::ZERO, "front")];
        let hit = pick(&legs, DVec3::new(0.0, 0.1, 2.0), -DVec3::Z, 0.0).unwrap();
        assert_eq!(hit.face, 1);
        assert!((hit.x - 0.1).abs() < 1e-9 && hit.y.abs() < 1e-9 && (hit.way - 1.989).abs() < 1e-9);
        let point = legs[1].point(hit.x, hit.y);
        assert!((point - DVec3::new(0.0, 0.1, 0.011)).length() < 1e-9);
        // From behind the rear one is first, met on its back.
        let hit = pick(&legs, DVec3::new(0.0, 0.0, -2.0), DVec3::Z, 0.0).unwrap();
        assert!(hit.face == 0 && (hit.y.abs() - PI * 0.011).abs() < 1e-9);
    }

    #[test]
    fn a_finger_beside_a_tube_still_means_it() {
        let legs = [tube(DVec3::ZERO, "leg")];
        let from = DVec3::new(0.018, 0.0, 1.0);
        assert!(pick(&legs, from, -DVec3::Z, 0.0).is_none());
        assert_eq!(pick(&legs, from, -DVec3::Z, 0.01).map(|h| h.face), Some(0));
        assert!(pick(&legs, DVec3::new(0.0, 0.5, 1.0), -DVec3::Z, 0.01).is_none());
    }

    #[test]
    fn a_panel_is_met_inside_its_edges() {
        let place = Place::leaning(0.0, 0.0);
        let top = Face {
            name: String::new(),
            first: 0,
            nx: 60,
            ny: 40,
            cell_x: 0.01,
            cell_y: 0.01,
            closed: false,
            place,
        };
        let hit = pick(std::slice::from_ref(&top), DVec3::new(0.1, 1.0, 0.05), -DVec3::Y, 0.0).unwrap();
        assert!(
            (hit.x - 0.1).abs() < 1e-9
                && (top.point(hit.x, hit.y) - DVec3::new(0.1, 0.0, 0.05)).length() < 1e-9
        );
        assert!(pick(&[top], DVec3::new(0.31, 1.0, 0.0), -DVec3::Y, 0.0).is_none());
    }
}
