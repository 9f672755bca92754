//! Droplet sizes by volume: log-normal (in use) and Rosin-Rammler, means, quantiles, density.
//!
//! Log-normal, L = ln sigma_g: SMD = MMD exp(-L^2/2), CMD = MMD exp(-3 L^2) (Hatch & Choate). Rosin-Rammler: share above d
//! is exp(-(d/X)^q), SMD = X / Gamma(1 - 1/q), q > 1. A parcel is an equal volume, so a size is the quantile of a uniform
//! number. Cut to [smallest, largest] by taking the quantile between the shares at the two ends: no rejection.

use crate::error::{ParameterError, within};
use crate::math::{exp, gamma, ln, pow};
use crate::normal;
use crate::spray::SizeDistribution;

impl SizeDistribution {
    /// Log-normal of a Sauter mean diameter before the cut [m], cut to `smallest` [m] and `largest_over_median` [-].
    ///
    /// # Errors
    /// Diameter outside 1 um..5 mm, sigma_g outside 1.2..3, cut that leaves nothing.
    pub fn from_sauter(
        sauter: f64,
        sigma_g: f64,
        smallest: f64,
        largest_over_median: f64,
    ) -> Result<Self, ParameterError> {
        within("Sauter mean diameter", sauter * 1e6, 1.0, 5000.0, "um")?;
        within("sigma_g", sigma_g, 1.2, 3.0, "")?;
        let l = ln(sigma_g);
        let volume_median = sauter * exp(0.5 * l * l);
        within("largest droplet over volume median", largest_over_median, 1.0, 100.0, "")?;
        within("smallest droplet", smallest * 1e6, 0.0, 0.5e6 * volume_median, "um")?;
        Ok(Self { volume_median, sigma_g, smallest, largest: largest_over_median * volume_median })
    }

    fn z(&self, d: f64) -> f64 {
        if d > 0.0 { ln(d / self.volume_median) / ln(self.sigma_g) } else { -40.0 }
    }

    /// Volume share below a size [m], of the cut distribution.
    #[must_use]
    pub fn share_below(&self, d: f64) -> f64 {
        let (low, high) = (normal::below(self.z(self.smallest)), normal::below(self.z(self.largest)));
        (normal::below(self.z(d.clamp(self.smallest, self.largest))) - low) / (high - low)
    }

    /// Size [m] below which a share `u` in 0..=1 of the volume lies.
    #[must_use]
    pub fn quantile(&self, u: f64) -> f64 {
        let (low, high) = (normal::below(self.z(self.smallest)), normal::below(self.z(self.largest)));
        let z = normal::quantile(low + u * (high - low));
        (self.volume_median * exp(z * ln(self.sigma_g))).clamp(self.smallest, self.largest)
    }

    /// Volume density at a size [1/m], of the cut distribution; 0 outside the cut. For weighting landed parcels anew.
    #[must_use]
    pub fn volume_density(&self, d: f64) -> f64 {
        if !(self.smallest..=self.largest).contains(&d) || d <= 0.0 {
            return 0.0;
        }
        let share = normal::below(self.z(self.largest)) - normal::below(self.z(self.smallest));
        normal::height(self.z(d)) / (d * ln(self.sigma_g) * share)
    }

    /// Sauter mean diameter of the cut distribution [m].
    #[must_use]
    pub fn sauter(&self) -> f64 {
        // 1/SMD is the volume mean of 1/d, which shifts z by L.
        let l = ln(self.sigma_g);
        let (a, b) = (self.z(self.smallest), self.z(self.largest));
        let share = normal::below(b) - normal::below(a);
        let shifted = normal::below(b + l) - normal::below(a + l);
        self.volume_median * exp(-0.5 * l * l) * share / shifted
    }

    /// Sauter mean diameter before the cut [m].
    #[must_use]
    pub fn sauter_uncut(&self) -> f64 {
        let l = ln(self.sigma_g);
        self.volume_median * exp(-0.5 * l * l)
    }

