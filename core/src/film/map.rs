//! A film by cells.

use crate::tally::{GROUPS, standard_error};

/// Film by cell. For a tube x runs along it and y round it, from behind (-pi) over the front (0) to behind.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmMap {
    /// Cells along x.
    pub nx: usize,
    /// Cells along y.
    pub ny: usize,
    /// Cell size along x [m].
    pub cell_x: f64,
    /// Cell size along y [m].
    pub cell_y: f64,
    /// Dry film by cell, x fastest, y rising [m].
    pub dry: Vec<f64>,
    /// Wet film as landed, by cell [m].
    pub wet: Vec<f64>,
    /// Dry film of each replicate group alone, group by group [m].
    pub groups: Vec<f64>,
}

impl FilmMap {
    /// A bare part.
    #[must_use]
    pub fn bare(nx: usize, ny: usize, cell_x: f64, cell_y: f64) -> Self {
        let n = nx * ny;
        Self { nx, ny, cell_x, cell_y, dry: vec![0.0; n], wet: vec![0.0; n], groups: vec![0.0; n * GROUPS] }
    }

    /// Number of cells.
    #[must_use]
    pub fn len(&self) -> usize {
        self.nx * self.ny
    }

    /// No cells.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Area [m2].
    #[must_use]
    pub fn area(&self) -> f64 {
        self.len() as f64 * self.cell_x * self.cell_y
    }

    /// Dry film of one group [m].
    #[must_use]
    pub fn group(&self, group: usize) -> &[f64] {
        &self.groups[group * self.len()..(group + 1) * self.len()]
    }

    /// Mean dry film [m] and its standard error.
    #[must_use]
    pub fn mean_dry(&self) -> (f64, f64) {
        let n = self.len().max(1) as f64;
        let groups = core::array::from_fn(|g| self.group(g).iter().sum::<f64>() / n);
        (self.dry.iter().sum::<f64>() / n, standard_error(&groups))
    }

    /// Mean wet film [m].
    #[must_use]
    pub fn mean_wet(&self) -> f64 {
        self.wet.iter().sum::<f64>() / self.len().max(1) as f64
    }

    /// A cell's counting error of the dry film, root mean square over the cells [m].
    #[must_use]
    pub fn cell_error(&self) -> f64 {
        let n = self.len();
        let sum: f64 = (0..n)
            .map(|cell| {
                let values = core::array::from_fn(|g| self.groups[g * n + cell]);
                let e = standard_error(&values);
                e * e
            })
            .sum();
        (sum / n.max(1) as f64).sqrt()
    }
}
