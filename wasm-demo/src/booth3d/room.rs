//! The booth: filter wall behind the part, plain wall at the painter's left, floor; open to the painter and to the right.

use glam::DVec3;

use super::mesh::{Mesh, Stuff, Vertex};
use super::part::Standing;

/// From the part to the filter wall and to the side wall [m].
const BEHIND: f64 = 0.75;
const BESIDE: f64 = 0.8;
/// Height of the walls over the floor, and how far filter wall and floor run on [m].
const TALL: f64 = 2.6;
const ON: f64 = 7.0;
/// Pleats of the filter, and its posts [m].
const PLEAT: f64 = 0.05;
const POST: f64 = 0.6;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Ink {
    /// A hairline.
    Hair = 0,
    /// An edge of the room.
    Line = 1,
}

/// Straight lines: both ends [m], and how they are drawn.
pub type Lines = Vec<(DVec3, DVec3, Ink)>;

/// The room and its lines.
#[must_use]
pub fn room(standing: &Standing) -> (Mesh, Lines) {
    let (low, high) = standing.bounds;
    let floor = standing.floor;
    let (left, back) = (low.x.min(-0.3) - BESIDE, low.z.min(-0.05) - BEHIND);
    let (right, front) = (high.x + ON, high.z + ON);
    let top = floor.max(-1.2).max(high.y + 0.4 - TALL) + TALL;
    let mut mesh = Mesh::default();
    let mut piece = |corners: [DVec3; 4], normal: DVec3, stuff: Stuff| {
        mesh.quad(corners.map(|at| Vertex::new(at, normal, stuff)));
    };
    let p = DVec3::new;
    piece(
        [p(left, floor, back), p(right, floor, back), p(right, top, back), p(left, top, back)],
        DVec3::Z,
        Stuff::Wall,
    );
    piece(
        [p(left, floor, back), p(left, floor, front), p(left, top, front), p(left, top, back)],
        DVec3::X,
        Stuff::Wall,
    );
    piece(
        [p(left, floor, back), p(right, floor, back), p(right, floor, front), p(left, floor, front)],
        DVec3::Y,
        Stuff::Floor,
    );
    let mut lines = vec![
        (p(left, floor, back), p(left, top, back), Ink::Line),
        (p(left, floor, back), p(right, floor, back), Ink::Line),
        (p(left, floor, back), p(left, floor, front), Ink::Hair),
    ];
    // A hair before the wall, so that wall and line do not fight.
    let before = back + 2e-3;
    let pleats = ((right - left) / PLEAT) as u32;
    for i in 1..pleats {
        let x = left + PLEAT * f64::from(i);
        let post = i % (POST / PLEAT).round() as u32 == 0;
        lines.push((p(x, floor, before), p(x, top, before), if post { Ink::Line } else { Ink::Hair }));
    }
    lines.push((p(left, floor + 0.02, before), p(right, floor + 0.02, before), Ink::Hair));
    (mesh, lines)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_part_stands_inside() {
        let bounds = (DVec3::new(-0.5, -0.2, -0.1), DVec3::new(0.5, 0.2, 0.1));
        let standing = Standing {
            part: Mesh::default(),
            stand: Mesh::default(),
            shadow: Mesh::default(),
            floor: -0.9,
            bounds,
        };
        let (mesh, lines) = room(&standing);
        super::super::mesh::tests::faces_out(&mesh);
        let places: Vec<DVec3> = (0..mesh.corners() as u32).map(|c| mesh.at(c)).collect();
        assert!(places.iter().all(|p| p.y > -0.901 && p.z < 8.0 && p.x > -1.4));
        assert!(places.iter().any(|p| p.z < -0.8) && lines.len() > 100);
    }
}
