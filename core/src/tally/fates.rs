//! Every parcel has one fate.

use super::{Digest, GROUPS};

/// What became of a parcel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(usize)]
pub enum Fate {
    /// On the part (or the card).
    Landed,
    /// Passed the part by.
    Missed,
    /// Bounced back.
    Bounced,
    /// Too long aloft: fog to the filters.
    Drifted,
    /// Met the part already dry.
    Dried,
    /// The program lost it: counted so that it can be seen to be 0.
    Lost,
}

/// All fates, in the order of the report.
pub const FATES: [Fate; 6] =
    [Fate::Landed, Fate::Missed, Fate::Bounced, Fate::Drifted, Fate::Dried, Fate::Lost];

/// Counts of the fates by replicate group.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Fates([[u64; GROUPS]; FATES.len()]);

impl Fates {
    /// Counts one parcel.
    pub fn count(&mut self, fate: Fate, group: usize) {
        self.0[fate as usize][group] += 1;
    }

    /// Adds another slice's counts.
    pub fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.0.iter_mut().flatten().zip(other.0.iter().flatten()) {
            *mine += theirs;
        }
    }

    /// Parcels of a fate.
    #[must_use]
    pub fn of(&self, fate: Fate) -> u64 {
        self.0[fate as usize].iter().sum()
    }

    /// Parcels of a fate in one group.
    #[must_use]
    pub fn of_group(&self, fate: Fate, group: usize) -> u64 {
        self.0[fate as usize][group]
    }

    /// All parcels.
    #[must_use]
    pub fn total(&self) -> u64 {
        FATES.iter().map(|&f| self.of(f)).sum()
    }

    /// All parcels of one group.
    #[must_use]
    pub fn group_total(&self, group: usize) -> u64 {
        FATES.iter().map(|&f| self.of_group(f, group)).sum()
    }

    /// Share of a fate [-]; 0 of none.
    #[must_use]
    pub fn share(&self, fate: Fate) -> f64 {
        self.of(fate) as f64 / self.total().max(1) as f64
    }

    /// Takes the counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.0.iter().flatten().for_each(|&n| digest.count(n));
    }
}
