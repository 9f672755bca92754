//! The film on the large card as a map: landed parcels and their wet volume by place, in the cap's own frame (x to the right, y up
//! the fan).

use crate::tally::WET_UNIT;

/// Cell of the map [m].
pub const MAP_CELL: f64 = 4e-3;
/// Cells each way.
pub const MAP_CELLS: usize = 200;

/// Landed parcels by place, about the gun's axis.
#[derive(Debug, Clone, PartialEq)]
pub struct CardMap {
    solids: Vec<u32>,
    wet: Vec<u64>,
}

impl Default for CardMap {
    fn default() -> Self {
        Self { solids: vec![0; MAP_CELLS * MAP_CELLS], wet: vec![0; MAP_CELLS * MAP_CELLS] }
    }
}

/// Cell of a place; none outside the map.
fn cell(place: f64) -> Option<usize> {
    let at = place / MAP_CELL + 0.5 * MAP_CELLS as f64;
    (at >= 0.0 && at < MAP_CELLS as f64).then(|| (at as usize).min(MAP_CELLS - 1))
}

impl CardMap {
    /// Counts a landed parcel with its wet volume share [-].
    pub fn count(&mut self, x: f64, y: f64, wet: f64) {
        if let (Some(i), Some(j)) = (cell(x), cell(y)) {
            self.solids[j * MAP_CELLS + i] += 1;
            self.wet[j * MAP_CELLS + i] += (wet * WET_UNIT + 0.5) as u64;
        }
    }

    /// Middle of a row or column of cells [m].
    #[must_use]
    pub fn middle(index: usize) -> f64 {
        (index as f64 + 0.5 - 0.5 * MAP_CELLS as f64) * MAP_CELL
    }

    /// Parcels of a row (x fastest), lowest row first.
    #[must_use]
    pub fn row(&self, row: usize) -> &[u32] {
        &self.solids[row * MAP_CELLS..(row + 1) * MAP_CELLS]
    }

    /// Wet volume of a cell, in parcels as they leave the tip.
    #[must_use]
    pub fn wet(&self, column: usize, row: usize) -> f64 {
        self.wet[row * MAP_CELLS + column] as f64 / WET_UNIT
    }

    /// Wet volume on the map, in parcels.
    #[must_use]
    pub fn wet_sum(&self) -> f64 {
        self.wet.iter().sum::<u64>() as f64 / WET_UNIT
    }

    /// Parcels on the map.
    #[must_use]
    pub fn parcels(&self) -> u64 {
        self.solids.iter().map(|&n| u64::from(n)).sum()
    }

    /// Adds another slice's counts.
    pub fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.solids.iter_mut().zip(&other.solids) {
            *mine += theirs;
        }
        for (mine, theirs) in self.wet.iter_mut().zip(&other.wet) {
            *mine += theirs;
        }
    }
}
