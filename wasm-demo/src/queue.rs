//! The page's queue of runs: which one flies, what the worker must be told, what the views may show.
//!
//! No browser in here: what happens comes in by methods, what must be done goes out as [`Step`]s. A worker that dies or
//! falls silent is replaced and the run flown again from its first droplet, which gives the same digits; one whose
//! program panicked is replaced too, but its run is given up, since it would panic again.

#[cfg(target_arch = "wasm32")]
mod courier;

use std::collections::VecDeque;

use crate::protocol::{Film, FromWorker, RunId, ToWorker, Work};

#[cfg(target_arch = "wasm32")]
pub use courier::Courier;

/// Chunks asked for ahead, so that the worker seldom waits for the page to draw. What it is told waits behind them: a run hears
/// nothing but that it is dropped, a task must answer at once.
const fn ahead(work: &Work) -> u32 {
    match work {
        Work::Job(_) => 4,
        Work::Task(_) => 2,
    }
}
/// Ticks without a word after which a worker counts as dead.
pub const SILENT_TICKS: u32 = 10;
/// Length of a tick [ms].
pub const TICK: i32 = 1000;
/// Times that a run is flown again.
pub const RESTARTS: u32 = 2;

/// What the page must do to its worker.
#[derive(Debug, Clone, PartialEq)]
pub enum Order {
    /// End the worker and start another.
    Replace,
    /// Send this.
    Send(ToWorker),
}

/// What the views may show.
#[derive(Debug, Clone, PartialEq)]
pub enum News {
    /// A run is under way.
    Progress {
        /// The run.
        run: RunId,
        /// Droplets flown.
        done: u64,
        /// Droplets wanted.
        total: u64,
    },
    /// The film so far.
    Picture {
        /// The run.
        run: RunId,
        /// Droplets flown.
        done: u64,
        /// The film.
        film: Film,
    },
    /// The worker was replaced; the run starts again.
    Restarted {
        /// The run.
        run: RunId,
    },
    /// A task has nothing to do before it is told more.
    Rests {
        /// The run.
        run: RunId,
    },
    /// What a task knows by now.
    Partial {
        /// The run.
        run: RunId,
        /// As JSON.
        answer: String,
    },
    /// A task is done.
    Answered {
        /// The run.
        run: RunId,
        /// What came out, as JSON.
        answer: String,
    },
    /// A run is complete.
    Done {
        /// The run.
        run: RunId,
        /// The report, as JSON.
        report: String,
        /// The digest.
        digest: u64,
        /// The set-up sheet, metric and US, as JSON.
        sheets: String,
        /// The film.
        film: Film,
    },
    /// The job, or the task, was refused.
    Refused {
        /// The run.
        run: RunId,
        /// The dotted key at fault, if there is one.
        key: Option<String>,
        /// Why, in words.
        message: String,
    },
    /// The run was given up through a fault of the program; `work` is kept for its link.
    GivenUp {
        /// The run.
        run: RunId,
        /// What it was to do.
        work: Work,
        /// What went wrong, in words.
        message: String,
    },
}

/// What follows from one event.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Step {
    /// For the worker, in this order.
    pub orders: Vec<Order>,
    /// For the views, in this order.
    pub news: Vec<News>,
}

#[derive(Debug)]
struct Errand {
    run: RunId,
    work: Work,
    restarts: u32,
}

/// The queue. It expects a worker to have been started, unless made by [`Queue::asleep`].
#[derive(Debug, Default)]
pub struct Queue {
    last: RunId,
    waiting: VecDeque<Errand>,
    flying: Option<Errand>,
    ready: bool,
    gone: bool,
    silent: u32,
    /// The task under way waits to be told more: silence is no sign of death.
    resting: bool,
}

impl Queue {
    /// A queue whose worker is not started before there is work.
    #[must_use]
    pub fn asleep() -> Self {
        Self { gone: true, ..Self::default() }
    }

    /// Adds work behind what waits; its number comes with what must be done.
    pub fn add(&mut self, work: Work) -> (RunId, Step) {
        self.last = self.last.wrapping_add(1);
        self.waiting.push_back(Errand { run: self.last, work, restarts: 0 });
        let mut step = Step::default();
        self.next(&mut step);
        (self.last, step)
    }

    /// Drops a run, flying or waiting.
    pub fn cancel(&mut self, run: RunId) -> Step {
        let mut step = Step::default();
        self.waiting.retain(|task| task.run != run);
        if self.flying.take_if(|task| task.run == run).is_some() {
            if self.ready {
                step.orders.push(Order::Send(ToWorker::Cancel { run }));
            }
            self.next(&mut step);
        }
        step
    }

