//! What should I set? The answer in a sentence, what to turn and how exact it must be, paint against time.

use leptos::prelude::*;
use mistcoat::job::with_key;
use mistcoat::search::{Answer, Flat, Lever, bounds, exact, film, for_whom, name, sentence, value};
use mistcoat::units::{Quantity, System};

use super::desk::{Desk, desk};
use super::errand::Errand;
use crate::figures::{of_100, said, seconds};
use crate::task::Task;
use crate::words::{fill, words};

/// Size of the chart [px].
const WIDE: f64 = 360.0;
const TALL: f64 = 200.0;
/// Room for its axes [px].
const LEFT: f64 = 60.0;
const BELOW: f64 = 30.0;

/// What the view keeps while others are shown: the errand, and the text it is of.
#[derive(Clone, Copy, Default)]
pub struct SearchDesk {
    errand: Errand,
    begun: RwSignal<String>,
}

/// Writes keys into the job: one step for Undo.
fn set(desk: Desk, keys: &[(String, String)]) {
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
            {move || answer.get().map(|a| view! { <Said answer=a system=page.system.get() /> })}
        </section>
    }
}

#[component]
fn Said(answer: Answer, system: System) -> impl IntoView {
    let page = desk();
    let w = words().search;
    let Some(best) = answer.best.clone() else {
        return view! { <p class="sentence">{sentence(&answer, system)}</p> }.into_any();
    };
    let row = |lever: Lever, from: f64, to: Option<f64>| {
        let flat = answer.flat.iter().find(|f| f.lever == lever).cloned();
        let told = flat.as_ref().map(|f| exact(f, system));
        view! {
            <tr>
                <th scope="row">{name(lever)}</th>
                <td data-head=w.now>{value(lever, from, system)}</td>
                <td data-head=w.to><b>{to.map_or_else(String::new, |to| value(lever, to, system))}</b></td>
                <td data-head=w.exact><FlatBar flat=flat /> <span class="small">{told}</span></td>
            </tr>
        }
    };
    let changed = best.changes.iter().map(|c| row(c.lever, c.from, Some(c.to))).collect_view();
    let stays = answer
        .flat
        .iter()
        .filter(|f| best.changes.iter().all(|c| c.lever != f.lever))
        .map(|f| row(f.lever, f.at, None))
        .collect_view();
    let keys = best.keys.clone();
    let can_set = !best.changes.is_empty();
    let limits = bounds(&answer, system).into_iter().map(|b| view! { <li>{b}</li> }).collect_view();
    view! {
        <div class="search-said">
            {(!answer.complete).then(|| view! { <p class="small">{w.so_far}</p> })}
            <p class="sentence">{sentence(&answer, system)}</p>
            <p class="text">{film(&best, system)}</p>
            <table class="search-set">
                <thead><tr><th scope="col">{w.set}</th><th scope="col">{w.now}</th><th scope="col">{w.to}</th><th scope="col">{w.exact}</th></tr></thead>
                <tbody>{changed}{stays}</tbody>
            </table>
            {can_set.then(|| view! { <button type="button" class="main-button" data-set="search" on:click=move |_| set(page, &keys)>{w.set_it}</button> })}
            <div class="search-more">
                {(answer.front.len() > 1).then(|| view! { <Trade answer=answer.clone() system=system /> })}
                {answer.complete.then(|| view! { <div><h3>{w.limits}</h3><ul class="text">{limits}</ul></div> })}
            </div>
            <p class="small">{for_whom(&answer, system)}</p>
        </div>
    }
    .into_any()
}

/// The range that is as good, on the stretch that was flown; the best as a mark.
#[component]
fn FlatBar(flat: Option<Flat>) -> impl IntoView {
    let flat = flat.filter(|f| f.points.len() > 1 && f.lever != Lever::Axis)?;
    let first = flat.points.first().map_or(flat.at, |p| p[0]).min(flat.low.value);
    let last = flat.points.last().map_or(flat.at, |p| p[0]).max(flat.high.value);
    let place = |v: f64| 100.0 * ((v - first) / (last - first).max(1e-12)).clamp(0.0, 1.0);
    let (low, high) = (place(flat.low.value), place(flat.high.value));
    Some(view! {
        <span class="flat-bar" aria-hidden="true">
            <i class="flat-good" style:left=format!("{low:.1}%") style:width=format!("{:.1}%", (high - low).max(1.0))></i>
            <i class="flat-at" style:left=format!("{:.1}%", place(flat.at))></i>
        </span>
    })
}

