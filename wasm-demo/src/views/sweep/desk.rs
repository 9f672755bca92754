//! What the Sweep view keeps while others are shown: the points asked for, the workers that fly them, what is known.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::sweep::{Answer, Point};

use crate::pool::Pool;
use crate::protocol::RunId;
use crate::queue::{Courier, News};
use crate::state::sweep::{Asked, FIGURES, Preset, ask};
use crate::task::Task;

/// Workers at most: more share no memory and gain little.
const MOST_WORKERS: f64 = 8.0;

/// The sweep of this page. Passed by copy.
#[derive(Clone, Copy)]
pub struct SweepDesk {
    /// The first question asked; none for one's own knobs.
    pub preset: RwSignal<Option<Preset>>,
    /// It is flown on the desk's own job.
    pub on_own: RwSignal<bool>,
    /// What is flown.
    pub asked: RwSignal<Option<Arc<Asked>>>,
    /// What is known.
    pub answer: RwSignal<Option<Arc<Answer>>>,
    /// Points done and wanted.
    pub progress: RwSignal<(usize, usize)>,
    /// Workers have something in hand.
    pub busy: RwSignal<bool>,
    /// It was stopped.
    pub stopped: RwSignal<bool>,
    /// Why it ended early, in words.
    pub failed: RwSignal<Option<String>>,
    /// The key at fault and why, of one's own knobs.
    pub refused: RwSignal<Option<(String, String)>>,
    /// The point in hand.
    pub chosen: RwSignal<Option<usize>>,
    /// The point that was put on the desk.
    pub loaded: RwSignal<Option<usize>>,
    /// Which figure a map shows.
    pub figure: RwSignal<usize>,
    inner: StoredValue<Option<Rc<Workers>>, LocalStorage>,
}

/// Workers, started with the first sweep and kept.
struct Workers {
    couriers: RefCell<Vec<(Courier, Cell<RunId>)>>,
    pool: RefCell<Pool>,
}

impl Default for SweepDesk {
    fn default() -> Self {
        Self {
            preset: RwSignal::new(None),
            on_own: RwSignal::new(true),
            asked: RwSignal::new(None),
            answer: RwSignal::new(None),
            progress: RwSignal::new((0, 0)),
            busy: RwSignal::new(false),
            stopped: RwSignal::new(false),
            failed: RwSignal::new(None),
            refused: RwSignal::new(None),
            chosen: RwSignal::new(None),
            loaded: RwSignal::new(None),
            figure: RwSignal::new(0),
            inner: StoredValue::new_local(None),
        }
    }
}

/// Workers for this machine.
pub fn workers() -> usize {
    window().navigator().hardware_concurrency().clamp(1.0, MOST_WORKERS) as usize
}

impl SweepDesk {
    /// Asks a first question of the desk's job.
    pub fn open(&self, preset: Preset, desk: &str) {
        let (base, own) = preset.job(desk);
        let axes = mistcoat::job::Job::from_toml(&base).map(|job| preset.axes(&job)).unwrap_or_default();
        let axes: Vec<(&str, &str)> = axes.iter().map(|(key, values)| (*key, values.as_str())).collect();
        self.preset.set(Some(preset));
        self.on_own.set(own);
        self.figure.set(if preset == Preset::Overlap { 2 } else { 0 });
        self.fly(ask(&base, &axes, preset.by_machine()));
    }

    /// Asks for one's own knobs.
    pub fn open_own(&self, desk: &str, axes: &[(String, String)]) {
        let axes: Vec<(&str, &str)> = axes.iter().map(|(k, v)| (k.as_str(), v.as_str())).collect();
        match ask(desk, &axes, false) {
            Ok(asked) => {
                self.preset.set(None);
                self.on_own.set(true);
                self.fly(Ok(asked));
            }
            Err(why) => self.refused.set(Some(why)),
        }
    }

    /// Flies the same again.
    pub fn again(&self) {
        if let Some(asked) = self.asked.get_untracked() {
            self.fly(Ok(Asked::clone(&asked)));
        }
    }

