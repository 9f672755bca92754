//! The class hour: exercises to open, and a table of results from their links.

use leptos::prelude::*;
use mistcoat::class_hour::Mark;

use super::super::desk::desk;
use super::super::exercise::{class_desk, mark_said, view_of};
use super::super::link;
use super::hand_desk;
use crate::figures::of_100;
use crate::state::class_hour::{Pasted, TUBES, form, forms, over_class, pasted};
use crate::task::Task;
use crate::task::marking::Marked;
use crate::words::{class_hour::ClassWords, fill, words};

/// What one form of an exercise is called; nothing where there is but one.
fn form_name(word: &str, number: usize, w: &ClassWords) -> Option<String> {
    match word {
        "balance" => Some(fill(w.pattern_of, &[&(number + 1).to_string()])),
        "fan-for-tube" => Some(fill(w.tube_of, &[&format!("{} mm", TUBES[number.min(TUBES.len() - 1)])])),
        _ => None,
    }
}

/// Exercises, and the class.
#[component]
pub fn ClassHour() -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = words().class_hour;
    let begin = move |word: &'static str, number: usize| {
        desk.take("preset", form(word, number));
        hand.strip.set(false);
        desk.view.set(view_of(word));
        let _ = document().get_element_by_id("view").map(|main| main.scroll_into_view());
    };
    let one = move |word: &'static str, number: usize| {
        let name = form_name(word, number, &w).map(|name| format!("{name}: "));
        view! {
            <span class="exercise-form">{name}
                <button type="button" class="link" data-exercise=format!("{word}-{}", number + 1) on:click=move |_| begin(word, number)>{w.open}</button>
                " " <a class="link" href=form(word, number).ok().and_then(|t| link::to(&t)).unwrap_or_default()>{w.link}</a>
            </span>
        }
    };
    view! {
        <details class="hand-class">
            <summary>{w.head}</summary>
            <p class="text">{w.how}</p>
            <ul class="hand-exercises">
                {w.exercises.iter().map(|&(word, name, how)| view! {
                    <li>
                        <b>{name}</b> <span class="text">{how}</span>
                        {(0..forms(word)).map(|number| one(word, number)).collect_view()}
                    </li>
                }).collect_view()}
            </ul>
            <Table />
        </details>
    }
}

/// The class table: links in, marks out, in the order pasted.
#[component]
fn Table() -> impl IntoView {
    let desk = desk();
    let class = class_desk();
    let w = words().class_hour;
    let text = RwSignal::new(String::new());
    let rows = Memo::new(move |_| text.with(|text| pasted(text)));
    let good = Memo::new(move |_| {
        rows.with(|rows| rows.iter().filter_map(|r| r.clone().ok()).collect::<Vec<Pasted>>())
    });
    Effect::new(move |_| {
        let jobs: Vec<String> = good.with(|good| good.iter().map(|row| row.text.clone()).collect());
        if jobs.is_empty() { class.table.clear() } else { class.table.begin(Task::Mark { jobs }) }
    });
    let marks = Memo::new(move |_| {
        class
            .table
            .standing
            .with(|s| s.answer.as_deref().and_then(|json| serde_json::from_str::<Vec<Marked>>(json).ok()))
            .unwrap_or_default()
    });
    let done = move || class.table.standing.with(|s| s.busy.then_some(s.done));
    let name = move |word: &str| w.exercises.iter().find(|e| e.0 == word).map_or("", |e| e.1);
    let bad = move || {
        let unread = rows.get().into_iter().filter_map(Result::err);
        let unmarked =
            good.get().into_iter().zip(marks.get()).filter_map(|(row, m)| Some((row.line, m.why?)));
        unread
            .chain(unmarked)
            .map(|(line, why)| view! {
                <p class="complaint" role="alert"><span>"× "</span>{fill(w.table_bad, &[&line.to_string(), &why])}</p>
            })
            .collect_view()
    };
    let table = move || {
        let (rows, marks, system) = (good.get(), marks.get(), desk.system.get());
        let all: Vec<Mark> = marks.iter().filter_map(|m| m.mark.clone()).collect();
        (!rows.is_empty()).then(|| view! {
            <div class="hand-table-box" tabindex="0" role="region" aria-label=w.table>
            <table class="hand-table" data-rows=all.len().to_string()>
                <thead><tr>{w.table_head.iter().map(|h| view! { <th scope="col">{*h}</th> }).collect_view()}</tr></thead>
                <tbody>{rows.iter().enumerate().map(|(i, row)| {
                    let mark = marks.get(i).and_then(|m| m.mark.clone());
                    let [said, off] = mark.as_ref().map(|m| mark_said(m, &w, system)).unwrap_or_default();
                    let reached = mark.map(|m| if m.reached { w.yes } else { w.no });
                    view! {
                        <tr><th scope="row">{row.who.clone()}</th><td>{name(&row.exercise)}</td><td>{said}</td><td>{off}</td><td>{reached}</td></tr>
                    }
                }).collect_view()}</tbody>
            </table>
            </div>
            <p class="text">{over_class(&all, system).map(|apart| fill(w.table_spread, &[&apart]))}</p>
        })
    };
    view! {
        <h2 class="name">{w.table}</h2>
        <label class="hand-paste"><span class="small">{w.table_how}</span>
            <textarea rows="4" name="class" spellcheck="false" on:input=move |e| text.set(event_target_value(&e))></textarea></label>
        {move || done().map(|done| view! { <p class="text" aria-live="polite">{fill(w.marking, &[&of_100(done)])}</p> })}
        {bad}
        {table}
    }
}
