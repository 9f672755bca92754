//! The part as it stands: solids from its faces, what holds it up, its shadow, and the booth round it.

use glam::DVec3;
use mistcoat::film::Face;

use super::atlas::Atlas;
use super::mesh::{Mesh, Stuff, Vertex};

/// Flat pieces round a tube.
const ROUND: usize = 48;
/// Thickness that a panel is drawn with; the job does not name one [m].
const SHEET: f64 = 12e-3;
/// Height of a trestle's top over the floor [m].
const TRESTLE: f64 = 0.75;

/// Part and stand, and how far down the floor is.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// The part.
    pub part: Mesh,
    /// What holds it.
    pub stand: Mesh,
    /// Its shadow on the floor.
    pub shadow: Mesh,
    /// Height of the floor [m].
    pub floor: f64,
    /// Corners of a box round the part: lowest, highest [m].
    pub bounds: (DVec3, DVec3),
}

/// Corners of the box round some faces.
#[must_use]
pub fn bounds(faces: &[Face]) -> (DVec3, DVec3) {
    let points = faces.iter().flat_map(|face| {
        let (l, h) = face.size();
        let n = if face.place.radius > 0.0 { 16 } else { 1 };
        (0..=n).flat_map(move |j| {
            let y = h * (f64::from(j) / f64::from(n) - 0.5);
            [face.point(-0.5 * l, y), face.point(0.5 * l, y)]
        })
    });
    points.fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), p| (low.min(p), high.max(p)))
}

/// The part as it stands.
#[must_use]
pub fn standing(faces: &[Face], atlas: &Atlas) -> Standing {
    let mut part = Mesh::default();
    for (number, face) in faces.iter().enumerate() {
        solid(&mut part, number, face, atlas);
    }
    let (low, high) = bounds(faces);
    let mut stand = Mesh::default();
    let floor = match faces {
        [face] => hold(&mut stand, face, low, high),
        _ => low.y,
    };
    let mut shade = Mesh::default();
    for face in faces {
        shadow(&mut shade, face, floor);
    }
    Standing { part, stand, shadow: shade, floor, bounds: (low, high) }
}

fn solid(mesh: &mut Mesh, number: usize, face: &Face, atlas: &Atlas) {
    let (length, height) = face.size();
    let place = &face.place;
    let round = place.radius > 0.0;
    let pieces = if face.closed {
        ROUND
    } else if round {
        ((height / place.radius / 0.12).ceil() as usize).clamp(4, ROUND)
    } else {
        1
    };
    let deep = SHEET.min(0.1 * length.min(height)).min(if round { 0.5 * place.radius } else { 1.0 });
    let y = |j: usize| height * (j as f64 / pieces as f64 - 0.5);
    let flat = !round;
    for j in 0..pieces {
        let corner = |share: f64, j: usize| {
            let x = (share - 0.5) * length;
            let normal = place.normal(y(j));
            Vertex {
                uv: atlas.place(number, face, (share, j as f64 / pieces as f64)),
                ground: if flat {
                    [(1.0 - share) * length, y(j) + 0.5 * height]
                } else {
                    [super::mesh::FAR_OFF, 0.0]
                },
                out: if face.closed { normal } else { rim(face, share, j, pieces, 1.0) },
                ..Vertex::new(face.point(x, y(j)), normal, Stuff::Film)
            }
        };
        mesh.quad([corner(0.0, j), corner(1.0, j), corner(1.0, j + 1), corner(0.0, j + 1)]);
        if face.closed {
            continue;
        }
        // Back, and the two edges at the ends of x.
        let back = |share: f64, j: usize, normal: DVec3| Vertex {
            out: rim(face, share, j, pieces, -1.0),
            ..Vertex::new(
                face.point((share - 0.5) * length, y(j)) - place.normal(y(j)) * deep,
                normal,
                Stuff::Bare,
            )
        };
        let front =
            |share: f64, j: usize, normal: DVec3| Vertex { normal, stuff: Stuff::Bare, ..corner(share, j) };
        let inward = -place.normal(0.5 * (y(j) + y(j + 1)));
        mesh.quad([
            back(0.0, j, inward),
            back(1.0, j, inward),
            back(1.0, j + 1, inward),
            back(0.0, j + 1, inward),
        ]);
        for share in [0.0, 1.0] {
            let n = place.along * (2.0 * share - 1.0);
            mesh.quad([front(share, j, n), front(share, j + 1, n), back(share, j + 1, n), back(share, j, n)]);
        }
        for (edge, sign) in [(0, -1.0), (pieces, 1.0)] {
            if j + usize::from(edge > 0) == edge {
                let n = place.rising(y(edge)) * sign;
                mesh.quad([front(0.0, edge, n), front(1.0, edge, n), back(1.0, edge, n), back(0.0, edge, n)]);
            }
        }
    }
    if face.closed {
        let r = place.radius;
        for side in [-1.0, 1.0] {
            let dome: Vec<(f64, f64)> = (0..=4)
                .map(|i| (f64::from(i) * std::f64::consts::FRAC_PI_8).sin_cos())
                .map(|(sin, cos)| (0.3 * r * sin, r * cos))
                .collect();
            mesh.turned(
                place.middle + place.along * (0.5 * side * length),
                place.along * side,
                &dome,
                Stuff::Bare,
                32,
            );
        }
    }
}

