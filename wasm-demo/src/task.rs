//! Long work beside flying the job in hand: what the page can ask for, and how a worker advances it.
//!
//! To add one: a variant of [`Task`], a runner that is a [`LongTask`] step by step, an arm in each method of
//! [`Running`]. What it finds on the way and in the end is JSON, of its owner's own shape. A page starts it through
//! `views::errand::Errand`, which has a worker of its own, so that flying goes on undisturbed.

use serde::{Deserialize, Serialize};

use crate::protocol::Film;
use crate::worker::Refusal;

mod comparing;
mod diagnosing;
pub mod flood;
pub mod hand_costs;
pub mod marking;
pub mod matching;
pub mod practising;
pub mod searching;
pub mod sweeping;

pub use comparing::Comparing;
pub use diagnosing::Diagnosing;

/// Long work. All that it needs stands in it, so that another worker can do it again from the start.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Task {
    /// Sets kits beside the job's gun; partial and final answers are `compare::Answer`.
    Compare {
        /// The job file's text, with its `[compare]`.
        job: String,
    },
    /// Finds what is wrong with a job and what to change; partial and final answers are `diagnose::Answer`.
    Diagnose {
        /// The job file's text.
        job: String,
    },
    /// Matches the gun to its card; the answer is [`matching::Answer`].
    Match {
        /// The job file's text, with its `[card]`.
        job: String,
    },
    /// Lets the paint of a flood test run; the answer is [`flood::Answer`].
    Flood {
        /// The job file's text.
        job: String,
        /// Trigger time [s].
        seconds: f64,
    },
    /// Sprays a job with one error of its hand at a time; the answer is `mistcoat::run::HandCosts`.
    HandCosts {
        /// The job file's text.
        job: String,
    },
    /// Marks exercises of a class hour; partial and final answers are lists of [`marking::Marked`].
    Mark {
        /// The job files' texts.
        jobs: Vec<String>,
    },
    /// Lays what a hand does as it comes, and judges it; what is known is [`practising::Told`], what it is told an
    /// [`practising::Order`].
    Practise {
        /// The job file's text, its part a panel.
        job: String,
    },
    /// Searches for the set-up that takes least paint; partial and final answers are `search::Answer`.
    Search {
        /// The job file's text.
        job: String,
    },
    /// Finds out why one job takes less paint than another; the answer is `why::Answer`.
    Why {
        /// The first job's text.
        first: String,
        /// The second's.
        second: String,
    },
    /// Flies points of a sweep; partial and final answers are new points, a list of `sweep::Point`.
    Sweep {
        /// The job file's text.
        job: String,
        /// Keys varied.
        axes: Vec<mistcoat::sweep::Axis>,
        /// Dotted paths of the figures kept.
        columns: Vec<String>,
        /// Numbers of the points.
        points: Vec<usize>,
    },
    /// Counts: what the tests of worker and queue do.
    #[cfg(test)]
    Count {
        /// How far.
        to: u64,
    },
}

/// What the worker needs of long work. The same task gives the same answer however it is cut.
pub trait LongTask: Sized {
    /// Reads and checks the task; short, since nothing is heard meanwhile.
    ///
    /// # Errors
    /// When it cannot be done, by the key at fault.
    fn start(task: &Task) -> Result<Self, Refusal>;
    /// Works in pieces of at most a few milliseconds on a fast machine, at least one, for as long as `time_left` says
    /// before the next; true when all is done.
    fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool;
    /// Work done and work wanted, in any one unit.
    fn progress(&self) -> (u64, u64);
    /// What is known by now, as JSON; none when there is nothing new to show.
    fn partial(&mut self) -> Option<String>;
    /// What came out, as JSON; asked for once, when all is done.
    ///
    /// # Errors
    /// When a figure of it cannot be said.
    fn answer(&mut self) -> Result<String, Refusal>;
    /// Takes what the page tells it meanwhile and answers it at once: short.
    fn hear(&mut self, _numbers: &[f64]) {}
    /// It has nothing to do before it hears more; it is not done.
    fn rests(&self) -> bool {
        false
    }
    /// A film to be drawn at once; none when there is nothing new.
    fn film(&mut self) -> Option<Film> {
        None
    }
}

/// A task under way.
pub enum Running {
    /// [`Task::Compare`].
    Compare(Box<Comparing>),
    /// [`Task::Diagnose`].
    Diagnose(Box<Diagnosing>),
    /// [`Task::Match`].
    Match(Box<matching::Matching>),
    /// [`Task::Flood`].
    Flood(Box<flood::Flooding>),
    /// [`Task::HandCosts`].
    HandCosts(Box<hand_costs::Costing>),
    /// [`Task::Mark`].
    Mark(marking::Marker),
    /// [`Task::Practise`].
    Practise(Box<practising::Practising>),
    /// [`Task::Sweep`].
    Sweep(Box<sweeping::Sweeping>),
    /// [`Task::Search`].
    Search(Box<searching::Searching>),
    /// [`Task::Why`].
    Why(Box<searching::Asking>),
}

