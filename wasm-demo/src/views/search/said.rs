//! The answer: one sentence with its range, what to turn and how exact it must be, what keeps it from less.

use leptos::prelude::*;
use mistcoat::search::{Answer, Flat, Found, Lever, bounds, exact, film, for_whom, name, sentence, value};
use mistcoat::units::{Quantity, System};

use super::super::desk::desk;
use super::set;
use super::trade::Trade;
use crate::draw::range::{range_bar, round_axis};
use crate::figures::{parted, seconds, with_signs};
use crate::words::{fill, words};

#[component]
pub fn Said(answer: Answer, system: System) -> impl IntoView {
    let page = desk();
    let w = words().search;
    let all = with_signs(&sentence(&answer, system));
    let Some(best) = answer.best.clone() else {
        return view! { <p class="sentence">{all}</p> }.into_any();
    };
    let row = |lever: Lever, from: f64, to: Option<f64>| {
        let flat = answer.flat.iter().find(|f| f.lever == lever).cloned();
        let told = flat.as_ref().map(|f| exact(f, system));
        view! {
            <tr class:stays=to.is_none()>
                <th scope="row">{name(lever)}</th>
                <td>{value(lever, from, system)}</td>
                <td><b>{to.map_or_else(|| w.stays.into(), |to| value(lever, to, system))}</b></td>
                <td><span class="flat"><FlatBar flat=flat system=system /> <span class="small">{told}</span></span></td>
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
    let limits =
        bounds(&answer, system).into_iter().map(|b| view! { <li>{with_signs(&b)}</li> }).collect_view();
    view! {
        <div class="search-said">
            <div class="search-answer">
                <div>
                    {(!answer.complete).then(|| view! { <p class="kicker">{w.so_far}</p> })}
                    <Headline best=best.clone() system=system />
                </div>
                <div>
                    <p class="text">{all}</p>
                    <p class="text">{with_signs(&film(&best, system))}</p>
                    <p class="small">{with_signs(&for_whom(&answer, system))}</p>
                </div>
            </div>
            <table class="search-set">
                <thead><tr><th scope="col">{w.set}</th><th scope="col">{w.now}</th><th scope="col">{w.to}</th><th scope="col">{w.exact}</th></tr></thead>
                <tbody>{changed}{stays}</tbody>
            </table>
            {can_set.then(|| view! { <button type="button" class="main-button" data-set="search" on:click=move |_| set(page, &keys)>{w.set_it}</button> })}
            {answer.complete.then(|| view! {
                <div class="search-more">
                    <Trade answer=answer.clone() system=system />
                    <div><h3>{w.limits}</h3><ul class="text">{limits}</ul></div>
                </div>
            })}
        </div>
    }
    .into_any()
}

/// One number and its range.
#[component]
fn Headline(best: Found, system: System) -> impl IntoView {
    let w = words().search;
    let ml = |v: f64| parted(Quantity::Volume, v * 1e-6, system);
    let number = |v: f64| ml(v).0.parse::<f64>().unwrap_or(0.0);
    let (figure, unit) = ml(best.ml);
    let (end, step) = round_axis(number(best.ml_high) * 1.02);
    let bar = range_bar(336.0, number(best.ml_low), number(best.ml), number(best.ml_high), end, step, &unit);
    let title = if best.stops.is_empty() { w.takes } else { w.nearest };
    let tail = fill(w.for_a_part, &[&unit, &seconds(best.seconds)]);
    view! {
        <p class="sentence"><span>{title}</span><span><b class="number">{figure}</b>" "{tail}</span></p>
        <svg class="range" viewBox="0 0 336 42" aria-hidden="true" inner_html=bar></svg>
    }
}

/// The range that is as good, on the stretch that was flown, whose ends are said; the best as a mark.
#[component]
fn FlatBar(flat: Option<Flat>, system: System) -> impl IntoView {
    let flat = flat.filter(|f| f.points.len() > 1 && f.lever != Lever::Axis)?;
    let first = flat.points.first().map_or(flat.at, |p| p[0]).min(flat.low.value);
    let last = flat.points.last().map_or(flat.at, |p| p[0]).max(flat.high.value);
    let place = |v: f64| 100.0 * ((v - first) / (last - first).max(1e-12)).clamp(0.0, 1.0);
    let (low, high) = (place(flat.low.value), place(flat.high.value));
    Some(view! {
        <span class="flat-line" aria-hidden="true">
            <span>{value(flat.lever, first, system)}</span>
            <span class="flat-bar">
                <i class="flat-good" style:left=format!("{low:.1}%") style:width=format!("{:.1}%", (high - low).max(1.0))></i>
                <i class="flat-at" style:left=format!("{:.1}%", place(flat.at))></i>
            </span>
            <span>{value(flat.lever, last, system)}</span>
        </span>
    })
}
