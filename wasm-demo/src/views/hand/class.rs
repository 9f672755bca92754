//! The class hour: exercises, a result as a link, a table of results.

use leptos::prelude::*;
use mistcoat::practice::spread;

use super::super::desk::{View, desk};
use super::super::link;
use super::{hand_desk, hand_words};
use crate::figures::of_100;
use crate::state::class_hour::{exercise, result, table};
use crate::words::fill;

/// The view in which an exercise is done.
pub fn view_of(word: &str) -> View {
    match word {
        "balance" => View::Card,
        "fan-for-tube" => View::Part,
        "wall-pressure" => View::Air,
        "mix-for-six" => View::Paint,
        "two-boxes" => View::Side,
        _ => View::Hand,
    }
}

/// Exercises, this result, the class.
#[component]
pub fn ClassHour() -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let pasted = RwSignal::new(String::new());
    let begin = move |word: &'static str| {
        desk.take("preset", exercise(word));
        hand.strip.set(false);
        desk.view.set(view_of(word));
    };
    let mine = move || {
        desk.parsed.with(|job| job.as_ref().and_then(result)).map(|r| {
            let spread = r.spread.map_or("–".into(), of_100);
            fill(w.result, &[&r.tries.to_string(), &of_100(r.last), &spread])
        })
    };
    let who =
        move || desk.parsed.with(|j| j.as_ref().and_then(|j| j.practice.who.clone())).unwrap_or_default();
    let rows = Memo::new(move |_| pasted.with(|text| table(text)));
    view! {
        <details class="hand-class">
            <summary>{w.class}</summary>
            <ul class="hand-exercises">
                {w.exercises.iter().map(|&(word, name, how)| view! {
                    <li>
                        <b>{name}</b> <span class="text">{how}</span>
                        <button type="button" class="link" data-exercise=word on:click=move |_| begin(word)>{w.open}</button>
                        <a class="link" href=exercise(word).ok().and_then(|t| link::to(&t)).unwrap_or_default()>{w.link_short}</a>
                    </li>
                }).collect_view()}
            </ul>
            <div class="field hand-who"><label><span>{w.who}</span>
                <input type="text" name="practice.who" size="14" maxlength="40" prop:value=who
                    on:change=move |e| { desk.set("practice.who", &event_target_value(&e)); } /></label></div>
            {move || mine().map(|words| view! {
                <p class="text">{words} " " <a class="link" href=move || desk.job.with(|t| link::to(&without_track(t))).unwrap_or_default()>{w.result_link}</a></p>
            })}
            <h2 class="name">{w.table}</h2>
            <label class="hand-paste"><span class="small">{w.table_how}</span>
                <textarea rows="4" name="class" spellcheck="false" on:input=move |e| pasted.set(event_target_value(&e))></textarea></label>
            {move || {
                let rows = rows.get();
                let good: Vec<_> = rows.iter().filter_map(|r| r.as_ref().ok().cloned()).collect();
                let last: Vec<f64> = good.iter().map(|r| r.last).collect();
                view! {
                    {rows.iter().filter_map(|r| r.as_ref().err().cloned()).map(|(line, why)| view! {
                        <p class="complaint" role="alert"><span>"× "</span>{fill(w.table_bad, &[&line.to_string(), &why])}</p>
                    }).collect_view()}
                    {(!good.is_empty()).then(|| view! {
                        <table class="hand-table">
                            <thead><tr>{w.table_head.iter().map(|h| view! { <th scope="col">{*h}</th> }).collect_view()}</tr></thead>
                            <tbody>{good.iter().map(|r| view! {
                                <tr><th scope="row">{r.who.clone()}</th><td>{r.tries}</td><td>{of_100(r.last)}</td><td>{r.spread.map_or("–".into(), of_100)}</td></tr>
                            }).collect_view()}</tbody>
                        </table>
                        <p class="text">{spread(&last).map(|s| fill(w.table_spread, &[&of_100(s)]))}</p>
                    })}
                }
            }}
        </details>
    }
}

/// A result needs its figures, not its track.
fn without_track(text: &str) -> String {
    mistcoat::job::without_key(text, "stroke.track").unwrap_or_else(|_| text.into())
}
