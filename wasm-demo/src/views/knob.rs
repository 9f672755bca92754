//! One knob: taken hold of on the drawn gun, or by its label with turn counter and figure.

use leptos::ev;
use leptos::prelude::*;
use mistcoat::units::Quantity;
use wasm_bindgen::JsCast;

use super::desk::{Desk, desk};
use super::fields::Complaint;
use super::knob_figure::{Counter, Turns};
use super::told::Told;
use crate::draw::gun::{geometry::Pose, hit};
use crate::figures::{of_100, said, turns};
use crate::state::{Knob, Place};
use crate::words::{fill, words};

/// Pointer travel for one turn when dragged up or down [px].
const PX_PER_TURN: f64 = 56.0;
/// An eighth of a turn.
const STEP: f64 = 0.125;

/// A knob's name.
pub fn name(knob: Knob) -> &'static str {
    match knob {
        Knob::Fan => words().fan_knob,
        Knob::Air => words().air_knob,
        Knob::Fluid => words().fluid_knob,
    }
}

/// The job's key behind a knob.
pub fn key(knob: Knob) -> &'static str {
    match knob {
        Knob::Fan => "gun.fan",
        Knob::Air => "gun.air_knob",
        Knob::Fluid => "gun.fluid",
    }
}

/// Opening and turns of a knob now.
pub fn now(desk: Desk, knob: Knob) -> (f64, f64) {
    let face = desk.face();
    (face.open(knob), face.turns(knob))
}

/// Why this gun has no such knob; none where it has one.
pub fn absent(desk: Desk, knob: Knob) -> Option<&'static str> {
    (now(desk, knob).1 <= 0.0).then_some(match knob {
        Knob::Air => words().kits.no_air_knob,
        Knob::Fan | Knob::Fluid => words().kits.no_fan_knob,
    })
}

fn turn_by(desk: Desk, knob: Knob, by: f64) {
    let (open, full) = untrack(|| now(desk, knob));
    if full <= 0.0 {
        return;
    }
    // To the next eighth, so that keys and words agree.
    let turned = ((open * full + by) / STEP).round() * STEP;
    desk.turn(knob, turned / full);
}

/// What is said of a knob's place: "2¼ turns out".
fn place(desk: Desk, knob: Knob) -> String {
    let (open, full) = now(desk, knob);
    let turned = open * full;
    format!("{} {}", turns(turned), turns_word(turned))
}

/// "turn out" up to one turn, else "turns out".
pub fn turns_word(turned: f64) -> &'static str {
    let some_of_one = turned > STEP / 2.0 && turned < 1.0 + STEP / 2.0;
    if some_of_one { words().turn_out } else { words().turns_out }
}

fn spoken(desk: Desk, knob: Knob) -> String {
    if let Some(why) = absent(desk, knob) {
        return why.to_string();
    }
    format!("{}, {}", place(desk, knob), fill(words().open_of_100, &[&of_100(now(desk, knob).0)]))
}

/// Pressure at the inlet, said.
pub fn pressure(desk: Desk) -> String {
    let pa = desk.parsed.with(|j| j.as_ref().map(|j| j.gun.inlet_pressure)).unwrap_or(f64::NAN);
    said(Quantity::Pressure, pa, desk.system.get())
}

fn on_key(desk: Desk, knob: Knob, event: &ev::KeyboardEvent) {
    let step = if event.shift_key() { 0.5 } else { STEP };
    match event.key().as_str() {
        "ArrowUp" | "ArrowRight" => turn_by(desk, knob, step),
        "ArrowDown" | "ArrowLeft" => turn_by(desk, knob, -step),
        "PageUp" => turn_by(desk, knob, 0.5),
        "PageDown" => turn_by(desk, knob, -0.5),
        "Home" => desk.turn(knob, 0.0),
        "End" => desk.turn(knob, 1.0),
        _ => return,
    }
    event.prevent_default();
}

/// Holds the pointer so that a drag goes on outside the knob.
pub fn capture(event: &ev::PointerEvent) {
    if let Some(element) = event.current_target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) {
        // Refused only when the pointer is already up; then there is no drag either.
        let _ = element.set_pointer_capture(event.pointer_id());
    }
}

