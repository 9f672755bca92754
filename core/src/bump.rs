//! Quantiles of the symmetric beta on -1..1: a uniform number in, a place along the fan out. One draw a number, no
//! rejection, so that the n-th draw of a stream keeps its meaning.

use crate::math;

/// Quantiles of the density (1 - s^2)^n on -1..1, the symmetric beta.
#[derive(Debug, Clone, PartialEq)]
pub struct Bump {
    cumulative: Vec<f64>,
    place: Vec<f64>,
}

impl Bump {
    /// Exponent n, 0..=20.
    #[must_use]
    pub fn new(n: f64) -> Self {
        Self::tilted(n, 0.0)
    }

    /// The same with its mean at `mean`, -0.6..=0.6, the ends where they are: Beta((n+1)(1+mean), (n+1)(1-mean)).
    #[must_use]
    pub fn tilted(n: f64, mean: f64) -> Self {
        const KNOTS: usize = 2048;
        // s = sin(a): the density in a is cos(a)^(2n+1), smooth at the ends; Simpson between knots.
        let angle = |i: f64| (i / KNOTS as f64 - 0.5) * core::f64::consts::PI;
        let density = |i: f64| {
            let c = math::cos(angle(i)).max(0.0);
            let even = if c > 0.0 { math::pow(c, 2.0 * n + 1.0) } else { 0.0 };
            if mean == 0.0 || even == 0.0 {
                return even;
            }
            let s = math::sin(angle(i));
            let odds = ((1.0 + s) / (1.0 - s)).clamp(1e-12, 1e12);
            even * math::pow(odds, (n + 1.0) * mean)
        };
        let mut cumulative = vec![0.0];
        let mut place = vec![-1.0];
        let mut sum = 0.0;
        for i in 0..KNOTS {
            let at = i as f64;
            sum += density(at) + 4.0 * density(at + 0.5) + density(at + 1.0);
            cumulative.push(sum);
            place.push(math::sin(angle(at + 1.0)));
        }
        for c in &mut cumulative {
            *c /= sum;
        }
        Self { cumulative, place }
    }

    /// The quantile; u in 0..=1.
    #[must_use]
    pub fn at(&self, u: f64) -> f64 {
        let last = self.cumulative.len() - 1;
        let i = self.cumulative.partition_point(|c| *c <= u).clamp(1, last);
        let (a, b) = (self.cumulative[i - 1], self.cumulative[i]);
        let share = if b > a { ((u - a) / (b - a)).clamp(0.0, 1.0) } else { 0.5 };
        self.place[i - 1] + (self.place[i] - self.place[i - 1]) * share
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tilted_bump_has_its_mean() {
        for (n, mean) in [(0.0, 0.3), (1.5, -0.4), (4.0, 0.6)] {
            let bump = Bump::tilted(n, mean);
            let count = 100_000;
            let sum: f64 = (0..count).map(|i| bump.at((f64::from(i) + 0.5) / f64::from(count))).sum();
            assert!((sum / f64::from(count) - mean).abs() < 2e-3, "{n} {mean}");
        }
    }

    #[test]
    fn bump_has_the_variance_of_the_beta() {
        for n in [0.0, 0.5, 1.0, 1.5, 4.0] {
            let bump = Bump::new(n);
            let count = 200_000;
            let variance = (0..count)
                .map(|i| bump.at((f64::from(i) + 0.5) / f64::from(count)))
                .map(|s| s * s)
                .sum::<f64>()
                / f64::from(count);
            // Beta(n+1, n+1) on -1..1 has variance 1/(2n + 3).
            assert!((variance * (2.0 * n + 3.0) - 1.0).abs() < 1e-5, "n {n}: {variance}");
        }
    }
}
