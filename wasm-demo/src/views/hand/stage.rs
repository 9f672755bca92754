//! The panel under the gun: events in, film out.

use std::rc::Rc;

use leptos::html;
use leptos::prelude::*;
use mistcoat::stroke::Moment;
use mistcoat::units::Quantity;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, PointerEvent};

use super::super::desk::desk;
use super::beat::Beat;
use super::canvas::{FilmLayer, Plume};
use super::{HandDesk, Phase, flying, hand_desk, hand_words};
use crate::draw::hand as draw;
use crate::figures::{of_100, said, seconds};
use crate::state::hand::{Pull, Window};
use crate::state::hand_said::{gap, length};
use crate::task::practising::{Card, Order, Plan};
use crate::words::fill;

/// Room left and right of the panel, and above and below it [px]: wide, narrow.
const WIDE: [f64; 4] = [64.0, 116.0, 30.0, 30.0];
const NARROW: [f64; 4] = [28.0, 14.0, 44.0, 44.0];
/// Up and down the keys move at this share of the pace.
const KEYS_DOWN: f64 = 0.35;
/// A try ends by itself when the trigger is off so long past the last row [ms].
const ENDS: f64 = 2500.0;
/// Id of the stage, to hand it the keys.
const ID: &str = "hand-stage";
/// What the browser bench sets on the body to have frames and films timed.
const TIMED: &str = "data-time-hand";

/// Hands the stage the keys.
pub fn focus() {
    if let Some(stage) = document().get_element_by_id(ID).and_then(|e| e.dyn_into::<HtmlElement>().ok()) {
        let _ = stage.focus();
    }
}

/// Whether the visitor wants things to stand still.
pub fn still_motion() -> bool {
    window().match_media("(prefers-reduced-motion: reduce)").ok().flatten().is_some_and(|m| m.matches())
}

fn narrow() -> bool {
    window().inner_width().ok().and_then(|w| w.as_f64()).is_some_and(|w| w < 768.0)
}

fn now() -> f64 {
    window().performance().map_or(0.0, |p| p.now())
}

/// How large a panel is drawn: room [px], true size where it is known and fits.
fn window_for(size: [f64; 2], room: f64, px_per_mm: Option<f64>) -> Window {
    let small = narrow();
    let pad = if small { NARROW } else { WIDE };
    let turned = small && size[0] > size[1];
    let width = (room - pad[0] - pad[1]).max(120.0);
    let across = if turned { size[1] } else { size[0] };
    // No higher than it is wide, so that it stays on the screen.
    let fits = (width / across).min(if small { f64::MAX } else { 1.1 * width / size[1].max(1e-3) });
    let scale = px_per_mm.map(|p| p * 1e3).filter(|s| *s <= fits).unwrap_or(fits);
    Window { corner: [pad[0], pad[2]], scale, size, turned }
}

/// How the panel's size on the screen is said.
pub fn sized(size: [f64; 2], hand: HandDesk) -> String {
    let w = hand_words();
    let Some(true_size) = hand.px_per_mm.get() else { return w.not_sized.into() };
    let scale = window_for(size, room(), Some(true_size)).scale;
    let share = scale / (true_size * 1e3);
    if share > 0.995 { w.at_true_size.into() } else { fill(w.drawn_smaller, &[&of_100(share)]) }
}

/// Width that the stage has [px].
fn room() -> f64 {
    let screen = window().inner_width().ok().and_then(|w| w.as_f64()).unwrap_or(1280.0);
    let page = screen.min(1280.0);
    match screen {
        s if s < 768.0 => page - 32.0,
        s if s < 1180.0 => page - 64.0,
        _ => page - 64.0 - 372.0 - 32.0,
    }
}

/// Largest panel that is drawn at true size [m].
pub fn fitting(size: [f64; 2], px_per_mm: f64) -> [f64; 2] {
    let fits = window_for(size, room(), None).scale;
    let share = (fits / (px_per_mm * 1e3)).min(1.0);
    size.map(|v| (v * share * 100.0).floor().max(1.0) / 100.0)
}

