//! Counting errors of the areas that ran, are dry or bare.
//!
//! The film of balanced halves of the replicate groups (balanced repeated replication: rows of cells pass a limit all at once, which
//! leaving out a group at a time would make too much of), and each cell's mark looked at again. How a mark follows the film h of its cell: a slide as h^3 (its speed as h^2, its time as h), levelling as h^4 (Orchard's thin film h^3, its time
//! as h). In tears, a third of the width, a film slides nine times as fast: that is taken out. What a cell gets from others
//! above it is not looked at again. Ours; what it is good for is told by runs of other seeds (`tests/tests/contracts/finish.rs`).

use super::set::{DRY, Mark, SetCell, SetFilm};
use super::wet::TEAR_SHARE;
use super::{FilmMap, RUN};
use crate::math::{exp, ln};
use crate::tally::GROUPS;

/// Film below which a cell tells no ratio [m].
const NOTHING: f64 = 1e-12;

impl SetFilm {
    /// Counting errors of the shares of the area that ran, are dry and are bare [-]; `film` is the film as it landed.
    #[must_use]
    pub fn share_errors(&self, film: &FilmMap) -> [f64; 3] {
        let mut spread = [0.0; 3];
        let mut area = 0.0;
        for sample in 0..GROUPS {
            let mut moved = [0.0; 3];
            area = 0.0;
            for face in &self.faces {
                for at in self.meant(face) {
                    area += face.cell_area();
                    let dry = film.dry[at];
                    if dry <= NOTHING {
                        continue;
                    }
                    let ratio = (1.0 + film.half_off(at, sample) / dry).max(0.0);
                    let was = self.cells[at].mark.word();
                    let now = self.mark_at(&self.cells[at], film.wet[at], ratio);
                    for (sum, word) in moved.iter_mut().zip(["run", "dry", "bare"]) {
                        let is = |mark: Option<&str>| f64::from(u8::from(mark == Some(word)));
                        *sum += face.cell_area() * (is(now) - is(was));
                    }
                }
            }
            for (sum, moved) in spread.iter_mut().zip(moved) {
                *sum += moved * moved;
            }
        }
        spread.map(|sum| (sum / GROUPS as f64).sqrt() / area.max(f64::MIN_POSITIVE))
    }

    /// What would be wrong with a cell if its film, `wet` as it landed [m], were `ratio` times as thick.
    fn mark_at(&self, cell: &SetCell, wet: f64, ratio: f64) -> Option<&'static str> {
        let cube = ratio * ratio * ratio;
        let past = (cell.slid - RUN).max(0.0);
        let slid = cell.slid.min(RUN) + past * TEAR_SHARE * TEAR_SHARE;
        if cell.dry * ratio < self.bare {
            Mark::Bare.word()
        } else if slid * cube > RUN {
            Mark::Slid.word()
        } else if matches!(cell.mark, Mark::Gathered | Mark::Hangs) {
            cell.mark.word()
        } else if wet * ratio < self.splat || exp(ln(cell.dryness.max(1e-300)) * cube * ratio) > DRY {
            Mark::Unlevelled.word()
        } else {
            None
        }
    }
}
