//! A long task of a view: begun, watched, stopped. It has a worker of its own, started with its first task.

use std::cell::Cell;
use std::rc::Rc;
use std::sync::Arc;

use leptos::prelude::*;

use crate::protocol::{Film, RunId};
use crate::queue::{Courier, News};
use crate::task::Task;
use crate::words::words;

/// How a task stands.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Standing {
    /// It is under way.
    pub busy: bool,
    /// A worker has begun it and can be told more; false again while a dead worker is replaced.
    pub heard: bool,
    /// Share of its work that is done, 0..=1.
    pub done: f64,
    /// What is known so far or in the end, as JSON.
    pub answer: Option<String>,
    /// All of it is done.
    pub complete: bool,
    /// It was stopped by the user.
    pub stopped: bool,
    /// Why it cannot be done: the key at fault, if there is one, and why in words.
    pub refused: Option<(Option<String>, String)>,
}

/// A view's long task. Passed by copy; made once for a page, kept while views come and go.
#[derive(Clone, Copy)]
pub struct Errand {
    /// How it stands.
    pub standing: RwSignal<Standing>,
    /// The film it shows, where it has one.
    pub film: RwSignal<Option<Arc<Film>>>,
    inner: StoredValue<Option<Inner>, LocalStorage>,
}

struct Inner {
    courier: Courier,
    run: Rc<Cell<RunId>>,
}

impl Default for Errand {
    fn default() -> Self {
        Self {
            standing: RwSignal::new(Standing::default()),
            film: RwSignal::new(None),
            inner: StoredValue::new_local(None),
        }
    }
}

impl Errand {
    /// Begins a task; one that is under way is dropped. What was known before goes.
    pub fn begin(&self, task: Task) {
        self.drop_run();
        self.film.set(None);
        self.standing.set(Standing { busy: true, ..Standing::default() });
        if self.inner.with_value(Option::is_none) {
            match self.courier() {
                Ok(inner) => self.inner.set_value(Some(inner)),
                Err(message) => {
                    self.standing.update(|s| (s.busy, s.refused) = (false, Some((None, message))));
                    return;
                }
            }
        }
        self.inner.with_value(|inner| {
            if let Some(inner) = inner {
                inner.run.set(inner.courier.begin(task));
            }
        });
    }

    /// Tells it something while it works; unheard where no worker has begun it.
    pub fn tell(&self, numbers: Vec<f64>) {
        self.inner.with_value(|inner| {
            if let Some(inner) = inner {
                inner.courier.tell(inner.run.get(), numbers);
            }
        });
    }

    /// Stops it at once; what is known by then stays.
    pub fn stop(&self) {
        if self.standing.with_untracked(|s| s.busy) {
            self.drop_run();
            self.standing.update(|s| (s.busy, s.stopped) = (false, true));
        }
    }

    /// Stops it and forgets what is known.
    pub fn clear(&self) {
        self.drop_run();
        self.standing.set(Standing::default());
    }

    fn drop_run(&self) {
        self.inner.with_value(|inner| {
            if let Some(inner) = inner {
                inner.courier.cancel(inner.run.get());
            }
        });
    }

    fn courier(&self) -> Result<Inner, String> {
        let run = Rc::new(Cell::new(0));
        let (ours, standing, film) = (Rc::clone(&run), self.standing, self.film);
        let courier = Courier::asleep(move |news| {
            let this = |run: RunId| run == ours.get();
            match news {
                News::Progress { run, done, total } if this(run) && total > 0 => {
                    standing.update(|s| (s.heard, s.done) = (true, done as f64 / total as f64));
                }
                News::Picture { run, film: shown, .. } if this(run) => film.set(Some(Arc::new(shown))),
                News::Rests { run } if this(run) => standing.update(|s| (s.heard, s.busy) = (true, false)),
                News::Partial { run, answer } if this(run) => standing.update(|s| s.answer = Some(answer)),
                News::Answered { run, answer } if this(run) => standing.set(Standing {
                    done: 1.0,
                    answer: Some(answer),
                    complete: true,
                    ..Standing::default()
                }),
                News::Refused { run, key, message } if this(run) => {
                    standing.update(|s| (s.busy, s.refused) = (false, Some((key, message))));
                }
                News::GivenUp { run, message, .. } if this(run) => {
                    let message = format!("{} {message}", words().given_up);
                    standing.update(|s| (s.busy, s.refused) = (false, Some((None, message))));
                }
                News::Restarted { run } if this(run) => standing.update(|s| (s.heard, s.done) = (false, 0.0)),
                _ => {}
            }
        });
        let courier = courier.map_err(|error| format!("{} {error:?}", words().no_worker))?;
        Ok(Inner { courier, run })
    }
}
