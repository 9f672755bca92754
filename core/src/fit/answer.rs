//! The matched gun: constants with their uncertainty, what the readings should have been, and whether all of it goes together.

use super::closed::Values;
use super::ensemble::Weighed;
use super::linear::{cholesky, solve};
use super::posterior::{Posterior, Problem};
use super::unknown::{Unknown, matched};
use crate::gun;
use crate::job::{JobError, Reading, with_key, without_key};
use crate::math::exp;
use serde::Serialize;

/// Posterior over prior width above which a constant counts as not told by the card [-].
const TOLD: f64 = 0.7;
/// Half of a 95 % interval over the standard deviation [-].
const NINETY_FIVE: f64 = 1.96;
/// Chi-square by number of readings, 1 to 6, that is passed by chance in 5 and in 1 of 100 (standard tables).
const FIVE: [f64; 6] = [3.84, 5.99, 7.81, 9.49, 11.07, 12.59];
const ONE: [f64; 6] = [6.63, 9.21, 11.34, 13.28, 15.09, 16.81];

/// A value with its range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Likely {
    /// Most likely.
    pub value: f64,
    /// Lower end of the likely range: one standard deviation.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Lower end of the 95 % interval.
    pub low_95: f64,
    /// Upper end.
    pub high_95: f64,
}

impl Likely {
    /// A bell curve in the logarithm.
    fn bell(log: f64, deviation: f64) -> Self {
        let at = |z: f64| exp(log + z * deviation);
        Self {
            value: at(0.0),
            low: at(-1.0),
            high: at(1.0),
            low_95: at(-NINETY_FIVE),
            high_95: at(NINETY_FIVE),
        }
    }

    /// A figure of the ensemble, given by its logarithm: mean, and the middle 68 and 95 of 100 guns.
    fn of(guns: &Weighed, mean: f64, figure: impl Fn(&[f64; 4], &Values) -> f64) -> Self {
        let ends = guns.quantiles(figure, [0.025, 0.1587, 0.8413, 0.975]).map(exp);
        Self { value: exp(mean), low: ends[1], high: ends[2], low_95: ends[0], high_95: ends[3] }
    }
}

/// One constant of the gun, as a factor on the catalogue's.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Fitted {
    /// Which.
    #[serde(skip)]
    pub unknown: Unknown,
    /// Its key in the job file.
    pub key: &'static str,
    /// The card tells it: its range is at most 0.7 of what it was before.
    pub told: bool,
    /// All constants free, those that are not told included.
    pub factor: Likely,
    /// Before the card.
    pub before: Likely,
    /// Width of its logarithm after the card over that before.
    pub width_over_prior: f64,
    /// The factor the matched gun gets, to four digits: 1 where it is not told; the others then allow for that.
    pub used: f64,
}

/// One reading against the matched gun.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Predicted {
    /// Its key in the job file.
    pub key: &'static str,
    /// Its name, as in `card.kept_back`.
    pub name: &'static str,
    /// What was measured, SI.
    pub measured: f64,
    /// What a new reading of this gun should give, with the uncertainty of gun, reading and model in its range, SI.
    pub expected: Likely,
    /// How far the reading lies off, in standard deviations of that range.
    pub off: f64,
    /// It was kept out of the fit.
    pub kept_back: bool,
}

impl Predicted {
    /// The reading lies inside the 95 % interval.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.off.abs() <= NINETY_FIVE
    }
}

/// Whether the readings go together with a gun of this kit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Agreement {
    /// As well as they should.
    Good,
    /// Worse than 95 of 100 true cards would.
    Doubtful,
    /// Worse than 99 of 100: they contradict each other, or the gun is no gun of this kit.
    Contradiction,
}

/// A gun matched on its card.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MatchedGun {
    /// The constants: fan, edge, flow, droplets.
    pub constants: [Fitted; 4],
    /// Correlation of their logarithms.
    pub correlation: [[f64; 4]; 4],
    /// Sauter mean diameter of the card's set-up [um], before the cut.
    pub sauter_um: Likely,
    /// The same of the catalogue's gun [um].
    pub catalogue_sauter_um: f64,
    /// Paint flow of the card's set-up [mL/min].
    pub flow_ml_min: f64,
    /// The same of the catalogue's gun [mL/min].
    pub catalogue_flow_ml_min: f64,
    /// Every reading.
    pub readings: Vec<Predicted>,
    /// Squared distance of readings and constants from what was expected, in standard deviations.
    pub misfit: f64,
    /// What 95 of 100 true cards stay below.
    pub misfit_limit: f64,
    /// Whether it all goes together.
    pub agreement: Agreement,
    /// Droplets flown for it.
    pub droplets: u64,
    /// Effective number of guns that its ranges rest on.
    pub guns: f64,
}

