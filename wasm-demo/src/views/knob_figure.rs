//! A knob's turn counter and its figure to type.

use leptos::prelude::*;
use leptos::{ev, html};
use mistcoat::units::System;

use super::desk::desk;
use super::knob::{capture, name, now, pressure, turns_word};
use crate::draw::spiral::spiral;
use crate::figures::{parse_turns, turns};
use crate::state::Knob;
use crate::words::{fill, words};

/// The spiral; dragged round its middle it turns the knob.
#[component]
pub fn Counter(knob: Knob) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<leptos::svg::Svg>::new();
    let held = StoredValue::new(None::<f64>);
    let angle = move |event: &ev::PointerEvent| -> Option<f64> {
        let b = node.get_untracked()?.get_bounding_client_rect();
        let x = f64::from(event.client_x()) - b.left() - 0.5 * b.width();
        let y = f64::from(event.client_y()) - b.top() - 0.5 * b.height();
        (x.hypot(y) > 4.0).then(|| y.atan2(x))
    };
    let drawn = move || {
        let (o, f) = now(desk, knob);
        spiral(o * f, f)
    };
    view! {
        <svg node_ref=node class="spiral" viewBox="0 0 44 44" width="44" height="44" aria-hidden="true"
            on:pointerdown=move |event: ev::PointerEvent| {
                capture(&event);
                desk.in_hand.set(Some(knob));
                held.set_value(angle(&event));
            }
            on:pointermove=move |event: ev::PointerEvent| {
                if let (Some(from), Some(to)) = (held.get_value(), angle(&event)) {
                    let mut by = from - to;
                    let half = std::f64::consts::PI;
                    if by > half { by -= 2.0 * half } else if by < -half { by += 2.0 * half }
                    let (open, full) = untrack(|| now(desk, knob));
                    desk.turn(knob, (open * full + by / (2.0 * half)) / full);
                    held.set_value(Some(to));
                }
            }
            on:pointerup=move |_| held.set_value(None)
            on:pointercancel=move |_| held.set_value(None)
        >
            <g inner_html=drawn></g>
        </svg>
    }
}

/// Turns, typed.
#[component]
pub fn Turns(knob: Knob) -> impl IntoView {
    let desk = desk();
    let w = words();
    let wrong = RwSignal::new(None::<String>);
    let full = move || now(desk, knob).1;
    // A memo: other changes of the gun must not write over what is being typed.
    let shown = Memo::new(move |_| turns(now(desk, knob).0 * full()));
    let input = NodeRef::<html::Input>::new();
    view! {
        <label class="turns">
            <input node_ref=input type="text" inputmode="text" autocomplete="off" size="4" aria-label=format!("{}, {}", name(knob), w.turns_out)
                aria-invalid=move || wrong.get().is_some().to_string()
                prop:value=move || shown.get()
                on:focus=move |_| desk.in_hand.set(Some(knob))
                on:change=move |event| {
                    let text = event_target_value(&event);
                    let full = untrack(full);
                    match parse_turns(&text).filter(|t| *t <= full + 1e-9) {
                        Some(t) => { wrong.set(None); desk.turn(knob, t / full); }
                        None => wrong.set(Some(fill(w.turns_wrong, &[text.trim(), &turns(full)]))),
                    }
                    if let Some(input) = input.get_untracked() && wrong.with_untracked(Option::is_none) {
                        input.set_value(&shown.get_untracked());
                    }
                } />
            <span>{move || turns_word(now(desk, knob).0 * full())}</span>
        </label>
        {move || wrong.get().map(|m| view! { <span class="complaint" role="alert">{m}</span> })}
    }
}

/// Pressure at the gun, typed.
#[component]
pub fn Pressure() -> impl IntoView {
    let desk = desk();
    let input = NodeRef::<html::Input>::new();
    view! {
        <label class="turns">
            <input node_ref=input type="text" name="gun.inlet_pressure" autocomplete="off" size="7" aria-label=format!("{}, {}", words().gauge, words().at_the_gun)
                prop:value=move || pressure(desk)
                on:change=move |event| {
                    let mut text = event_target_value(&event).replace(crate::figures::THIN, " ").trim().to_string();
                    if mistcoat::units::parse_number(&text).is_ok() {
                        text += if desk.system.get_untracked() == System::Us { " psi" } else { " bar" };
                    }
                    if desk.set("gun.inlet_pressure", &text) && let Some(input) = input.get_untracked() {
                        input.set_value(&untrack(|| pressure(desk)));
                    }
                } />
            <span>{words().at_the_gun} ", " {words().kits.pulled}</span>
        </label>
    }
}
