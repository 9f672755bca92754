//! The film on a frame from what was counted on its members: every parcel fell where the gun was.

use super::sweep::Swept;
use crate::film::FilmMap;
use crate::tally::{GROUPS, Members};

impl Swept<'_> {
    /// Solids volume of the whole job, all coats [m3].
    fn solids_sprayed(&self) -> f64 {
        self.flow * self.solids * self.strokes.open_seconds()
    }

    /// One step of the sweep, as [`Swept::step`].
    pub(super) fn members_step(&self, members: &Members, step: usize, film: &mut FilmMap) {
        let total = self.fates.total().max(1) as f64;
        if step >= GROUPS {
            let scale = self.flow * self.strokes.open_seconds() / total;
            for (cell, _, wet) in members.of_all() {
                film.wet[cell] += wet * scale / members.area(cell);
            }
            return;
        }
        let n = film.len();
        let flown = self.fates.group_total(step) as f64;
        let scale = self.solids_sprayed() / flown.max(1.0);
        let share = flown / total;
        for (cell, &count) in members.group(step).iter().enumerate().filter(|(_, n)| **n > 0) {
            let h = f64::from(count) * scale / members.area(cell);
            film.groups[step * n + cell] += h;
            film.dry[cell] += h * share;
        }
    }

    /// Dry film alone, all groups at once.
    pub(super) fn members_picture(&self, members: &Members, film: &mut FilmMap) {
        let scale = self.solids_sprayed() / self.fates.total().max(1) as f64;
        for (cell, solids, _) in members.of_all() {
            film.dry[cell] += solids * scale / members.area(cell);
        }
    }
}
