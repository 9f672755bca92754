//! True size, by a bank card held to the screen. Kept for the visit.
//!
//! A card of the size ID-1 is 85.60 by 53.98 mm (ISO/IEC 7810).

use leptos::prelude::*;

use super::super::desk::desk;
use super::place::fitting;
use super::{hand_desk, hand_words};

/// The card [mm].
const CARD: [f64; 2] = [85.60, 53.98];
/// Pixels for a mm to begin with: a CSS pixel is meant to be 1/96 of an inch.
const USUAL: f64 = 96.0 / 25.4;
/// Where the visit keeps it.
const KEY: &str = "mistcoat-px-per-mm";

fn storage() -> Option<web_sys::Storage> {
    window().session_storage().ok().flatten()
}

/// What this visit has set [px/mm].
pub fn kept() -> Option<f64> {
    let text = storage()?.get_item(KEY).ok().flatten()?;
    text.parse::<f64>().ok().filter(|v| (1.0..=20.0).contains(v))
}

/// Opens the card's outline; dragged by its corner or stepped until it fits.
#[component]
pub fn TrueSize(size: [f64; 2]) -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let open = RwSignal::new(false);
    let scale = RwSignal::new(kept().unwrap_or(USUAL));
    let drag = StoredValue::new(None::<(f64, f64)>);
    let set = move |v: f64| scale.set(v.clamp(1.5, 15.0));
    let fits = move |_| {
        if let Some(storage) = storage() {
            // Kept only as long as the visit; a browser that keeps nothing loses nothing else.
            let _ = storage.set_item(KEY, &scale.get_untracked().to_string());
        }
        hand.px_per_mm.set(Some(scale.get_untracked()));
        open.set(false);
    };
    let take = move |_| {
        let Some(px) = hand.px_per_mm.get_untracked() else { return };
        let [width, height] = fitting(size, px);
        let edited = desk.job.with_untracked(|text| {
            let text = mistcoat::job::with_key(text, "part.panel.width", &format!("{:.0} mm", width * 1e3))?;
            mistcoat::job::with_key(&text, "part.panel.height", &format!("{:.0} mm", height * 1e3))
        });
        desk.take("part.panel.width", edited);
    };
    view! {
        <button type="button" class="link" data-do="size" aria-expanded=move || open.get().to_string() on:click=move |_| open.update(|o| *o = !*o)>{w.set_size}</button>
        <button type="button" class="link" hidden=move || hand.px_per_mm.get().is_none_or(|px| fitting(size, px) == size) on:click=take>{w.take_fitting}</button>
        {move || open.get().then(|| view! {
            <section class="hand-size-card">
                <p class="text">{w.size_how}</p>
                <div class="hand-bank" role="slider" tabindex="0" aria-label=w.size_how aria-valuemin="1.5" aria-valuemax="15"
                    aria-valuenow=move || format!("{:.3}", scale.get())
                    style:width=move || format!("{}px", CARD[0] * scale.get()) style:height=move || format!("{}px", CARD[1] * scale.get())
                    on:pointerdown=move |e| {
                        drag.set_value(Some((f64::from(e.client_x()), scale.get_untracked())));
                        if let Some(card) = e.target().and_then(|t| wasm_bindgen::JsCast::dyn_into::<web_sys::Element>(t).ok()) {
                            // Refused only for a pointer that is gone already.
                            let _ = card.set_pointer_capture(e.pointer_id());
                        }
                    }
                    on:pointermove=move |e| if let Some((from, before)) = drag.get_value() {
                        set(before + (f64::from(e.client_x()) - from) / CARD[0]);
                    }
                    on:pointerup=move |_| drag.set_value(None)
                    on:lostpointercapture=move |_| drag.set_value(None)
                    on:keydown=move |e| {
                        let by = match e.key().as_str() {
                            "ArrowRight" | "ArrowUp" => 0.01,
                            "ArrowLeft" | "ArrowDown" => -0.01,
                            _ => return,
                        };
                        e.prevent_default();
                        set(scale.get_untracked() + by);
                    }
                ><span>"85.60 × 53.98 mm"</span></div>
                <div class="hand-buttons">
                    <button type="button" class="plain-box" on:click=move |_| set(scale.get_untracked() - 0.02)>{w.size_smaller}</button>
                    <button type="button" class="plain-box" on:click=move |_| set(scale.get_untracked() + 0.02)>{w.size_larger}</button>
                    <button type="button" class="main-button" data-do="fits" on:click=fits>{w.size_fits}</button>
                </div>
            </section>
        })}
    }
}
