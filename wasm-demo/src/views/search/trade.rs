//! Paint against time: the set-ups of which none beats another in both, drawn and as a table.

use leptos::prelude::*;
use mistcoat::search::Answer;
use mistcoat::units::{Quantity, System};

use super::super::desk::desk;
use super::set;
use crate::figures::{said, seconds};
use crate::words::words;

/// Size of the chart [px].
const WIDE: f64 = 360.0;
const TALL: f64 = 200.0;
/// Room for its axes [px].
const LEFT: f64 = 60.0;
const BELOW: f64 = 30.0;

/// The section; where the least paint is also the quickest, one sentence.
#[component]
pub fn Trade(answer: Answer, system: System) -> impl IntoView {
    let page = desk();
    let w = words().search;
    let best = answer.best.as_ref().map(|b| (b.ml, b.seconds));
    // The best was flown again with more droplets: what it now beats in both is no choice.
    let beaten = |ml: f64, s: f64| best.is_some_and(|(a, b)| a <= ml && b <= s);
    let front: Vec<_> = answer.front.into_iter().filter(|f| !beaten(f.ml, f.seconds)).collect();
    if front.is_empty() {
        return view! { <div class="trade"><h3>{w.trade}</h3><p class="text" data-trade="none">{w.no_trade}</p></div> }.into_any();
    }
    let now = answer.now.as_ref().map(|n| (n.ml, n.seconds));
    let ends = |of: &dyn Fn((f64, f64)) -> f64| {
        let all = front.iter().map(|f| (f.ml, f.seconds)).chain(now).chain(best).map(of);
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
    let mut all: Vec<(f64, f64)> = front.iter().map(|f| (f.ml, f.seconds)).chain(best).collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    let line = all
        .iter()
        .map(|&(ml, s)| at(ml, s))
        .map(|(a, b)| format!("{a:.1},{b:.1}"))
        .collect::<Vec<_>>()
        .join(" ");
    let spot = |class: &'static str, (ml, s): (f64, f64)| {
        let (a, b) = at(ml, s);
        view! { <circle class=class cx=format!("{a:.1}") cy=format!("{b:.1}") r="4"></circle> }
    };
    let spots = front.iter().map(|f| spot("trade-spot", (f.ml, f.seconds))).collect_view();
    let named = |class: &'static str, word: &'static str, (ml, s): (f64, f64)| {
        let (a, b) = at(ml, s);
        let anchor = if a > 0.6 * WIDE { "end" } else { "start" };
        let x = if anchor == "end" { a - 8.0 } else { a + 8.0 };
        view! {
            {spot(class, (ml, s))}
            <text class="trade-word" x=format!("{x:.1}") y=format!("{:.1}", b + 4.0) text-anchor=anchor>{word}</text>
        }
    };
    let marks = (best.map(|b| named("trade-best", w.best, b)), now.map(|n| named("trade-now", w.now, n)));
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
                {spots} {marks.0} {marks.1}
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
    .into_any()
}
