//! How fine a film is looked at: in a trial, in a full flight.

use crate::job::Job;
use crate::stroke::Strip;

/// How fine a film is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Columns of cells along the passes, at most those of the film.
    pub columns: usize,
    /// Parts that the hand paints, each with errors of its own; a machine paints one.
    pub parts: u64,
    /// Parts whose film is let set: fewer than `parts` are those at most risk, none of which may be bad.
    pub sets: u64,
}

impl Look {
    /// All parts' films let set.
    #[must_use]
    pub fn whole(columns: usize, parts: u64) -> Self {
        Self { columns, parts, sets: parts }
    }

    /// Parts that a job's hand paints.
    pub(super) fn parts_of(self, job: &Job) -> u64 {
        if job.stroke.hand.is_machine() { 1 } else { self.parts.max(1) }
    }
}

/// Parts that the hand paints in a trial: so many that its luck is none of a set-up's merit.
const TRIAL_PARTS: u64 = 16;
/// Parts that the hand paints in a full flight, and its droplets to the part and to the card.
pub const FULL_PARTS: u64 = 96;
/// See [`FULL_PARTS`].
pub const FULL: [u64; 2] = [49_152, 49_152];

/// Columns and parts that a hand's film is looked at with: all parts of a full flight let set, or so many of a trial's.
pub(super) fn look(job: &Job, sets: Option<u64>) -> Look {
    if !Strip::does(&job.stroke) {
        // Arcs and tilts are laid piece by piece: a hundred times as dear.
        return Look::whole(8, 2);
    }
    sets.map_or(Look::whole(6, FULL_PARTS), |sets| Look { columns: 6, parts: TRIAL_PARTS, sets })
}
