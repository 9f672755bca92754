//! Places on a part where a gauge is set down: drawn by the job's seed, spread out, inside the edges.

use super::whereabouts::whereabouts;
use crate::film::{Face, FilmMap};
use crate::stream::{Purpose, Stream};
use serde::{Deserialize, Serialize};

/// Kept off edges where the face is large enough [m]: near an edge a magnetic gauge reads wrong (common practice).
const EDGE: f64 = 25e-3;
/// Of a small face, the share of its size that is kept off each edge [-].
const EDGE_SHARE: f64 = 0.25;
/// Places tried for each one taken: the one furthest from those taken before is kept.
const CANDIDATES: usize = 12;
/// Draws for a candidate that lies off the edges.
const DRAWS: usize = 64;

/// A place in a film: face, and x and y from its middle, y over the face [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At {
    pub face: usize,
    pub x: f64,
    pub y: f64,
}

/// A place as the report has it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PlaceOnPart {
    /// Number of the face, from 0.
    pub face: usize,
    /// Along it from its middle [mm].
    pub x_mm: f64,
    /// Over it from its middle line [mm].
    pub y_mm: f64,
    /// In words.
    pub place: String,
}

impl PlaceOnPart {
    /// A place of a film.
    pub(super) fn of(film: &FilmMap, at: At) -> Self {
        Self { face: at.face, x_mm: at.x * 1e3, y_mm: at.y * 1e3, place: whereabouts(film, at) }
    }
}

/// Half of what is left of a face inside its edges, along x and y [m].
fn inside(face: &Face, edge: f64) -> (f64, f64) {
    let (sx, sy) = face.size();
    let half = |size: f64| 0.5 * size - edge.min(EDGE_SHARE * size);
    (half(sx), if face.closed { 0.5 * sy } else { half(sy) })
}

/// The same place moved inside the edges; round a tube it comes out on the other side.
pub fn held(face: &Face, at: At, edge: f64) -> At {
    let (hx, hy) = inside(face, edge);
    let y = if face.closed {
        let round = face.size().1;
        at.y - round * (at.y / round).round()
    } else {
        at.y.clamp(-hy, hy)
    };
    At { x: at.x.clamp(-hx, hx), y, ..at }
}

/// Draws places on a part.
pub struct Draw<'a> {
    film: &'a FilmMap,
    stream: Stream,
    /// Cells of each face that are meant to be painted.
    meant: Vec<Vec<usize>>,
    /// Their area in all faces up to and with each [m2].
    up_to: Vec<f64>,
    edge: f64,
    taken: Vec<glam::DVec3>,
}

impl<'a> Draw<'a> {
    /// By a job's seed, off the usual edge.
    pub fn new(film: &'a FilmMap, seed: u64) -> Self {
        let mut sum = 0.0;
        let meant: Vec<Vec<usize>> = film
            .faces()
            .iter()
            .map(|face| {
                face.cells().filter(|&cell| !film.is_hidden(cell)).map(|cell| cell - face.first).collect()
            })
            .collect();
        let up_to = film
            .faces()
            .iter()
            .zip(&meant)
            .map(|(face, meant)| {
                sum += meant.len() as f64 * face.cell_area();
                sum
            })
            .collect();
        Self {
            film,
            stream: Stream::new(seed, 0, Purpose::Gauge),
            meant,
            up_to,
            edge: EDGE,
            taken: Vec::new(),
        }
    }

    /// A number 0..1 of the same stream.
    pub fn chance(&mut self) -> f64 {
        self.stream.open01()
    }

    /// A cell's place, by how much of the part's area lies before it [m2].
    fn cell(&mut self, area: f64) -> At {
        let index = self.up_to.partition_point(|&a| a <= area).min(self.up_to.len() - 1);
        let before = if index == 0 { 0.0 } else { self.up_to[index - 1] };
        let face = &self.film.faces()[index];
        let meant = &self.meant[index];
        let number =
            (((area - before) / face.cell_area()).max(0.0) as usize).min(meant.len().saturating_sub(1));
        let cell = meant.get(number).copied().unwrap_or(0);
        let (i, j) = (cell % face.nx, cell / face.nx);
        let (dx, dy) = (self.stream.open01() - 0.5, self.stream.open01() - 0.5);
        At { face: index, x: face.x(i) + dx * face.cell_x, y: face.y(j) + dy * face.cell_y }
    }

    fn off_edges(&self, at: At) -> bool {
        let face = &self.film.faces()[at.face];
        let (hx, hy) = inside(face, self.edge);
        at.x.abs() <= hx && (face.closed || at.y.abs() <= hy)
    }

    /// A place in the piece of the part between two shares of its area, far from those taken before.
    pub fn next(&mut self, from: f64, to: f64) -> At {
        let all = self.up_to.last().copied().unwrap_or(0.0);
        let mut best = (At { face: 0, x: 0.0, y: 0.0 }, f64::NEG_INFINITY);
        for _ in 0..CANDIDATES {
            let mut at = best.0;
            for draw in 0..DRAWS {
                let share = from + (to - from) * self.stream.open01();
                at = self.cell(share * all);
                if self.off_edges(at) {
                    break;
                }
                if draw + 1 == DRAWS {
                    at = held(&self.film.faces()[at.face], at, self.edge);
                }
            }
            let point = self.film.faces()[at.face].point(at.x, at.y);
            let far = self.taken.iter().map(|p| p.distance(point)).fold(f64::INFINITY, f64::min);
            if far > best.1 {
                best = (at, far);
            }
        }
        self.taken.push(self.film.faces()[best.0.face].point(best.0.x, best.0.y));
        best.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_inside_spread_and_the_same_for_a_seed() {
        let film = FilmMap::bare(120, 80, 5e-3, 5e-3);
        let places = |seed| {
            let mut draw = Draw::new(&film, seed);
            (0..20).map(|_| draw.next(0.0, 1.0)).collect::<Vec<_>>()
        };
        let found = places(7);
        assert_eq!(found, places(7));
        assert_ne!(found, places(8));
        for (i, a) in found.iter().enumerate() {
            assert!(a.x.abs() <= 0.275 && a.y.abs() <= 0.175, "{a:?}");
            for b in &found[..i] {
                assert!((a.x - b.x).abs() + (a.y - b.y).abs() > 0.03, "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn a_piece_of_the_part_keeps_its_places() {
        let film = FilmMap::bare(100, 100, 10e-3, 10e-3);
        let mut draw = Draw::new(&film, 1);
        for _ in 0..20 {
            let at = draw.next(0.5, 1.0);
            assert!(at.y >= -1e-9, "{at:?}");
        }
    }

    #[test]
    fn a_part_smaller_than_its_edges_still_has_a_place() {
        let film = FilmMap::bare(2, 1, 5e-3, 10e-3);
        let at = Draw::new(&film, 1).next(0.0, 1.0);
        assert!(at.x.abs() <= 2.5e-3 && at.y.abs() <= 2.5e-3, "{at:?}");
    }
}
