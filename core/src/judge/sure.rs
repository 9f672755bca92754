//! Deciding with a counting error.
//!
//! A figure keeps or breaks a limit for sure when it lies further from it than z standard errors. Where a rule is about each of
//! n figures, z is such that all n stay within it in 95 of 100 runs; else a rule about 75 spots would be broken by chance alone.

use super::gauge::Value;
use super::verdict::{Decision, Rule, Source, Unit, Verdict};
use crate::normal::quantile;

/// Chance of a wrong sure verdict, both sides together [-].
const WRONG: f64 = 0.05;
/// Rounding that does not count as below or above [m].
const HAIR: f64 = 1e-12;

/// Standard errors that a figure must be away, of `n` figures.
pub fn sure(n: usize) -> f64 {
    quantile(1.0 - 0.5 * WRONG / n.max(1) as f64)
}

/// Some figures of one kind.
pub struct Figures {
    /// Dry films [m].
    pub values: Vec<f64>,
    /// Their standard errors [m].
    pub errors: Vec<f64>,
}

impl Figures {
    /// Of values read.
    pub fn of(values: &[Value], errors: Vec<f64>, correction: f64) -> Self {
        Self { values: values.iter().map(|v| v.film - correction).collect(), errors }
    }

    /// Verdict of figure `i` alone against a lower and an upper limit.
    pub fn verdict(&self, i: usize, [low, high]: [f64; 2]) -> Verdict {
        let doubt = sure(self.values.len()) * self.errors[i];
        against(self.values[i] - low, doubt).and(against(high - self.values[i], doubt))
    }

    /// Every figure at least `low`.
    pub fn at_least(&self, rule: Rule, low: f64, source: Source) -> Decision {
        self.decide(rule, low, source, |value| value - low)
    }

    /// Every figure at most `high`.
    pub fn at_most(&self, rule: Rule, high: f64, source: Source) -> Decision {
        self.decide(rule, high, source, |value| high - value)
    }

    fn decide(&self, rule: Rule, limit: f64, source: Source, room: impl Fn(f64) -> f64) -> Decision {
        let z = sure(self.values.len());
        let (mut worst, mut verdict) = (0, Verdict::Pass);
        for (i, (&value, &error)) in self.values.iter().zip(&self.errors).enumerate() {
            if room(value) < room(self.values[worst]) {
                worst = i;
            }
            verdict = verdict.and(against(room(value), z * error));
        }
        Decision {
            rule,
            found: self.values[worst] * 1e6,
            standard_error: self.errors[worst] * 1e6,
            limit: limit * 1e6,
            unit: Unit::Um,
            at: (self.values.len() > 1).then_some(worst + 1),
            verdict,
            source,
        }
    }
}

/// Verdict on the room left to a limit when it is only known to within `doubt`.
pub fn against(room: f64, doubt: f64) -> Verdict {
    if room >= doubt - HAIR {
        Verdict::Pass
    } else if room <= -doubt - HAIR {
        Verdict::Fail
    } else {
        Verdict::CannotTell
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_figures_need_more_room() {
        assert!((sure(1) - 1.96).abs() < 1e-3 && (sure(15) - 2.935).abs() < 2e-3 && sure(225) > 3.6);
        let verdict = |value: f64, error: f64| {
            Figures { values: vec![value], errors: vec![error] }
                .at_least(Rule::MeanLow, 20e-6, Source::Seen)
                .verdict
        };
        assert_eq!(verdict(20e-6, 0.0), Verdict::Pass);
        assert_eq!(verdict(19.999e-6, 0.0), Verdict::Fail);
        assert_eq!([verdict(21e-6, 1e-6), verdict(19e-6, 1e-6)], [Verdict::CannotTell; 2]);
        assert_eq!([verdict(22e-6, 1e-6), verdict(18e-6, 1e-6)], [Verdict::Pass, Verdict::Fail]);
    }
}
