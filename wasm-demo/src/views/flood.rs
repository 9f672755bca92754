//! The flood test: the card with its runs, and what they say.

use leptos::prelude::*;
use mistcoat::units::Quantity;

use super::desk::{How, desk};
use super::errand::Errand;
use super::faults::words;
use crate::draw::curtain::curtain;
use crate::figures::said;
use crate::task::Task;
use crate::task::flood::Answer;
use crate::words::fill;

/// The flood test's work, kept while views come and go.
#[derive(Clone, Copy, Default)]
pub struct FloodDesk(pub Errand);

/// The card of a flood test in place of the burst's.
#[component]
pub fn FloodCard() -> impl IntoView {
    let desk = desk();
    let w = words();
    let FloodDesk(errand) = use_context::<FloodDesk>().unwrap_or_default();
    let seconds = desk.flood_seconds;
    Effect::new(move |_| {
        let (job, how) = (desk.flown.get(), desk.how.get());
        let seconds = seconds.get();
        if how == How::Flood {
            errand.begin(Task::Flood { job, seconds });
        } else {
            errand.stop();
        }
    });
    let answer = Memo::new(move |_| {
        errand.standing.with(|s| s.answer.as_deref().and_then(|a| serde_json::from_str::<Answer>(a).ok()))
    });
    let reading = move || {
        let answer = answer.get()?;
        let words = w.readings.iter().find(|(word, _)| *word == answer.reading)?;
        Some((
            words.1,
            fill(w.flood_longest, &[&said(Quantity::Length, answer.longest * 1e-3, desk.system.get())]),
        ))
    };
    let refused = move || errand.standing.with(|s| s.refused.clone().map(|(_, why)| why));
    let state = move || {
        errand.standing.with(|s| match (&s.refused, s.complete) {
            (Some(_), _) => "refused",
            (None, true) => "done",
            _ => "busy",
        })
    };
    view! {
        <section class="flood" data-flood=state data-reading=move || answer.get().map(|a| a.reading)>
            <h2 class="name">{w.flood_head}</h2>
            <svg viewBox="0 0 500 420" role="img" aria-label=move || reading().map_or(w.flood_busy, |r| r.0)
                inner_html=move || answer.get().map(|a| curtain(&a)).unwrap_or_default()></svg>
            <p class="advice" aria-live="polite">{move || reading().map_or(w.flood_busy.to_string(), |r| r.0.to_string())}</p>
            <p class="text">{move || reading().map(|r| r.1)}</p>
            {move || refused().map(|why| view! { <p class="complaint">{why}</p> })}
            <p class="small">{w.flood_note}</p>
        </section>
    }
}
