//! Mouse, finger, pen, wheel and keys: their events, with their own time stamps, move the gun and pull its trigger.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{KeyboardEvent, PointerEvent, WheelEvent};

use super::frames::now;
use super::steer::Held;
use super::{HandDesk, Phase, stage};
use crate::state::hand::{Pull, Sprayer, Window};

/// What the events of a stage act on.
#[derive(Clone, Copy)]
pub struct Input {
    pub hand: HandDesk,
    /// The stage.
    pub node: NodeRef<html::Div>,
    /// The panel on it.
    pub place: Memo<Window>,
    pub held: StoredValue<Held>,
    /// When the last event happened [ms].
    pub last_event: StoredValue<f64>,
    /// Fingers on the stage, by their ids [px].
    pub touches: StoredValue<Vec<(i32, [f64; 2])>>,
}

/// A number of an event with its fraction of a pixel.
fn exact(event: &JsValue, name: &str) -> f64 {
    js_sys::Reflect::get(event, &name.into()).ok().and_then(|v| v.as_f64()).unwrap_or(0.0)
}

/// How far a pointer pulls the trigger.
fn pulled(event: &PointerEvent) -> Pull {
    match event.pointer_type().as_str() {
        "pen" => Pull::Pressed(f64::from(event.pressure())),
        _ => Pull::Since(event.time_stamp()),
    }
}

impl Input {
    fn open(&self) -> bool {
        matches!(self.hand.phase.get_untracked(), Phase::Ready | Phase::Spraying | Phase::Held)
    }

    /// Where an event aims on the panel [m].
    fn aimed(&self, event: &JsValue) -> [f64; 2] {
        let rect = self.node.get_untracked().map(|s| s.get_bounding_client_rect());
        let (x, y) = rect
            .map_or((0.0, 0.0), |r| (exact(event, "clientX") - r.left(), exact(event, "clientY") - r.top()));
        self.place.get_untracked().place(x, y)
    }

    /// A try that was put aside goes on.
    fn resume(&self, time: f64) {
        if self.hand.phase.get_untracked() == Phase::Held {
            self.hand.gun.update_value(|gun| {
                let since = gun.off_since().unwrap_or(time);
                gun.resume(since, time);
            });
            self.hand.phase.set(Phase::Spraying);
        }
    }

    /// A pointer goes down: the trigger, or a second finger.
    pub fn down(&self, event: &PointerEvent) {
        if !self.open() || event.button() != 0 {
            return;
        }
        stage::focus();
        self.hand.device.set(match event.pointer_type().as_str() {
            "pen" => 1,
            "touch" => 2,
            _ => 0,
        });
        self.resume(event.time_stamp());
        if let Some(stage) = self.node.get_untracked() {
            // Refused only for a pointer that is gone already.
            let _ = stage.set_pointer_capture(event.pointer_id());
        }
        let at = self.aimed(event);
        if event.pointer_type() == "touch" {
            self.touches.update_value(|t| {
                t.push((event.pointer_id(), [exact(event, "clientX"), exact(event, "clientY")]));
            });
            if self.touches.with_value(Vec::len) > 1 {
                self.hand.gun.update_value(|gun| gun.trigger(event.time_stamp(), Pull::Off));
                return;
            }
        }
        self.last_event.set_value(event.time_stamp());
        self.hand.gun.update_value(|gun| {
            gun.move_to(event.time_stamp(), at);
            gun.trigger(event.time_stamp(), pulled(event));
        });
    }

    /// A pointer moves; events that the browser put together are taken one by one.
    pub fn moved(&self, event: PointerEvent) {
        if !self.open() {
            return;
        }
        if event.pointer_type() == "touch" && self.touches.with_value(Vec::len) > 1 {
            let factor = self.touches.try_update_value(|t| pinch(t, &event)).flatten();
            if let Some(factor) = factor {
                self.hand.gun.update_value(|gun| gun.reach(event.time_stamp(), factor));
            }
            return;
        }
        let coalesced = event.get_coalesced_events();
        let events: Vec<PointerEvent> = coalesced.iter().filter_map(|e| e.dyn_into().ok()).collect();
        let all = if events.is_empty() { vec![event] } else { events };
        self.hand.gun.update_value(|gun| {
            for event in &all {
                let time = event.time_stamp();
                if event.pointer_type() == "pen" {
                    gun.tilted(f64::from(event.tilt_x()), f64::from(event.tilt_y()));
                    if event.buttons() & 1 == 1 {
                        gun.trigger(time, Pull::Pressed(f64::from(event.pressure())));
                    }
                }
                gun.move_to(time, self.aimed(event));
                self.last_event.set_value(time);
            }
        });
    }

