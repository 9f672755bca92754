//! What became of a job's droplets.

use super::Tally;
use crate::course::Outcome;
use crate::tally::{Digest, Fate, Fates, Footprint, Grid, Sizes};

/// Counts of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct PartTally {
    /// Fates in the gun's frame: landed means on the unbounded face, or on the unbounded tube.
    pub fates: Fates,
    /// Where they landed.
    pub footprint: Footprint,
    /// All droplets by their first diameter.
    pub sprayed: Sizes,
    /// Landed ones by their first diameter.
    pub landed: Sizes,
}

impl PartTally {
    /// Nothing flown.
    #[must_use]
    pub fn new(grid: Grid) -> Self {
        Self {
            fates: Fates::default(),
            footprint: Footprint::new(grid),
            sprayed: Sizes::default(),
            landed: Sizes::default(),
        }
    }

    /// Takes all counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.fates.digest(digest);
        self.footprint.digest(digest);
        self.sprayed.digest(digest);
        self.landed.digest(digest);
    }
}

impl Tally for PartTally {
    fn count(&mut self, o: &Outcome) {
        self.fates.count(o.fate, o.group());
        self.sprayed.count(o.start_diameter);
        if o.fate == Fate::Landed {
            self.landed.count(o.start_diameter);
            self.footprint.count(o.place[0], o.place[1], o.wet, o.group());
        }
    }

    fn merge(&mut self, other: &Self) {
        self.fates.merge(&other.fates);
        self.footprint.merge(&other.footprint);
        self.sprayed.merge(&other.sprayed);
        self.landed.merge(&other.landed);
    }
}
