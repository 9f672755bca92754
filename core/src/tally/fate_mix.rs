//! Shares of the fates, of one flight or blended from several.

use super::{FATES, Fate, Fates, GROUPS};

/// Shares by fate, in all and by replicate group [-].
#[derive(Debug, Clone, PartialEq)]
pub struct FateMix {
    shares: [f64; FATES.len()],
    groups: [[f64; GROUPS]; FATES.len()],
}

impl FateMix {
    /// Of flights and their weights, which should sum to 1.
    #[must_use]
    pub fn new<'a>(parts: impl IntoIterator<Item = (f64, &'a Fates)>) -> Self {
        let mut mix = Self { shares: [0.0; FATES.len()], groups: [[0.0; GROUPS]; FATES.len()] };
        for (weight, fates) in parts {
            for fate in FATES {
                mix.shares[fate as usize] += weight * fates.share(fate);
                for group in 0..GROUPS {
                    let share = fates.of_group(fate, group) as f64 / fates.group_total(group).max(1) as f64;
                    mix.groups[fate as usize][group] += weight * share;
                }
            }
        }
        mix
    }

    /// Share of a fate [-].
    #[must_use]
    pub fn share(&self, fate: Fate) -> f64 {
        self.shares[fate as usize]
    }

    /// Share of a fate in each group [-].
    #[must_use]
    pub fn by_group(&self, fate: Fate) -> &[f64; GROUPS] {
        &self.groups[fate as usize]
    }
}
