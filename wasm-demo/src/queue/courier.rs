//! Joins the page's queue to the browser: owns the worker, carries the messages, hands the news to the views.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{Array, Uint8Array};
use wasm_bindgen::prelude::*;
use web_sys::{ErrorEvent, MessageEvent, Worker};

use super::{News, Order, Queue, Step, TICK};
use crate::protocol::{FromWorker, RunId, Work};
use crate::task::Task;

#[wasm_bindgen]
extern "C" {
    /// Starts a worker that runs this wasm; the page's own script says how.
    #[wasm_bindgen(js_name = mistcoatWorker, catch)]
    fn new_worker() -> Result<Worker, JsValue>;
}

/// Has jobs flown; clones are handles to the same worker.
#[derive(Clone)]
pub struct Courier {
    inner: Rc<Inner>,
}

struct Inner {
    queue: RefCell<Queue>,
    worker: RefCell<Option<Worker>>,
    listen: Listen,
    views: RefCell<Box<dyn FnMut(News)>>,
}

/// Kept for as long as the page, and shared by all workers; one that was ended says nothing any more.
struct Listen {
    message: Closure<dyn Fn(MessageEvent)>,
    error: Closure<dyn Fn(ErrorEvent)>,
}

impl Courier {
    /// Starts the worker; `views` is told what there is to show, and may ask for the next run while it is told.
    ///
    /// # Errors
    /// When this browser starts no workers.
    pub fn start(views: impl FnMut(News) + 'static) -> Result<Self, JsValue> {
        let courier = Self::with(Queue::default(), views)?;
        courier.inner.replace()?;
        Ok(courier)
    }

    /// The same with a worker that is started when there is first work for it.
    ///
    /// # Errors
    /// When this is no page.
    pub fn asleep(views: impl FnMut(News) + 'static) -> Result<Self, JsValue> {
        Self::with(Queue::asleep(), views)
    }

    fn with(queue: Queue, views: impl FnMut(News) + 'static) -> Result<Self, JsValue> {
        let inner = Rc::new_cyclic(|this: &std::rc::Weak<Inner>| {
            let (heard, died) = (this.clone(), this.clone());
            let message = Closure::new(move |event: MessageEvent| {
                if let Some(inner) = heard.upgrade() {
                    inner.hear(&event);
                }
            });
            let error = Closure::new(move |event: ErrorEvent| {
                // Told in words by the views; not an error of the page.
                event.prevent_default();
                if let Some(inner) = died.upgrade() {
                    let step = inner.queue.borrow_mut().died(&event.message());
                    inner.carry_out(step);
                }
            });
            Inner {
                queue: RefCell::new(queue),
                worker: RefCell::default(),
                listen: Listen { message, error },
                views: RefCell::new(Box::new(views)),
            }
        });
        let ticking = Rc::clone(&inner);
        let tick = Closure::<dyn Fn()>::new(move || {
            let step = ticking.queue.borrow_mut().tick();
            ticking.carry_out(step);
        });
        web_sys::window()
            .ok_or("a courier works for a page")?
            .set_interval_with_callback_and_timeout_and_arguments_0(tick.as_ref().unchecked_ref(), TICK)?;
        tick.forget();
        Ok(Self { inner })
    }

    /// Flies a job after those that wait.
    pub fn fly(&self, job: impl Into<String>) -> RunId {
        self.add(Work::Job(job.into()))
    }

    /// Does a task after what waits.
    pub fn begin(&self, task: Task) -> RunId {
        self.add(Work::Task(task))
    }

    fn add(&self, work: Work) -> RunId {
        let (run, step) = self.inner.queue.borrow_mut().add(work);
        self.inner.carry_out(step);
        run
    }

    /// Tells a task under way something.
    pub fn tell(&self, run: RunId, numbers: Vec<f64>) {
        let step = self.inner.queue.borrow_mut().tell(run, numbers);
        self.inner.carry_out(step);
    }

    /// Drops every run and flies this job.
    pub fn fly_only(&self, job: impl Into<String>) -> RunId {
        let step = self.inner.queue.borrow_mut().clear();
        self.inner.carry_out(step);
        self.fly(job)
    }

    /// Drops a run, flying or waiting.
    pub fn cancel(&self, run: RunId) {
        let step = self.inner.queue.borrow_mut().cancel(run);
        self.inner.carry_out(step);
    }
}

impl Inner {
    fn hear(&self, event: &MessageEvent) {
        let bytes = event.data().dyn_into::<Uint8Array>().map(|data| data.to_vec()).unwrap_or_default();
        let step = match FromWorker::decode(&bytes) {
            Ok(message) => self.queue.borrow_mut().heard(message),
            Err(error) => self.queue.borrow_mut().died(&error.to_string()),
        };
        self.carry_out(step);
    }

    fn carry_out(&self, step: Step) {
        for order in step.orders {
            match order {
                // A browser that starts no worker any more is told from by the silence that follows.
                Order::Replace => drop(self.replace()),
                Order::Send(message) => {
                    if let Some(worker) = self.worker.borrow().as_ref() {
                        let bytes = Uint8Array::from(message.encode().as_slice());
                        let _ = worker.post_message_with_transfer(&bytes, &Array::of1(&bytes.buffer()));
                    }
                }
            }
        }
        for news in step.news {
            (self.views.borrow_mut())(news);
        }
    }

    fn replace(&self) -> Result<(), JsValue> {
        if let Some(old) = self.worker.borrow_mut().take() {
            old.set_onmessage(None);
            old.set_onerror(None);
            old.terminate();
        }
        let worker = new_worker()?;
        worker.set_onmessage(Some(self.listen.message.as_ref().unchecked_ref()));
        worker.set_onerror(Some(self.listen.error.as_ref().unchecked_ref()));
        *self.worker.borrow_mut() = Some(worker);
        Ok(())
    }
}
