//! A footprint swept along straight passes.
//!
//! At a point the film is flow / (N v) times the footprint's parcels in a strip of the pass's length, so that a cell
//! averages thousands of parcels. Sums of counts are exact; places between bins by linear interpolation.

use super::cumulative::{Cumulative, covered};
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

    /// Mean dry film of each group and of all over a face, the gun held still for `seconds` [m]: what its cells come to, without laying
    /// them. None but over a flat face and all round a tube.
    #[must_use]
    pub fn held_mean(&self, face: &Face, seconds: f64) -> Option<([f64; GROUPS], f64)> {
        if self.members.is_some() || (self.lay == Lay::Round) != face.closed {
            return None;
        }
        let grid = laid_grid(&self.footprint.grid, self.lay);
        let columns = covered(grid.x0, grid.dx, grid.nx, face.cell_x * face.nx as f64);
        let rows = if face.closed {
            vec![1.0; grid.ny]
        } else {
            covered(grid.y0, grid.dy, grid.ny, face.cell_y * face.ny as f64)
        };
        let area = face.len() as f64 * face.cell_area();
        let total = self.fates.total().max(1) as f64;
        let (mut means, mut all) = ([0.0; GROUPS], 0.0);
        for (g, mean) in means.iter_mut().enumerate() {
            let (counts, mut sum) = (self.footprint.group(g), 0.0);
            for (j, row) in rows.iter().enumerate().filter(|(_, row)| **row > 0.0) {
                let mut parcels = 0.0;
                for (i, column) in columns.iter().enumerate() {
                    parcels += f64::from(counts[laid_bin(&self.footprint.grid, self.lay, i, j)]) * column;
                }
                sum += parcels * row;
            }
            let flown = self.fates.group_total(g) as f64;
            *mean = sum * self.flow * self.solids * seconds / (flown.max(1.0) * area);
            all += *mean * (flown / total);
        }
        Some((means, all))
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
    let middle = |i: usize| x0 + dx * (i as f64 + 0.5);
    // Every row of cells has the same edges.
    let edges = |x: f64| [x - 0.5 * dx, x + 0.5 * dx].map(|x| table.column_edge(x));
    let edges: Vec<_> = (0..face.nx).map(|i| edges(middle(i))).collect();
    for j in 0..face.ny {
        let rows = match lay {
            Lay::Round => [lowest + angle * j as f64, lowest + angle * (j + 1) as f64],
            _ => [y0 + dy * j as f64, y0 + dy * (j + 1) as f64],
        };
        let row = rows.map(|y| table.row(y));
        for (i, &edges) in edges.iter().enumerate() {
            let cell = j * face.nx + i;
            let x = middle(i);
            let thickness = match strokes {
                Strokes::Burst(seconds) => table.between(edges, row) * scale * seconds / (dx * dy),
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
