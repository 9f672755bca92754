//! Paint view: copy the data sheet, read cups, choose the thinner; how much to mix on the clipboard.

use leptos::prelude::*;
use mistcoat::catalogue;

use super::cup_seconds::CupSeconds;
use super::desk::desk;
use super::fields::{Complaint, choose_paint};
use super::mix::MixClipboard;
use super::sheet_fields::DataSheet;
use super::thinner::{SolventsAndCoverage, ThinnerSpeeds};
use crate::words::words;

/// The view.
#[component]
pub fn PaintView() -> impl IntoView {
    let desk = desk();
    let w = words();
    let now = move || desk.parsed.with(|j| j.as_ref().map(|j| j.paint.id.clone())).unwrap_or_default();
    let isocyanate = move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.paint.isocyanate));
    view! {
        <div class="paint-grid">
            <div class="paint-main">
                <section class="paint-block">
                    <div class="paint-choice">
                        <h2>{w.paint.copy}</h2>
                        <div class="field inline"><label><span>{w.field_paint}</span>
                            <select name="paint.kind" on:change=move |e| choose_paint(desk, &event_target_value(&e))>
                                {catalogue::paints().iter().map(|p| view! {
                                    <option value=p.id selected=move || now() == p.id>{p.name}</option>
                                }).collect_view()}
                            </select></label>
                        </div>
                        <Complaint key="paint.kind" keys=&[] />
                    </div>
                    {move || if isocyanate() {
                        view! { <p class="small">{w.caution_two_pack} " " {w.paint.law}</p> }.into_any()
                    } else {
                        view! { <p class="small">{w.paint.one_pack_caution}</p> }.into_any()
                    }}
                    <p class="text">{w.paint.copy_how}</p>
                    <DataSheet />
                </section>
                <CupSeconds />
                <ThinnerSpeeds />
                <SolventsAndCoverage />
                <section class="paint-block"><super::judged::DewBlock fields=true /></section>
            </div>
            <MixClipboard />
        </div>
        <p class="caution small">{w.caution_start}</p>
    }
}
