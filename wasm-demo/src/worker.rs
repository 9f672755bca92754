//! The worker's side: flies a job in short chunks and says how far it is.
//!
//! Between two chunks the worker reads its messages, so a run can be dropped at any time. How a run is cut into
//! chunks follows the clock; its figures do not, since a run gives the same digits however it is cut.

mod flying;
#[cfg(target_arch = "wasm32")]
mod serve;

use crate::protocol::{Film, FromWorker, RunId, ToWorker};

pub use flying::Flying;
#[cfg(target_arch = "wasm32")]
pub use serve::serve;

/// What the worker needs of a run.
pub trait Flight: Sized {
    /// Reads and checks the job.
    ///
    /// # Errors
    /// When the job cannot be flown.
    fn start(job: &str) -> Result<Self, Refusal>;
    /// Flies at most so many droplets more; true when the run is complete.
    fn advance(&mut self, most: u64) -> bool;
    /// Droplets flown, and wanted.
    fn progress(&self) -> (u64, u64);
    /// The film so far.
    fn film(&self) -> Film;
    /// The report as JSON.
    ///
    /// # Errors
    /// When a figure of it cannot be said.
    fn report(&self) -> Result<String, Refusal>;
    /// The digest.
    fn digest(&self) -> u64;
}

/// Why a job cannot be flown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// The dotted key at fault, if there is one.
    pub key: Option<String>,
    /// Why, in words.
    pub message: String,
}

/// Longest chunk [ms].
pub const LONGEST_CHUNK: f64 = 30.0;
/// Chunk aimed at [ms]: half the longest, so that a machine that suddenly has half its speed keeps the bound.
const AIM: f64 = 15.0;
/// Least time between two pictures [ms].
const PICTURE_EVERY: f64 = 120.0;
/// First chunk [droplets]; under 1 ms on a slow phone.
const FIRST_CHUNK: u64 = 256;

/// Droplets in a chunk, fitted to the machine's speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pace {
    droplets: u64,
}

impl Default for Pace {
    fn default() -> Self {
        Self { droplets: FIRST_CHUNK }
    }
}

impl Pace {
    /// Droplets of the next chunk.
    #[must_use]
    pub fn droplets(self) -> u64 {
        self.droplets
    }

    /// Takes in how long the last chunk took [ms]. Grows at most twofold, so that one lucky chunk does no harm.
    pub fn took(&mut self, milliseconds: f64) {
        let factor = (AIM / milliseconds.max(1e-3)).clamp(0.1, 2.0);
        self.droplets = ((self.droplets as f64 * factor) as u64).clamp(16, 1 << 24);
    }
}

/// The worker's desk: the run that flies, if any.
pub struct Desk<F> {
    flying: Option<(RunId, F)>,
    pace: Pace,
    pictured: f64,
}

impl<F: Flight> Default for Desk<F> {
    fn default() -> Self {
        Self { flying: None, pace: Pace::default(), pictured: 0.0 }
    }
}

impl<F: Flight> Desk<F> {
    /// Does what the message asks; `clock` gives milliseconds, `post` sends an answer to the page.
    pub fn take(&mut self, message: ToWorker, clock: impl Fn() -> f64, mut post: impl FnMut(FromWorker)) {
        match message {
            ToWorker::Start { run, job } => {
                self.flying = None;
                match F::start(&job) {
                    Ok(flight) => {
                        let (done, total) = flight.progress();
                        self.flying = Some((run, flight));
                        self.pictured = clock();
                        post(FromWorker::Progress { run, done, total });
                    }
                    Err(refusal) => post(refused(run, refusal)),
                }
            }
            ToWorker::Cancel { run } => {
                self.flying.take_if(|(flying, _)| *flying == run);
            }
            ToWorker::Continue { run } => self.advance(run, clock, post),
        }
    }

    fn advance(&mut self, run: RunId, clock: impl Fn() -> f64, mut post: impl FnMut(FromWorker)) {
        let Some((_, flight)) = self.flying.as_mut().filter(|(flying, _)| *flying == run) else {
            return;
        };
        let start = clock();
        let complete = flight.advance(self.pace.droplets());
        let end = clock();
        self.pace.took(end - start);
        let (done, total) = flight.progress();
        if complete {
            match flight.report() {
                Ok(report) => {
                    post(FromWorker::Done { run, report, digest: flight.digest(), film: flight.film() });
                }
                Err(refusal) => post(refused(run, refusal)),
            }
            self.flying = None;
            return;
        }
        if end - self.pictured >= PICTURE_EVERY {
            self.pictured = end;
            post(FromWorker::Picture { run, done, film: flight.film() });
        }
        post(FromWorker::Progress { run, done, total });
    }
}

fn refused(run: RunId, refusal: Refusal) -> FromWorker {
    FromWorker::Refused { run, key: refusal.key, message: refusal.message }
}

#[cfg(test)]
mod tests;
