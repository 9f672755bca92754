//! The worker's side: flies a job, or does another long task, in short chunks and says how far it is.
//!
//! Between two chunks the worker reads its messages, so a run can be dropped at any time. How a run is cut into
//! chunks follows the clock; its figures do not, since a run gives the same digits however it is cut.

mod flying;
#[cfg(target_arch = "wasm32")]
mod serve;

use crate::protocol::{Film, FromWorker, RunId, ToWorker, Work};
use crate::task::LongTask;

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
    /// The set-up sheet, metric and US, as JSON.
    fn sheets(&self) -> String;
}

/// Why a job cannot be flown, or a task not done.
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
/// Least time between two pictures, or two partial answers [ms].
const PICTURE_EVERY: f64 = 120.0;
/// From a start to the first of them [ms]: some chunks.
const FIRST_PICTURE: f64 = 40.0;
/// Time between two of them, in times of what one takes to make: a film laid by a steady hand takes longer than some chunks.
const PICTURE_SHARE: f64 = 5.0;
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

/// When the next picture, or partial answer, is due.
#[derive(Debug, Clone, Copy, Default)]
struct Pictures {
    due: f64,
}

impl Pictures {
    fn start(&mut self, now: f64) {
        self.due = now + FIRST_PICTURE;
    }

    /// One was begun and made.
    fn made(&mut self, begun: f64, now: f64) {
        self.due = now + (PICTURE_SHARE * (now - begun)).max(PICTURE_EVERY);
    }
}

/// What is under way.
enum Under<F, T> {
    Flight(F),
    Task(T),
}

/// The worker's desk: the run under way, if any.
pub struct Desk<F, T> {
    under: Option<(RunId, Under<F, T>)>,
    pace: Pace,
    pictures: Pictures,
}

impl<F: Flight, T: LongTask> Default for Desk<F, T> {
    fn default() -> Self {
        Self { under: None, pace: Pace::default(), pictures: Pictures::default() }
    }
}

impl<F: Flight, T: LongTask> Desk<F, T> {
    /// Does what the message asks; `clock` gives milliseconds, `post` sends an answer to the page.
    pub fn take(&mut self, message: ToWorker, clock: impl Fn() -> f64, mut post: impl FnMut(FromWorker)) {
        match message {
            ToWorker::Start { run, work } => {
                self.under = None;
                let started = match &work {
                    Work::Job(job) => F::start(job).map(|f| (f.progress(), Under::Flight(f))),
                    Work::Task(task) => T::start(task).map(|t| (t.progress(), Under::Task(t))),
                };
                match started {
                    Ok(((done, total), under)) => {
                        self.under = Some((run, under));
                        self.pictures.start(clock());
                        post(FromWorker::Progress { run, done, total });
                    }
                    Err(refusal) => post(refused(run, refusal)),
                }
            }
            ToWorker::Cancel { run } => {
                self.under.take_if(|(under, _)| *under == run);
            }
            ToWorker::Tell { run, numbers } => {
                if let Some((_, Under::Task(task))) = self.under.as_mut().filter(|(under, _)| *under == run) {
                    told(run, task, &numbers, post);
                }
            }
            ToWorker::Continue { run } => {
                let complete = match self.under.as_mut().filter(|(under, _)| *under == run) {
                    Some((_, Under::Flight(flight))) => {
                        fly(run, flight, &mut self.pace, &mut self.pictures, clock, post)
                    }
                    Some((_, Under::Task(task))) => work_on(run, task, &mut self.pictures, clock, post),
                    None => false,
                };
                if complete {
                    self.under = None;
                }
            }
        }
    }
}

/// Flies one chunk; true when the run is complete.
fn fly<F: Flight>(
    run: RunId,
    flight: &mut F,
    pace: &mut Pace,
    pictures: &mut Pictures,
    clock: impl Fn() -> f64,
    mut post: impl FnMut(FromWorker),
) -> bool {
    let start = clock();
    let complete = flight.advance(pace.droplets());
    let end = clock();
    pace.took(end - start);
    let (done, total) = flight.progress();
    if complete {
        match flight.report() {
            Ok(report) => post(FromWorker::Done {
                run,
                report,
                digest: flight.digest(),
                sheets: flight.sheets(),
                film: flight.film(),
            }),
            Err(refusal) => post(refused(run, refusal)),
        }
        return true;
    }
    if end >= pictures.due {
        let film = flight.film();
        pictures.made(end, clock());
        post(FromWorker::Picture { run, done, film });
    }
    post(FromWorker::Progress { run, done, total });
    false
}

/// Does one chunk of a task; true when it is done.
fn work_on<T: LongTask>(
    run: RunId,
    task: &mut T,
    pictures: &mut Pictures,
    clock: impl Fn() -> f64,
    mut post: impl FnMut(FromWorker),
) -> bool {
    let start = clock();
    if task.advance(&mut || clock() - start < AIM) {
        match task.answer() {
            Ok(answer) => post(FromWorker::Answered { run, answer }),
            Err(refusal) => post(refused(run, refusal)),
        }
        return true;
    }
    let (end, rests) = (clock(), task.rests());
    let (done, total) = task.progress();
    if rests || end >= pictures.due {
        let (film, answer) = (task.film(), task.partial());
        pictures.made(end, clock());
        if let Some(film) = film {
            post(FromWorker::Picture { run, done, film });
        }
        if let Some(answer) = answer {
            post(FromWorker::Partial { run, answer });
        }
    }
    post(if rests { FromWorker::Rests { run } } else { FromWorker::Progress { run, done, total } });
    false
}

/// Hands a task what it is told. One that rested goes on when it now has work: the word of progress asks for the next
/// `Continue`; while it works there is such a word under way already.
fn told<T: LongTask>(run: RunId, task: &mut T, numbers: &[f64], mut post: impl FnMut(FromWorker)) {
    let rested = task.rests();
    task.hear(numbers);
    let (done, total) = task.progress();
    if let Some(film) = task.film() {
        post(FromWorker::Picture { run, done, film });
    }
    match (rested, task.rests()) {
        (_, true) => post(FromWorker::Rests { run }),
        (true, false) => post(FromWorker::Progress { run, done, total }),
        (false, false) => {}
    }
}

fn refused(run: RunId, refusal: Refusal) -> FromWorker {
    FromWorker::Refused { run, key: refusal.key, message: refusal.message }
}

#[cfg(test)]
mod tests;
