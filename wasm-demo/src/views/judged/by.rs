//! The verdict in a sentence, and by which method it is judged.

use leptos::prelude::*;
use mistcoat::job::{Job, Method};
use mistcoat::judge::words as said_by;
use mistcoat::units::Quantity;

use super::judged;
use crate::figures::of_100;
use crate::figures::with_signs;
use crate::state::judged_by;
use crate::views::desk::desk;
use crate::views::fields::{Complaint, NumberField, QuantityField};
use crate::words::{fill, words};

/// The sentence, and on request the method under it.
#[component]
pub fn VerdictLine(by: bool) -> impl IntoView {
    let desk = desk();
    let judged = judged(desk);
    let sentence = move || {
        let system = desk.system.get();
        judged.with(|j| {
            let film = j.as_ref()?.film.as_ref()?;
            let level = film.level.map(|l| l.to_string());
            let runs = desk.run.with(|r| r.as_ref()?.number("finish.run_area_percent")).filter(|p| *p > 0.0);
            // Right by its thickness and hanging in runs: both are said.
            let runs = runs
                .map_or_else(String::new, |p| format!(" {}", fill(words().runs_too, &[&of_100(p / 100.0)])));
            Some((with_signs(&said_by::sentence(film, system)) + &runs, film.method.clone(), level))
        })
    };
    move || {
        sentence().map(|(sentence, method, level)| {
            view! {
                <p class="advice verdict" data-verdict=method data-level=level>{sentence}</p>
                {by.then(|| view! { <JudgeBy /> })}
            }
        })
    }
}

/// Method, and what belongs to it.
#[component]
fn JudgeBy() -> impl IntoView {
    let desk = desk();
    let w = words().judge;
    let now = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().map_or(Method::Band, |j| j.judging.method)));
    let choose = move |event| {
        let edited = desk.job.with_untracked(|text| judged_by(text, &event_target_value(&event)));
        desk.take("spec.judge", edited);
    };
    view! {
        <div class="judge-by">
            <div class="field inline">
                <label><span>{w.by}</span>
                    <select name="spec.judge" on:change=choose>
                        {w.methods.into_iter().map(|(word, name)| view! {
                            <option value=word selected=move || now.get().word() == word>{name}</option>
                        }).collect_view()}
                    </select>
                </label>
                <Complaint key="spec.judge" keys=&[] />
            </div>
            {move || match now.get() {
                Method::Band => view! {
                    <NumberField label=w.right_on key="spec.right_on" read=|j| format!("{:.0} %", 100.0 * j.judging.right_on) />
                }.into_any(),
                Method::Pa2 => view! { <Choice label=w.level key="spec.level" choices=levels() read=|j| j.judging.level.to_string() /> }.into_any(),
                Method::Pa2Panel => ().into_any(),
                Method::Iso19840 => view! {
                    <Choice label=w.rule key="spec.rule" choices=rules() read=|j| if j.judging.ninety_ten { "90-10".into() } else { "80-20".into() } />
                    <QuantityField label=w.nominal key="spec.nominal" quantity=Quantity::Film read=|j| j.judging.nominal.or(j.spec.map(|s| s.low)) />
                    <QuantityField label=w.profile key="spec.profile_correction" quantity=Quantity::Film read=|j| Some(j.judging.profile_correction) />
                }.into_any(),
            }}
        </div>
    }
}

fn levels() -> Vec<(&'static str, &'static str)> {
    ["1", "2", "3", "4", "5"].into_iter().zip(words().judge.levels).collect()
}

fn rules() -> Vec<(&'static str, &'static str)> {
    words().judge.rules.to_vec()
}

/// One of some words under a key.
#[component]
fn Choice(
    label: &'static str,
    key: &'static str,
    choices: Vec<(&'static str, &'static str)>,
    read: fn(&Job) -> String,
) -> impl IntoView {
    let desk = desk();
    let now = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().map(read)).unwrap_or_default());
    view! {
        <div class="field">
            <label><span>{label}</span>
                <select name=key on:change=move |e| { desk.set(key, &event_target_value(&e)); }>
                    {choices.into_iter().map(|(value, word)| view! {
                        <option value=value selected=move || now.get() == value>{word}</option>
                    }).collect_view()}
                </select>
            </label>
            <Complaint key=key keys=&[] />
        </div>
    }
}
