//! The faces that a job's film lies on.

use super::frame_film::frame_faces;
use crate::film::{Face, Place};
use crate::job::{Job, PartShape};

/// Cell of the film under passes, and under a burst [m].
const CELL: f64 = 5e-3;
const BURST_CELL: f64 = 2e-3;
/// Largest arc of a cell round a tube [m].
const ARC: f64 = 6e-3;

/// The faces of a job's part as it stands, bare; they need no gun and no run.
#[must_use]
pub fn faces(job: &Job) -> Vec<Face> {
    let cell = if job.stroke.burst.is_some() { BURST_CELL } else { CELL };
    let count = |length: f64| ((length / cell - 1e-9).ceil().max(1.0)) as usize;
    let face = |nx, ny, [width, height]: [f64; 2], closed, radius| Face {
        name: String::new(),
        first: 0,
        nx,
        ny,
        cell_x: width / nx as f64,
        cell_y: height / ny as f64,
        closed,
        place: Place::leaning(job.lean, radius),
    };
    let face = match job.part {
        PartShape::Frame(ref frame) => return frame_faces(frame),
        PartShape::Curved { radius, width, height } => {
            let (nx, ny) = (count(width), count(height));
            let place = Place { radius, ..Place::leaning(job.lean, 0.0) };
            Face { place, ..face(nx, ny, [width, height], false, 0.0) }
        }
        PartShape::Panel { width, height } => {
            let (nx, ny) = (count(width), count(height));
            face(nx, ny, [width, height], false, 0.0)
        }
        PartShape::Tube { diameter, length } => {
            let (nx, ny) = (count(length), cells_round(diameter));
            face(nx, ny, [length, core::f64::consts::PI * diameter], true, 0.5 * diameter)
        }
    };
    vec![face]
}

/// Cells round a tube: a multiple of 24, so that sides fall on cells.
pub(super) fn cells_round(diameter: f64) -> usize {
    let arcs = core::f64::consts::PI * diameter / (24.0 * ARC);
    24 * (arcs.ceil().max(1.0) as usize)
}
