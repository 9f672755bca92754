//! Steps of flow: film slides over the edges of its cells, thick film faster, whole quanta at a time.
//!
//! Upwind finite volumes; flux a width of a Bingham film, pull m (h - h0)^2 (2 h + h0)/6, m = 1/viscosity, h0 = yield stress over pull
//! (Newtonian: pull h^3/(3 mu)). Where the surface has slid further than `RUN` the film gathers into tears that take a third of the
//! width: flux w q(h/w). Explicit; at most 0.4 of a cell's film crosses in a step.

use super::{FULL, PIECE, Phase, WetCell, WetFilm};
use crate::film::{Face, RUN};

/// Share of the width that the tears of a run take. Ours: tears hang about a third of their distance wide.
pub const TEAR_SHARE: f64 = 1.0 / 3.0;
/// Share of a film that crosses an edge in a step, at most, by the speed of its waves.
const COURANT: f64 = 0.4;
/// Shortest step [s]; faster film is held back to it.
const SHORTEST: f64 = 4e-3;
/// Way in a step below which a film stands [m].
const STANDS: f64 = 1e-7;

/// What moves, and how far the piece of work is.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Work {
    /// The step's length [s].
    pub(super) step: f64,
    /// Most stiffening of a thick cell in it.
    pub(super) pace: f64,
    /// Least stiff of the thick cells.
    pub(super) softest: f64,
    /// Thickest cell of this step and of the last [m].
    pub(super) thickest: f64,
    pub(super) thickest_before: f64,
    /// Time of the step that is still to flow [s], and of it in this round.
    left: f64,
    round: f64,
    /// Fastest wave, cells a second.
    fastest: f64,
    /// Cells that move: face and cell.
    moving: Vec<(u32, u32)>,
    /// Solids and solvents that leave each of them: towards smaller or larger x, larger y, smaller y.
    leaving: Vec<[(u64, u64); 3]>,
    /// Cells that are listed; all false between pieces.
    listed: Vec<bool>,
}

impl Work {
    pub(super) fn begin(&mut self) {
        (self.pace, self.softest, self.fastest) = (0.0, f64::INFINITY, 0.0);
        self.moving.clear();
    }
}

/// Flux a width and speed of its waves, of a film under a pull that takes a share of the width.
fn flux_and_wave(cell: &WetCell, film: f64, width: f64, pull: f64, yield_stress: f64) -> (f64, f64) {
    let (local, stands) = (film / width, yield_stress / pull);
    if local <= stands {
        return (0.0, 0.0);
    }
    let m = pull * cell.mobility;
    (width * crate::film::flux(m, stands, local), m * (local - stands) * local)
}

impl WetFilm {
    /// Yield stress of a cell's film [Pa]: it rises with the viscosity.
    fn yield_of(&self, cell: &WetCell) -> f64 {
        if self.laws.yield_stress > 0.0 && cell.mobility > 0.0 {
            self.laws.yield_stress / (self.laws.viscosity * cell.mobility)
        } else {
            0.0
        }
    }

    /// Share of the width that a cell's film takes.
    fn width_of(&self, cell: &WetCell) -> f64 {
        if self.laws.tears && cell.slid > RUN { TEAR_SHARE } else { 1.0 }
    }

    /// Notes a cell that will move in the step.
    pub(super) fn note(&mut self, face: usize, index: usize) {
        let (of, cell) = (&self.faces[face], &self.cells[index]);
        let pull = self.slopes[face].rows[(index - of.first) / of.nx];
        let film = cell.film();
        if film <= 0.0 || pull <= 0.0 {
            return;
        }
        let (_, wave) = flux_and_wave(cell, film, self.width_of(cell), pull, self.yield_of(cell));
        if wave * self.work.step > STANDS {
            self.work.fastest = self.work.fastest.max(wave / of.cell_x.min(of.cell_y));
            self.work.moving.push((face as u32, index as u32));
        }
    }

    /// The flow of a step, once all cells have aged.
    pub(super) fn begin_flow(&mut self) {
        self.work.leaving.clear();
        self.work.leaving.resize(self.work.moving.len(), [(0, 0); 3]);
        self.work.left = self.work.step;
        self.begin_round();
    }

    /// A round of flow as long as its fastest wave allows, or the end of the step.
    fn begin_round(&mut self) {
        if self.work.moving.is_empty() || self.work.left <= 0.0 {
            self.time += self.work.step;
            self.phase = Phase::Choose;
            return;
        }
        let allowed = COURANT / self.work.fastest.max(1e-12);
        if allowed < SHORTEST {
            self.held_back = true;
        }
        self.work.round = allowed.max(SHORTEST).min(self.work.left);
        self.work.fastest = 0.0;
        self.phase = Phase::Leave(0);
    }

