//! How well a gun goes with the readings, and the one that goes best.

use super::closed::{Closed, Values};
use super::linear::{cholesky, inverse, solve};
use super::surface::Surface;
use crate::job::{Measurement, Reading};
use crate::math::ln;

/// Error of the model itself beyond its constants, one standard deviation [-].
///
/// Pattern sizes: the tenth lines of flown cards against the ranges of practice, ours. Weighed: the paint's density is a class's typical
/// value. Film: wall strain, turbulence and size spread over their ranges move the landed share by 4, 4 and 3 % (computed in a
/// prototype of this model). `docs/methods/match.md`.
fn model_error(what: Measurement) -> f64 {
    match what {
        Measurement::FanHeight { .. } | Measurement::FanThickness { .. } | Measurement::Weighed { .. } => {
            0.05
        }
        Measurement::Caught { .. } => 0.03,
        Measurement::WetFilm { .. } | Measurement::DryFilm { .. } => 0.06,
    }
}

/// All that a gun's factors are weighed by.
pub(super) struct Problem<'a> {
    pub closed: &'a Closed,
    /// Surface of each distance [m].
    pub surfaces: &'a [(f64, Surface)],
    pub readings: &'a [Reading],
    /// Times the model's own error: 1, or 0 where the readings come from the model itself.
    pub trust: f64,
}

/// The most likely gun.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Posterior {
    pub logs: [f64; 4],
    /// Their covariance by the curvature there (Laplace): where the ensemble is drawn.
    pub covariance: Vec<Vec<f64>>,
    /// Sum of squared residuals over their deviations, the prior's included.
    pub misfit: f64,
}

/// Step of the numeric slopes [-].
const STEP: f64 = 1e-4;
const ROUNDS: usize = 40;

impl Problem<'_> {
    fn surface(&self, distance: f64) -> Option<&Surface> {
        self.surfaces.iter().find(|(d, _)| *d == distance).map(|(_, s)| s)
    }

    /// Logarithm of what a reading should be of a gun with these values; none without paint or card.
    pub fn expected(&self, what: Measurement, values: &Values) -> Option<f64> {
        let flow = |q: f64| (q > 0.0).then(|| ln(q));
        let on_card = |distance, figure| Some(self.surface(distance)?.at(figure, values.logs));
        let paint = &self.closed.job.paint;
        match what {
            Measurement::FanHeight { distance } => on_card(distance, 0),
            Measurement::FanThickness { distance } => on_card(distance, 1),
            Measurement::Weighed { seconds } => flow(values.flow * seconds * paint.density),
            Measurement::Caught { seconds } => flow(values.flow_without_air * seconds),
            Measurement::WetFilm { distance, speed } => {
                Some(on_card(distance, 2)? + flow(values.flow / speed)?)
            }
            Measurement::DryFilm { distance, speed } => {
                Some(on_card(distance, 3)? + flow(values.flow * paint.volume_solids / speed)?)
            }
        }
    }

    /// Variance of a reading's logarithm about the model [-].
    pub fn variance(&self, reading: &Reading) -> f64 {
        let model = self.trust * model_error(reading.what);
        let counted = match reading.what {
            Measurement::FanHeight { distance } => (distance, 0),
            Measurement::FanThickness { distance } => (distance, 1),
            Measurement::WetFilm { distance, .. } => (distance, 2),
            Measurement::DryFilm { distance, .. } => (distance, 3),
            Measurement::Weighed { .. } | Measurement::Caught { .. } => (f64::NAN, 0),
        };
        let counting = self.surface(counted.0).map_or(0.0, |s| s.errors[counted.1]);
        reading.uncertainty * reading.uncertainty + model * model + counting * counting
    }

    /// How far a reading lies above the model [-], and the slope of the model's logarithm along each unknown.
    fn row(&self, reading: &Reading, logs: [f64; 4]) -> Option<(f64, [f64; 4])> {
        let at = |logs| self.expected(reading.what, &self.closed.values(logs));
        let mut slopes = [0.0; 4];
        for (i, slope) in slopes.iter_mut().enumerate() {
            let (mut up, mut down) = (logs, logs);
            up[i] += STEP;
            down[i] -= STEP;
            *slope = (at(up)? - at(down)?) / (2.0 * STEP);
        }
        Some((ln(reading.value) - at(logs)?, slopes))
    }

    /// Squared deviations of constants and readings, of a gun with these values.
    pub fn misfit(&self, logs: [f64; 4], values: &Values) -> Option<f64> {
        let mut sum = 0.0;
        for (unknown, log) in self.closed.unknowns.iter().zip(logs) {
            let z = log / unknown.prior();
            sum += z * z;
        }
        for reading in self.readings.iter().filter(|r| !r.kept_back) {
            let miss = ln(reading.value) - self.expected(reading.what, values)?;
            sum += miss * miss / self.variance(reading);
        }
        Some(sum)
    }

    /// The most likely gun, searched from a start.
    pub fn solve(&self, start: [f64; 4]) -> Option<Posterior> {
        let misfit_at = |logs| self.misfit(logs, &self.closed.values(logs));
        let mut logs = start;
        let mut misfit = misfit_at(logs)?;
        let mut curvature = self.curvature(logs)?;
        for _ in 0..ROUNDS {
            let mut step = solve(&cholesky(&curvature.0)?, &curvature.1);
            step.iter_mut().for_each(|s| *s = s.clamp(-0.5, 0.5));
            let mut better = None;
            for _ in 0..12 {
                let mut next = logs;
                (0..4).for_each(|i| next[i] += step[i]);
                if let Some(m) = misfit_at(next).filter(|m| *m < misfit) {
                    better = Some((next, m));
                    break;
                }
                step.iter_mut().for_each(|s| *s *= 0.5);
            }
            let Some((next, m)) = better else { break };
            let gain = misfit - m;
            (logs, misfit) = (next, m);
            curvature = self.curvature(logs)?;
            if gain < 1e-10 {
                break;
            }
        }
        let covariance = inverse(&cholesky(&curvature.0)?);
        Some(Posterior { logs, covariance, misfit })
    }

    /// Half the second and minus half the first derivative of the misfit.
    fn curvature(&self, logs: [f64; 4]) -> Option<(Vec<Vec<f64>>, Vec<f64>)> {
        let mut matrix = vec![vec![0.0; 4]; 4];
        let mut right = vec![0.0; 4];
        for (i, unknown) in self.closed.unknowns.iter().enumerate() {
            let weight = 1.0 / (unknown.prior() * unknown.prior());
            matrix[i][i] = weight;
            right[i] = -weight * logs[i];
        }
        for reading in self.readings.iter().filter(|r| !r.kept_back) {
            let (miss, slopes) = self.row(reading, logs)?;
            let weight = 1.0 / self.variance(reading);
            for i in 0..4 {
                right[i] += weight * slopes[i] * miss;
                for j in 0..4 {
                    matrix[i][j] += weight * slopes[i] * slopes[j];
                }
            }
        }
        Some((matrix, right))
    }
}
