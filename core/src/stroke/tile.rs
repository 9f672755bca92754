//! What one pose of the gun leaves on some cells of a face, read between the bins of a table.

use super::Moment;
use super::aim::BeforeTube;
use super::imprint::Bins;
use crate::film::Face;
use core::ops::Range;

/// Shortest way along a ray that is looked at [m].
pub(super) const NEAR: f64 = 1e-3;

/// Film of some columns and rows of a face while a segment is laid.
pub(super) struct Tile<const L: usize> {
    pub columns: Range<usize>,
    pub rows: Range<usize>,
    pub cells: Vec<[f32; L]>,
}

impl<const L: usize> Tile<L> {
    pub fn new(columns: Range<usize>, rows: Range<usize>) -> Self {
        let cells = vec![[0.0; L]; columns.len() * rows.len()];
        Self { columns, rows, cells }
    }
}

/// Adds what a pose before a tube of `radius` [m] lays to a tile; the table is by slope along it and angle round it.
pub(super) fn round<const L: usize>(
    (bins, table): (&Bins, &[[f32; L]]),
    pose: &Moment,
    face: &Face,
    radius: f64,
    per: f64,
    tile: &mut Tile<L>,
) {
    let straight = BeforeTube::of(pose, radius);
    let tan = crate::math::sin(pose.swing) / crate::math::cos(pose.swing);
    let round = 2.0 * core::f64::consts::PI;
    for (row, j) in tile.rows.clone().enumerate() {
        let turned = (face.y(j) / radius - straight.turn) / round + 0.5;
        let angle = (turned - turned.floor() - 0.5) * round;
        let z = straight.distance + radius - radius * crate::math::cos(angle);
        if z < NEAR {
            continue;
        }
        let inverse = 1.0 / z;
        let cells = &mut tile.cells[row * tile.columns.len()..(row + 1) * tile.columns.len()];
        for (cell, i) in cells.iter_mut().zip(tile.columns.clone()) {
            let t = (face.x(i) - pose.x) * inverse;
            let along = 1.0 + t * tan;
            if along < 0.05 {
                continue;
            }
            let widened = (1.0 + tan * tan) / (along * along);
            take(bins, table, (t - tan) / along, angle, per * widened * inverse / radius, cell);
        }
    }
}

/// The least range that holds both.
pub(super) fn join(a: &Range<usize>, b: &Range<usize>) -> Range<usize> {
    if a.is_empty() { b.clone() } else { a.start.min(b.start)..a.end.max(b.end) }
}

/// Adds what the table has at a place, times `scale`, to a cell.
#[inline(always)]
pub(super) fn take<const L: usize>(
    bins: &Bins,
    table: &[[f32; L]],
    x: f64,
    y: f64,
    scale: f64,
    cell: &mut [f32; L],
) {
    // Bin middles stand at whole numbers; the table has a border of one bin.
    let (u, v) = ((x - bins.x0) / bins.dx + 0.5, (y - bins.y0) / bins.dy + 0.5);
    let inside = u >= 0.0 && v >= 0.0 && u < (bins.nx + 1) as f64 && v < (bins.ny + 1) as f64;
    if !inside {
        return;
    }
    let (i, j) = (u as usize, v as usize);
    let (a, b) = ((u - i as f64) as f32, (v - j as f64) as f32);
    let scale = scale as f32;
    let (high, low) = (scale * b, scale * (1.0 - b));
    let weights = [low * (1.0 - a), low * a, high * (1.0 - a), high * a];
    let width = bins.nx + 2;
    let at = j * width + i;
    let (near, far) = (&table[at..at + 2], &table[at + width..at + width + 2]);
    for l in 0..L {
        let below = near[0][l] * weights[0] + near[1][l] * weights[1];
        cell[l] += below + (far[0][l] * weights[2] + far[1][l] * weights[3]);
    }
}

/// One table out of those of the nodes, by their weights.
pub(super) fn blend_tables<const L: usize>(
    tables: &[Vec<Vec<[f32; L]>>],
    level: usize,
    weights: &[(usize, f64)],
    blend: &mut Vec<[f32; L]>,
) {
    blend.clear();
    for &(node, weight) in weights {
        let (table, weight) = (&tables[node][level], weight as f32);
        if blend.is_empty() {
            blend.extend(table.iter().map(|lanes| lanes.map(|h| h * weight)));
            continue;
        }
        for (sum, lanes) in blend.iter_mut().zip(table) {
            for l in 0..L {
                sum[l] += lanes[l] * weight;
            }
        }
    }
}