    /// What leaves each moving cell, a piece of them.
    pub(super) fn leave(&mut self, first: usize) {
        let end = (first + PIECE).min(self.work.moving.len());
        let round = self.work.round;
        for place in first..end {
            let (number, index) = self.work.moving[place];
            let (number, index) = (number as usize, index as usize);
            let face = &self.faces[number];
            let slope = &self.slopes[number];
            let column = (index - face.first) % face.nx;
            let row = (index - face.first) / face.nx;
            let cell = self.cells[index];
            let (film, yield_stress, width) = (cell.film(), self.yield_of(&cell), self.width_of(&cell));
            // Toward larger or smaller x, over the upper edge, over the lower one.
            let at_wall = (slope.x > 0.0 && column + 1 == face.nx) || (slope.x < 0.0 && column == 0);
            let pulls = [
                if at_wall { 0.0 } else { slope.x.abs() },
                slope.y[row + 1].max(0.0),
                (-slope.y[row]).max(0.0),
            ];
            let sizes = [face.cell_x, face.cell_y, face.cell_y];
            let mut shares = [0.0; 3];
            let (mut wave_sum, mut steepest) = (0.0, 0.0f64);
            for way in 0..3 {
                if pulls[way] > 0.0 && film > 0.0 {
                    let (flux, wave) = flux_and_wave(&cell, film, width, pulls[way], yield_stress);
                    shares[way] = flux * round / (sizes[way] * film);
                    wave_sum += wave / sizes[way];
                    steepest = steepest.max(pulls[way]);
                }
            }
            let all: f64 = shares.iter().sum();
            let hold = if all > COURANT { COURANT / all } else { 1.0 };
            self.work.fastest = self.work.fastest.max(wave_sum);
            let part = |quanta: u64, share: f64| (quanta as f64 * share * hold) as u64;
            self.work.leaving[place] = shares.map(|s| (part(cell.solids, s), part(cell.solvents, s)));
            if steepest > 0.0 {
                let above = (film / width - yield_stress / steepest).max(0.0);
                self.cells[index].slid += 0.5 * steepest * cell.mobility * above * above * round * hold;
            }
        }
        self.phase = if end < self.work.moving.len() { Phase::Leave(end) } else { Phase::Take(0) };
    }

    /// Moves what leaves, a piece of it.
    pub(super) fn take(&mut self, first: usize) {
        let end = (first + PIECE).min(self.work.moving.len());
        for place in first..end {
            let (number, index) = self.work.moving[place];
            let (number, index) = (number as usize, index as usize);
            let face = &self.faces[number];
            let beside = neighbours(face, index, self.slopes[number].x);
            for (way, to) in beside.into_iter().enumerate() {
                let (solids, solvents) = self.work.leaving[place][way];
                if solids + solvents == 0 || self.cells[to].held() + solids + solvents > FULL {
                    continue;
                }
                let from = &mut self.cells[index];
                from.solids -= solids;
                from.solvents -= solvents;
                let (mobility, runs, uncounted) = (from.mobility, from.slid > RUN, from.uncounted);
                let target = &mut self.cells[to];
                target.mix_in(solids, uncounted);
                target.solids += solids;
                target.solvents += solvents;
                target.slid_in = target.slid_in.saturating_add(solids + solvents);
                if target.mobility <= 0.0 {
                    target.mobility = mobility;
                }
                // A run that has come over a film takes it along.
                if runs && target.slid <= RUN && target.slid_in.saturating_mul(4) > target.landed {
                    target.slid = RUN * (1.0 + 1e-9);
                }
            }
        }
        if end < self.work.moving.len() {
            self.phase = Phase::Take(end);
            return;
        }
        self.work.left -= self.work.round;
        self.spread();
        self.begin_round();
    }

    /// Cells that paint has reached move too.
    fn spread(&mut self) {
        let known = self.work.moving.len();
        if self.work.left <= 0.0 {
            return;
        }
        let mut listed = core::mem::take(&mut self.work.listed);
        listed.resize(self.cells.len(), false);
        for &(_, index) in &self.work.moving {
            listed[index as usize] = true;
        }
        for place in 0..known {
            let (number, index) = self.work.moving[place];
            let face = &self.faces[number as usize];
            let beside = neighbours(face, index as usize, self.slopes[number as usize].x);
            for (way, to) in beside.into_iter().enumerate() {
                let (solids, _) = self.work.leaving[place][way];
                if solids > 0 && !listed[to] {
                    listed[to] = true;
                    self.work.moving.push((number, to as u32));
                    self.work.leaving.push([(0, 0); 3]);
                }
            }
        }
        for &(_, index) in &self.work.moving {
            listed[index as usize] = false;
        }
        self.work.listed = listed;
    }
}

/// Cells that paint leaves to: beside it along the slope in x, above, below.
fn neighbours(face: &Face, index: usize, slope_x: f64) -> [usize; 3] {
    let at = index - face.first;
    let (column, row) = (at % face.nx, at / face.nx);
    let x = if slope_x > 0.0 { (column + 1).min(face.nx - 1) } else { column.saturating_sub(1) };
    let up = if row + 1 < face.ny { row + 1 } else { 0 };
    let down = if row > 0 { row - 1 } else { face.ny - 1 };
    [face.first + row * face.nx + x, face.first + up * face.nx + column, face.first + down * face.nx + column]
}