/// The knob on the drawing: an unseen face to take hold of, and its focus ring.
#[component]
pub fn KnobHit(knob: Knob) -> impl IntoView {
    let desk = desk();
    let held = StoredValue::new(None::<(f64, f64)>);
    let face = Memo::new(move |_| hit::knob(knob, &Pose::of(&desk.face())));
    let rect = move |class: &'static str, by: f64| {
        let h = move || face.get().grown(by);
        view! {
            <rect class=class transform=move || h().transform x=move || h().x.to_string() y=move || h().y.to_string()
                width=move || h().w.to_string() height=move || h().h.to_string() rx="12" />
        }
    };
    view! {
        <g
            class="knob-hit"
            role="slider"
            tabindex="0"
            data-knob=key(knob)
            aria-disabled=move || absent(desk, knob).is_some().to_string()
            aria-label=name(knob)
            aria-valuemin="0"
            aria-valuemax=move || format!("{:.3}", now(desk, knob).1)
            aria-valuenow=move || { let (o, f) = now(desk, knob); format!("{:.3}", o * f) }
            aria-valuetext=move || spoken(desk, knob)
            on:focus=move |_| desk.in_hand.set(Some(knob))
            on:keydown=move |event| on_key(desk, knob, &event)
            on:wheel=move |event: ev::WheelEvent| {
                if desk.in_hand.get_untracked() == Some(knob) {
                    event.prevent_default();
                    turn_by(desk, knob, if event.delta_y() < 0.0 { STEP } else { -STEP });
                }
            }
            on:pointerdown=move |event: ev::PointerEvent| {
                capture(&event);
                desk.in_hand.set(Some(knob));
                let (open, full) = untrack(|| now(desk, knob));
                held.set_value(Some((f64::from(event.client_y()), open * full)));
            }
            on:pointermove=move |event: ev::PointerEvent| {
                if let Some((from, turned)) = held.get_value() {
                    let full = untrack(|| now(desk, knob)).1;
                    if full <= 0.0 { return; }
                    let to = turned + (from - f64::from(event.client_y())) / PX_PER_TURN;
                    desk.turn(knob, (to / STEP * 2.0).round() * STEP / 2.0 / full);
                }
            }
            on:pointerup=move |_| held.set_value(None)
            on:pointercancel=move |_| held.set_value(None)
        >
            {rect("hit", 10.0)}
            {rect("ring-gap", 6.0)}
            {rect("ring", 11.0)}
        </g>
    }
}

/// The knob's label: number, name, turn counter, figure to type, what it does.
#[component]
pub fn KnobLabel(knob: Knob) -> impl IntoView {
    let desk = desk();
    let w = words();
    let is_now = move || desk.in_hand.get() == Some(knob);
    let class = match knob {
        Knob::Fan => "fan",
        Knob::Air => "air",
        Knob::Fluid => "fluid",
    };
    let does = match knob {
        Knob::Fan => w.fan_does,
        Knob::Air => w.air_does,
        Knob::Fluid => w.fluid_does,
    };
    let step = move |by: f64, sign: &'static str, words: &'static str| {
        let at_end = move || {
            let (o, _) = now(desk, knob);
            if by > 0.0 { o >= 0.999 } else { o <= 0.001 }
        };
        view! {
            <button type="button" class="step" aria-label=fill(words, &[name(knob)]) disabled=at_end
                on:click=move |_| turn_by(desk, knob, by)>{sign}</button>
        }
    };
    view! {
        <div class=format!("knob-label knob-{class}") class:now=is_now>
            <p class="knob-name"><span class="disc">{knob.number()}</span>{name(knob)}</p>
            <p class="why" hidden=move || absent(desk, knob).is_none()>{move || absent(desk, knob)}</p>
            <div class="counter" hidden=move || absent(desk, knob).is_some()>
                {step(-STEP, "\u{2212}", w.less)}
                <Counter knob=knob />
                <div class="counter-words">
                    <Turns knob=knob />
                    <span class="small">{move || {
                        let open = now(desk, knob).0;
                        if open <= 0.0005 { w.shut.to_string() }
                        else if open >= 0.9995 { w.wide_open.to_string() }
                        else { fill(w.open_of_100, &[&of_100(open)]) }
                    }}</span>
                </div>
                {step(STEP, "+", w.more)}
            </div>
            <Complaint key=key(knob) keys=&[] />
            {match knob {
                Knob::Fan => None,
                Knob::Air => Some(view! { <Told place=Place::Air /> }),
                Knob::Fluid => Some(view! { <Told place=Place::Fluid /> }),
            }}
            <p class="does small">{does}</p>
        </div>
    }
}
