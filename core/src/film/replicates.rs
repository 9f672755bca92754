//! What the replicate groups of a film tell: means, a cell's counting error, products of groups.
//!
//! A film is read some cells at a time, groups or cells side by side; every sum takes its terms in the order of the cells and of the groups, so
//! that the digits do not hang on how many are read at once.

use super::{Face, FilmMap};
use crate::tally::{GROUPS, standard_error};
use fearless_simd::{Level, dispatch};

/// Cells read at a time: their groups fit the nearest cache.
const BLOCK: usize = 64;
/// Groups on each side of a tile of products, whose sums stay in registers while the cells go by.
const TILE: usize = 4;
/// Cells side by side while the least of them is looked for.
const LANES: usize = 8;

/// Films of the groups in one cell [m].
type Cell = [f64; GROUPS];

/// Means over the area of each group's film and of the products of two.
#[derive(Debug, Clone)]
pub(super) struct Moments {
    /// Mean of each group [m].
    pub means: Cell,
    /// Mean product of groups g and h, of h below g alone [m2].
    pub products: [Cell; GROUPS],
}

impl Moments {
    /// Of a film; none without cells.
    pub fn of(film: &FilmMap) -> Option<Self> {
        if film.is_empty() {
            return None;
        }
        let (mut means, mut products) = ([0.0; GROUPS], [[0.0; GROUPS]; GROUPS]);
        // By its share of the area; a single face keeps whole numbers.
        let largest = film.faces().iter().map(Face::cell_area).fold(0.0, f64::max);
        let mut weights = 0.0;
        let (mut cells, mut weighted) = (Vec::with_capacity(BLOCK), Vec::with_capacity(BLOCK));
        let level = Level::new();
        for face in film.faces() {
            let weight = face.cell_area() / largest;
            for first in face.cells().step_by(BLOCK) {
                film.read(first..face.cells().end.min(first + BLOCK), &mut cells);
                weighted.clone_from(&cells);
                if weight != 1.0 {
                    weighted.as_flattened_mut().iter_mut().for_each(|h| *h *= weight);
                }
                weights = match film.faces().len() {
                    // Ones add up to a whole number, without rounding.
                    1 => weights + weighted.len() as f64,
                    _ => weighted.iter().fold(weights, |sum, _| sum + weight),
                };
                dispatch!(level, _simd => add_cells(&weighted, &cells, &mut means, &mut products));
            }
        }
        means.iter_mut().chain(products.as_flattened_mut()).for_each(|sum| *sum /= weights);
        Some(Self { means, products })
    }
}

/// Adds each cell's films and products of two groups, these tile by tile; of the tiles on the diagonal the upper halves are not wanted.
#[inline(always)]
fn add_cells(weighted: &[Cell], cells: &[Cell], means: &mut Cell, products: &mut [Cell; GROUPS]) {
    for cell in weighted {
        for (mean, h) in means.iter_mut().zip(cell) {
            *mean += h;
        }
    }
    for g in (0..GROUPS).step_by(TILE) {
        for h in (0..=g).step_by(TILE) {
            let mut sums = [[0.0; TILE]; TILE];
            for i in 0..TILE {
                sums[i].copy_from_slice(&products[g + i][h..h + TILE]);
            }
            for (a, b) in weighted.iter().zip(cells) {
                for i in 0..TILE {
                    for j in 0..TILE {
                        sums[i][j] += a[g + i] * b[h + j];
                    }
                }
            }
            for i in 0..TILE {
                products[g + i][h..h + TILE].copy_from_slice(&sums[i]);
            }
        }
    }
}

/// Squares of the counting error of some cells side by side, as `standard_error` of each; by group the films of the cells.
#[inline(always)]
fn square_errors(groups: &[&[f64]; GROUPS], squares: &mut [f64]) {
    let count = GROUPS as f64;
    let mut mean = [0.0; BLOCK];
    for group in groups {
        for (mean, h) in mean.iter_mut().zip(*group) {
            *mean += h;
        }
    }
    for mean in &mut mean {
        *mean /= count;
    }
    squares.fill(0.0);
    for group in groups {
        for ((spread, mean), h) in squares.iter_mut().zip(&mean).zip(*group) {
            *spread += (h - mean) * (h - mean);
        }
    }
    for spread in squares {
        let e = (*spread / (count * (count - 1.0))).sqrt();
        *spread = e * e;
    }
}

