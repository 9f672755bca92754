//! Fields of the job: typed text with its unit, or a choice; what is refused is said beside the field.

use leptos::html;
use leptos::prelude::*;
use mistcoat::catalogue;
use mistcoat::job::Job;
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::gun_choice::KitField;
pub use crate::figures::with_unit;
use crate::figures::{minutes, said};
use crate::state::with_paint;
use crate::words::words;

/// The sentence under a field whose value was refused.
#[component]
pub fn Complaint(key: &'static str, keys: &'static [&'static str]) -> impl IntoView {
    let desk = desk();
    move || {
        desk.refused
            .get()
            .filter(|r| r.key == key || keys.contains(&r.key.as_str()))
            .map(|r| view! { <p class="complaint" role="alert"><span aria-hidden="true">"\u{00d7} "</span>{r.message}</p> })
    }
}

fn wrong(desk: Desk, key: &'static str) -> impl Fn() -> bool {
    move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key))
}

/// A quantity as text; a bare number takes the unit shown.
#[component]
pub fn QuantityField(
    label: &'static str,
    key: &'static str,
    quantity: Quantity,
    read: fn(&Job) -> Option<f64>,
) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<html::Input>::new();
    let shown = move || {
        let si = desk.parsed.with(|j| j.as_ref().and_then(read));
        si.map(|v| match quantity {
            Quantity::Time => minutes(v),
            _ => said(quantity, v, desk.system.get()),
        })
        .unwrap_or_default()
    };
    let bad = wrong(desk, key);
    view! {
        <div class="field">
            <label><span>{label}</span>
                <input node_ref=node type="text" autocomplete="off" name=key prop:value=shown aria-invalid=move || bad().to_string()
                    on:change=move |event| {
                        let text = with_unit(&event_target_value(&event), quantity, desk.system.get_untracked());
                        if desk.set(key, &text) && let Some(input) = node.get_untracked() {
                            input.set_value(&untrack(shown));
                        }
                    } />
            </label>
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// A bare number, share or count.
#[component]
pub fn NumberField(label: &'static str, key: &'static str, read: fn(&Job) -> String) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<html::Input>::new();
    let shown = move || desk.parsed.with(|j| j.as_ref().map(read)).unwrap_or_default();
    let bad = wrong(desk, key);
    view! {
        <div class="field">
            <label><span>{label}</span>
                <input node_ref=node type="text" autocomplete="off" name=key prop:value=shown aria-invalid=move || bad().to_string()
                    on:change=move |event| {
                        if desk.set(key, event_target_value(&event).trim()) && let Some(input) = node.get_untracked() {
                            input.set_value(&untrack(shown));
                        }
                    } />
            </label>
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// Gun and paint out of the catalogue.
#[component]
pub fn KitAndPaint() -> impl IntoView {
    let desk = desk();
    let w = words();
    let paint = move || desk.parsed.with(|j| j.as_ref().map(|j| j.paint.id.clone())).unwrap_or_default();
    let isocyanate = move || {
        let id = paint();
        catalogue::paints().iter().any(|p| p.id == id && p.isocyanate)
    };
    view! {
        <KitField />
        <div class="field">
            <label><span>{w.field_paint}</span>
                <select name="paint.kind" on:change=move |e| choose_paint(desk, &event_target_value(&e))>
                    {catalogue::paints().iter().map(|p| view! {
                        <option value=p.id selected=move || paint() == p.id>{p.name}</option>
                    }).collect_view()}
                </select>
            </label>
            <Complaint key="paint.kind" keys=&[] />
            {move || isocyanate().then(|| view! { <p class="small">{w.caution_two_pack}</p> })}
        </div>
    }
}

/// Takes another class of paint; what was copied from the old one's data sheet goes.
pub fn choose_paint(desk: Desk, id: &str) {
    let edited = desk.job.with_untracked(|text| with_paint(text, id));
    desk.take("paint.kind", edited);
}
