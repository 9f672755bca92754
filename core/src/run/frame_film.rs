//! The film on a frame: one face a tube, all the way round.

use crate::film::{Face, FilmMap};
use crate::part::{Frame, Member};
use crate::stroke::member_place;

/// Cell along a tube, and the longest arc of one [m]; larger where the frame is large.
const ALONG: f64 = 16e-3;
const ARC: f64 = 6e-3;
/// Most cells of a frame: memory, and a page's patience.
const MOST_CELLS: f64 = 60_000.0;

/// The faces of a frame, bare.
pub(super) fn frame_faces(frame: &Frame) -> Vec<Face> {
    let round = |diameter: f64, arc: f64| {
        // A multiple of 12, so that sides fall on cells.
        12 * (core::f64::consts::PI * diameter / (12.0 * arc)).ceil().max(1.0) as usize
    };
    let cells = |scale: f64| -> f64 {
        frame
            .members
            .iter()
            .map(|m| m.length() / (ALONG * scale) * round(m.diameter, ARC * scale) as f64)
            .sum()
    };
    let mut scale: f64 = 1.0;
    while cells(scale) > MOST_CELLS && scale < 16.0 {
        scale *= 1.25;
    }
    let mut first = 0;
    let face = |member: &Member| {
        let nx = (member.length() / (ALONG * scale) - 1e-9).ceil().max(1.0) as usize;
        let ny = round(member.diameter, ARC * scale);
        let face = Face {
            name: member.name.clone(),
            first,
            nx,
            ny,
            cell_x: member.length() / nx as f64,
            cell_y: core::f64::consts::PI * member.diameter / ny as f64,
            closed: true,
            place: member_place(member),
        };
        first += nx * ny;
        face
    };
    frame.members.iter().map(face).collect()
}

/// Cells inside another tube, and on tubes that no stroke goes along: not meant to be painted.
pub(super) fn hidden(frame: &Frame, film: &FilmMap) -> Vec<bool> {
    let of = |(index, face): (usize, &Face)| {
        let member = &frame.members[index];
        let others: Vec<&Member> =
            frame.members.iter().enumerate().filter(|(other, _)| *other != index).map(|(_, m)| m).collect();
        let cell = |cell| {
            let at = face.point(face.x(cell % face.nx), face.y(cell / face.nx));
            !member.sprayed || others.iter().any(|m| m.distance(at) < m.radius())
        };
        (0..face.len()).map(cell).collect::<Vec<_>>()
    };
    film.faces().iter().enumerate().flat_map(of).collect()
}
