//! Laying segments of a track on a film: each cell asks which ray meets it, and takes what the imprint has there.
//!
//! Film of a piece of time dt at a place p of the gun's frame, z along its axis, with the face's normal n:
//! flow dt share(slopes) / bin area * |n . (sx, sy, 1)| / z^2. A segment is cut into equal pieces no longer than a bin on
//! the face; the cut depends on the segment alone.

use super::aim::{BeforeTube, Frame};
use super::blend::Blend;
use super::imprint::Bins;
use super::shelf::{Shelf, ShelfSpec};
use super::tile::{NEAR, Tile, blend_tables, join, round, take};
use super::{Moment, Track};
use crate::film::{Face, FilmMap};
use crate::tally::GROUPS;
use core::ops::Range;
use glam::DVec3;

/// Lanes of a table with all groups: they, the wet volume, and what fills the vector.
const FULL: usize = 20;
/// Lanes of a table with all groups together.
const PLAIN: usize = 4;
/// Pieces of a segment, at most: a longer way is laid coarser.
const MOST_PIECES: f64 = 20_000.0;

/// What a [`Shelf`] knows, ready to be laid; made once, then laid from as often as one likes.
#[derive(Debug, Clone)]
pub struct Layer {
    tables: Tables,
    spec: ShelfSpec,
    blend: Blend,
    shares: [f64; GROUPS],
}

#[derive(Debug, Clone)]
enum Tables {
    Full(Vec<Vec<Vec<[f32; FULL]>>>),
    Plain(Vec<Vec<Vec<[f32; PLAIN]>>>),
}

impl Layer {
    /// Film with all its replicate groups: for results.
    #[must_use]
    pub fn full(shelf: &Shelf) -> Self {
        Self::of(Tables::Full(shelf.tables()), shelf)
    }

    /// Dry and wet film alone, several times as fast: for pictures under way.
    #[must_use]
    pub fn plain(shelf: &Shelf) -> Self {
        Self::of(Tables::Plain(shelf.tables()), shelf)
    }

    /// The same with the fine level alone: what lies far out, a per cent, is left away. For pictures while it flies.
    #[must_use]
    pub fn sketch(shelf: &Shelf) -> Self {
        let mut tables: Vec<Vec<Vec<[f32; PLAIN]>>> = shelf.tables();
        tables.iter_mut().for_each(|levels| levels.truncate(1));
        Self::of(Tables::Plain(tables), shelf)
    }

    fn of(tables: Tables, shelf: &Shelf) -> Self {
        Self { tables, spec: shelf.spec().clone(), blend: shelf.blend(), shares: shelf.group_shares() }
    }

    /// Lays what is sprayed between two moments on a face of a film (its number among `film.faces()`).
    ///
    /// Laying segment by segment, as they come, and laying a whole track are the same to the bit. A moment out of the
    /// ranges of [`Moment`] lays nothing sensible: check by [`Track::new`].
    pub fn lay(&self, from: &Moment, to: &Moment, face: usize, film: &mut FilmMap) {
        let seconds = (to.time - from.time) * from.trigger;
        let Some(face) = film.faces().get(face).cloned() else { return };
        if !(seconds > 0.0 && seconds.is_finite()) || face.is_empty() {
            return;
        }
        match &self.tables {
            Tables::Full(tables) => self.segment(tables, from, to, &face, film),
            Tables::Plain(tables) => self.segment(tables, from, to, &face, film),
        }
    }

    /// Lays some segments of a track, by their first moments.
    pub fn lay_segments(&self, track: &Track, segments: Range<usize>, face: usize, film: &mut FilmMap) {
        for (from, to) in track.segments().take(segments.end).skip(segments.start) {
            self.lay(from, to, face, film);
        }
    }

    fn segment<const L: usize>(
        &self,
        tables: &[Vec<Vec<[f32; L]>>],
        from: &Moment,
        to: &Moment,
        face: &Face,
        film: &mut FilmMap,
    ) {
        let levels = tables.first().map_or(0, Vec::len);
        for (level, bins) in self.spec.levels.bins().iter().enumerate().take(levels) {
            let pieces = self.pieces(bins, from, to);
            let step = (to.time - from.time) * from.trigger / f64::from(pieces);
            let poses = (0..pieces).map(|i| from.towards(to, (f64::from(i) + 0.5) / f64::from(pieces)));
            let (mut columns, mut rows) = (face.nx..face.nx, face.ny..face.ny);
            for pose in poses.clone() {
                let (c, r) = self.shadow(bins, &pose, face);
                if !c.is_empty() && !r.is_empty() {
                    columns = join(&columns, &c);
                    rows = join(&rows, &r);
                }
            }
            if columns.is_empty() || rows.is_empty() {
                continue;
            }
            let mut tile = Tile::<L>::new(columns, rows);
            let mut blend = Vec::new();
            let mut weights = Vec::new();
            for pose in poses {
                let now = self.blend.weights(&pose);
                if now != weights {
                    blend_tables(tables, level, &now, &mut blend);
                    weights = now;
                }
                let per = step / (bins.dx * bins.dy);
                match self.spec.radius {
                    None => self.flat(bins, &blend, &pose, face, per, &mut tile),
                    Some(radius) => round((bins, &blend), &pose, face, radius, per, &mut tile),
                }
            }
            self.flush(&tile, face, film);
        }
    }

