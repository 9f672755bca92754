//! What a gun held still leaves, in the gun's own frame: counts by place and replicate group.

use super::{Digest, GROUPS};

/// Bins of a footprint. For a tube `y` is the angle round it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// Bins along x.
    pub nx: usize,
    /// Bins along y.
    pub ny: usize,
    /// Lower edge, x [m].
    pub x0: f64,
    /// Lower edge, y [m or rad].
    pub y0: f64,
    /// Bin, x [m].
    pub dx: f64,
    /// Bin, y [m or rad].
    pub dy: f64,
}

impl Grid {
    /// The bin of a place, or none outside.
    #[must_use]
    pub fn bin(&self, x: f64, y: f64) -> Option<usize> {
        let (i, j) = ((x - self.x0) / self.dx, (y - self.y0) / self.dy);
        let inside = i >= 0.0 && j >= 0.0 && i < self.nx as f64 && j < self.ny as f64;
        inside.then(|| (j as usize).min(self.ny - 1) * self.nx + (i as usize).min(self.nx - 1))
    }

    /// Number of bins.
    #[must_use]
    pub fn len(&self) -> usize {
        self.nx * self.ny
    }

    /// No bins.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// One parcel's wet volume at landing, in units of 2^-20 of its volume at the tip.
pub const WET_UNIT: f64 = 1_048_576.0;

/// Landed parcels by place.
#[derive(Debug, Clone, PartialEq)]
pub struct Footprint {
    /// The bins.
    pub grid: Grid,
    solids: Vec<u32>,
    wet: Vec<u64>,
    outside: u64,
}

impl Footprint {
    /// An empty footprint.
    #[must_use]
    pub fn new(grid: Grid) -> Self {
        Self { grid, solids: vec![0; grid.len() * GROUPS], wet: vec![0; grid.len()], outside: 0 }
    }

    /// Counts a landed parcel with its wet volume share at landing [-].
    pub fn count(&mut self, x: f64, y: f64, wet: f64, group: usize) {
        match self.grid.bin(x, y) {
            Some(bin) => {
                self.solids[group * self.grid.len() + bin] += 1;
                self.wet[bin] += (wet * WET_UNIT + 0.5) as u64;
            }
            None => self.outside += 1,
        }
    }

    /// Parcels of one group, row by row (x fastest).
    #[must_use]
    pub fn group(&self, group: usize) -> &[u32] {
        let n = self.grid.len();
        &self.solids[group * n..(group + 1) * n]
    }

    /// Wet volume by bin, in parcels.
    pub fn wet(&self) -> impl Iterator<Item = f64> + '_ {
        self.wet.iter().map(|&w| w as f64 / WET_UNIT)
    }

    /// Adds another slice's counts.
    pub fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.solids.iter_mut().zip(&other.solids) {
            *mine += theirs;
        }
        for (mine, theirs) in self.wet.iter_mut().zip(&other.wet) {
            *mine += theirs;
        }
        self.outside += other.outside;
    }

    /// Landed parcels in and outside the grid.
    #[must_use]
    pub fn landed(&self) -> u64 {
        self.solids.iter().map(|&n| u64::from(n)).sum::<u64>() + self.outside
    }

    /// Parcels summed over y, by x (`along_x`), or over x, by y; all groups.
    #[must_use]
    pub fn profile(&self, along_x: bool) -> Vec<f64> {
        let grid = &self.grid;
        let mut sum = vec![0u64; if along_x { grid.nx } else { grid.ny }];
        for group in 0..GROUPS {
            for (bin, &n) in self.group(group).iter().enumerate() {
                let place = if along_x { bin % grid.nx } else { bin / grid.nx };
                sum[place] += u64::from(n);
            }
        }
        sum.into_iter().map(|n| n as f64).collect()
    }

    /// Takes the counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.solids.iter().for_each(|&n| digest.count(u64::from(n)));
        self.wet.iter().for_each(|&n| digest.count(n));
        digest.count(self.outside);
    }
}
