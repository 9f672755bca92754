//! The cup: its level dragged on the drawing or typed, the pot's pressure, and how long it lasts.

use leptos::prelude::*;
use leptos::{ev, html};
use mistcoat::set_up;
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::fields::{Complaint, with_unit};
use super::knob::capture;
use super::told::Told;
use crate::draw::gun::hit;
use crate::figures::{of_100, said};
use crate::state::{Feed, Place};
use crate::words::{fill, words};

/// A twentieth of the cup: a step of the keys.
const STEP: f64 = 0.05;

fn level(desk: Desk) -> f64 {
    desk.parsed.with(|j| j.as_ref().map_or(0.0, |j| j.gun.cup_level))
}

fn fill_to(desk: Desk, level: f64) {
    desk.set("gun.cup_level", &format!("{}", (level.clamp(0.0, 1.0) * 100.0).round() / 100.0));
}

/// Place of a feed in lists of words.
pub fn nth(feed: Feed) -> usize {
    match feed {
        Feed::Gravity => 0,
        Feed::Suction => 1,
        Feed::Pressure => 2,
    }
}

/// The cup on the drawing: an unseen face to take the level by; `px` for each drawing unit.
#[component]
pub fn CupHit(px: f64) -> impl IntoView {
    let desk = desk();
    let held = StoredValue::new(None::<(f64, f64)>);
    let feed = Memo::new(move |_| desk.face().feed);
    let spoken = move || {
        let volume = desk.parsed.with(|j| j.as_ref().map(|j| j.kit.cup_volume)).unwrap_or(f64::NAN);
        fill(
            words().cup_left,
            &[
                &said(Quantity::Volume, level(desk) * volume, desk.system.get()),
                &said(Quantity::Volume, volume, desk.system.get()),
            ],
        )
    };
    move || {
        let (face, travel) = hit::cup(feed.get())?;
        let rect = move |class: &'static str, by: f64| {
            let h = face.clone().grown(by);
            view! { <rect class=class x=h.x.to_string() y=h.y.to_string() width=h.w.to_string() height=h.h.to_string() rx="12" /> }
        };
        Some(view! {
            <g class="knob-hit" role="slider" tabindex="0" data-knob="gun.cup_level" aria-label=words().kits.level
                aria-orientation="vertical" aria-valuemin="0" aria-valuemax="100"
                aria-valuenow=move || of_100(level(desk)) aria-valuetext=spoken
                on:keydown=move |event: ev::KeyboardEvent| {
                    let at = untrack(|| level(desk));
                    match event.key().as_str() {
                        "ArrowUp" | "ArrowRight" => fill_to(desk, at + STEP),
                        "ArrowDown" | "ArrowLeft" => fill_to(desk, at - STEP),
                        "Home" => fill_to(desk, 0.0),
                        "End" => fill_to(desk, 1.0),
                        _ => return,
                    }
                    event.prevent_default();
                }
                on:pointerdown=move |event: ev::PointerEvent| {
                    capture(&event);
                    held.set_value(Some((f64::from(event.client_y()), untrack(|| level(desk)))));
                }
                on:pointermove=move |event: ev::PointerEvent| {
                    if let Some((from, was)) = held.get_value() {
                        fill_to(desk, was + (from - f64::from(event.client_y())) / (travel * px));
                    }
                }
                on:pointerup=move |_| held.set_value(None)
                on:pointercancel=move |_| held.set_value(None)
            >
                {rect("hit", 0.0)} {rect("ring-gap", 0.0)} {rect("ring", 3.0)}
            </g>
        })
    }
}

/// The cup's label: level to type, what it holds, pot pressure, how long it lasts.
#[component]
pub fn CupLabel() -> impl IntoView {
    let desk = desk();
    let w = &words().kits;
    let node = NodeRef::<html::Input>::new();
    let feed = Memo::new(move |_| desk.face().feed);
    let shown = Memo::new(move |_| format!("{} %", of_100(level(desk))));
    let volume = move |v: f64| said(Quantity::Volume, v, desk.system.get());
    let holds = move || {
        let cup = desk.parsed.with(|j| j.as_ref().map(|j| j.kit.cup_volume)).unwrap_or(f64::NAN);
        fill(w.full, &[&volume(level(desk) * cup), &volume(cup)])
    };
    let lasts = move || {
        let seconds = desk.parsed.with(|j| {
            let j = j.as_ref()?;
            let flow = set_up::state(&j.kit, &j.gun, &j.paint, &j.booth).ok()?.paint_flow;
            j.kit.seconds_to_dry(j.gun.cup_level, flow).filter(|s| *s > 0.0)
        })?;
        Some(fill(w.dry_in, &[&crate::figures::seconds(seconds)]))
    };
    view! {
        <div class="tag tag-cup">
            <p class="knob-name">{move || w.cups[nth(feed.get())]}</p>
            <label class="turns">
                <input node_ref=node type="text" name="gun.cup_level" autocomplete="off" size="5" aria-label=w.level
                    prop:value=move || shown.get()
                    on:change=move |event| {
                        let mut text = event_target_value(&event).replace(crate::figures::THIN, " ").trim().to_string();
                        // "60" is sixty of a hundred; a share is at most 1.
                        if mistcoat::units::parse_number(&text).is_ok_and(|x| x > 1.0) {
                            text += " %";
                        }
                        if desk.set("gun.cup_level", &text) && let Some(input) = node.get_untracked() {
                            input.set_value(&shown.get_untracked());
                        }
                    } />
                <span class="small">{holds}</span>
            </label>
            <Complaint key="gun.cup_level" keys=&[] />
            {move || (feed.get() == Feed::Pressure).then(|| view! { <PotPressure /> })}
            <p class="small">{lasts}</p>
            <Told place=Place::Cup />
        </div>
    }
}

/// Pot pressure, typed.
#[component]
fn PotPressure() -> impl IntoView {
    let desk = desk();
    let w = &words().kits;
    let node = NodeRef::<html::Input>::new();
    let shown = Memo::new(move |_| {
        let pa = desk.parsed.with(|j| j.as_ref().map(|j| j.gun.pot_pressure)).unwrap_or(f64::NAN);
        said(Quantity::Pressure, pa, desk.system.get())
    });
    view! {
        <label class="turns">
            <input node_ref=node type="text" name="gun.pot_pressure" autocomplete="off" size="7" aria-label=w.pot
                prop:value=move || shown.get()
                on:change=move |event| {
                    let text = with_unit(&event_target_value(&event), Quantity::Pressure, desk.system.get_untracked());
                    if desk.set("gun.pot_pressure", &text) && let Some(input) = node.get_untracked() {
                        input.set_value(&shown.get_untracked());
                    }
                } />
            <span>{w.at_pot}</span>
        </label>
        <Complaint key="gun.pot_pressure" keys=&[] />
    }
}