    /// Pieces of a segment: none moves the aimed point by more than a bin.
    fn pieces(&self, bins: &Bins, from: &Moment, to: &Moment) -> u32 {
        let near = from.distance.min(to.distance).max(NEAR);
        let far = from.distance.max(to.distance);
        let tip = DVec3::new(to.x - from.x, to.y - from.y, to.distance - from.distance).length();
        let tilted = (to.heel - from.heel).abs() + (to.swing - from.swing).abs();
        let turned = match self.spec.radius {
            // A cap turned moves the fan's ends.
            None => (to.turn - from.turn).abs() * far,
            Some(radius) => (to.turn - from.turn).abs() * radius,
        };
        let way = tip + tilted * far + turned;
        ((way / (bins.dx * near)).ceil()).clamp(1.0, MOST_PIECES) as u32
    }

    /// Columns and rows of a face that the bins may reach.
    fn shadow(&self, bins: &Bins, pose: &Moment, face: &Face) -> (Range<usize>, Range<usize>) {
        let whole = (0..face.nx, 0..face.ny);
        let place = |low: f64, high: f64, step: f64, n: usize| {
            let at = |v: f64| (v / step + 0.5 * n as f64).clamp(0.0, n as f64);
            (at(low).floor() as usize)..(at(high).ceil() as usize)
        };
        let reach_x = [bins.x0 - bins.dx, bins.x0 + bins.dx * (bins.nx as f64 + 1.0)];
        if let Some(radius) = self.spec.radius {
            let straight = BeforeTube::of(pose, radius);
            let far = straight.distance.abs() + 2.0 * radius;
            let tan = crate::math::sin(pose.swing) / crate::math::cos(pose.swing);
            let slope = |t: f64| (t + tan) / (1.0 - t * tan);
            if 1.0 - reach_x[0].abs().max(reach_x[1].abs()) * tan.abs() < 0.1 {
                return whole;
            }
            let reach = reach_x.map(|t| slope(t) * far);
            let columns = place(pose.x + reach[0], pose.x + reach[1], face.cell_x, face.nx);
            return (columns, 0..face.ny);
        }
        if face.place.radius > 0.0 {
            return whole;
        }
        let frame = self.frame(pose);
        let reach_y = [bins.y0 - bins.dy, bins.y0 + bins.dy * (bins.ny as f64 + 1.0)];
        let (mut x, mut y) = ([f64::MAX, f64::MIN], [f64::MAX, f64::MIN]);
        for sx in reach_x {
            for sy in reach_y {
                let ray = frame.right * sx + frame.up * sy + frame.ahead;
                // A ray that hardly comes down reaches anything.
                if -ray.z < 0.05 {
                    return whole;
                }
                let s = pose.distance / -ray.z;
                x = [x[0].min(pose.x + ray.x * s), x[1].max(pose.x + ray.x * s)];
                y = [y[0].min(pose.y + ray.y * s), y[1].max(pose.y + ray.y * s)];
            }
        }
        (place(x[0], x[1], face.cell_x, face.nx), place(y[0], y[1], face.cell_y, face.ny))
    }

    fn frame(&self, pose: &Moment) -> Frame {
        Frame::tilted(pose.heel, pose.swing).turned(self.spec.turn + pose.turn)
    }

    fn flat<const L: usize>(
        &self,
        bins: &Bins,
        table: &[[f32; L]],
        pose: &Moment,
        face: &Face,
        per: f64,
        tile: &mut Tile<L>,
    ) {
        let frame = self.frame(pose);
        // The frame at the gun's foot: on a curved face the foot has its own normal.
        let bend = |y: f64| if face.place.radius > 0.0 { y / face.place.radius } else { 0.0 };
        let tip = DVec3::new(0.0, 0.0, pose.distance);
        for (row, j) in tile.rows.clone().enumerate() {
            let dy = face.y(j) - pose.y;
            let angle = bend(dy);
            let (at_y, out, normal) = if angle == 0.0 && face.place.radius <= 0.0 {
                (dy, 0.0, DVec3::Z)
            } else {
                let (s, c) = (crate::math::sin(angle), crate::math::cos(angle));
                (face.place.radius * s, face.place.radius * (c - 1.0), DVec3::new(0.0, s, c))
            };
            let normal = frame.of(normal);
            let start = frame.of(DVec3::new(face.x(tile.columns.start) - pose.x, at_y, out) - tip);
            let step = frame.of(DVec3::new(face.cell_x, 0.0, 0.0));
            let cells = &mut tile.cells[row * tile.columns.len()..(row + 1) * tile.columns.len()];
            for (i, cell) in cells.iter_mut().enumerate() {
                let at = start + step * i as f64;
                if at.z < NEAR {
                    continue;
                }
                let inverse = 1.0 / at.z;
                let (sx, sy) = (at.x * inverse, at.y * inverse);
                let facing = -(normal.x * sx + normal.y * sy + normal.z);
                if facing > 0.0 {
                    take(bins, table, sx, sy, per * facing * inverse * inverse, cell);
                }
            }
        }
    }

    /// Adds what a segment laid to the film.
    fn flush<const L: usize>(&self, tile: &Tile<L>, face: &Face, film: &mut FilmMap) {
        let (flow, solids, shares) = (self.spec.flow, self.spec.solids, &self.shares);
        let n = film.len();
        for (row, j) in tile.rows.clone().enumerate() {
            let first = face.first + j * face.nx + tile.columns.start;
            for (i, cell) in tile.cells[row * tile.columns.len()..][..tile.columns.len()].iter().enumerate() {
                let at = first + i;
                if L > GROUPS {
                    let mut dry = 0.0;
                    for g in 0..GROUPS {
                        let h = f64::from(cell[g]) * (flow * solids);
                        film.groups[g * n + at] += h;
                        dry += h * shares[g];
                    }
                    film.dry[at] += dry;
                    film.wet[at] += f64::from(cell[GROUPS]) * flow;
                } else {
                    film.dry[at] += f64::from(cell[0]) * (flow * solids);
                    film.wet[at] += f64::from(cell[1]) * flow;
                }
            }
        }
    }
}
