//! A footprint swept along straight passes.
//!
//! At a point the film is flow / (N v) times the footprint's parcels in a strip of the pass's length, so that a cell
//! averages thousands of parcels. Sums of counts are exact; places between bins by linear interpolation.

use super::{Pass, Strokes};
use crate::film::{Face, FilmMap};
use crate::tally::{Fates, Footprint, GROUPS, Grid, Members};

/// How a footprint lies on the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lay {
    /// Panel, fan across the passes: gun x along the pass, gun y up the panel.
    Across,
    /// Panel, fan along the passes: the gun turned a quarter.
    Along,
    /// Tube: x along it, y the angle round it.
    Round,
}

/// Counts below and left of a place.
pub(super) struct Cumulative {
    grid: Grid,
    sums: Vec<f64>,
}

impl Cumulative {
    fn new(grid: Grid, count: impl Fn(usize, usize) -> f64) -> Self {
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
    pub(super) fn column(&self, x: f64) -> Vec<f64> {
        let (i, a) = place(x, self.grid.x0, self.grid.dx, self.grid.nx);
        let at = |i: usize, j: usize| self.sums[j * (self.grid.nx + 1) + i];
        (0..=self.grid.ny).map(|j| at(i, j) + (at(i + 1, j) - at(i, j)) * a).collect()
    }

    /// The row edge below a place, and the share of the way to the next.
    pub(super) fn row(&self, y: f64) -> (usize, f64) {
        place(y, self.grid.y0, self.grid.dy, self.grid.ny)
    }

    /// Counts with x and y below the given place.
    fn below(&self, x: f64, y: f64) -> f64 {
        let (i, a) = place(x, self.grid.x0, self.grid.dx, self.grid.nx);
        let (j, b) = self.row(y);
        let at = |i: usize, j: usize| self.sums[j * (self.grid.nx + 1) + i];
        let low = at(i, j) + (at(i + 1, j) - at(i, j)) * a;
        let high = at(i, j + 1) + (at(i + 1, j + 1) - at(i, j + 1)) * a;
        low + (high - low) * b
    }

    /// Counts in a rectangle.
    fn within(&self, x: [f64; 2], y: [f64; 2]) -> f64 {
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

/// The grid as it lies on the part.
fn laid_grid(grid: &Grid, lay: Lay) -> Grid {
    match lay {
        Lay::Across | Lay::Round => *grid,
        Lay::Along => Grid {
            nx: grid.ny,
            ny: grid.nx,
            x0: grid.y0,
            // Part y is minus gun x.
            y0: -(grid.x0 + grid.dx * grid.nx as f64),
            dx: grid.dy,
            dy: grid.dx,
        },
    }
}

/// Index in the footprint of the bin that lies at (i, j) on the part.
fn laid_bin(grid: &Grid, lay: Lay, i: usize, j: usize) -> usize {
    match lay {
        Lay::Across | Lay::Round => j * grid.nx + i,
        Lay::Along => i * grid.nx + (grid.nx - 1 - j),
    }
}

/// A flown footprint and what it stands for.
#[derive(Clone, Copy)]
pub struct Swept<'a> {
    /// Landed parcels.
    pub footprint: &'a Footprint,
    /// The flight's counts.
    pub fates: &'a Fates,
    /// How it lies on the part.
    pub lay: Lay,
    /// Strokes.
    pub strokes: &'a Strokes,
    /// Paint flow at the tip [m3/s].
    pub flow: f64,
    /// Volume solids of the paint [-].
    pub solids: f64,
    /// On a frame what was counted on its members, instead of the footprint.
    pub members: Option<&'a Members>,
}

/// Steps of [`Swept::step`]: one a replicate group, one for the wet film.
pub const SWEEP_STEPS: usize = GROUPS + 1;

impl Swept<'_> {
    pub(super) fn table(&self, count: impl Fn(usize) -> f64) -> Cumulative {
        let grid = &self.footprint.grid;
        Cumulative::new(laid_grid(grid, self.lay), |i, j| count(laid_bin(grid, self.lay, i, j)))
    }

    /// One of the [`SWEEP_STEPS`] that lay the film on a bare part; so short that a page stays quick between two.
    pub fn step(&self, step: usize, film: &mut FilmMap) {
        if let Some(members) = self.members {
            return self.members_step(members, step, film);
        }
        let n = film.len();
        let total = self.fates.total().max(1) as f64;
        if step >= GROUPS {
            let table = self.wet_table();
            let (face, wet) = (film.face().clone(), &mut film.wet);
            lay_down(&table, self.lay, self.strokes, self.flow / total, &face, |cell, h| wet[cell] += h);
            return;
        }
        let counts = self.footprint.group(step);
        let table = self.table(|bin| f64::from(counts[bin]));
        let flown = self.fates.group_total(step) as f64;
        let scale = self.flow * self.solids / flown.max(1.0);
        let share = flown / total;
        let face = film.face().clone();
        let (groups, dry) = (&mut film.groups, &mut film.dry);
        lay_down(&table, self.lay, self.strokes, scale, &face, |cell, h| {
            groups[step * n + cell] += h;
            dry[cell] += h * share;
        });
    }

    /// Lays the whole film on a bare part.
    pub fn lay(&self, film: &mut FilmMap) {
        (0..SWEEP_STEPS).for_each(|step| self.step(step, film));
    }

    /// Dry film alone, all groups at once: for pictures under way.
    pub fn picture(&self, film: &mut FilmMap) {
        if let Some(members) = self.members {
            return self.members_picture(members, film);
        }
        let table = self.solids_table();
        let scale = self.flow * self.solids / self.fates.total().max(1) as f64;
        let (face, dry) = (film.face().clone(), &mut film.dry);
        lay_down(&table, self.lay, self.strokes, scale, &face, |cell, h| dry[cell] += h);
    }

    /// Parcels of all groups.
    pub(super) fn solids_table(&self) -> Cumulative {
        let mut counts = vec![0u32; self.footprint.grid.len()];
        for group in 0..GROUPS {
            for (sum, &count) in counts.iter_mut().zip(self.footprint.group(group)) {
                *sum += count;
            }
        }
        self.table(|bin| f64::from(counts[bin]))
    }

    /// Wet volume, in parcels.
    pub(super) fn wet_table(&self) -> Cumulative {
        let wet: Vec<f64> = self.footprint.wet().collect();
        self.table(|bin| wet[bin])
    }
}

/// What strokes leave on each cell of a face, cell by cell.
pub(super) fn lay_down(
    table: &Cumulative,
    lay: Lay,
    strokes: &Strokes,
    scale: f64,
    face: &Face,
    mut add: impl FnMut(usize, f64),
) {
    let (dx, dy) = (face.cell_x, face.cell_y);
    let (x0, y0) = (-0.5 * dx * face.nx as f64, -0.5 * dy * face.ny as f64);
    // Round a tube a cell's y is an angle; a curved face is a piece of one.
    let (lowest, angle) = if face.closed || lay != Lay::Round {
        (-core::f64::consts::PI, core::f64::consts::TAU / face.ny as f64)
    } else {
        let angle = dy / face.place.radius;
        (-0.5 * face.ny as f64 * angle, angle)
    };
    for j in 0..face.ny {
        for i in 0..face.nx {
            let cell = j * face.nx + i;
            let x = x0 + dx * (i as f64 + 0.5);
            let rows = match lay {
                Lay::Round => [lowest + angle * j as f64, lowest + angle * (j + 1) as f64],
                _ => [y0 + dy * j as f64, y0 + dy * (j + 1) as f64],
            };
            let thickness = match strokes {
                Strokes::Burst(seconds) => {
                    table.within([x - 0.5 * dx, x + 0.5 * dx], rows) * scale * seconds / (dx * dy)
                }
                Strokes::Passes { passes, speed, coats } => {
                    let sum: f64 = passes.iter().map(|pass| strip(table, lay, pass, x, rows)).sum();
                    sum * scale * f64::from(*coats) / (speed * dy)
                }
                // As if held square on at the job's distance all the way: `Layer` does a track justice.
                Strokes::Track(track) => {
                    let at = |pass: &Pass| {
                        let xs = [x - pass.from - 0.5 * dx, x - pass.from + 0.5 * dx];
                        across(table, lay, pass, xs, rows)
                    };
                    let sum: f64 = track
                        .segments()
                        .map(|(a, b)| {
                            let m = a.towards(b, 0.5);
                            let pass = Pass { from: m.x, to: m.x, offset: m.y, turn: m.turn, member: 0 };
                            at(&pass) * a.trigger * (b.time - a.time)
                        })
                        .sum();
                    sum * scale / (dx * dy)
                }
            };
            add(cell, thickness);
        }
    }
}

/// Parcels that one pass brings to the point x of a row of cells.
fn strip(table: &Cumulative, lay: Lay, pass: &Pass, x: f64, rows: [f64; 2]) -> f64 {
    across(table, lay, pass, [x - pass.from.max(pass.to), x - pass.from.min(pass.to)], rows)
}

/// Parcels in a strip `xs` along the pass, from its gun, and a row of cells.
fn across(table: &Cumulative, lay: Lay, pass: &Pass, xs: [f64; 2], rows: [f64; 2]) -> f64 {
    if lay != Lay::Round {
        return table.within(xs, [rows[0] - pass.offset, rows[1] - pass.offset]);
    }
    // The gun stands at angle `turn`; wrap to -pi..pi, in two pieces where the cell straddles the seam.
    let pi = core::f64::consts::PI;
    let width = rows[1] - rows[0];
    let mut low = rows[0] - pass.turn;
    while low < -pi {
        low += 2.0 * pi;
    }
    while low >= pi {
        low -= 2.0 * pi;
    }
    let high = low + width;
    let mut sum = table.within(xs, [low, high.min(pi)]);
    if high > pi {
        sum += table.within(xs, [-pi, high - 2.0 * pi]);
    }
    sum
}
