//! What happens at each picture of the screen: the gun moves on, the plume is drawn, the beat is given, a replay goes on.

use std::rc::Rc;

use leptos::prelude::*;
use mistcoat::stroke::Moment;
use wasm_bindgen::{JsCast, JsValue};

use super::beat::Beat;
use super::canvas::Plume;
use super::stage::still_motion;
use super::steer::Held;
use super::{HandDesk, Phase};
use crate::state::hand::Window;
use crate::task::practising::{Order, Plan};

/// A try ends by itself when the trigger is off so long past the last row [ms].
const ENDS: f64 = 2500.0;
/// What the browser bench sets on the body to have frames and films timed.
const TIMED: &str = "data-time-hand";

/// What the loop of frames needs.
pub struct Loop {
    pub hand: HandDesk,
    pub window: Signal<Window>,
    pub plume: StoredValue<Option<Plume>, LocalStorage>,
    pub beat: Beat,
    pub held: StoredValue<Held>,
    pub before: f64,
    pub job_distance: f64,
    pub overlap: f64,
    /// Coats of the job.
    pub coats: u32,
    /// Whether one beat of two is drawn strong.
    pub strong: RwSignal<bool>,
    pub elbow: Memo<bool>,
    pub chalk: Memo<bool>,
    /// Times of the events that were told and not drawn yet [ms].
    pub sent: StoredValue<std::collections::VecDeque<f64>>,
    pub last_event: StoredValue<f64>,
}

/// The browser bench wants times.
pub fn timed() -> bool {
    document().body().is_some_and(|b| b.has_attribute(TIMED))
}

/// Puts a time under a name from `from` [ms] to now.
pub fn measure(name: &str, from: f64) {
    let Some(performance) = window().performance() else { return };
    let options = js_sys::Object::new();
    let _ = js_sys::Reflect::set(&options, &"start".into(), &from.into());
    let _ = js_sys::Reflect::set(&options, &"end".into(), &performance.now().into());
    if let Ok(function) = js_sys::Reflect::get(&performance, &"measure".into())
        && let Ok(function) = function.dyn_into::<js_sys::Function>()
    {
        let _ = function.call2(&performance, &JsValue::from_str(name), &options);
    }
}

/// The page's clock [ms].
pub fn now() -> f64 {
    window().performance().map_or(0.0, |p| p.now())
}

impl Loop {
    /// One picture.
    pub fn frame(&mut self) {
        let time = now();
        let took = (time - self.before).clamp(0.0, 50.0);
        self.before = time;
        let hand = self.hand;
        let phase = hand.phase.get_untracked();
        let plan = hand.told.with_untracked(|t| t.plan.clone());
        if matches!(phase, Phase::Ready | Phase::Spraying) {
            self.keys(time, took, plan.as_ref());
            self.gamepad(time, took, plan.as_ref());
            hand.gun.update_value(|gun| gun.tick(time));
            if hand.tell_new() {
                self.sent.update_value(|sent| sent.push_back(self.last_event.get_value()));
                if phase == Phase::Ready {
                    hand.phase.set(Phase::Spraying);
                }
            }
            self.end(time, plan.as_ref());
        }
        self.replay(time);
        self.draw(time, plan.as_ref());
        if timed() {
            measure("hand-frame", time);
        }
    }

    /// The try ends by itself past the last row.
    fn end(&self, time: f64, plan: Option<&Plan>) {
        let Some(plan) = plan else { return };
        let ends = self.hand.gun.with_value(|gun| {
            let last = gun.moments().iter().rev().find(|m| m.trigger > 0.0).map(|m| m.y);
            if gun.coats < self.coats {
                return false;
            }
            let across = gun.turn != 0.0;
            let low = plan.rows.iter().copied().fold(f64::MAX, f64::min);
            let over = gun.off_since().is_some_and(|since| time - since > ENDS);
            over && !across && last.is_some_and(|y| y < low + 0.5 * plan.spacing)
        });
        if ends {
            self.hand.done();
        }
    }

    fn replay(&self, time: f64) {
        let Some((since, from)) = self.hand.replay.get_untracked() else { return };
        let at = from + (time - since) * 1e-3;
        let chosen = self.hand.chosen.get_untracked();
        let end = self
            .hand
            .told
            .with_untracked(|t| t.card.as_ref().and_then(|c| c.passes.get(chosen).map(|p| p.time[1])));
        if end.is_none_or(|end| at > end + 0.3) {
            self.hand.replay.set(None);
            self.hand.errand.tell(Order::Show(usize::MAX >> 12).numbers());
            return;
        }
        let moments = self.hand.gun.with_value(|gun| gun.moments().partition_point(|m| m.time <= at));
        self.hand.errand.tell(Order::Show(moments.max(1)).numbers());
    }

    fn draw(&mut self, time: f64, plan: Option<&Plan>) {
        let hand = self.hand;
        let window = self.window.get_untracked();
        let spacing = plan.map_or(0.1, |p| p.spacing);
        let tall = spacing / (1.0 - self.overlap).max(0.05);
        let replayed = hand.replay.get_untracked().and_then(|(since, from)| {
            let at = from + (time - since) * 1e-3;
            hand.gun.with_value(|gun| pose(gun.moments(), at))
        });
        let live = matches!(hand.phase.get_untracked(), Phase::Ready | Phase::Spraying);
        let (moment, air) = match replayed {
            Some(moment) => (moment, false),
            None => hand.gun.with_value(|gun| (gun.moment(time), gun.pull.air())),
        };
        let distance = self.job_distance;
        self.plume.update_value(|plume| {
            if let Some(plume) = plume {
                if live || replayed.is_some() {
                    plume.draw(&window, &moment, air, [tall, 0.2 * tall], distance);
                } else {
                    plume.clear();
                }
            }
        });
        if live
            && self.chalk.get_untracked()
            && let Some(plan) = plan
        {
            let sound = hand.sound.get_untracked() && hand.phase.get_untracked() == Phase::Spraying;
            let every = beats(plan, 0).1;
            if self.beat.tick(time, every, sound) && !still_motion() {
                self.strong.update(|s| *s = !*s);
            }
        }
        hand.gun.update_value(|gun| match (self.elbow.get_untracked(), gun.elbow) {
            (true, None) => gun.elbow = Some(mistcoat::practice::Elbow { x: 0.0 }),
            (false, Some(_)) => gun.elbow = None,
            _ => {}
        });
    }
}

/// The gun at a time of a try [s].
fn pose(moments: &[Moment], at: f64) -> Option<Moment> {
    let next = moments.partition_point(|m| m.time <= at);
    let (a, b) = (moments.get(next.checked_sub(1)?)?, moments.get(next)?);
    let share = (at - a.time) / (b.time - a.time).max(1e-6);
    Some(a.towards(b, share.clamp(0.0, 1.0)))
}

/// Places of the beats along the panel (way 0, from its left edge) or down it (1), and the time from one to the next [m, s].
pub fn beats(plan: &Plan, way: usize) -> (Vec<f64>, f64) {
    let width = plan.size[way];
    let count = (width * plan.pace / 0.6).round().clamp(1.0, 12.0);
    ((0..=count as u32).map(|i| width * f64::from(i) / count).collect(), width * plan.pace / count)
}

/// Works at every picture while the view stands.
pub fn every_frame(alive: StoredValue<bool>, work: Rc<dyn Fn()>) {
    request_animation_frame(move || {
        if alive.try_get_value() == Some(true) {
            work();
            every_frame(alive, work);
        }
    });
}
