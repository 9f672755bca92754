//! A wet film in time: it lands, gives off solvents, stiffens, and runs down the true slope until it has set.
//!
//! Each cell holds whole quanta of solids and of solvents (an attometre of film each): what moves, moves whole, and what leaves is counted, so
//! that solids are exact and solids + solvents + evaporated stay what landed. Equations, sources and limits:
//! `docs/methods/film.md`. Short pieces of work, the same bits however they are sliced.

mod age;
mod cell;
mod flow;

pub use cell::{WetCell, WetLaws};
pub use flow::TEAR_SHARE;

use super::{Face, GRAVITY};
use crate::math::exp;

/// Quanta in a metre of film.
pub const QUANTA: f64 = 1e18;
/// Most that a cell holds [quanta]: 4 m, where nobody asks for a film any more; what comes on top is not followed.
const FULL: u64 = 4_000_000_000_000_000_000;
/// Cells worked on in one piece.
const PIECE: usize = 16_384;
/// Stiffening from which a fresh coat lies on an old one and no longer mixes with it: 20 times the viscosity on landing. Ours.
const TACKY: f64 = 3.0;
/// Stiffening from which a film has set: it would not slide a thousandth more.
const SET: f64 = 8.0;
/// Longest time a film is followed after its last landing, over the setting time.
const FOLLOWED: f64 = 30.0;

/// Pull of gravity along a face, by edge of its cells.
#[derive(Debug, Clone, PartialEq)]
struct Slopes {
    /// Along x [N/m3].
    x: f64,
    /// Along y at the lower edge of each row, and at the upper edge of the last [N/m3].
    y: Vec<f64>,
    /// The steepest way out of each row [N/m3].
    rows: Vec<f64>,
}

/// The piece of work that comes next.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Phase {
    Choose,
    Age(usize),
    Leave(usize),
    Take(usize),
}

/// A wet film over the faces of a part.
#[derive(Debug, Clone, PartialEq)]
pub struct WetFilm {
    faces: Vec<Face>,
    laws: WetLaws,
    slopes: Vec<Slopes>,
    cells: Vec<WetCell>,
    evaporated: u128,
    time: f64,
    last_landing: f64,
    /// Stiffening a second, at most, of the thick cells.
    pace: f64,
    /// All has set.
    still: bool,
    /// Paint that would run faster than is followed was held back.
    held_back: bool,
    phase: Phase,
    work: flow::Work,
}

impl WetFilm {
    /// Nothing landed yet, at time 0.
    #[must_use]
    pub fn new(faces: &[Face], laws: WetLaws) -> Self {
        let count = faces.iter().map(Face::len).sum();
        let slopes = faces.iter().map(|face| slopes(face, laws.density * GRAVITY)).collect();
        Self {
            faces: faces.to_vec(),
            slopes,
            cells: vec![WetCell::default(); count],
            evaporated: 0,
            time: 0.0,
            last_landing: 0.0,
            pace: 1.0 / laws.setting_time,
            still: true,
            held_back: false,
            phase: Phase::Choose,
            work: flow::Work::default(),
            laws,
        }
    }

    /// The cells, as those of the film map.
    #[must_use]
    pub fn cells(&self) -> &[WetCell] {
        &self.cells
    }

    /// The faces.
    #[must_use]
    pub fn faces(&self) -> &[Face] {
        &self.faces
    }

    /// What it is made of.
    #[must_use]
    pub fn laws(&self) -> &WetLaws {
        &self.laws
    }

    /// Time [s after the first trigger pull].
    #[must_use]
    pub fn time(&self) -> f64 {
        self.time
    }

    /// Solvents that have left [quanta, cells of all faces alike].
    #[must_use]
    pub fn evaporated(&self) -> u128 {
        self.evaporated
    }

    /// Paint ran faster than is followed: its runs are at least as long as told.
    #[must_use]
    pub fn held_back(&self) -> bool {
        self.held_back
    }

    /// Gravity along a face, out of a row of its cells [N/m3].
    #[must_use]
    pub fn pull(&self, face: usize, row: usize) -> f64 {
        self.slopes[face].rows[row]
    }

    /// The same of the steepest row of all [N/m3].
    #[must_use]
    pub fn steepest(&self) -> f64 {
        self.slopes.iter().flat_map(|s| &s.rows).copied().fold(0.0, f64::max)
    }

