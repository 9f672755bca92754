//! What should I set? The answer in a sentence, what to turn and how exact it must be, paint against time.

mod said;
mod trade;

use leptos::prelude::*;
use mistcoat::job::with_key;
use mistcoat::search::Answer;

use super::desk::{Desk, desk};
use super::errand::Errand;
use crate::figures::of_100;
use crate::task::Task;
use crate::words::{fill, words};

/// What the view keeps while others are shown: the errand, and the text it is of.
#[derive(Clone, Copy, Default)]
pub struct SearchDesk {
    errand: Errand,
    begun: RwSignal<String>,
}

/// Writes keys into the job: one step for Undo.
pub fn set(desk: Desk, keys: &[(String, String)]) {
    let edited = desk.job.with_untracked(|text| {
        keys.iter().try_fold(text.clone(), |text, (key, value)| with_key(&text, key, value))
    });
    desk.take("search", edited);
}

/// The section.
#[component]
pub fn WhatToSet() -> impl IntoView {
    let page = desk();
    let own = use_context::<SearchDesk>().unwrap_or_default();
    let w = words().search;
    let errand = own.errand;
    let begin = move |_| {
        let text = page.job.get_untracked();
        own.begun.set(text.clone());
        errand.begin(Task::Search { job: text });
    };
    let answer = Memo::new(move |_| {
        errand.standing.with(|s| s.answer.as_deref().and_then(|a| serde_json::from_str::<Answer>(a).ok()))
    });
    let fresh = move || own.begun.with(|begun| page.job.with(|job| job == begun));
    let button = move || {
        let standing = errand.standing.get();
        let known = standing.answer.is_some() || standing.stopped;
        (!standing.busy).then(|| {
            view! {
                {(known && !fresh()).then(|| view! { <p class="small">{w.changed}</p> })}
                <button type="button" class="plain-box" data-find="search" on:click=begin>{if known { w.find_again } else { w.find }}</button>
            }
        })
    };
    let work = move || {
        let standing = errand.standing.get();
        if let Some((key, message)) = standing.refused {
            let message = key.map_or(message.clone(), |key| format!("{key}: {message}"));
            return view! { <p class="complaint" role="alert" data-search="refused">{w.refused} " " {message}</p> }.into_any();
        }
        if !standing.busy {
            return view! { <i class="change-state" data-search=if standing.complete { "done" } else { "" }></i> }.into_any();
        }
        view! {
            <div class="change-work" data-search="busy" aria-live="polite">
                <span>{fill(w.busy, &[&of_100(standing.done)])}</span>
                <button type="button" class="link" on:click=move |_| errand.stop()>{words().stop}</button>
                <i class="change-rule" style:width=format!("{:.1}%", 100.0 * standing.done.clamp(0.0, 1.0))></i>
            </div>
        }
        .into_any()
    };
    view! {
        <section class="search" aria-labelledby="search-title">
            <h2 id="search-title">{w.title}</h2>
            {move || answer.with(Option::is_none).then(|| view! { <p class="text">{w.what_it_does}</p> })}
            {button}
            {work}
            {move || answer.get().map(|a| view! { <said::Said answer=a system=page.system.get() /> })}
        </section>
    }
}
