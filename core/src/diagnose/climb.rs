//! Up a lever's ladder for as long as it gets better, then between the rungs. It asks for values and is told what came out, so
//! that flying can be cut at will.

use super::Lever;
use super::change::Move;
use crate::in_order::InOrder;
use crate::job::Job;

/// Rungs in a row that are worse than the best before it stops.
const WORSE: u32 = 2;
/// Looks between rungs: where no droplets are needed, and where they are.
const FINE: [u32; 2] = [4, 2];

/// A lever under trial.
pub(super) struct Climb {
    /// The lever.
    pub lever: Lever,
    /// What is changed besides.
    pub with: Vec<Move>,
    from: f64,
    rungs: Vec<f64>,
    at: usize,
    worse: u32,
    fine: u32,
    /// Values told, with how bad they are; the first is where the lever stands.
    told: Vec<(f64, f64, f64)>,
}

impl Climb {
    /// A climb from where a job stands, which is `badness` bad.
    pub fn new(lever: Lever, up: bool, job: &Job, with: Vec<Move>, badness: f64) -> Self {
        let from = lever.now(job);
        let fine = FINE[usize::from(!lever.of_the_stroke())];
        let rungs = lever.ladder(job, up);
        Self { lever, with, from, rungs, at: 0, worse: 0, fine, told: vec![(from, badness, badness)] }
    }

    /// The next value to try, as a change; none when there is no more.
    pub fn next(&mut self, job: &Job) -> Option<Move> {
        let next = |to: f64| Move { lever: self.lever, from: self.from, to };
        // Half shut, a fan may be worse than open and than shut.
        let last = if self.lever == Lever::Fan { u32::MAX } else { WORSE };
        if self.worse < last
            && let Some(&value) = self.rungs.get(self.at)
        {
            self.at += 1;
            return Some(next(value));
        }
        while self.fine > 0 {
            self.fine -= 1;
            if let Some(value) = self.between(job) {
                return Some(next(value));
            }
        }
        None
    }

    /// How bad the value asked for last is, alone and with the speed that keeps the film; none where it cannot be sprayed. While either
    /// gets better it goes on.
    pub fn tell(&mut self, value: f64, alone: Option<f64>, paced: Option<f64>) {
        let best = |of: fn(&(f64, f64, f64)) -> f64| self.told.iter().map(of).fold(f64::INFINITY, f64::min);
        let (best_alone, best_paced) = (best(|t| t.1), best(|t| t.2));
        let Some(alone) = alone else {
            self.worse += 1;
            return;
        };
        let paced = paced.unwrap_or(alone);
        self.worse = if alone < best_alone || paced < best_paced { 0 } else { self.worse + 1 };
        self.told.push((value, alone, paced));
    }

    /// Half way from the best to its better neighbour, where that is not known yet.
    fn between(&self, job: &Job) -> Option<f64> {
        let mut sorted: Vec<(f64, f64)> = self.told.iter().map(|t| (t.0, t.1.min(t.2))).collect();
        sorted.in_order(|a, b| a.0.total_cmp(&b.0));
        let best = (0..sorted.len()).min_by(|&a, &b| sorted[a].1.total_cmp(&sorted[b].1))?;
        let mut sides: Vec<(f64, f64)> = Vec::new();
        sides.extend(best.checked_sub(1).and_then(|i| sorted.get(i)));
        sides.extend(sorted.get(best + 1));
        sides.in_order(|a, b| a.1.total_cmp(&b.1));
        let known = |v: f64| self.told.iter().any(|t| (t.0 - v).abs() < 1e-9);
        sides.iter().find_map(|s| self.lever.between(sorted[best].0, s.0, job).filter(|v| !known(*v)))
    }
}
