//! Keeps the job in hand flying: a new text goes to the worker, what comes back goes to the desk.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

use leptos::prelude::*;

use super::desk::{Desk, Refused};
use crate::protocol::{Film, RunId};
use crate::queue::{Courier, News};
use crate::state::DropletEnd;

/// Where the page says how far it is: tests and the curious read it, `data-state` and `data-digest` on the body.
fn mark(name: &str, value: &str) {
    if let Some(body) = document().body() {
        let _ = body.set_attribute(name, value);
    }
}

fn ends(film: &Film) -> Arc<[DropletEnd]> {
    film.ends.chunks_exact(3).map(|e| DropletEnd { along: e[0], across: e[1], landed: e[2] > 0.5 }).collect()
}

/// Starts the worker and follows the desk. Call once.
pub fn follow(desk: Desk) {
    let flying: Rc<RefCell<(RunId, String)>> = Rc::default();
    let heard = flying.clone();
    let pictured = Cell::new(false);
    let courier = Courier::start(move |news| {
        let (id, text) = heard.borrow().clone();
        match news {
            News::Progress { run, done, total } if run == id && total > 0 => {
                desk.done.set(done as f64 / total as f64);
            }
            News::Picture { run, film, .. } if run == id => {
                if !pictured.replace(true) {
                    // How long the first film takes, for the browser bench.
                    if let Some(performance) = window().performance() {
                        let _ = performance.mark("first-film");
                    }
                }
                desk.hear_film(&text, &film, desk.done.get_untracked());
            }
            News::Restarted { run } if run == id => desk.done.set(0.0),
            News::Done { run, report, digest, film } if run == id => {
                desk.hear_done(&text, &report, digest, &film, ends(&film));
                mark("data-digest", &format!("{digest:016x}"));
                mark("data-state", "done");
            }
            News::Refused { run, key, message } if run == id => {
                desk.refused.set(Some(Refused { key: key.unwrap_or_else(|| "link".into()), message }));
                mark("data-state", "refused");
            }
            News::GivenUp { run, message, .. } if run == id => {
                let why = crate::words::words().given_up;
                desk.refused.set(Some(Refused { key: "link".into(), message: format!("{why} {message}") }));
                mark("data-state", "given-up");
            }
            _ => {}
        }
    });
    let courier = match courier {
        Ok(courier) => courier,
        Err(error) => {
            let message = format!("{} {error:?}", crate::words::words().no_worker);
            desk.refused.set(Some(Refused { key: "link".into(), message }));
            mark("data-state", "no-worker");
            return;
        }
    };
    let courier = Rc::new(courier);
    let pilot = courier.clone();
    let current = flying.clone();
    Effect::new(move |_| {
        let text = desk.flown.get();
        mark("data-state", "busy");
        desk.done.set(0.0);
        let id = pilot.fly_only(text.clone());
        *current.borrow_mut() = (id, text);
    });
    Effect::new(move |before: Option<u32>| {
        let stops = desk.stops.get();
        if before.is_some_and(|before| stops > before) {
            courier.cancel(flying.borrow().0);
            mark("data-state", "stopped");
        }
        stops
    });
}
