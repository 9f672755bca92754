//! A sweep under way.

use super::answer::{Answer, Point};
use super::flight::Flight;
use super::plan::Plan;
use crate::in_order::InOrder;
use std::collections::VecDeque;

/// Droplets of a piece on each thread where nobody waits in between: a tally is large, and each piece makes one a thread.
const PIECE: u64 = 65_536;

/// A sweep under way. Every slicing and any number of threads give the same digits.
pub struct Sweep {
    plan: Plan,
    waiting: VecDeque<Vec<usize>>,
    active: Vec<Flight>,
    done: Vec<Point>,
    /// Numbers of the points that were asked for, rising.
    wanted: Vec<usize>,
}

impl Sweep {
    /// Prepares all points of a plan; nothing is flown yet.
    #[must_use]
    pub fn new(plan: Plan) -> Self {
        let points = 0..plan.len();
        Self::of_points(plan, points)
    }

    /// The same for some of its points: a shard, or what a worker was given. Numbers past the last point, and a number that is there
    /// twice, are left out.
    #[must_use]
    pub fn of_points(plan: Plan, points: impl IntoIterator<Item = usize>) -> Self {
        let points: std::collections::BTreeSet<usize> =
            points.into_iter().filter(|&p| p < plan.len()).collect();
        let wanted: Vec<usize> = points.into_iter().collect();
        let waiting = plan.flights(wanted.iter().copied()).into();
        Self { plan, waiting, active: Vec::new(), done: Vec::new(), wanted }
    }

    /// What is flown.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Works on, a piece of about `most` droplets; true when all points are done.
    pub fn advance(&mut self, most: u64) -> bool {
        self.fill(1);
        if let Some(flight) = self.active.first_mut()
            && flight.advance(&self.plan, most, false, &mut self.done)
        {
            self.active.remove(0);
        }
        self.is_complete()
    }

    /// The same on all threads where the crate has them, about `most` droplets on each.
    pub fn advance_on_all_threads(&mut self, most: u64) -> bool {
        let threads = threads();
        self.fill(threads);
        while self.active.len() < threads {
            // The flight with most to lay shares it.
            self.active.in_order(|a, b| b.points_left().cmp(&a.points_left()));
            let Some(other) = self.active.iter_mut().find_map(Flight::split) else { break };
            self.active.push(other);
        }
        let few = self.active.len() < threads;
        // A flight that has threads to itself takes their shares.
        let most = if few { most.saturating_mul((threads / self.active.len().max(1)) as u64) } else { most };
        let plan = &self.plan;
        let advanced = each(&mut self.active, |flight| {
            let mut done = Vec::new();
            let over = flight.advance(plan, most, few, &mut done);
            (over, done)
        });
        let mut over = advanced.iter().map(|(over, _)| *over);
        self.active.retain(|_| !over.next().unwrap_or(false));
        self.done.extend(advanced.into_iter().flat_map(|(_, done)| done));
        self.is_complete()
    }

    /// Works to the end, on all threads where the crate has them.
    pub fn finish(&mut self) {
        while !self.advance_on_all_threads(PIECE) {}
    }

    /// All points are done.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.waiting.is_empty() && self.active.is_empty()
    }

    /// Share of the work that is done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        let left: f64 = self.waiting.iter().map(Vec::len).sum::<usize>() as f64
            + self.active.iter().map(Flight::left).sum::<f64>();
        let wanted = self.wanted.len().max(1) as f64;
        (1.0 - left / wanted).clamp(0.0, 1.0)
    }

    /// Points done and wanted.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        (self.done.len() as u64, self.wanted.len() as u64)
    }

    /// What is known by now.
    #[must_use]
    pub fn answer(&self) -> Answer {
        let mut points = self.done.clone();
        points.in_order(|a, b| a.number.cmp(&b.number));
        Answer {
            name: self.plan.name().into(),
            axes: self.plan.axes().to_vec(),
            columns: self.plan.columns().iter().map(|c| c.path.to_string()).collect(),
            points,
            complete: self.is_complete(),
        }
    }

    /// Points that are done, in the order in which they were.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.done
    }

    /// Points in the order of their numbers, from the `told`th on, up to the first that is not done yet: what can be printed.
    pub fn in_order(&self, told: usize) -> impl Iterator<Item = &Point> {
        self.wanted.iter().skip(told).map_while(|number| self.done.iter().find(|p| p.number == *number))
    }

    fn fill(&mut self, threads: usize) {
        while self.active.len() < threads {
            let Some(points) = self.waiting.pop_front() else { break };
            self.active.push(Flight::new(points));
        }
    }
}

#[cfg(feature = "parallel")]
pub(super) fn threads() -> usize {
    rayon::current_num_threads()
}

#[cfg(not(feature = "parallel"))]
pub(super) fn threads() -> usize {
    1
}

#[cfg(feature = "parallel")]
fn each<T: Send>(flights: &mut [Flight], f: impl Fn(&mut Flight) -> T + Sync + Send) -> Vec<T> {
    use rayon::prelude::*;
    flights.par_iter_mut().map(f).collect()
}

#[cfg(not(feature = "parallel"))]
fn each<T>(flights: &mut [Flight], f: impl Fn(&mut Flight) -> T) -> Vec<T> {
    flights.iter_mut().map(f).collect()
}