impl LongTask for Running {
    fn start(task: &Task) -> Result<Self, Refusal> {
        match task {
            Task::Search { job } => searching::Searching::start(job).map(|s| Self::Search(Box::new(s))),
            Task::Why { first, second } => {
                searching::Asking::start(first, second).map(|a| Self::Why(Box::new(a)))
            }
            Task::Compare { job } => Comparing::start(job).map(|c| Self::Compare(Box::new(c))),
            Task::Diagnose { job } => Diagnosing::start(job).map(|d| Self::Diagnose(Box::new(d))),
            Task::Match { job } => matching::Matching::start(job).map(|m| Self::Match(Box::new(m))),
            Task::Flood { job, seconds } => {
                flood::Flooding::start(job, *seconds).map(|f| Self::Flood(Box::new(f)))
            }
            Task::HandCosts { job } => hand_costs::Costing::start(job).map(|c| Self::HandCosts(Box::new(c))),
            Task::Mark { jobs } => Ok(Self::Mark(marking::Marker::start(jobs))),
            Task::Practise { job } => practising::Practising::start(job).map(|p| Self::Practise(Box::new(p))),
            Task::Sweep { job, axes, columns, points } => {
                sweeping::Sweeping::start(job, axes, columns, points).map(|s| Self::Sweep(Box::new(s)))
            }
            #[cfg(test)]
            Task::Count { .. } => Err(Refusal { key: None, message: "only for tests".into() }),
        }
    }

    fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        match self {
            Self::Compare(comparing) => comparing.advance(time_left),
            Self::Diagnose(diagnosing) => diagnosing.advance(time_left),
            Self::Match(matching) => matching.advance(time_left),
            Self::Flood(flooding) => flooding.advance(time_left),
            Self::HandCosts(costing) => costing.advance(time_left),
            Self::Mark(marker) => marker.advance(time_left),
            Self::Practise(practising) => practising.advance(time_left),
            Self::Sweep(sweeping) => sweeping.advance(time_left),
            Self::Search(searching) => searching.advance(time_left),
            Self::Why(asking) => asking.advance(time_left),
        }
    }

    fn progress(&self) -> (u64, u64) {
        match self {
            Self::Compare(comparing) => comparing.progress(),
            Self::Diagnose(diagnosing) => diagnosing.progress(),
            Self::Match(matching) => matching.progress(),
            Self::Flood(flooding) => flooding.progress(),
            Self::HandCosts(costing) => costing.progress(),
            Self::Mark(marker) => marker.progress(),
            Self::Practise(practising) => practising.progress(),
            Self::Sweep(sweeping) => sweeping.progress(),
            Self::Search(searching) => searching.progress(),
            Self::Why(asking) => asking.progress(),
        }
    }

    fn partial(&mut self) -> Option<String> {
        match self {
            Self::Compare(comparing) => comparing.partial(),
            Self::Diagnose(diagnosing) => diagnosing.partial(),
            Self::Mark(marker) => marker.partial(),
            Self::Practise(practising) => practising.partial(),
            Self::Sweep(sweeping) => sweeping.partial(),
            Self::Search(searching) => searching.partial(),
            Self::Why(_) => None,
            Self::Match(_) | Self::Flood(_) | Self::HandCosts(_) => None,
        }
    }

    fn answer(&mut self) -> Result<String, Refusal> {
        match self {
            Self::Compare(comparing) => Ok(comparing.answer()),
            Self::Diagnose(diagnosing) => diagnosing.answer(),
            Self::Match(matching) => matching.answer(),
            Self::Flood(flooding) => flooding.answer(),
            Self::HandCosts(costing) => costing.answer(),
            Self::Sweep(sweeping) => Ok(sweeping.answer()),
            Self::Mark(marker) => Ok(marker.answer()),
            Self::Search(searching) => searching.answer(),
            Self::Why(asking) => asking.answer(),
            // It rests and is never done.
            Self::Practise(_) => Ok(String::new()),
        }
    }

    fn hear(&mut self, numbers: &[f64]) {
        if let Self::Practise(practising) = self {
            practising.hear(numbers);
        }
    }

    fn rests(&self) -> bool {
        matches!(self, Self::Practise(practising) if practising.rests())
    }

    fn film(&mut self) -> Option<Film> {
        match self {
            Self::Practise(practising) => practising.film(),
            _ => None,
        }
    }
}
