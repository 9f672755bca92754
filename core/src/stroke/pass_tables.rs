//! Straight passes over a flat panel, laid from tables by column of cells: for many strokes of one flight.
//!
//! The sums, their order and so the digits are those of [`Swept`]; what does not change from stroke to stroke is worked out once, and what
//! is left runs over all columns and replicate groups side by side.

use super::cumulative::Cumulative;
use super::{Lay, Pass, Swept};
use crate::film::{Face, FilmMap};
use crate::tally::GROUPS;
use fearless_simd::{Level, dispatch};

/// Replicate groups, and the wet film.
const LAYERS: usize = GROUPS + 1;

/// Counts below each row edge of a footprint, for every column of cells and layer, right and left of where a pass reaches them.
struct Way {
    /// Where the gun opens and shuts, the lesser first [m].
    ends: [f64; 2],
    right: Vec<f64>,
    left: Vec<f64>,
}

/// A flight's footprint cut for one panel.
pub struct PassTables {
    face: Face,
    rows: Cumulative,
    ways: Vec<Way>,
    scale: [f64; LAYERS],
    share: [f64; GROUPS],
}

impl PassTables {
    /// Of a footprint before a flat face, for passes that reach as far as these; none round a tube, on a frame, and where passes are of
    /// more than two lengths.
    #[must_use]
    pub fn new(swept: &Swept<'_>, face: &Face, passes: &[Pass]) -> Option<Self> {
        if swept.lay == Lay::Round || swept.members.is_some() || face.closed {
            return None;
        }
        let mut ends: Vec<[f64; 2]> = Vec::new();
        for pass in passes {
            let own = reach(pass);
            if !ends.contains(&own) {
                ends.push(own);
            }
        }
        if ends.is_empty() || ends.len() > 2 {
            return None;
        }
        let total = swept.fates.total().max(1) as f64;
        let (mut scale, mut share) = ([0.0; LAYERS], [0.0; GROUPS]);
        let tables: Vec<Cumulative> = (0..LAYERS)
            .map(|layer| {
                if layer == GROUPS {
                    scale[layer] = swept.flow / total;
                    return swept.wet_table();
                }
                let flown = swept.fates.group_total(layer) as f64;
                scale[layer] = swept.flow * swept.solids / flown.max(1.0);
                share[layer] = flown / total;
                let counts = swept.footprint.group(layer);
                swept.table(|bin| f64::from(counts[bin]))
            })
            .collect();
        let (dx, x0) = (face.cell_x, -0.5 * face.cell_x * face.nx as f64);
        let ways = ends
            .into_iter()
            .map(|ends| {
                let cut = |side: usize| {
                    let columns: Vec<Vec<f64>> = tables
                        .iter()
                        .flat_map(|table| {
                            (0..face.nx).map(move |i| {
                                let x = x0 + dx * (i as f64 + 0.5);
                                table.column([x - ends[1], x - ends[0]][side])
                            })
                        })
                        .collect();
                    let rows = columns.first().map_or(0, Vec::len);
                    (0..rows).flat_map(|j| columns.iter().map(move |column| column[j])).collect()
                };
                Way { ends, right: cut(1), left: cut(0) }
            })
            .collect();
        let rows = tables.into_iter().next()?;
        Some(Self { face: face.clone(), rows, ways, scale, share })
    }

    fn lanes(&self) -> usize {
        self.face.nx * LAYERS
    }

    /// What these passes, `coats` times, bring to every cell, row by row, layer by layer: the film times the gun's speed and the cell's
    /// height [m3/s]. None where a pass reaches elsewhere.
    #[must_use]
    pub fn sums(&self, passes: &[Pass], coats: u32) -> Option<Vec<f64>> {
        let (lanes, dy) = (self.lanes(), self.face.cell_y);
        let y0 = -0.5 * dy * self.face.ny as f64;
        let (mut sums, level) = (vec![0.0; lanes * self.face.ny], Level::new());
        for (j, sums) in sums.chunks_exact_mut(lanes).enumerate() {
            let row = [y0 + dy * j as f64, y0 + dy * (j + 1) as f64];
            for pass in passes {
                let own = reach(pass);
                let way = self.ways.iter().find(|way| way.ends == own)?;
                let [low, high] = row.map(|y| self.rows.row(y - pass.offset));
                if low == high {
                    // Both past the same edge of the footprint: nothing.
                    continue;
                }
                let edges = |(at, _): (usize, f64)| at * lanes..(at + 2) * lanes;
                let [r0, r1] = [low, high].map(|at| &way.right[edges(at)]);
                let [l0, l1] = [low, high].map(|at| &way.left[edges(at)]);
                dispatch!(level, _simd => add_strip(sums, [r0, r1, l0, l1], [low.1, high.1]));
            }
            for (sums, scale) in sums.chunks_exact_mut(self.face.nx).zip(self.scale) {
                sums.iter_mut().for_each(|sum| *sum = *sum * scale * f64::from(coats));
            }
        }
        Some(sums)
    }

    /// The film of such sums on the face, the gun moving at `speed` [m/s].
    pub fn film(&self, sums: &[f64], speed: f64, film: &mut FilmMap) {
        let (nx, n, level) = (self.face.nx, film.len(), Level::new());
        let per = speed * self.face.cell_y;
        film.dry.fill(0.0);
        for (j, row) in sums.chunks_exact(self.lanes()).enumerate() {
            let cells = j * nx..(j + 1) * nx;
            let (solids, wet) = row.split_at(nx * GROUPS);
            dispatch!(level, _simd => divide(wet, per, &mut film.wet[cells.clone()]));
            for (layer, sums) in solids.chunks_exact(nx).enumerate() {
                let group = &mut film.groups[layer * n + cells.start..layer * n + cells.end];
                let (dry, share) = (&mut film.dry[cells.clone()], self.share[layer]);
                dispatch!(level, _simd => divide(sums, per, group));
                dispatch!(level, _simd => add_share(group, share, dry));
            }
        }
    }
}

#[inline(always)]
fn divide(sums: &[f64], per: f64, heights: &mut [f64]) {
    for (height, sum) in heights.iter_mut().zip(sums) {
        *height = sum / per;
    }
}

#[inline(always)]
fn add_share(heights: &[f64], share: f64, sum: &mut [f64]) {
    for (sum, h) in sum.iter_mut().zip(heights) {
        *sum += h * share;
    }
}

/// Where the gun opens and shuts, the lesser first [m].
fn reach(pass: &Pass) -> [f64; 2] {
    [pass.from.min(pass.to), pass.from.max(pass.to)]
}

/// Adds what lies between two rows and two columns, lane by lane: each of the four edges is two row edges of the table, one after the
/// other.
#[inline(always)]
fn add_strip(sums: &mut [f64], [r0, r1, l0, l1]: [&[f64]; 4], [b0, b1]: [f64; 2]) {
    let lanes = sums.len();
    let ((r0a, r0b), (r1a, r1b)) = (r0.split_at(lanes), r1.split_at(lanes));
    let ((l0a, l0b), (l1a, l1b)) = (l0.split_at(lanes), l1.split_at(lanes));
    for k in 0..lanes {
        let right = between(r1a[k], r1b[k], b1) - between(r0a[k], r0b[k], b0);
        let left = between(l1a[k], l1b[k], b1) - between(l0a[k], l0b[k], b0);
        sums[k] += right - left;
    }
}

#[inline(always)]
fn between(low: f64, high: f64, share: f64) -> f64 {
    low + (high - low) * share
}