    /// A `share` of a deposit lands now; dry and wet film by cell [m].
    pub fn land(&mut self, dry: &[f64], wet: &[f64], share: f64) {
        let fresh_mobility = 1.0 / self.laws.viscosity;
        for ((cell, &dry), &wet) in self.cells.iter_mut().zip(dry).zip(wet) {
            let room = FULL.saturating_sub(cell.held());
            let solids = quanta(dry * share).min(room);
            let solvents = quanta(wet * share).saturating_sub(solids).min(room - solids);
            if solids + solvents == 0 {
                continue;
            }
            // Fresh marks on an old film: what is stiff keeps its own.
            let stiff = if cell.solids > 0 {
                self.laws.drying.stiffness_at(cell.ratio() - cell.uncounted)
            } else {
                SET
            };
            let moves = if stiff > 0.0 { exp(-stiff) } else { 1.0 };
            let fresh = (solids + solvents) as f64 / QUANTA;
            let ripple = fresh + moves * cell.ripple;
            let kept = 1.0 - fresh / ripple;
            (cell.ripple, cell.thinness, cell.thick_thinness) =
                (ripple, cell.thinness * kept, cell.thick_thinness * kept);
            if stiff > TACKY {
                cell.under += cell.solids;
                cell.under_solvents += cell.solvents;
                (cell.solids, cell.solvents) = (0, 0);
                (cell.slid_before, cell.slid) = (cell.slid_before.max(cell.slid), 0.0);
                cell.uncounted = 0.0;
            }
            let ratio = solvents as f64 / (solids as f64).max(1.0);
            cell.mix_in(solids, self.laws.drying.uncounted(ratio));
            cell.solids += solids;
            cell.solvents += solvents;
            cell.landed = cell.landed.saturating_add(solids + solvents);
            cell.landed_solids = cell.landed_solids.saturating_add(solids);
            cell.mobility = fresh_mobility;
        }
        self.last_landing = self.time;
        self.still = false;
        self.pace = self.pace.max(1.0 / self.laws.setting_time);
    }

    /// A short piece of the way to `until` [s]; true when it is there. Past the last landing: infinity, until the film has set.
    pub fn step(&mut self, until: f64) -> bool {
        match self.phase {
            Phase::Choose => {
                let end = self.last_landing + FOLLOWED * self.laws.setting_time;
                let over =
                    if until.is_finite() { self.time >= until } else { self.still || self.time >= end };
                if over {
                    return true;
                }
                self.choose(if until.is_finite() { until } else { end });
            }
            Phase::Age(cell) => self.age(cell),
            Phase::Leave(place) => self.leave(place),
            Phase::Take(place) => self.take(place),
        }
        false
    }

    /// All the way to `until` [s], as [`WetFilm::step`].
    pub fn wait(&mut self, until: f64) {
        while !self.step(until) {}
    }

    /// Quanta of solids, of solvents, of all that landed and of the solids that landed, over all cells.
    #[must_use]
    pub fn sums(&self) -> [u128; 4] {
        let mut sums = [0u128; 4];
        for cell in &self.cells {
            sums[0] += u128::from(cell.solids + cell.under);
            sums[1] += u128::from(cell.solvents + cell.under_solvents);
            sums[2] += u128::from(cell.landed);
            sums[3] += u128::from(cell.landed_solids);
        }
        sums
    }
}

/// Whole quanta of a film [m]; none of a negative one.
fn quanta(film: f64) -> u64 {
    (film * QUANTA + 0.5).max(0.0) as u64
}

fn slopes(face: &Face, weight: f64) -> Slopes {
    let edge = |row: usize| (row as f64 - 0.5 * face.ny as f64) * face.cell_y;
    let mut y: Vec<f64> = (0..=face.ny).map(|row| face.place.down(edge(row))[1] * weight).collect();
    if !face.closed {
        // Paint hangs at an edge.
        (y[0], y[face.ny]) = (0.0, 0.0);
    }
    // Less than a ten-thousandth of gravity is the rounding of "level".
    let level = 1e-4 * weight;
    y.iter_mut().filter(|pull| pull.abs() < level).for_each(|pull| *pull = 0.0);
    let x = face.place.down(0.0)[0] * weight;
    let x = if x.abs() < level { 0.0 } else { x };
    let rows = y.windows(2).map(|e| x.abs().max(-e[0]).max(e[1]).max(0.0)).collect();
    Slopes { x, y, rows }
}
