//! Steps of drying: every cell gives off solvents and stiffens.

use super::{PIECE, Phase, SET, WetFilm};
use crate::film::{drying_flux, inner_flux};
use crate::math::exp;

/// Stiffening in one step, at most, of the thick cells.
pub(super) const FINE: f64 = 0.25;
/// Steps of a wait in which nothing moves.
const COARSE: f64 = 12.0;
/// Share of the thickest film from which a cell's pace counts.
const THICK: f64 = 0.6;

impl WetFilm {
    /// Chooses the length of the next step, at most to `until` [s].
    pub(super) fn choose(&mut self, until: f64) {
        let left = until - self.time;
        let fine = (FINE / self.pace).min(self.laws.setting_time);
        self.work.step = if self.still { fine.max(left / COARSE) } else { fine }.min(left);
        self.work.begin();
        self.phase = Phase::Age(0);
    }

    /// Ages a piece of the cells.
    pub(super) fn age(&mut self, first: usize) {
        let end = (first + PIECE).min(self.cells.len());
        for face in 0..self.faces.len() {
            let range = self.faces[face].cells();
            let (from, to) = (range.start.max(first), range.end.min(end));
            for index in from..to {
                self.age_cell(face, index);
                self.note(face, index);
            }
        }
        if end < self.cells.len() {
            self.phase = Phase::Age(end);
            return;
        }
        let step = self.work.step;
        // Without a thick cell to go by, the pace of before.
        if self.work.pace > 0.0 {
            self.pace = self.work.pace / step;
        }
        self.still = self.work.softest >= SET;
        (self.work.thickest_before, self.work.thickest) = (self.work.thickest, 0.0);
        self.begin_flow();
    }

    fn age_cell(&mut self, face: usize, index: usize) {
        let (step, air) = (self.work.step, self.laws.airs[face]);
        let cell = &mut self.cells[index];
        if cell.under_solvents > 0 {
            let under = (cell.under + cell.under_solvents) as f64;
            let laws = self.laws.drying.at(cell.under_solvents as f64 / (cell.under as f64).max(1.0));
            let all = cell.film() + under / super::QUANTA;
            let out = inner_flux(laws.diffusivity, cell.under_solvents as f64 / super::QUANTA, all);
            let out = lost(out.min(air * laws.loss), cell.under_solvents, step);
            cell.under_solvents -= out;
            self.evaporated += u128::from(out);
        }
        if cell.solids + cell.solvents == 0 {
            return;
        }
        let film = cell.film();
        let mut before = self.laws.drying.at(cell.ratio());
        before.loss *= air;
        let (solids, solvents) = (cell.solids as f64 / super::QUANTA, cell.solvents as f64 / super::QUANTA);
        let first = solvents;
        // Half a step, then the whole one at the laws of its middle.
        let half = lost(drying_flux(&before, solids, solvents), cell.solvents, 0.5 * step);
        let solvents = (cell.solvents - half) as f64 / super::QUANTA;
        let mut middle = self.laws.drying.at(solvents / solids.max(1.0 / super::QUANTA));
        middle.loss *= air;
        let out = lost(drying_flux(&middle, solids, solvents), cell.solvents, step);
        cell.solvents -= out;
        self.evaporated += u128::from(out);
        let uncounted = cell.uncounted;
        if uncounted > 0.0 {
            let at = |solvents: f64| {
                self.laws.drying.stiffness_at(solvents / solids.max(1.0 / super::QUANTA) - uncounted)
            };
            (before.stiffness, middle.stiffness) = (at(first), at(solvents));
        }
        let stiff = middle.stiffness;
        cell.mobility = exp(-stiff) / self.laws.viscosity;
        cell.thinness += cell.mobility * step;
        cell.thick_thinness += film * cell.mobility * step;
        let work = &mut self.work;
        work.thickest = work.thickest.max(film);
        if film >= THICK * work.thickest_before {
            work.pace = work.pace.max(2.0 * (stiff - before.stiffness));
            work.softest = work.softest.min(stiff);
        }
    }
}

/// Quanta that a flux [m/s] takes out of these in a step [s]; no cell gives more than it has.
fn lost(flux: f64, solvents: u64, step: f64) -> u64 {
    let there = solvents as f64;
    if there <= 0.0 {
        return 0;
    }
    let share = flux * step * super::QUANTA / there;
    ((there * share / (1.0 + share * share).sqrt()) as u64).min(solvents)
}