impl MatchedGun {
    /// From the most likely gun and the ensemble about it.
    pub(super) fn new(problem: &Problem<'_>, map: &Posterior, guns: &Weighed, droplets: u64) -> Self {
        let unknowns = problem.closed.unknowns;
        let (mean, covariance) = (guns.mean(), guns.covariance());
        let factors: [Likely; 4] = core::array::from_fn(|i| Likely::of(guns, mean[i], |logs, _| logs[i]));
        let before = unknowns.map(|u| Likely::bell(0.0, u.prior()));
        let width = |l: &Likely| crate::math::ln(l.high_95 / l.low_95);
        let widths: [f64; 4] = core::array::from_fn(|i| width(&factors[i]) / width(&before[i]));
        let told = widths.map(|w| w <= TOLD);
        let used = without_untold(mean, covariance, told);
        let constants: [Fitted; 4] = core::array::from_fn(|i| Fitted {
            unknown: unknowns[i],
            key: unknowns[i].key(),
            told: told[i],
            factor: factors[i],
            before: before[i],
            width_over_prior: widths[i],
            used: if told[i] { four_digits(exp(used[i]).clamp(0.3, 3.0)) } else { 1.0 },
        });
        let values = problem.closed.values(constants.map(|c| crate::math::ln(c.used)));
        let catalogue = problem.closed.values([0.0; 4]);
        let fitted = problem.readings.iter().filter(|r| !r.kept_back).count().clamp(1, FIVE.len());
        let size = Likely::of(guns, values.logs[3], |_, v| v.logs[3]);
        let deviation: [f64; 4] = core::array::from_fn(|i| covariance[i][i].sqrt());
        Self {
            constants,
            correlation: core::array::from_fn(|i| {
                core::array::from_fn(|j| covariance[i][j] / (deviation[i] * deviation[j]))
            }),
            sauter_um: size,
            catalogue_sauter_um: exp(catalogue.logs[3]),
            flow_ml_min: values.flow * 6e7,
            catalogue_flow_ml_min: catalogue.flow * 6e7,
            readings: problem.readings.iter().map(|r| predicted(problem, guns, r)).collect(),
            misfit: map.misfit,
            misfit_limit: FIVE[fitted - 1],
            agreement: match map.misfit {
                m if m > ONE[fitted - 1] => Agreement::Contradiction,
                m if m > FIVE[fitted - 1] => Agreement::Doubtful,
                _ => Agreement::Good,
            },
            droplets,
            guns: guns.effective(),
        }
    }

    /// The factors for a kit.
    #[must_use]
    pub fn factors(&self) -> gun::Matched {
        let mut own = matched(self.constants.map(|c| c.unknown), [0.0; 4]);
        for c in self.constants {
            c.unknown.set(&mut own, c.used);
        }
        own.droplets_range = self.droplets_range();
        own
    }

    fn droplets_range(&self) -> Option<f64> {
        let droplets = self.constants[3];
        let range = (droplets.factor.high / droplets.factor.low).sqrt();
        droplets.told.then(|| four_digits(range.clamp(1.01, 2.0)))
    }

    /// Keys of the job file with their values: told constants only, and none where the readings contradict each other.
    #[must_use]
    pub fn keys(&self) -> Vec<(&'static str, String)> {
        if self.agreement == Agreement::Contradiction {
            return Vec::new();
        }
        let told = self.constants.iter().filter(|c| c.told);
        let mut keys: Vec<_> = told.map(|c| (c.key, format!("{}", c.used))).collect();
        keys.extend(self.droplets_range().map(|r| ("gun.matched.droplets_range", format!("{r}"))));
        keys
    }

    /// The text of a job file with this gun in place of whatever was matched before.
    ///
    /// # Errors
    /// A text that is no job file.
    pub fn written_into(&self, text: &str) -> Result<String, JobError> {
        let mut text = without_key(text, "gun.matched")?;
        for (key, value) in self.keys() {
            text = with_key(&text, key, &value)?;
        }
        Ok(text)
    }

    /// All of it as JSON, with the keys of the job file.
    #[must_use]
    pub fn to_json(&self) -> String {
        // Numbers, words and lists of them: JSON can always hold these.
        let mut value = serde_json::to_value(self).unwrap_or_default();
        if let Some(fields) = value.as_object_mut() {
            let keys = self.keys().into_iter().map(|(key, value)| (key.to_owned(), value.into()));
            fields.insert("keys".into(), serde_json::Value::Object(keys.collect()));
        }
        serde_json::to_string_pretty(&value).unwrap_or_default()
    }
}

/// Means of the told logarithms once the others are held at the catalogue's: the mean of a bell curve, given some of its places.
fn without_untold(mean: [f64; 4], covariance: [[f64; 4]; 4], told: [bool; 4]) -> [f64; 4] {
    let held: Vec<usize> = (0..4).filter(|&i| !told[i]).collect();
    let part: Vec<Vec<f64>> =
        held.iter().map(|&i| held.iter().map(|&j| covariance[i][j]).collect()).collect();
    let back: Vec<f64> = held.iter().map(|&i| -mean[i]).collect();
    let Some(factor) = cholesky(&part) else { return mean };
    let pull = solve(&factor, &back);
    core::array::from_fn(|i| {
        if told[i] {
            mean[i] + held.iter().zip(&pull).map(|(&j, p)| covariance[i][j] * p).sum::<f64>()
        } else {
            0.0
        }
    })
}

fn predicted(problem: &Problem<'_>, guns: &Weighed, reading: &Reading) -> Predicted {
    let (mean, variance) = guns.expected(problem, reading.what);
    let deviation = (variance + problem.variance(reading)).sqrt();
    Predicted {
        key: reading.key,
        name: reading.name,
        measured: reading.value,
        expected: Likely::bell(mean, deviation),
        off: (crate::math::ln(reading.value) - mean) / deviation,
        kept_back: reading.kept_back,
    }
}

fn four_digits(x: f64) -> f64 {
    let mut scale = 1000.0;
    while x * scale < 1000.0 {
        scale *= 10.0;
    }
    (x * scale).round() / scale
}