    /// A pointer is gone.
    pub fn up(&self, event: &PointerEvent) {
        self.touches.update_value(|t| t.retain(|(id, _)| *id != event.pointer_id()));
        self.hand.gun.update_value(|gun| gun.trigger(event.time_stamp(), Pull::Off));
    }

    /// Nearer and farther.
    pub fn wheel(&self, event: &WheelEvent) {
        if self.open() {
            event.prevent_default();
            self.hand.gun.update_value(|gun| gun.reach(event.time_stamp(), (-8e-4 * event.delta_y()).exp()));
        }
    }

    /// A key goes down or comes up.
    pub fn key(&self, event: &KeyboardEvent, on: bool) {
        let hand = self.hand;
        let arrow =
            ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"].iter().position(|k| *k == event.key());
        let time = event.time_stamp();
        // On a panel turned upright the arrows keep their sense on the screen.
        let turned = self.place.get_untracked().turned;
        let arrow = arrow.map(|i| if turned { turned_arrow(&event.key()) } else { i });
        match (event.key().as_str(), arrow) {
            (_, Some(i)) => {
                self.held.update_value(|h| h.arrows[i] = on);
                hand.device.set(3);
            }
            (" ", _) if self.open() => {
                if on && !event.repeat() {
                    self.resume(time);
                    hand.device.set(3);
                }
                hand.gun
                    .update_value(|gun| gun.trigger(time, if on { Pull::Since(time) } else { Pull::Off }));
            }
            ("PageUp", _) if on && self.open() => hand.gun.update_value(|gun| gun.reach(time, 1.0 / 1.03)),
            ("PageDown", _) if on && self.open() => hand.gun.update_value(|gun| gun.reach(time, 1.03)),
            ("s" | "S", _) if on => hand.gun.update_value(Sprayer::step),
            ("Enter", _) if on => hand.done(),
            _ => return,
        }
        event.prevent_default();
    }

    /// The stage loses the keys or the page is hidden: everything is let go.
    pub fn left(&self) {
        self.held.set_value(Held::default());
        self.touches.set_value(Vec::new());
        self.hand.gun.update_value(|gun| gun.pause(now()));
    }

    /// Lets go while the page is hidden and when the view goes.
    pub fn let_go_with_the_page(self) {
        let hidden = leptos::prelude::window_event_listener_untyped("visibilitychange", move |_| {
            if document().hidden() {
                self.left();
                if self.hand.phase.get_untracked() == Phase::Spraying {
                    self.hand.tell_new();
                    self.hand.phase.set(Phase::Held);
                }
            }
        });
        on_cleanup(move || hidden.remove());
        on_cleanup(move || {
            self.hand.gun.try_update_value(|gun| gun.pause(0.0));
        });
    }
}

/// An arrow's place among left, right, up, down along the panel, where it stands turned: down the screen is to its right,
/// right on the screen is up it.
fn turned_arrow(key: &str) -> usize {
    match key {
        "ArrowDown" => 1,
        "ArrowUp" => 0,
        "ArrowRight" => 2,
        _ => 3,
    }
}

/// Takes a moved finger in; by what factor two fingers came apart.
fn pinch(touches: &mut [(i32, [f64; 2])], event: &PointerEvent) -> Option<f64> {
    let apart = |t: &[(i32, [f64; 2])]| match t {
        [(_, a), (_, b), ..] => Some(((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2)).sqrt()),
        _ => None,
    };
    let before = apart(touches)?;
    let mine = touches.iter_mut().find(|(id, _)| *id == event.pointer_id())?;
    mine.1 = [exact(event, "clientX"), exact(event, "clientY")];
    let after = apart(touches)?;
    (before > 5.0 && after > 5.0).then(|| (after / before).clamp(0.5, 2.0))
}