/// Outline's way at a corner of an open face's plate.
fn rim(face: &Face, share: f64, j: usize, pieces: usize, front: f64) -> DVec3 {
    let height = face.size().1;
    let y = height * (j as f64 / pieces as f64 - 0.5);
    let mut out = face.place.normal(y) * front + face.place.along * (2.0 * share - 1.0);
    if j == 0 {
        out -= face.place.rising(y);
    } else if j == pieces {
        out += face.place.rising(y);
    }
    out.normalize_or_zero()
}

/// Stand of a part in one piece; the height of the floor.
fn hold(stand: &mut Mesh, face: &Face, low: DVec3, high: DVec3) -> f64 {
    let along = face.place.along;
    if face.closed && along.y.abs() > 0.7 {
        // A pin in the tube's end, on a round foot.
        let floor = low.y - 0.06;
        let foot = DVec3::new(0.5 * (low.x + high.x), floor, 0.5 * (low.z + high.z));
        let r = face.place.radius;
        stand.turned(
            foot,
            DVec3::Y,
            &[(0.0, 0.0), (0.0, 0.075), (0.006, 0.075), (0.006, 0.0)],
            Stuff::Wood,
            40,
        );
        stand.bar(foot, foot + DVec3::Y * 0.08, (0.5 * r).min(6e-3), Stuff::Wood);
        return floor;
    }
    if !face.closed && face.place.front.y.abs() < 0.7 {
        // Two posts behind it, each with a peg under its edge.
        let floor = low.y - 0.3;
        let half = 0.5 * face.size().0;
        for side in [-1.0, 1.0] {
            let x = side * (0.62 * half).max(half - 0.25);
            let behind = DVec3::new(x, 0.0, low.z - 0.03);
            let top = high.y - 0.12 * (high.y - low.y);
            let middle = behind.with_y(0.5 * (floor + top));
            let tall = DVec3::Y * (0.5 * (top - floor));
            stand.boxed(middle, [DVec3::X * 0.018, tall, DVec3::Z * 0.015], Stuff::Wood);
            stand.boxed(
                behind.with_y(low.y - 0.012),
                [DVec3::X * 0.018, DVec3::Y * 0.012, DVec3::Z * 0.05],
                Stuff::Wood,
            );
            stand.boxed(
                behind.with_y(floor + 0.015),
                [DVec3::X * 0.018, DVec3::Y * 0.015, DVec3::Z * 0.2],
                Stuff::Wood,
            );
        }
        return floor;
    }
    let floor = low.y - TRESTLE;
    // Trestles stand across its longer way.
    let (size, middle) = (high - low, 0.5 * (low + high));
    let (long, wide) = if size.x >= size.z { (DVec3::X, DVec3::Z) } else { (DVec3::Z, DVec3::X) };
    let top = low.y - if face.closed { 0.0 } else { SHEET };
    let reach = (0.5 * size.dot(wide) - 0.04).max(0.12);
    for side in [-1.0, 1.0] {
        let at = middle.with_y(top - 0.02) + long * (side * 0.36 * size.dot(long));
        stand.boxed(at, [long * 0.02, DVec3::Y * 0.02, wide * reach], Stuff::Wood);
        for (a, b) in [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)] {
            let head = at + wide * (a * (reach - 0.05));
            let foot = (head + long * (b * 0.16)).with_y(floor);
            stand.bar(head, foot, 0.012, Stuff::Wood);
        }
    }
    floor
}