    /// Tells a task under way something; a run that does not fly yet or any more hears nothing.
    pub fn tell(&mut self, run: RunId, numbers: Vec<f64>) -> Step {
        let mut step = Step::default();
        if self.ready && self.flies(run) {
            // An answer is due: should none come, the worker is dead.
            self.resting = false;
            step.orders.push(Order::Send(ToWorker::Tell { run, numbers }));
        }
        step
    }

    /// Drops every run.
    pub fn clear(&mut self) -> Step {
        self.waiting.clear();
        self.flying.as_ref().map(|task| task.run).map_or_else(Step::default, |run| self.cancel(run))
    }

    /// True when nothing flies or waits.
    #[must_use]
    pub fn is_idle(&self) -> bool {
        self.flying.is_none() && self.waiting.is_empty()
    }

    /// The worker said something.
    pub fn heard(&mut self, message: FromWorker) -> Step {
        self.silent = 0;
        let mut step = Step::default();
        match message {
            FromWorker::Ready { .. } => {
                self.ready = true;
                match &self.flying {
                    Some(task) => start(task, &mut step),
                    None => self.next(&mut step),
                }
            }
            FromWorker::Progress { run, done, total } if self.flies(run) => {
                self.resting = false;
                step.orders.push(Order::Send(ToWorker::Continue { run }));
                step.news.push(News::Progress { run, done, total });
            }
            FromWorker::Rests { run } if self.flies(run) => {
                self.resting = true;
                step.news.push(News::Rests { run });
            }
            FromWorker::Picture { run, done, film } if self.flies(run) => {
                step.news.push(News::Picture { run, done, film });
            }
            FromWorker::Partial { run, answer } if self.flies(run) => {
                step.news.push(News::Partial { run, answer });
            }
            FromWorker::Answered { run, answer } if self.flies(run) => {
                self.flying = None;
                step.news.push(News::Answered { run, answer });
                self.next(&mut step);
            }
            FromWorker::Done { run, report, digest, sheets, film } if self.flies(run) => {
                self.flying = None;
                step.news.push(News::Done { run, report, digest, sheets, film });
                self.next(&mut step);
            }
            FromWorker::Refused { run, key, message } if self.flies(run) => {
                self.flying = None;
                step.news.push(News::Refused { run, key, message });
                self.next(&mut step);
            }
            FromWorker::Panicked { message } => {
                if let Some(task) = self.flying.take() {
                    step.news.push(News::GivenUp { run: task.run, work: task.work, message });
                }
                self.replace(&mut step);
            }
            // A word about a run that was dropped meanwhile.
            _ => {}
        }
        step
    }

    /// The worker died without a word of its own; `message` is what the browser says.
    pub fn died(&mut self, message: &str) -> Step {
        let mut step = Step::default();
        if self.flying.is_none() {
            // Nobody waits for it, and the next might die as soon: replaced when there is work.
            self.ready = false;
            self.gone = true;
            return step;
        }
        if let Some(task) = self.flying.as_mut() {
            if task.restarts < RESTARTS {
                task.restarts += 1;
                step.news.push(News::Restarted { run: task.run });
            } else if let Some(task) = self.flying.take() {
                let message =
                    format!("the worker stopped {} times, the last time with: {message}", RESTARTS + 1);
                step.news.push(News::GivenUp { run: task.run, work: task.work, message });
            }
        }
        self.replace(&mut step);
        step
    }

    /// One [`TICK`] went by. Ticks are counted, not the clock: a machine that slept has missed none.
    pub fn tick(&mut self) -> Step {
        if self.flying.is_none() || self.resting {
            self.silent = 0;
            return Step::default();
        }
        self.silent += 1;
        if self.silent < SILENT_TICKS { Step::default() } else { self.died("no word for too long") }
    }

    fn flies(&self, run: RunId) -> bool {
        self.flying.as_ref().is_some_and(|task| task.run == run)
    }

    /// Starts the next run if none flies. A worker that is not ready yet is told when it is.
    fn next(&mut self, step: &mut Step) {
        if self.flying.is_none() {
            self.silent = 0;
            self.resting = false;
            self.flying = self.waiting.pop_front();
            if self.flying.is_some() && std::mem::take(&mut self.gone) {
                step.orders.push(Order::Replace);
            }
            if let Some(task) = self.flying.as_ref().filter(|_| self.ready) {
                start(task, step);
            }
        }
    }

    fn replace(&mut self, step: &mut Step) {
        self.ready = false;
        self.silent = 0;
        self.resting = false;
        step.orders.push(Order::Replace);
        self.next(step);
    }
}

/// The worker answers a start with one word of progress, which is answered with one more `Continue`.
fn start(task: &Errand, step: &mut Step) {
    let run = task.run;
    step.orders.push(Order::Send(ToWorker::Start { run, work: task.work.clone() }));
    step.orders.extend((1..ahead(&task.work)).map(|_| Order::Send(ToWorker::Continue { run })));
}

#[cfg(test)]
mod tests;
