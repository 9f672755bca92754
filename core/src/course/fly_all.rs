//! Many droplets into one tally, on all threads where the crate has them.

#[cfg(feature = "parallel")]
use super::BATCH;
use super::{Course, FrameCourse, Outcome};
use crate::flight::Batch;
use fearless_simd::Level;

/// Integer counts that any slices add up to.
pub trait Tally: Send {
    /// Counts one droplet.
    fn count(&mut self, outcome: &Outcome);
    /// Adds another slice.
    fn merge(&mut self, other: &Self);
}

/// What gives each droplet's outcome by its number.
pub trait Flies {
    /// Flies droplets `from..to` and gives each one's outcome, in order.
    fn fly(&self, level: Level, from: u64, to: u64, batch: &mut Batch<f32>, each: impl FnMut(&Outcome));
}

impl Flies for Course {
    fn fly(&self, level: Level, from: u64, to: u64, batch: &mut Batch<f32>, each: impl FnMut(&Outcome)) {
        Self::fly(self, level, from, to, batch, each);
    }
}

impl Flies for FrameCourse {
    fn fly(&self, level: Level, from: u64, to: u64, batch: &mut Batch<f32>, each: impl FnMut(&Outcome)) {
        Self::fly(self, level, from, to, batch, each);
    }
}

/// Flies droplets `from..to` on all threads where the crate has them, into a tally of their own.
#[cfg(feature = "parallel")]
pub fn fly_all<T: Tally>(
    course: &(impl Flies + Sync),
    level: Level,
    from: u64,
    to: u64,
    empty: impl Fn() -> T + Sync + Send,
) -> T {
    use rayon::prelude::*;
    let slices = (to - from).div_ceil(BATCH);
    (0..slices)
        .into_par_iter()
        .fold(
            || (empty(), Batch::default()),
            |(mut tally, mut batch), slice| {
                let first = from + slice * BATCH;
                course.fly(level, first, to.min(first + BATCH), &mut batch, |o| tally.count(o));
                (tally, batch)
            },
        )
        .map(|(tally, _)| tally)
        .reduce(&empty, |mut a, b| {
            a.merge(&b);
            a
        })
}

/// Flies droplets `from..to` into a tally of their own.
#[cfg(not(feature = "parallel"))]
pub fn fly_all<T: Tally>(course: &impl Flies, level: Level, from: u64, to: u64, empty: impl Fn() -> T) -> T {
    let (mut tally, mut batch) = (empty(), Batch::default());
    course.fly(level, from, to, &mut batch, |o| tally.count(o));
    tally
}