/// Keys that are down.
#[derive(Debug, Clone, Copy, Default)]
struct Held {
    arrows: [bool; 4],
}

/// What the loop of frames needs.
struct Loop {
    hand: HandDesk,
    window: Signal<Window>,
    plume: StoredValue<Option<Plume>, LocalStorage>,
    beat: Beat,
    held: StoredValue<Held>,
    before: f64,
    job_distance: f64,
    overlap: f64,
    /// Whether one beat of two is drawn strong.
    strong: RwSignal<bool>,
    elbow: Memo<bool>,
    chalk: Memo<bool>,
    /// Times of the events that were told and not drawn yet [ms].
    sent: StoredValue<std::collections::VecDeque<f64>>,
    last_event: StoredValue<f64>,
}

fn timed() -> bool {
    document().body().is_some_and(|b| b.has_attribute(TIMED))
}

fn measure(name: &str, from: f64) {
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

impl Loop {
    fn frame(&mut self) {
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

    fn keys(&mut self, time: f64, took: f64, plan: Option<&Plan>) {
        let [left, right, up, down] = self.held.get_value().arrows;
        if !(left || right || up || down) {
            return;
        }
        let way = took * 1e-3 / plan.map_or(2.0, |p| p.pace);
        let side = |plus: bool, minus: bool| f64::from(u8::from(plus)) - f64::from(u8::from(minus));
        self.travel(time, [way * side(right, left), KEYS_DOWN * way * side(up, down)]);
    }

    fn gamepad(&mut self, time: f64, took: f64, plan: Option<&Plan>) {
        let Some(pad) = gamepad() else { return };
        let axis = |i: u32| pad.axes().get(i).as_f64().filter(|v| v.abs() > 0.08).unwrap_or(0.0);
        let button =
            |i: u32| pad.buttons().get(i).dyn_into::<web_sys::GamepadButton>().map_or(0.0, |b| b.value());
        let way = 1.6 * took * 1e-3 / plan.map_or(2.0, |p| p.pace);
        let (x, y, pull) = (axis(0), axis(1), button(7));
        let farther = button(5) - button(4);
        if x != 0.0 || y != 0.0 {
            self.travel(time, [way * x, -way * y]);
        }
        if farther != 0.0 {
            self.hand.gun.update_value(|gun| gun.reach(time, 1.0 + 0.6e-3 * took * farther));
        }
        let pressed = pull > 0.02;
        let own = self.hand.device.get_untracked() == 4;
        if pressed || own {
            self.hand
                .gun
                .update_value(|gun| gun.trigger(time, if pressed { Pull::Pressed(pull) } else { Pull::Off }));
        }
        if (pressed || x != 0.0 || y != 0.0) && !own {
            self.hand.device.set(4);
        }
    }

    fn travel(&mut self, time: f64, way: [f64; 2]) {
        let half = self.window.get_untracked().size.map(|v| 0.5 * v + 0.2);
        self.last_event.set_value(time);
        self.hand.gun.update_value(|gun| {
            let at = [0, 1].map(|i| (gun.at[i] + way[i]).clamp(-half[i], half[i]));
            gun.move_to(time, at);
        });
    }

    /// The try ends by itself past the last row.
    fn end(&self, time: f64, plan: Option<&Plan>) {
        let Some(plan) = plan else { return };
        let ends = self.hand.gun.with_value(|gun| {
            let last = gun.moments().iter().rev().find(|m| m.trigger > 0.0).map(|m| m.y);
            let low = plan.rows.iter().copied().fold(f64::MAX, f64::min);
            let over = gun.off_since().is_some_and(|since| time - since > ENDS);
            over && last.is_some_and(|y| y < low + 0.5 * plan.spacing)
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
            let every = beats(plan).1;
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

fn gamepad() -> Option<web_sys::Gamepad> {
    let list = window().navigator().get_gamepads().ok()?;
    list.iter().find_map(|pad| pad.dyn_into::<web_sys::Gamepad>().ok().filter(web_sys::Gamepad::connected))
}

/// Places of the beats along the panel, from its left edge [m], and the time from one to the next [s].
pub fn beats(plan: &Plan) -> (Vec<f64>, f64) {
    let width = plan.size[0];
    let count = (width * plan.pace / 0.6).round().clamp(1.0, 12.0);
    ((0..=count as u32).map(|i| width * f64::from(i) / count).collect(), width * plan.pace / count)
}

/// A number of an event with its fraction of a pixel.
fn exact(event: &JsValue, name: &str) -> f64 {
    js_sys::Reflect::get(event, &name.into()).ok().and_then(|v| v.as_f64()).unwrap_or(0.0)
}

fn every_frame(alive: StoredValue<bool>, work: Rc<dyn Fn()>) {
    request_animation_frame(move || {
        if alive.try_get_value() == Some(true) {
            work();
            every_frame(alive, work);
        }
    });
}

/// The stage.
#[component]
pub fn Stage(size: [f64; 2]) -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let width = RwSignal::new(room());
    let resized = window_event_listener(leptos::ev::resize, move |_| width.set(room()));
    on_cleanup(move || resized.remove());
    let place = Memo::new(move |_| window_for(size, width.get(), hand.px_per_mm.get()));
    let pad = if narrow() { NARROW } else { WIDE };
    let extent = move || place.get().extent();
    let whole = move || {
        let [a, b] = extent();
        [a + pad[0] + pad[1], b + pad[2] + pad[3]]
    };
    let (film_node, plume_node) = (NodeRef::<html::Canvas>::new(), NodeRef::<html::Canvas>::new());
    let stage_node = NodeRef::<html::Div>::new();
    let layer = StoredValue::new_local(None::<FilmLayer>);
    let plume = StoredValue::new_local(None::<Plume>);
    let chalk = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_none_or(|j| j.practice.chalk)));
    let elbow = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.practice.elbow)));
    let band = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().and_then(|j| j.spec).map(|s| s.low)));
    let strong = RwSignal::new(false);
    let sent = StoredValue::new(std::collections::VecDeque::new());
    let last_event = StoredValue::new(0.0);
    let held = StoredValue::new(Held::default());

    // Canvases are made anew when the panel's place on the screen changes.
    Effect::new(move |_| {
        let (Some(film), Some(over)) = (film_node.get(), plume_node.get()) else { return };
        let window = place.get();
        layer.set_value(FilmLayer::new(film, window, band.get()));
        plume.set_value(Plume::new(&over, whole(), still_motion()));
    });
    Effect::new(move |_| {
        let phase = hand.phase.get();
        let playing = hand.replay.with(Option::is_some);
        let _ = (place.get(), band.get());
        let film = hand.errand.film.get();
        let from = now();
        layer.with_value(|layer| {
            let Some(layer) = layer else { return };
            match film {
                Some(film) if phase == Phase::Judged && !playing => layer.seen(&film),
                Some(film) => layer.live(&film),
                None => layer.clear(),
            }
        });
        if timed() && phase == Phase::Spraying {
            if let Some(event) = sent.try_update_value(std::collections::VecDeque::pop_front).flatten() {
                measure("hand-film", event);
            }
            measure("hand-draw", from);
        }
    });

    let alive = StoredValue::new(true);
    on_cleanup(move || {
        alive.try_update_value(|a| *a = false);
    });
    let (job_distance, overlap) = desk
        .parsed
        .with_untracked(|j| j.as_ref().map_or((0.18, 0.5), |j| (j.stroke.distance, j.stroke.overlap)));
    let frames = Rc::new(std::cell::RefCell::new(Loop {
        hand,
        window: place.into(),
        plume,
        beat: Beat::new(),
        held,
        before: now(),
        job_distance,
        overlap,
        strong,
        elbow,
        chalk,
        sent,
        last_event,
    }));
    every_frame(alive, Rc::new(move || frames.borrow_mut().frame()));
    if hand.phase.get_untracked() == Phase::Ready {
        // Where the keys begin: outside the panel, left of the first pass.
        hand.gun.update_value(|gun| gun.at = [-0.5 * size[0] - 0.08, 0.5 * size[1]]);
    }

    let open = move || matches!(hand.phase.get_untracked(), Phase::Ready | Phase::Spraying | Phase::Held);
    let aimed = move |event: &JsValue| {
        let rect = stage_node.get_untracked().map(|s| s.get_bounding_client_rect());
        let (x, y) = rect
            .map_or((0.0, 0.0), |r| (exact(event, "clientX") - r.left(), exact(event, "clientY") - r.top()));
        place.get_untracked().place(x, y)
    };
    let touches = StoredValue::new(Vec::<(i32, [f64; 2])>::new());
    let resume = move |time: f64| {
        if hand.phase.get_untracked() == Phase::Held {
            hand.gun.update_value(|gun| {
                let since = gun.off_since().unwrap_or(time);
                gun.resume(since, time);
            });
            hand.phase.set(Phase::Spraying);
        }
    };
    let pointer = move |event: &PointerEvent| {
        let kind = event.pointer_type();
        hand.device.set(match kind.as_str() {
            "pen" => 1,
            "touch" => 2,
            _ => 0,
        });
    };
    let pulled = move |event: &PointerEvent| match event.pointer_type().as_str() {
        "pen" => Pull::Pressed(f64::from(event.pressure())),
        _ => Pull::Since(event.time_stamp()),
    };
    let down = move |event: PointerEvent| {
        if !open() || event.button() != 0 {
            return;
        }
        focus();
        pointer(&event);
        resume(event.time_stamp());
        if let Some(stage) = stage_node.get_untracked() {
            // Refused only for a pointer that is gone already.
            let _ = stage.set_pointer_capture(event.pointer_id());
        }
        let at = aimed(&event);
        if event.pointer_type() == "touch" {
            touches.update_value(|t| {
                t.push((event.pointer_id(), [exact(&event, "clientX"), exact(&event, "clientY")]))
            });
            if touches.with_value(Vec::len) > 1 {
                hand.gun.update_value(|gun| gun.trigger(event.time_stamp(), Pull::Off));
                return;
            }
        }
        last_event.set_value(event.time_stamp());
        hand.gun.update_value(|gun| {
            gun.move_to(event.time_stamp(), at);
            gun.trigger(event.time_stamp(), pulled(&event));
        });
    };
    let moved = move |event: PointerEvent| {
        if !open() {
            return;
        }
        if event.pointer_type() == "touch" && touches.with_value(Vec::len) > 1 {
            let factor = touches.try_update_value(|t| pinch(t, &event)).flatten();
            if let Some(factor) = factor {
                hand.gun.update_value(|gun| gun.reach(event.time_stamp(), factor));
            }
            return;
        }
        let coalesced = event.get_coalesced_events();
        let events: Vec<PointerEvent> = coalesced.iter().filter_map(|e| e.dyn_into().ok()).collect();
        let all = if events.is_empty() { vec![event] } else { events };
        hand.gun.update_value(|gun| {
            for event in &all {
                let time = event.time_stamp();
                if event.pointer_type() == "pen" {
                    gun.tilted(f64::from(event.tilt_x()), f64::from(event.tilt_y()));
                    if event.buttons() & 1 == 1 {
                        gun.trigger(time, Pull::Pressed(f64::from(event.pressure())));
                    }
                }
                gun.move_to(time, aimed(event));
                last_event.set_value(time);
            }
        });
    };
    let up = move |event: PointerEvent| {
        touches.update_value(|t| t.retain(|(id, _)| *id != event.pointer_id()));
        hand.gun.update_value(|gun| gun.trigger(event.time_stamp(), Pull::Off));
    };
    let wheel = move |event: web_sys::WheelEvent| {
        if open() {
            event.prevent_default();
            hand.gun.update_value(|gun| gun.reach(event.time_stamp(), (-8e-4 * event.delta_y()).exp()));
        }
    };
    let key = move |event: web_sys::KeyboardEvent, on: bool| {
        let arrow =
            ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"].iter().position(|k| *k == event.key());
        let time = event.time_stamp();
        // On a panel turned upright the arrows keep their sense on the screen.
        let arrow = arrow.map(|i| if place.get_untracked().turned { turned_arrow(&event.key()) } else { i });
        match (event.key().as_str(), arrow) {
            (_, Some(i)) => {
                held.update_value(|h| h.arrows[i] = on);
                hand.device.set(3);
            }
            (" ", _) if open() => {
                if on && !event.repeat() {
                    resume(time);
                    hand.device.set(3);
                }
                hand.gun
                    .update_value(|gun| gun.trigger(time, if on { Pull::Since(time) } else { Pull::Off }));
            }
            ("PageUp", _) if on && open() => hand.gun.update_value(|gun| gun.reach(time, 1.0 / 1.03)),
            ("PageDown", _) if on && open() => hand.gun.update_value(|gun| gun.reach(time, 1.03)),
            ("s" | "S", _) if on => hand.gun.update_value(crate::state::hand::Sprayer::step),
            ("Enter", _) if on => hand.done(),
            _ => return,
        }
        event.prevent_default();
    };
    let left = move || {
        held.set_value(Held::default());
        touches.set_value(Vec::new());
        hand.gun.update_value(|gun| gun.pause(now()));
    };
    let hidden = leptos::prelude::window_event_listener_untyped("visibilitychange", move |_| {
        if document().hidden() {
            left();
            if hand.phase.get_untracked() == Phase::Spraying {
                hand.tell_new();
                hand.phase.set(Phase::Held);
            }
        }
    });
    on_cleanup(move || hidden.remove());
    on_cleanup(move || {
        hand.gun.try_update_value(|gun| gun.pause(0.0));
    });

    let spoken = move || {
        let system = desk.system.get();
        let say = |v: f64| said(Quantity::Length, v, system);
        hand.phase.get();
        let (at, distance) = hand.gun.with_value(|gun| (gun.at, gun.distance));
        let how = w.devices.get(hand.device.get()).map_or("", |d| d.1);
        fill(w.stage, &[w.begin, &say(at[0]), &say(at[1]), &say(distance), how])
    };
    let pixels = move |y: f64| {
        let place = place.get();
        (0.5 * size[1] - y) * place.scale
    };
    let ticks = move || {
        let plan = hand.told.with(|t| t.plan.clone());
        let (Some(plan), true) = (plan, chalk.get()) else { return String::new() };
        let rows: Vec<f64> = plan.rows.iter().map(|y| pixels(*y)).collect();
        let at: Vec<f64> = beats(&plan).0.iter().map(|x| x * place.get().scale).collect();
        let [a, b] = extent();
        draw::ticks(&rows, &at, (a, b), place.get().turned)
    };
    let judged = move || {
        hand.told
            .with(|t| t.card.clone())
            .filter(|c| hand.phase.get() == Phase::Judged && !c.passes.is_empty())
    };
    let lines = move |card: &Card| -> Vec<((f64, f64), (f64, f64))> {
        let place = place.get();
        let half = 0.5 * size[0] - 0.015;
        let at = |x: f64, y: f64| {
            let [px, py] = place.pixel([x.clamp(-half, half), y]);
            (px - place.corner[0], py - place.corner[1])
        };
        card.passes.iter().map(|p| (at(p.ends[0], p.y), at(p.ends[1], p.y))).collect()
    };
    let over = move || {
        let Some(card) = judged() else { return String::new() };
        let place = place.get();
        let at: Vec<(f64, f64)> = card
            .advice
            .iter()
            .map(|a| {
                let [x, y] = place.pixel(a.place);
                (x - place.corner[0], y - place.corner[1])
            })
            .collect();
        let [a, b] = extent();
        draw::passes(&lines(&card), Some(hand.chosen.get())) + &draw::discs(&at, (a, b))
    };
    let ruler = move || {
        let (card, plan) = (judged()?, hand.told.with(|t| t.plan.clone())?);
        let places: Vec<f64> = card.passes.iter().map(|p| pixels(p.y)).collect();
        let figures: Vec<(String, Option<&str>)> = card
            .spacing
            .iter()
            .map(|s| {
                let figure = length(*s, desk.system.get());
                (
                    figure.split(crate::figures::THIN).next().unwrap_or("").to_string(),
                    gap(*s, plan.spacing, &w),
                )
            })
            .collect();
        Some(draw::ruler(&places, &figures))
    };
    let unit = move || {
        said(Quantity::Length, 1.0, desk.system.get())
            .split(crate::figures::THIN)
            .nth(1)
            .unwrap_or("mm")
            .to_string()
    };
    view! {
        <div class="hand-head">
            <p><b>{w.as_seen}</b> " " <span class="text">{w.as_seen_note}</span></p>
            <p class="text" hidden=move || judged().is_none()>{move || format!("{} {}", unit(), w.down)}</p>
        </div>
        <div
            node_ref=stage_node
            id=ID
            class="hand-stage"
            class:judged=move || !matches!(hand.phase.get(), Phase::Ready | Phase::Spraying | Phase::Held)
            role="application"
            tabindex="0"
            aria-label=spoken
            style:width=move || format!("{}px", whole()[0])
            style:height=move || format!("{}px", whole()[1])
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=up
            on:pointercancel=up
            on:lostpointercapture=up
            on:wheel=wheel
            on:keydown=move |e| key(e, true)
            on:keyup=move |e| key(e, false)
            on:blur=move |_| left()
            on:contextmenu=move |e| e.prevent_default()
        >
            <canvas node_ref=film_node class="hand-film" aria-hidden="true"
                style:left=move || format!("{}px", place.get().corner[0]) style:top=move || format!("{}px", place.get().corner[1])
                style:width=move || format!("{}px", extent()[0]) style:height=move || format!("{}px", extent()[1])></canvas>
            <svg class="hand-over" aria-hidden="true" width=move || whole()[0].to_string() height=move || whole()[1].to_string()>
                <g transform=move || { let c = place.get().corner; format!("translate({} {})", c[0], c[1]) }>
                    <g class="hand-ticks" class:strong=move || strong.get() inner_html=ticks></g>
                    <g inner_html=over></g>
                    <g transform=move || format!("translate({} 0)", extent()[0] + 12.0)
                        inner_html=move || if place.get().turned { String::new() } else { ruler().unwrap_or_default() }></g>
                </g>
            </svg>
            <canvas node_ref=plume_node class="hand-plume" aria-hidden="true"
                style:width=move || format!("{}px", whole()[0]) style:height=move || format!("{}px", whole()[1])></canvas>
        </div>
        <div class="hand-foot">
            {move || match hand.phase.get() {
                Phase::Ready => view! { <p class="text">{w.begin}</p> }.into_any(),
                Phase::Spraying => view! { <p class="text">{w.spraying}</p> }.into_any(),
                Phase::Held => view! { <p class="text" role="status">{w.held}</p> }.into_any(),
                _ => ().into_any(),
            }}
            {move || (chalk.get() && matches!(hand.phase.get(), Phase::Ready | Phase::Spraying)).then(|| hand.told.with(|t| t.plan.as_ref().map(|p| {
                view! { <p class="small">{fill(w.beat, &[&seconds(beats(p).1)])}</p> }
            })))}
            <p class="small">{move || flying(hand)}</p>
            <button type="button" class="main-button" data-do="done" hidden=move || !matches!(hand.phase.get(), Phase::Spraying | Phase::Held)
                on:click=move |_| hand.done()>{w.done}</button>
            <button type="button" class="plain-box" data-do="step" hidden=move || !elbow.get() || !matches!(hand.phase.get(), Phase::Ready | Phase::Spraying)
                on:click=move |_| hand.gun.update_value(crate::state::hand::Sprayer::step)>{w.step}</button>
        </div>
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
