//! Keeps the job in hand flying: a new text goes to the worker, what comes back goes to the desk.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;

use super::desk::{Desk, Refused};
use crate::protocol::{Film, RunId};
use crate::queue::{Courier, News};
use crate::state::DropletEnd;

/// A knob being turned changes the job many times a second; it is flown when it has rested this long.
const REST: Duration = Duration::from_millis(90);

/// Where the page says how far it is: tests and the curious read it, `data-state` and `data-digest` on the body.
fn mark(name: &str, value: &str) {
    if let Some(body) = document().body() {
        let _ = body.set_attribute(name, value);
    }
}

fn ends(film: &Film) -> Arc<[DropletEnd]> {
    let end = |e: &[f32]| DropletEnd {
        along: e[0],
        across: e[1],
        sideways: e[2],
        end_across: e[3],
        landed: e[4] > 0.5,
    };
    film.ends.chunks_exact(Film::NUMBERS).map(end).collect()
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
                // While the card is flown the part is still bare.
                let painted = film.values.iter().any(|&h| h > 0.0);
                if painted && !pictured.replace(true) {
                    // How long the first film takes, for the browser bench.
                    if let Some(performance) = window().performance() {
                        let _ = performance.mark("first-film");
                    }
                }
                desk.hear_film(&text, &film, desk.done.get_untracked(), || ends(&film));
            }
            News::Restarted { run } if run == id => desk.done.set(0.0),
            News::Done { run, report, digest, sheets, film } if run == id => {
                desk.hear_done(&text, &report, digest, &film, ends(&film));
                desk.hear_sheets(&text, &sheets);
                // While a knob rests, a run on the text before may still end.
                if desk.flown.with_untracked(|now| *now == text) {
                    mark("data-digest", &format!("{digest:016x}"));
                    mark("data-state", "done");
                }
            }
            News::Refused { run, key, message } if run == id => {
                let message = key.map_or(message.clone(), |key| format!("{key}: {message}"));
                desk.refused.set(Some(Refused { key: "run".into(), message }));
                desk.stopped.set(true);
                mark("data-state", "refused");
            }
            News::GivenUp { run, message, .. } if run == id => {
                let why = crate::words::words().given_up;
                desk.refused.set(Some(Refused { key: "run".into(), message: format!("{why} {message}") }));
                desk.stopped.set(true);
                mark("data-state", "given-up");
            }
            _ => {}
        }
    });
    let courier = match courier {
        Ok(courier) => courier,
        Err(error) => {
            let message = format!("{} {error:?}", crate::words::words().no_worker);
            desk.refused.set(Some(Refused { key: "run".into(), message }));
            desk.stopped.set(true);
            mark("data-state", "no-worker");
            return;
        }
    };
    let courier = Rc::new(courier);
    let pilot = courier.clone();
    let current = flying.clone();
    let fly = Rc::new(move |text: String| {
        let id = pilot.fly_only(text.clone());
        *current.borrow_mut() = (id, text);
    });
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    Effect::new(move |before: Option<()>| {
        let text = desk.flown.get();
        mark("data-state", "busy");
        desk.done.set(0.0);
        desk.under.set(None);
        desk.so_far.set(None);
        desk.since.set(window().performance().map_or(0.0, |p| p.now()));
        desk.stopped.set(false);
        if let Some(handle) = waiting.get_value() {
            handle.clear();
        }
        if before.is_none() {
            fly(text);
        } else {
            let fly = Rc::clone(&fly);
            waiting.set_value(set_timeout_with_handle(move || fly(text), REST).ok());
        }
    });
    Effect::new(move |before: Option<u32>| {
        let stops = desk.stops.get();
        if before.is_some_and(|before| stops > before) {
            courier.cancel(flying.borrow().0);
            desk.stopped.set(true);
            mark("data-state", "stopped");
        }
        stops
    });
}