    /// Number median before the cut [m].
    #[must_use]
    pub fn number_median_uncut(&self) -> f64 {
        let l = ln(self.sigma_g);
        self.volume_median * exp(-3.0 * l * l)
    }
}

/// Rosin-Rammler by volume. For conversion and comparison.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RosinRammler {
    /// Size that 1/e of the volume is above [m].
    pub x: f64,
    /// Spread exponent [-], 1.1..=10; sprays 1.5-4.
    pub q: f64,
}

impl RosinRammler {
    /// Distribution of a Sauter mean diameter [m] and spread exponent.
    ///
    /// # Errors
    /// q outside 1.1..=10 (the Sauter mean does not exist at 1), diameter outside 1 um..5 mm.
    pub fn from_sauter(sauter: f64, q: f64) -> Result<Self, ParameterError> {
        within("Sauter mean diameter", sauter * 1e6, 1.0, 5000.0, "um")?;
        within("Rosin-Rammler q", q, 1.1, 10.0, "")?;
        Ok(Self { x: sauter * gamma(1.0 - 1.0 / q), q })
    }

    /// Sauter mean diameter [m].
    #[must_use]
    pub fn sauter(&self) -> f64 {
        self.x / gamma(1.0 - 1.0 / self.q)
    }

    /// Size [m] below which a share `u` in 0..1 of the volume lies.
    #[must_use]
    pub fn quantile(&self, u: f64) -> f64 {
        self.x * pow(-ln((1.0 - u).max(1e-300)), 1.0 / self.q)
    }

    /// Volume median [m].
    #[must_use]
    pub fn volume_median(&self) -> f64 {
        self.quantile(0.5)
    }

    /// (D90 - D10) / volume median [-].
    #[must_use]
    pub fn span(&self) -> f64 {
        (self.quantile(0.9) - self.quantile(0.1)) / self.volume_median()
    }

    /// Volume density [1/m].
    #[must_use]
    pub fn volume_density(&self, d: f64) -> f64 {
        if d <= 0.0 {
            return 0.0;
        }
        let t = pow(d / self.x, self.q);
        self.q / d * t * exp(-t)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn usual() -> SizeDistribution {
        SizeDistribution::from_sauter(22e-6, 1.9, 2e-6, 4.0).unwrap()
    }

    #[test]
    fn quantile_and_share_are_inverse_and_stay_in_the_cut() {
        let s = usual();
        assert!((s.sauter_uncut() - 22e-6).abs() < 1e-18);
        for i in 0..=200 {
            let u = f64::from(i) / 200.0;
            let d = s.quantile(u);
            assert!((s.smallest..=s.largest).contains(&d));
            assert!((s.share_below(d) - u).abs() < 1e-12, "{u}");
        }
    }

    #[test]
    fn sauter_after_the_cut_equals_the_mean_over_quantiles_and_density_sums_to_one() {
        let s = usual();
        let n = 200_000;
        let mut inverse = 0.0;
        for i in 0..n {
            inverse += 1.0 / s.quantile((f64::from(i) + 0.5) / f64::from(n));
        }
        assert!((f64::from(n) / inverse / s.sauter() - 1.0).abs() < 1e-5);
        let (steps, mut sum) = (100_000, 0.0);
        let h = (s.largest - s.smallest) / f64::from(steps);
        for i in 0..steps {
            sum += s.volume_density(s.smallest + (f64::from(i) + 0.5) * h) * h;
        }
        assert!((sum - 1.0).abs() < 1e-6, "{sum}");
    }

    #[test]
    fn nonsense_is_refused() {
        for (d, g) in
            [(f64::NAN, 1.9), (22e-6, 1.0), (22e-6, f64::INFINITY), (0.0, 1.9), (-1.0, 1.9), (1.0, 1.9)]
        {
            assert!(SizeDistribution::from_sauter(d, g, 2e-6, 4.0).is_err());
        }
        assert!(RosinRammler::from_sauter(22e-6, 1.0).is_err());
    }
}
