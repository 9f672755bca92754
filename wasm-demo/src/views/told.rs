//! Warnings of the gun as set, each beside the control that puts it right.

use leptos::prelude::*;

use super::desk::desk;
use crate::state::{Place, told};

/// What is to be told at one control.
#[component]
pub fn Told(place: Place) -> impl IntoView {
    let desk = desk();
    let here = Memo::new(move |_| {
        let seconds = desk.fresh().and_then(|run| run.number("paint.seconds"));
        desk.parsed.with(|job| job.as_ref().map(|job| told(job, seconds))).unwrap_or_default()
    });
    view! {
        <div class="told" role="status">
            {move || here.get().into_iter().filter(|(at, _)| *at == place)
                .map(|(_, warning)| view! { <p class="small">{warning.to_string()}</p> }).collect_view()}
        </div>
    }
}
