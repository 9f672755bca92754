//! Sweep: what if a knob is turned? One knob: curves with their ranges. Two knobs: a map.

mod chosen;
mod curves;
mod desk;
mod map;
mod own;
mod save;
mod table;

use leptos::prelude::*;

pub use self::desk::SweepDesk;
use self::desk::{sweep_desk, workers};
use crate::state::TABLE_TOP;
use crate::state::sweep::Preset;
use crate::words::{fill, words};

/// Words for a key: those of the list, else the key itself.
fn key_name(key: &str) -> String {
    words().sweep.keys.iter().find(|k| k.0 == key).map_or(key, |k| k.1).to_string()
}

/// The view.
#[component]
pub fn SweepView() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::desk::desk();
    // The first question stands open for who comes here first.
    Effect::new(move |before: Option<()>| {
        if before.is_none() && sweep.asked.with_untracked(Option::is_none) {
            page.job.with_untracked(|text| sweep.open(Preset::FanAndTube, text));
        }
    });
    let two = Memo::new(move |_| {
        sweep.asked.with(|asked| asked.as_ref().is_some_and(|asked| asked.plan.axes().len() == 2))
    });
    let state = move || match (sweep.busy.get(), sweep.stopped.get()) {
        (true, _) => "busy",
        (_, true) => "stopped",
        _ if sweep.progress.with(|(done, wanted)| *wanted > 0 && done == wanted) => "done",
        _ => "none",
    };
    view! {
        <div class="sweep-view" data-sweep=state>
            <Questions />
            <own::OwnKnobs />
            <Look />
            <Work />
            <div class="sweep-bench">
                <div class="sweep-drawn">
                    {move || if two.get() { view! { <map::KnobMapTable /> }.into_any() } else { view! { <curves::Curves /> }.into_any() }}
                </div>
                <chosen::Chosen />
            </div>
            <save::Save />
            <table::Figures />
            <super::search::WhatToSet />
            <p class="caution small">{words().caution_start} " " {words().caution_gun}</p>
        </div>
    }
}

/// The first questions.
#[component]
fn Questions() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::desk::desk();
    let w = words().sweep;
    let all = Preset::ALL
        .into_iter()
        .zip(w.presets)
        .map(|(preset, name)| {
            view! {
                <button type="button" class="sweep-ask" data-preset=preset.word()
                    aria-pressed=move || (sweep.preset.get() == Some(preset)).to_string()
                    on:click=move |_| page.job.with_untracked(|text| sweep.open(preset, text))>{name}</button>
            }
        })
        .collect_view();
    view! { <div class="sweep-asks" role="group" aria-label=w.ask>{all}</div> }
}

/// One sentence of what to look for, and what is flown.
#[component]
fn Look() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::desk::desk();
    let w = words().sweep;
    let look = move || {
        let place = sweep.preset.get().and_then(|p| Preset::ALL.iter().position(|q| *q == p));
        place.map_or(w.own_look, |i| w.look[i])
    };
    let flown = move || {
        let on = if sweep.on_own.get() {
            w.on_yours.to_string()
        } else {
            let table = sweep.asked.with(|a| a.as_ref().is_some_and(|a| a.base == TABLE_TOP));
            let text = if table { TABLE_TOP } else { crate::state::CHAIR_LEG };
            let system = page.system.get();
            let part = mistcoat::job::Job::from_toml(text)
                .map(|job| super::part_said::part_said(&job.part, system))
                .unwrap_or_default();
            fill(w.on_ours, &[&part])
        };
        match sweep.preset.get() {
            Some(preset) if preset.by_machine() => format!("{on} {}", w.by_machine),
            _ => on,
        }
    };
    view! {
        <div class="sweep-look">
            <p class="sentence">{look}</p>
            <p class="small">{flown}</p>
        </div>
    }
}

/// How far it is, and Stop.
#[component]
fn Work() -> impl IntoView {
    let sweep = sweep_desk();
    let w = words().sweep;
    let done = move || {
        let (done, wanted) = sweep.progress.get();
        fill(w.points_done, &[&done.to_string(), &wanted.to_string()])
    };
    let width = move || {
        let (done, wanted) = sweep.progress.get();
        format!("{:.1}%", 100.0 * done as f64 / wanted.max(1) as f64)
    };
    view! {
        <div class="sweep-work" aria-live="polite">
            <span>{done}</span>
            {move || sweep.busy.get().then(|| view! {
                <button type="button" class="link" data-stop on:click=move |_| sweep.stop()>{words().stop}</button>
                <span class="small">{fill(w.workers, &[&workers().to_string()])}</span>
            })}
            {move || sweep.stopped.get().then(|| view! {
                <span class="small">{w.stopped}</span>
                <button type="button" class="link" data-again on:click=move |_| sweep.again()>{w.go_on}</button>
            })}
            {move || sweep.failed.get().map(|message| view! { <p class="complaint">{fill(w.failed, &[&message])}</p> })}
            <div class="sweep-rule" class:on=move || sweep.busy.get() aria-hidden="true"><div style:width=width></div></div>
        </div>
    }
}
