//! Droplet sizes by volume, drawn one number a droplet.

use crate::lanes::Lanes;
use crate::math;
use crate::normal;
use crate::spray::SizeDistribution;

/// A log-normal cut at both ends, ready to draw from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sizes {
    median: f64,
    log_sigma: f64,
    /// Share below the smallest, above the largest, and between [-].
    below: f64,
    above: f64,
    between: f64,
}

impl Sizes {
    pub(super) fn new(sizes: &SizeDistribution) -> Self {
        let log_sigma = math::ln(sizes.sigma_g);
        let share = |ratio: f64| normal::below(math::ln(ratio) / log_sigma);
        let below = share(sizes.smallest / sizes.volume_median);
        // By the other tail: a share near 1 has no digits left for it.
        let above = share(sizes.volume_median / sizes.largest);
        let between = 1.0 - below - above;
        Self { median: sizes.volume_median, log_sigma, below, above, between }
    }

    /// The diameter of a draw `p`, `up` = 1 - p [m].
    #[inline(always)]
    pub(super) fn at<L: Lanes>(&self, (p, up): (L, L)) -> L {
        let between = p.lit(self.between);
        let z = normal::deviate(p.lit(self.below) + between * p, p.lit(self.above) + between * up);
        p.lit(self.median) * (p.lit(self.log_sigma) * z).exp()
    }
}