    fn fly(&self, asked: Result<Asked, (String, String)>) {
        self.stop();
        let asked = match asked {
            Ok(asked) => Arc::new(asked),
            Err(why) => return self.refused.set(Some(why)),
        };
        let inner = match self.inner.get_value() {
            Some(inner) => inner,
            None => {
                let made = Rc::new(Workers { couriers: RefCell::default(), pool: RefCell::default() });
                for worker in 0..workers() {
                    match self.courier(worker, &made) {
                        Ok(courier) => made.couriers.borrow_mut().push((courier, Cell::new(0))),
                        Err(message) => self.failed.set(Some(message)),
                    }
                }
                self.inner.set_value(Some(Rc::clone(&made)));
                made
            }
        };
        let count = inner.couriers.borrow().len();
        *inner.pool.borrow_mut() = Pool::new(&asked.plan, count);
        self.refused.set(None);
        self.failed.set(None);
        self.stopped.set(false);
        self.chosen.set(None);
        self.loaded.set(None);
        self.progress.set((0, asked.plan.len()));
        self.answer.set(Some(Arc::new(inner.pool.borrow().answer(&asked.plan))));
        self.asked.set(Some(asked));
        self.busy.set(count > 0);
        for worker in 0..count {
            self.give(&inner, worker);
        }
    }

    /// Stops it at once; what is done stays.
    pub fn stop(&self) {
        if !self.busy.get_untracked() {
            return;
        }
        if let Some(inner) = self.inner.get_value() {
            for (courier, run) in inner.couriers.borrow().iter() {
                courier.cancel(run.replace(0));
            }
        }
        self.busy.set(false);
        self.stopped.set(true);
    }

    /// Gives a worker the next points, if there are any.
    fn give(&self, inner: &Rc<Workers>, worker: usize) {
        let next = inner.pool.borrow_mut().next(worker);
        let (Some(points), Some(asked)) = (next, self.asked.get_untracked()) else { return };
        let task = Task::Sweep {
            job: asked.flown.clone(),
            axes: asked.plan.axes().to_vec(),
            columns: FIGURES.map(String::from).to_vec(),
            points,
        };
        if let Some((courier, run)) = inner.couriers.borrow().get(worker) {
            run.set(courier.begin(task));
        }
    }

    fn courier(&self, worker: usize, inner: &Rc<Workers>) -> Result<Courier, String> {
        let (desk, inner) = (*self, Rc::downgrade(inner));
        let courier = Courier::asleep(move |news| {
            let Some(inner) = inner.upgrade() else { return };
            let own = inner.couriers.borrow().get(worker).map_or(0, |(_, run)| run.get());
            match news {
                News::Partial { run, answer } if run == own => desk.hear(&inner, &answer),
                News::Answered { run, answer } if run == own => {
                    desk.hear(&inner, &answer);
                    inner.pool.borrow_mut().over(worker);
                    desk.give(&inner, worker);
                    if inner.pool.borrow().is_over() {
                        desk.busy.set(false);
                    }
                }
                News::Refused { run, message, .. } | News::GivenUp { run, message, .. } if run == own => {
                    desk.stop();
                    desk.failed.set(Some(message));
                }
                _ => {}
            }
        });
        courier.map_err(|error| format!("{error:?}"))
    }

    fn hear(&self, inner: &Rc<Workers>, json: &str) {
        let Some(asked) = self.asked.get_untracked() else { return };
        let points: Vec<Point> = serde_json::from_str(json).unwrap_or_default();
        if points.is_empty() {
            return;
        }
        inner.pool.borrow_mut().hear(points);
        let pool = inner.pool.borrow();
        self.progress.set(pool.progress());
        self.answer.set(Some(Arc::new(pool.answer(&asked.plan))));
    }
}

/// The sweep of this page.
pub fn sweep_desk() -> SweepDesk {
    use_context::<SweepDesk>().unwrap_or_default()
}
