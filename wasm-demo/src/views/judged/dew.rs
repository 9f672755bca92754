//! The dew point and the part: from the job alone, no run is needed.

use leptos::prelude::*;
use mistcoat::judge::{CLEARANCE, Verdict, dew_of, words as said_by};
use mistcoat::units::Quantity;

use crate::draw::dew::{DewLine, dew_line};
use crate::figures::said;
use crate::figures::with_signs;
use crate::views::desk::desk;
use crate::views::fields::{NumberField, QuantityField};
use crate::words::{fill, words};

/// Line, sentence, and on request the fields that it hangs on.
#[component]
pub fn DewBlock(fields: bool) -> impl IntoView {
    let desk = desk();
    let w = words().judge;
    let dew = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().and_then(dew_of)));
    let shown = move || {
        let system = desk.system.get();
        let Some(dew) = dew.get() else { return view! { <p class="text">{w.dew_none}</p> }.into_any() };
        let word =
            |c: f64, words: &str| (c, fill(words, &[&said(Quantity::Temperature, c + 273.15, system)]));
        let line = DewLine {
            dew: word(dew.dew_point_c, w.dew_point),
            least: word(dew.dew_point_c + CLEARANCE, w.dew_least),
            part: word(dew.surface_c, w.dew_part),
        };
        let drawn = dew_line(&line, 336.0, if fields { "dew-near-paint" } else { "dew-near" });
        view! {
            <svg viewBox="0 0 336 86" role="img" aria-label=w.dew_drawn inner_html=drawn></svg>
            <p class="text">{with_signs(&said_by::dew(&dew, system))}</p>
        }
        .into_any()
    };
    let state = move || match dew.get().map(|d| d.verdict) {
        Some(Verdict::Pass) => "pass",
        Some(_) => "fail",
        None => "none",
    };
    view! {
        <div class="judged-block" data-dew=state>
            <h3 class="name">{w.dew}</h3>
            {shown}
            {fields.then(|| view! {
                <div class="fields">
                    <QuantityField label=w.booth_temperature key="booth.temperature" quantity=Quantity::Temperature read=|j| Some(j.booth.temperature) />
                    <NumberField label=w.booth_humidity key="booth.humidity" read=|j| format!("{:.0} %", 100.0 * j.booth.humidity) />
                    <QuantityField label=w.part_temperature key="part.temperature" quantity=Quantity::Temperature read=|j| Some(j.part_temperature) />
                </div>
            })}
            <p class="small">{w.dew_note}</p>
        </div>
    }
}
