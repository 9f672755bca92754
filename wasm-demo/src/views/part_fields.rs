//! The part, its sizes, and the strokes.

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape};
use mistcoat::units::Quantity;

use super::desk::desk;
use super::fields::{Complaint, KitAndPaint, NumberField, QuantityField};
use super::tubes::Tubes;
use crate::state::{PART_WORDS, part_word, with_part};
use crate::words::words;

/// A size of the part by its key; none where the part has no such size.
fn size(job: &Job, key: &str) -> Option<f64> {
    match (&job.part, key) {
        (PartShape::Tube { diameter, .. }, "diameter") => Some(*diameter),
        (PartShape::Tube { length, .. }, "length") => Some(*length),
        (PartShape::Panel { width, .. } | PartShape::Curved { width, .. }, "width") => Some(*width),
        (PartShape::Panel { height, .. } | PartShape::Curved { height, .. }, "height") => Some(*height),
        (PartShape::Curved { radius, .. }, "radius") => Some(*radius),
        _ => None,
    }
}

/// The fields.
#[component]
pub fn PartFields() -> impl IntoView {
    let desk = desk();
    let w = words();
    let word = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().map_or("panel", part_word)));
    let swap = move |e| {
        let edited = desk.job.with_untracked(|text| with_part(text, &event_target_value(&e)));
        if desk.take("part", edited) {
            desk.member.set(0);
            desk.kept.set(None);
        }
    };
    let overlap = || {
        view! { <NumberField label=words().field_overlap key="stroke.overlap" read=|j| format!("{:.0} %", 100.0 * j.stroke.overlap) /> }
    };
    let sides = || {
        view! { <NumberField label=words().field_sides key="stroke.sides" read=|j| j.stroke.sides.to_string() /> }
    };
    view! {
        <KitAndPaint />
        <div class="field">
            <label><span>{w.field_shape}</span>
                <select name="part" on:change=swap>
                    {PART_WORDS.iter().zip(w.parts.choices).map(|(&of, name)| view! {
                        <option value=of selected=move || word.get() == of>{name}</option>
                    }).collect_view()}
                </select>
            </label>
            <Complaint key="part" keys=&[] />
        </div>
        {move || match word.get() {
            "tube" => view! {
                <QuantityField label=w.field_diameter key="part.tube.diameter" quantity=Quantity::Length read=|j| size(j, "diameter") />
                <QuantityField label=w.field_length key="part.tube.length" quantity=Quantity::Length read=|j| size(j, "length") />
                {sides()}
            }.into_any(),
            "panel" => view! {
                <QuantityField label=w.field_width key="part.panel.width" quantity=Quantity::Length read=|j| size(j, "width") />
                <QuantityField label=w.field_height key="part.panel.height" quantity=Quantity::Length read=|j| size(j, "height") />
                {overlap()}
            }.into_any(),
            "curved" => view! {
                <QuantityField label=w.parts.radius key="part.curved.radius" quantity=Quantity::Length read=|j| size(j, "radius") />
                <QuantityField label=w.parts.along key="part.curved.width" quantity=Quantity::Length read=|j| size(j, "width") />
                <QuantityField label=w.parts.round key="part.curved.height" quantity=Quantity::Length read=|j| size(j, "height") />
                {overlap()}
            }.into_any(),
            "own" => view! { <Tubes /> {sides()} }.into_any(),
            _ => view! { {sides()} }.into_any(),
        }}
        <QuantityField label=w.field_distance key="stroke.distance" quantity=Quantity::Length read=|j| Some(j.stroke.distance) />
        <QuantityField label=w.field_speed key="stroke.speed" quantity=Quantity::Speed read=|j| Some(j.stroke.speed) />
        <NumberField label=w.field_coats key="stroke.coats" read=|j| j.stroke.coats.to_string() />
    }
}
