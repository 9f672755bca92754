//! Labels of the drawn gun that are no knobs, and the trigger.

use leptos::ev;
use leptos::prelude::*;
use mistcoat::units::Quantity;

use super::cup::CupLabel;
use super::desk::{View, desk};
use super::fields::Complaint;
use super::knob_figure::Pressure;
use super::told::Told;
use crate::draw::gun::{geometry::Pose, hit};
use crate::figures::said;
use crate::state::{Feed, Place, Stage};
use crate::words::{fill, words};

/// Labels that are no knobs.
#[component]
pub fn SideLabels(full: bool) -> impl IntoView {
    let desk = desk();
    let w = words();
    let rest = move || {
        let bar = desk.face().rest_bar?;
        Some(fill(w.kits.at_rest, &[&said(Quantity::Pressure, bar * 1e5, desk.system.get())]))
    };
    let tip = move || {
        let bore = desk.parsed.with(|j| j.as_ref().map(|j| j.kit.tip_bore)).unwrap_or(f64::NAN);
        fill(w.tip_does, &[&format!("{:.1}\u{202f}mm", 1e3 * bore)])
    };
    let clicks = move || w.cap_clicks[usize::from(desk.face().cap_eighths % 4)];
    // Before a card the cap's own buttons stand beside the faults.
    let turnable = move || {
        desk.view.get() != View::Card && desk.parsed.with(|j| j.as_ref().is_some_and(crate::state::is_tube))
    };
    let turn_cap = move |_| {
        let to = if desk.face().cap_eighths == 0 { "across" } else { "along" };
        desk.set("stroke.fan_axis", to);
    };
    view! {
        {full.then(|| view! {
            <p class="tag tag-order">{w.order}</p>
            <Tag class="tag tag-vent" name=w.vent says=Signal::derive(move || if desk.face().feed == Feed::Pressure { w.kits.no_vent } else { w.vent_does }.into()) />
            <Tag class="tag tag-way" name=w.paint_way says=Signal::derive(move || w.paint_way_does.into()) />
            <Tag class="tag tag-tip" name=w.tip says=Signal::derive(tip) />
            <Tag class="tag tag-closer" name=w.closer says=Signal::derive(move || w.closer_does.into()) />
            <Tag class="tag tag-passage" name=w.air_way says=Signal::derive(move || w.air_way_does.into()) />
            <p class="tag tag-hose small">{w.hose}</p>
        })}
        <CupLabel />
        <div class="tag tag-cap">
            <p class="knob-name">{w.air_cap}</p>
            <p class="small">{full.then_some(w.cap_cut)} " " {move || (!full).then(clicks)}</p>
            {move || (!full && turnable()).then(|| view! { <button type="button" class="link" on:click=turn_cap>{w.turn_cap}</button> })}
        </div>
        {full.then(|| view! {
            <div class="tag tag-front">
                <p class="knob-name">{w.cap_front}</p>
                <p class="small">{clicks}</p>
                {move || turnable().then(|| view! { <button type="button" class="link" on:click=turn_cap>{w.turn_cap}</button> })}
            </div>
        })}
        <Tag class="tag tag-trigger" name=w.trigger says=Signal::derive(move || if full { w.trigger_does } else { w.trigger_short }.into()) />
        <div class="tag tag-gauge">
            <p class="knob-name">{w.gauge}</p>
            <Pressure />
            <Complaint key="gun.inlet_pressure" keys=&[] />
            <p class="small">{move || rest()} " " {w.kits.gauge_why}</p>
            <Told place=Place::Gauge />
        </div>
        <div class="tag tag-foot">
            <p class="small">{w.elsewhere}</p>
            <button type="button" class="link" on:click=move |_| desk.mirror.update(|m| *m = !*m)>
                {move || if desk.mirror.get() { w.right_hand } else { w.left_hand }}
            </button>
        </div>
    }
}

/// A name and what is to be said of it.
#[component]
fn Tag(class: &'static str, name: &'static str, says: Signal<String>) -> impl IntoView {
    view! { <div class=class><p class="knob-name">{name}</p><p class="small">{says}</p></div> }
}

/// The trigger: rest, air, paint.
#[component]
pub fn Trigger() -> impl IntoView {
    let desk = desk();
    let w = words();
    let place = move || match desk.stage.get() {
        Stage::Rest => 0_u8,
        Stage::Air => 1,
        Stage::Paint => 2,
    };
    let set = move |to: i16| {
        desk.stage.set(match to {
            ..=0 => Stage::Rest,
            1 => Stage::Air,
            _ => Stage::Paint,
        });
    };
    let face = Memo::new(move |_| hit::trigger(&Pose::of(&desk.face())));
    let rect = move |class: &'static str, by: f64| {
        let h = move || face.get().grown(by);
        view! {
            <rect class=class transform=move || h().transform x=move || h().x.to_string() y=move || h().y.to_string()
                width=move || h().w.to_string() height=move || h().h.to_string() rx="16" />
        }
    };
    view! {
        <g class="knob-hit" role="slider" tabindex="0" aria-label=w.trigger aria-valuemin="0" aria-valuemax="2"
            aria-valuenow=move || place().to_string() aria-valuetext=move || w.stages[usize::from(place())]
            on:keydown=move |event: ev::KeyboardEvent| {
                let at = i16::from(untrack(place));
                match event.key().as_str() {
                    "ArrowUp" | "ArrowRight" => set(at + 1),
                    "ArrowDown" | "ArrowLeft" => set(at - 1),
                    "Home" => set(0),
                    "End" => set(2),
                    _ => return,
                }
                event.prevent_default();
            }
            on:click=move |_| set((i16::from(untrack(place)) + 1) % 3)
        >
            {rect("hit", 0.0)} {rect("ring-gap", 0.0)} {rect("ring", 2.0)}
        </g>
    }
}