/// Lowers the least sums of all groups but one to those of some cells, lane by lane. `all` are the cells' sums of all groups.
#[inline(always)]
fn lower(groups: &[&[f64]; GROUPS], all: &[f64], least: &mut [[f64; LANES]; GROUPS]) {
    for (least, group) in least.iter_mut().zip(groups) {
        // On the side, so that the least stay in registers.
        let mut own = *least;
        let ((all, all_left), (group, group_left)) = (all.as_chunks::<LANES>(), group.as_chunks::<LANES>());
        for (all, group) in all.iter().zip(group) {
            for ((own, all), h) in own.iter_mut().zip(all).zip(group) {
                let rest = all - h;
                *own = if rest < *own { rest } else { *own };
            }
        }
        for ((own, all), h) in own.iter_mut().zip(all_left).zip(group_left) {
            let rest = all - h;
            *own = if rest < *own { rest } else { *own };
        }
        *least = own;
    }
}

/// Sums of all groups of some cells side by side.
#[inline(always)]
fn sum_groups(groups: &[&[f64]; GROUPS], all: &mut [f64]) {
    all.fill(0.0);
    for group in groups {
        for (all, h) in all.iter_mut().zip(*group) {
            *all += h;
        }
    }
}

impl FilmMap {
    /// Films of the groups in the cells of a range that are meant to be painted.
    fn read(&self, range: core::ops::Range<usize>, cells: &mut Vec<Cell>) {
        cells.clear();
        cells.resize(range.len(), [0.0; GROUPS]);
        for g in 0..GROUPS {
            for (cell, &h) in cells.iter_mut().zip(&self.group(g)[range.clone()]) {
                cell[g] = h;
            }
        }
        if self.hides_some() {
            let mut at = range.start;
            cells.retain(|_| {
                at += 1;
                !self.is_hidden(at - 1)
            });
        }
    }

    /// Mean dry film of each replicate group [m].
    #[must_use]
    pub fn group_means(&self) -> [f64; GROUPS] {
        if self.faces().len() > 1 || self.hides_some() {
            return core::array::from_fn(|g| {
                let group = self.group(g);
                self.mean_over_area(|cell| group[cell])
            });
        }
        let n = self.len();
        let mut sums = [0.0; GROUPS];
        for first in (0..n).step_by(BLOCK) {
            let block = first..n.min(first + BLOCK);
            // Cell by cell, so that no group's sum waits for its own last addition.
            let groups = self.groups_of(&block);
            for cell in 0..block.len() {
                for (sum, group) in sums.iter_mut().zip(&groups) {
                    *sum += group[cell];
                }
            }
        }
        sums.map(|sum| sum / n.max(1) as f64)
    }

    /// Mean dry film [m] and its standard error.
    #[must_use]
    pub fn mean_dry(&self) -> (f64, f64) {
        (self.mean_over_area(|cell| self.dry[cell]), standard_error(&self.group_means()))
    }

    /// Films of each group in the cells of a range.
    fn groups_of(&self, range: &core::ops::Range<usize>) -> [&[f64]; GROUPS] {
        core::array::from_fn(|g| &self.group(g)[range.clone()])
    }

    /// A cell's counting error of the dry film, root mean square over the cells [m].
    #[must_use]
    pub fn cell_error(&self) -> f64 {
        let (n, level) = (self.len(), Level::new());
        let mut sum = 0.0;
        for first in (0..n).step_by(BLOCK) {
            let block = first..n.min(first + BLOCK);
            let (groups, mut squares) = (self.groups_of(&block), [0.0; BLOCK]);
            let squares = &mut squares[..block.len()];
            dispatch!(level, _simd => square_errors(&groups, squares));
            for square in squares {
                sum += *square;
            }
        }
        (sum / n.max(1) as f64).sqrt()
    }

    /// Thinnest cell of all groups but one, for each group [m].
    #[must_use]
    pub fn thinnest_without(&self) -> [f64; GROUPS] {
        let (n, level) = (self.len(), Level::new());
        let mut least = [[f64::INFINITY; LANES]; GROUPS];
        for first in (0..n).step_by(BLOCK) {
            let block = first..n.min(first + BLOCK);
            let (groups, mut all) = (self.groups_of(&block), [0.0; BLOCK]);
            let all = &mut all[..block.len()];
            dispatch!(level, _simd => sum_groups(&groups, all));
            for (all, cell) in all.iter_mut().zip(block) {
                if self.is_hidden(cell) {
                    *all = f64::INFINITY;
                }
            }
            dispatch!(level, _simd => lower(&groups, all, &mut least));
        }
        least.map(|lanes| {
            let least = lanes.into_iter().fold(f64::INFINITY, |a, b| if b < a { b } else { a });
            least.max(0.0) / (GROUPS - 1) as f64
        })
    }
}