/// Paint against time, drawn and as a table.
#[component]
fn Trade(answer: Answer, system: System) -> impl IntoView {
    let page = desk();
    let w = words().search;
    let front = answer.front;
    let now = answer.now.as_ref().map(|n| (n.ml, n.seconds));
    let ends = |of: &dyn Fn((f64, f64)) -> f64| {
        let all = front.iter().map(|f| (f.ml, f.seconds)).chain(now).map(of);
        let (low, high) = all.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        let spare = 0.1 * (high - low).max(0.02 * high);
        (low - spare, high + spare)
    };
    let (x, y) = (ends(&|p| p.1), ends(&|p| p.0));
    let at = move |ml: f64, s: f64| {
        let across = LEFT + (WIDE - LEFT - 8.0) * (s - x.0) / (x.1 - x.0);
        let down = 8.0 + (TALL - BELOW - 8.0) * (1.0 - (ml - y.0) / (y.1 - y.0));
        (across, down)
    };
    let line = front
        .iter()
        .map(|f| {
            let (a, b) = at(f.ml, f.seconds);
            format!("{a:.1},{b:.1}")
        })
        .collect::<Vec<_>>()
        .join(" ");
    let spots = front
        .iter()
        .map(|f| {
            let (a, b) = at(f.ml, f.seconds);
            view! { <circle class="trade-spot" cx=format!("{a:.1}") cy=format!("{b:.1}") r="4"></circle> }
        })
        .collect_view();
    let here = now.map(|(ml, s)| {
        let (a, b) = at(ml, s);
        let anchor = if a > 0.6 * WIDE { "end" } else { "start" };
        view! {
            <circle class="trade-now" cx=format!("{a:.1}") cy=format!("{b:.1}") r="4"></circle>
            <text class="trade-word" x=format!("{:.1}", if anchor == "end" { a - 8.0 } else { a + 8.0 }) y=format!("{:.1}", b + 4.0) text-anchor=anchor>{w.now}</text>
        }
    });
    let ml = move |v: f64| said(Quantity::Volume, v * 1e-6, system);
    let rows = front
        .into_iter()
        .map(|f| {
            let keys = f.keys.clone();
            view! {
                <tr><td>{ml(f.ml)}</td><td>{seconds(f.seconds)}</td>
                    <td><button type="button" class="link" on:click=move |_| set(page, &keys)>{w.set_it}</button></td></tr>
            }
        })
        .collect_view();
    view! {
        <div class="trade">
            <h3>{w.trade}</h3>
            <svg class="chart" viewBox=format!("0 0 {WIDE} {TALL}") role="img" aria-label=w.trade>
                <path class="trade-axis" d=format!("M{LEFT} 4V{0}H{1}", TALL - BELOW, WIDE - 4.0)></path>
                <polyline class="trade-line" points=line></polyline>
                {spots} {here}
                <text class="trade-word" x=format!("{}", LEFT - 6.0) y="16" text-anchor="end">{ml(y.1)}</text>
                <text class="trade-word" x=format!("{}", LEFT - 6.0) y=format!("{}", TALL - BELOW) text-anchor="end">{ml(y.0)}</text>
                <text class="trade-word" x=format!("{LEFT}") y=format!("{}", TALL - 10.0)>{seconds(x.0)}</text>
                <text class="trade-word" x=format!("{}", WIDE - 4.0) y=format!("{}", TALL - 10.0) text-anchor="end">{seconds(x.1)}</text>
            </svg>
            <p class="small">{w.trade_says}</p>
            <table class="trade-table">
                <thead><tr><th scope="col">{w.paint}</th><th scope="col">{w.time}</th><td></td></tr></thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}
