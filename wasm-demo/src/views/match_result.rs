//! What the card tells of one's own gun, and taking it over.

use leptos::prelude::*;
use mistcoat::job::with_key;

use super::desk::desk;
use super::match_gun::{match_desk, plain, words};
use crate::draw::belief::belief;
use crate::task::matching::{Answer, Belief};
use crate::words::fill;

/// Width of a pair of bars [px].
const BARS: f64 = 220.0;

/// The answer, once there is one.
#[component]
pub fn MatchResult() -> impl IntoView {
    let desk = desk();
    let matching = match_desk();
    let w = words();
    let answer = Memo::new(move |_| {
        let text = matching.errand.standing.with(|s| s.answer.clone().filter(|_| s.complete))?;
        serde_json::from_str::<Answer>(&text).ok()
    });
    let stale = Memo::new(move |_| matching.asked.with(|asked| desk.job.with(|job| plain(job) != *asked)));
    let take = move |_| {
        let Some(answer) = answer.get_untracked() else { return };
        let edited = desk.job.with_untracked(|job| {
            answer.keys.iter().try_fold(plain(job), |text, (key, value)| with_key(&text, key, value))
        });
        desk.take("card", edited);
    };
    move || {
        answer.get().map(|answer| {
            let said = answer.said(desk.system.get()).to_vec();
            let bars = |name: &str| answer.beliefs.iter().find(|b| b.name == name).cloned();
            let nothing = answer.keys.is_empty();
            let rows: Vec<_> = said.into_iter().map(|s| (bars(&s.name), s)).collect();
            view! {
                <div class="match-result" class:stale=stale>
                    <h2>{w.told}</h2>
                    <dl class="match-told" aria-live="polite">
                        {rows.into_iter().map(|(bars, s)| view! {
                            <div>
                                <dt class="name">{s.name}</dt>
                                <dd class="text">{crate::figures::with_signs(&s.text)}</dd>
                                <dd class="match-bars">{bars.map(|b| view! { <Bars belief=b /> })}</dd>
                            </div>
                        }).collect_view()}
                    </dl>
                    <p class="small">{w.axis} " " <span class="key-before"></span>{w.before} " " <span class="key-after"></span>{w.after}</p>
                    <div class="buttons">
                        <button type="button" class="main-button" disabled=move || nothing || stale.get() on:click=take>{w.take}</button>
                        <span class="small">{move || if stale.get() { w.changed } else if nothing { w.nothing_to_take } else { "" }}</span>
                    </div>
                    <Table beliefs=answer.beliefs.clone() />
                </div>
            }
        })
    }
}

/// The bars of one constant.
#[component]
fn Bars(belief: Belief) -> impl IntoView {
    let drawn = self::belief(BARS, belief.before, belief.after, belief.value);
    view! { <svg viewBox="0 0 220 46" width="220" height="46" aria-hidden="true" class:quiet=!belief.told inner_html=drawn></svg> }
}

/// The same as a table.
#[component]
fn Table(beliefs: Vec<Belief>) -> impl IntoView {
    let w = words();
    let range = move |[low, high]: [f64; 2]| fill(w.likely, &[&format!("{low:.2}"), &format!("{high:.2}")]);
    view! {
        <details class="data">
            <summary>{w.table}</summary>
            <table>
                <thead><tr>{w.table_head.iter().map(|h| view! { <th scope="col">{*h}</th> }).collect_view()}</tr></thead>
                <tbody>{beliefs.into_iter().map(|b| {
                    let value = if b.told { format!("{:.2}", b.value) } else { w.not_told.into() };
                    view! { <tr><th scope="row">{b.name}</th><td>{range(b.before)}</td><td>{range(b.after)}</td><td>{value}</td></tr> }
                }).collect_view()}</tbody>
            </table>
        </details>
    }
}