/// A face's shadow on the floor: softer the higher it hangs.
fn shadow(mesh: &mut Mesh, face: &Face, floor: f64) {
    let (length, height) = face.size();
    let place = &face.place;
    let radius = place.radius;
    let high = (place.middle.y - floor - 0.5 * length * place.along.y.abs()).max(0.0);
    let soft = 0.05 + 0.35 * high;
    let level = |v: DVec3| v.with_y(0.0);
    let along = level(place.along).normalize_or(DVec3::X);
    let across = DVec3::Y.cross(along);
    let half_x = 0.5 * length * level(place.along).length();
    let half_y = if face.closed { radius } else { 0.5 * height * level(place.up()).length() };
    let corner = |a: f64, b: f64| {
        let (x, y) = (a * (half_x + soft), b * (half_y + soft));
        let at = place.middle.with_y(floor + 1e-3) + along * x + across * y;
        Vertex {
            uv: [x as f32, y as f32],
            ground: [half_x, half_y],
            // The softer, the fainter.
            out: DVec3::new(soft, 0.16 * (0.12 / soft).min(1.0), 0.0),
            ..Vertex::new(at, DVec3::Y, Stuff::Shadow)
        }
    };
    mesh.quad([corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)]);
}

#[cfg(test)]
mod tests {
    use super::super::mesh::tests::{faces_out, volume};
    use super::*;
    use mistcoat::film::Place;
    use std::f64::consts::{FRAC_PI_2, PI};

    fn face(nx: usize, ny: usize, size: (f64, f64), closed: bool, place: Place) -> Face {
        let (cell_x, cell_y) = (size.0 / nx as f64, size.1 / ny as f64);
        Face { name: String::new(), first: 0, nx, ny, cell_x, cell_y, closed, place }
    }

    fn stood(faces: &[Face]) -> Standing {
        standing(faces, &Atlas::of(faces).unwrap())
    }

    #[test]
    fn a_leg_is_a_closed_solid_on_its_foot() {
        let leg = face(120, 24, (0.6, 2.0 * PI * 0.011), true, Place::leaning(FRAC_PI_2, 0.011));
        let s = stood(&[leg]);
        faces_out(&s.part);
        let least = PI * 0.011 * 0.011 * 0.6;
        assert!((0.97..1.05).contains(&(volume(&s.part) / least)), "{} against {least}", volume(&s.part));
        assert!((s.bounds.1.y - 0.3).abs() < 1e-9 && s.floor < -0.3);
        faces_out(&s.stand);
    }

    #[test]
    fn panels_lie_on_trestles_and_lean_on_posts() {
        let flat = stood(&[face(60, 40, (0.6, 0.4), false, Place::leaning(0.0, 0.0))]);
        faces_out(&flat.part);
        assert!((volume(&flat.part) - 0.6 * 0.4 * SHEET).abs() < 1e-8, "{}", volume(&flat.part));
        assert!((flat.floor + TRESTLE).abs() < 1e-9);
        let upright = stood(&[face(60, 40, (0.6, 0.4), false, Place::leaning(FRAC_PI_2, 0.0))]);
        faces_out(&upright.part);
        faces_out(&upright.stand);
        assert!(upright.floor < -0.2 && upright.stand.corners() > 100);
    }

    #[test]
    fn a_curved_panel_is_a_plate_of_its_curve() {
        let place = Place { radius: 0.3, ..Place::leaning(FRAC_PI_2, 0.0) };
        let s = stood(&[face(60, 40, (0.5, 0.4), false, place)]);
        faces_out(&s.part);
        let least = 0.5 * 0.4 * SHEET;
        assert!((0.95..1.0).contains(&(volume(&s.part) / least)), "{} against {least}", volume(&s.part));
    }

    #[test]
    fn a_frame_stands_on_its_lowest_member() {
        let leg = |x: f64| {
            let middle = DVec3::new(x, 0.0, 0.0);
            face(90, 24, (0.45, 2.0 * PI * 0.011), true, Place { middle, ..Place::leaning(FRAC_PI_2, 0.011) })
        };
        let s = stood(&[leg(-0.2), leg(0.2)]);
        faces_out(&s.part);
        assert!((s.floor + 0.225).abs() < 1e-9 && (s.bounds.1.x - 0.211).abs() < 1e-3);
    }
}
