//! Counts summed over a grid, read between its edges.

use crate::tally::Grid;

/// Counts below and left of a place.
pub(super) struct Cumulative {
    grid: Grid,
    sums: Vec<f64>,
}

impl Cumulative {
    pub fn new(grid: Grid, count: impl Fn(usize, usize) -> f64) -> Self {
        let width = grid.nx + 1;
        let mut sums = vec![0.0; width * (grid.ny + 1)];
        for j in 0..grid.ny {
            let mut row = 0.0;
            for i in 0..grid.nx {
                row += count(i, j);
                sums[(j + 1) * width + i + 1] = sums[j * width + i + 1] + row;
            }
        }
        Self { grid, sums }
    }

    /// Counts left of a place, row edge by row edge: what [`Cumulative::below`] looks up first.
    pub fn column(&self, x: f64) -> Vec<f64> {
        let (i, a) = self.column_edge(x);
        let at = |i: usize, j: usize| self.sums[j * (self.grid.nx + 1) + i];
        (0..=self.grid.ny).map(|j| at(i, j) + (at(i + 1, j) - at(i, j)) * a).collect()
    }

    /// The row edge below a place, and the share of the way to the next.
    pub fn row(&self, y: f64) -> (usize, f64) {
        place(y, self.grid.y0, self.grid.dy, self.grid.ny)
    }

    /// The column edge left of a place, and the share of the way to the next.
    pub fn column_edge(&self, x: f64) -> (usize, f64) {
        place(x, self.grid.x0, self.grid.dx, self.grid.nx)
    }

    /// Counts with x and y below the given places.
    fn below(&self, (i, a): (usize, f64), (j, b): (usize, f64)) -> f64 {
        let at = |i: usize, j: usize| self.sums[j * (self.grid.nx + 1) + i];
        let low = at(i, j) + (at(i + 1, j) - at(i, j)) * a;
        let high = at(i, j + 1) + (at(i + 1, j + 1) - at(i, j + 1)) * a;
        low + (high - low) * b
    }

    /// Counts in a rectangle.
    pub fn within(&self, x: [f64; 2], y: [f64; 2]) -> f64 {
        self.between(x.map(|x| self.column_edge(x)), y.map(|y| self.row(y)))
    }

    /// The same by places that were looked up before.
    pub fn between(&self, x: [(usize, f64); 2], y: [(usize, f64); 2]) -> f64 {
        let right = self.below(x[1], y[1]) - self.below(x[1], y[0]);
        right - (self.below(x[0], y[1]) - self.below(x[0], y[0]))
    }
}

/// The bin edge below a place, and the share of the way to the next.
fn place(v: f64, low: f64, step: f64, n: usize) -> (usize, f64) {
    let at = ((v - low) / step).clamp(0.0, n as f64);
    let i = (at as usize).min(n - 1);
    (i, at - i as f64)
}

/// Share of each bin that lies within `length` [m] about 0.
pub(super) fn covered(low: f64, step: f64, n: usize, length: f64) -> Vec<f64> {
    let at = |end: f64| (end - low) / step;
    let ends = [at(-0.5 * length), at(0.5 * length)];
    (0..n).map(|i| (ends[1].min(i as f64 + 1.0) - ends[0].max(i as f64)).clamp(0.0, 1.0)).collect()
}
