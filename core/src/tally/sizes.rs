//! Parcels by droplet size: for the overspray's median and for reweighting to another size distribution.

use super::Digest;
use crate::math;

/// Classes of diameter, even in the logarithm from 1 um to 1 mm.
pub const SIZE_CLASSES: usize = 180;
const LOWEST: f64 = 1e-6;
const SPAN: f64 = 6.907_755_278_982_137; // ln 1000

/// Counts by diameter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sizes(Vec<u64>);

impl Default for Sizes {
    fn default() -> Self {
        Self(vec![0; SIZE_CLASSES])
    }
}

impl Sizes {
    /// Counts one parcel of this diameter [m].
    pub fn count(&mut self, diameter: f64) {
        self.0[Self::class(diameter)] += 1;
    }

    fn class(diameter: f64) -> usize {
        let place = math::ln(diameter.max(LOWEST) / LOWEST) / SPAN * SIZE_CLASSES as f64;
        (place as usize).min(SIZE_CLASSES - 1)
    }

    /// Lower and upper diameter of a class [m].
    #[must_use]
    pub fn bounds(class: usize) -> (f64, f64) {
        let at = |i: usize| LOWEST * math::exp(SPAN * i as f64 / SIZE_CLASSES as f64);
        (at(class), at(class + 1))
    }

    /// Counts, smallest class first.
    #[must_use]
    pub fn counts(&self) -> &[u64] {
        &self.0
    }

    /// Adds another slice's counts.
    pub fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.0.iter_mut().zip(&other.0) {
            *mine += theirs;
        }
    }

    /// Median diameter [m]; none of fewer than 32 parcels.
    #[must_use]
    pub fn median(&self) -> Option<f64> {
        let total: u64 = self.0.iter().sum();
        if total < 32 {
            return None;
        }
        let half = total as f64 / 2.0;
        let mut below = 0.0;
        for (class, &n) in self.0.iter().enumerate() {
            let n = n as f64;
            if n > 0.0 && below + n >= half {
                let (low, high) = Self::bounds(class);
                return Some(low * math::exp(math::ln(high / low) * (half - below) / n));
            }
            below += n;
        }
        None
    }

    /// Takes the counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.0.iter().for_each(|&n| digest.count(n));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn median_lies_in_the_middle() {
        let mut sizes = Sizes::default();
        for i in 0..10_000 {
            sizes.count((10.0 + f64::from(i) * 0.002) * 1e-6);
        }
        let median = sizes.median().expect("enough parcels");
        assert!((median * 1e6 - 20.0).abs() < 0.1, "{median}");
        assert!(Sizes::default().median().is_none());
    }
}
