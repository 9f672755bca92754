//! The posterior as a weighted ensemble of guns: it is lopsided where the film hardly feels the droplets' size, and a bell curve about the
//! most likely gun would there be too sure.
//!
//! Half of the guns are drawn from the prior, half from a bell about the most likely one, a half wider than its curvature says; each weighs
//! its posterior over the density it was drawn with. Draws are an additive recurrence, not random: the same readings give the same
//! digits.

use super::closed::Values;
use super::linear::cholesky;
use super::posterior::{Posterior, Problem};
use crate::in_order::InOrder;
use crate::job::Measurement;
use crate::math::{exp, ln};
use crate::normal;

/// Guns of the ensemble.
pub(super) const GUNS: usize = 4096;
/// Width of the bell over what the curvature says.
const WIDER: f64 = 1.5;

/// The ensemble under way.
#[derive(Debug, Clone)]
pub(super) struct Ensemble {
    map: Posterior,
    /// Lower factor of the bell's covariance.
    factor: Vec<Vec<f64>>,
    guns: Vec<([f64; 4], Values)>,
    /// Logarithms of the weights.
    heights: Vec<f64>,
}

/// The ensemble, weighed.
#[derive(Debug, Clone)]
pub(super) struct Weighed {
    guns: Vec<([f64; 4], Values)>,
    /// Sum 1.
    weights: Vec<f64>,
}

/// Point of a unit cube in four dimensions: an additive recurrence of the generalised golden ratio.
pub(super) fn point(number: u64) -> [f64; 4] {
    // Powers of 1/g, g the positive root of x^5 = x + 1 (1.167303978...).
    const STEPS: [f64; 4] =
        [0.856_674_883_854_503, 0.733_891_856_627_126, 0.628_706_721_036_908, 0.538_597_257_226_137];
    STEPS.map(|step| {
        let place = 0.5 + number as f64 * step;
        place - place.floor()
    })
}

impl Ensemble {
    /// None drawn yet; none at all where the curvature is no curvature.
    pub fn new(map: Posterior) -> Option<Self> {
        let mut factor = cholesky(&map.covariance)?;
        factor.iter_mut().flatten().for_each(|x| *x *= WIDER);
        Some(Self { map, factor, guns: Vec::with_capacity(GUNS), heights: Vec::with_capacity(GUNS) })
    }

    /// Guns left to draw.
    pub fn left(&self) -> usize {
        GUNS - self.guns.len()
    }

    /// Draws at most so many more.
    pub fn draw(&mut self, problem: &Problem<'_>, most: usize) {
        let priors = problem.closed.unknowns.map(|u| u.prior());
        for _ in 0..most.min(self.left()) {
            let number = self.guns.len() as u64;
            let z = point(1 + number / 2).map(normal::quantile);
            let logs: [f64; 4] = if number.is_multiple_of(2) {
                core::array::from_fn(|i| priors[i] * z[i])
            } else {
                core::array::from_fn(|i| {
                    self.map.logs[i] + (0..=i).map(|k| self.factor[i][k] * z[k]).sum::<f64>()
                })
            };
            let values = problem.closed.values(logs);
            let height = match problem.misfit(logs, &values) {
                Some(misfit) => -0.5 * misfit - self.density(logs, priors),
                // No paint, no card: not this gun.
                None => f64::NEG_INFINITY,
            };
            self.guns.push((logs, values));
            self.heights.push(height);
        }
    }

    /// Logarithm of the density that guns are drawn with, but for a constant.
    fn density(&self, logs: [f64; 4], priors: [f64; 4]) -> f64 {
        let (mut prior, mut bell) = (0.0, 0.0);
        let mut z = [0.0; 4];
        for i in 0..4 {
            let p = logs[i] / priors[i];
            prior -= 0.5 * p * p + ln(priors[i]);
            let mut rest = logs[i] - self.map.logs[i];
            for (f, before) in self.factor[i].iter().zip(&z[..i]) {
                rest -= f * before;
            }
            z[i] = rest / self.factor[i][i];
            bell -= 0.5 * z[i] * z[i] + ln(self.factor[i][i]);
        }
        let top = prior.max(bell);
        top + ln(exp(prior - top) + exp(bell - top))
    }

    /// The weights; none where no gun of the ensemble could have given the readings.
    pub fn weighed(self) -> Option<(Posterior, Weighed)> {
        let top = self.heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if !top.is_finite() {
            return None;
        }
        let weights: Vec<f64> = self.heights.iter().map(|h| exp(h - top)).collect();
        let sum: f64 = weights.iter().sum();
        let weights = weights.into_iter().map(|w| w / sum).collect();
        Some((self.map, Weighed { guns: self.guns, weights }))
    }
}

impl Weighed {
    /// Mean of the four logarithms.
    pub fn mean(&self) -> [f64; 4] {
        core::array::from_fn(|i| self.sum(|logs, _| logs[i]))
    }

    /// Covariance of the four logarithms.
    pub fn covariance(&self) -> [[f64; 4]; 4] {
        let mean = self.mean();
        core::array::from_fn(|i| {
            core::array::from_fn(|j| self.sum(|logs, _| (logs[i] - mean[i]) * (logs[j] - mean[j])))
        })
    }

    /// Weighted sum of a figure of the guns; one without a weight is left out.
    fn sum(&self, figure: impl Fn(&[f64; 4], &Values) -> f64) -> f64 {
        let guns = self.guns.iter().zip(&self.weights).filter(|(_, w)| **w > 0.0);
        guns.map(|((logs, values), weight)| weight * figure(logs, values)).sum()
    }

    /// Below which values of a figure so many of the guns lie.
    pub fn quantiles<const N: usize>(
        &self,
        figure: impl Fn(&[f64; 4], &Values) -> f64,
        shares: [f64; N],
    ) -> [f64; N] {
        let guns = self.guns.iter().zip(&self.weights).filter(|(_, w)| **w > 0.0);
        let mut sorted: Vec<(f64, f64)> = guns.map(|((logs, v), w)| (figure(logs, v), *w)).collect();
        sorted.in_order(|a, b| a.0.total_cmp(&b.0));
        shares.map(|share| {
            let mut below = 0.0;
            let mut last = sorted[0];
            for &(value, weight) in &sorted {
                // A gun stands for the share about it: its middle.
                let middle = below + 0.5 * weight;
                if middle >= share {
                    let before = below - 0.5 * last.1;
                    let part = if middle > before { (share - before) / (middle - before) } else { 1.0 };
                    return last.0 + part.clamp(0.0, 1.0) * (value - last.0);
                }
                below += weight;
                last = (value, weight);
            }
            last.0
        })
    }

    /// Mean and variance of a reading's logarithm over the guns.
    pub fn expected(&self, problem: &Problem<'_>, what: Measurement) -> (f64, f64) {
        let at = |v: &Values| problem.expected(what, v).unwrap_or(0.0);
        let mean = self.sum(|_, v| at(v));
        (mean, self.sum(|_, v| (at(v) - mean) * (at(v) - mean)))
    }

    /// The guns' effective number: what as many alike would tell.
    pub fn effective(&self) -> f64 {
        1.0 / self.weights.iter().map(|w| w * w).sum::<f64>()
    }
}
