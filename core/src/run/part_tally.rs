//! What became of a job's droplets.

use super::Tally;
use crate::course::Outcome;
use crate::tally::{Digest, Fate, Fates, Footprint, Grid, Members, Sizes};

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
    /// What landed on the members of a frame; there the footprint stays empty.
    pub members: Option<Members>,
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
            members: None,
        }
    }

    /// Nothing flown, of the same kind.
    #[must_use]
    pub fn emptied(&self) -> Self {
        Self::new(self.footprint.grid).of_members(self.members.as_ref().map(Members::emptied))
    }

    /// The same for a frame of these faces.
    #[must_use]
    pub fn of_members(mut self, members: Option<Members>) -> Self {
        self.members = members;
        self
    }

    /// Takes all counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.fates.digest(digest);
        self.footprint.digest(digest);
        self.sprayed.digest(digest);
        self.landed.digest(digest);
        self.members.iter().for_each(|m| m.digest(digest));
    }
}

impl Tally for PartTally {
    fn count(&mut self, o: &Outcome) {
        self.fates.count(o.fate, o.group());
        self.sprayed.count(o.start_diameter);
        if o.fate == Fate::Landed {
            self.landed.count(o.start_diameter);
            match &mut self.members {
                Some(members) => members.count(o.member, o.place.to_array(), o.wet, o.group(), o.pass),
                None => self.footprint.count(o.place[0], o.place[1], o.wet, o.group()),
            }
        }
    }

    fn merge(&mut self, other: &Self) {
        self.fates.merge(&other.fates);
        self.footprint.merge(&other.footprint);
        self.sprayed.merge(&other.sprayed);
        self.landed.merge(&other.landed);
        if let (Some(mine), Some(theirs)) = (&mut self.members, &other.members) {
            mine.merge(theirs);
        }
    }
}
