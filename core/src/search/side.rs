//! One side of one lever, step by step away from the best until something stops it.

use super::lever::Lever;
use super::stop::What;
use crate::job::Job;

/// Steps away from the best, in the finest the lever is told in.
const STEPS: [f64; 5] = [1.0, 2.0, 4.0, 8.0, 16.0];
/// Halvings between a value that does and one that does not.
const HALVINGS: u32 = 2;
/// One side of one lever.
pub(super) struct Side {
    pub lever: Lever,
    /// Towards higher values.
    pub up: bool,
    /// Steps taken.
    pub step: usize,
    /// Halvings since something stopped it.
    pub halvings: u32,
    /// Farthest value that does, with its paint and error; nearest that does not, with why.
    pub good: (f64, f64, f64),
    pub bad: Option<(f64, What)>,
}

impl Side {
    /// From a value on.
    pub fn new(lever: Lever, up: bool, at: f64) -> Self {
        Self { lever, up, step: 0, halvings: 0, good: (at, 0.0, 0.0), bad: None }
    }

    /// The next value; none where there is none.
    pub fn next(&self, job: &Job) -> Option<f64> {
        let lever = self.lever;
        let at = lever.now(job);
        if let Some((bad, _)) = self.bad {
            // Between what does and what does not.
            if self.halvings > HALVINGS {
                return None;
            }
            return lever.between(self.good.0, bad, job);
        }
        let step = STEPS.get(self.step)?;
        let unit = match lever {
            Lever::Fan | Lever::Fluid => 0.125,
            Lever::Pressure => 0.05e5,
            Lever::Distance => 0.005,
            Lever::Overlap => 0.01,
            _ => 1.0,
        };
        let [low, high] = lever.limits(job);
        let wanted = if self.up { at + unit * step } else { at - unit * step };
        let value = lever.rounded(wanted.clamp(low.min(at), high.max(at)), job);
        let on = if self.up { value > self.good.0 + 1e-9 } else { value < self.good.0 - 1e-9 };
        on.then_some(value)
    }
}
