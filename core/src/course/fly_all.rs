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

/// Flies droplets `from..to` on all threads where the crate has them and counts them in `tally`; `empty` makes one for each other thread
/// that has something to do.
#[cfg(feature = "parallel")]
pub fn fly_all<T: Tally>(
    course: &(impl Flies + Sync),
    level: Level,
    from: u64,
    to: u64,
    empty: impl Fn() -> T + Sync + Send,
    tally: &mut T,
) {
    use rayon::prelude::*;
    use std::sync::atomic::{AtomicU64, Ordering};
    // A tally is large: one a thread, and whoever is free takes the next slice.
    let taken = AtomicU64::new(from);
    let next = || {
        let first = taken.fetch_add(BATCH, Ordering::Relaxed);
        (first < to).then(|| (first, to.min(first + BATCH)))
    };
    let work = |slice: (u64, u64), tally: &mut T| {
        let (mut batch, mut slice) = (Batch::default(), Some(slice));
        while let Some((first, end)) = slice {
            course.fly(level, first, end, &mut batch, |o| tally.count(o));
            slice = next();
        }
    };
    let slices = usize::try_from(to.saturating_sub(from).div_ceil(BATCH)).unwrap_or(usize::MAX);
    let helpers = slices.min(rayon::current_num_threads()).saturating_sub(1);
    let help = |_| {
        next().map(|slice| {
            let mut own = empty();
            work(slice, &mut own);
            own
        })
    };
    let merged = |mut a: T, b: T| {
        a.merge(&b);
        a
    };
    let (_, others) = rayon::join(
        || next().map(|slice| work(slice, tally)),
        || (0..helpers).into_par_iter().with_max_len(1).filter_map(help).reduce_with(merged),
    );
    if let Some(others) = others {
        tally.merge(&others);
    }
}

/// Flies droplets `from..to` and counts them in `tally`.
#[cfg(not(feature = "parallel"))]
pub fn fly_all<T: Tally>(
    course: &impl Flies,
    level: Level,
    from: u64,
    to: u64,
    _empty: impl Fn() -> T,
    tally: &mut T,
) {
    course.fly(level, from, to, &mut Batch::default(), |o| tally.count(o));
}
