//! Faults to put into the gun, the cap to turn, and the exercise with a hidden fault.

use leptos::prelude::*;
use mistcoat::gun::{Fault, Faults};

use super::desk::desk;
use super::fields::Complaint;
use crate::state::{Exercise, HIDDEN, list};
use crate::words::faults::FaultWords;
use crate::words::fill;

pub(super) fn words() -> FaultWords {
    crate::words::words().faults
}

/// Name, what gives it away, and the mend of a fault.
fn told(fault: Fault) -> (&'static str, &'static str, &'static str) {
    let w = words();
    w.faults.iter().find(|f| f.0 == fault.word()).map_or(("", "", ""), |f| (f.1, f.2, f.3))
}

/// Beside the cards: the cap's clicks, and the list of faults or the exercise's question.
#[component]
pub fn FaultPanel() -> impl IntoView {
    let desk = desk();
    let w = words();
    let exercise = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().and_then(|j| Exercise::of(&j.name))));
    let degrees = move || desk.parsed.with(|j| j.as_ref().map_or(0.0, |j| j.gun.cap_turn.to_degrees()));
    let turned = move || fill(w.cap, &[&format!("{:.0}°", degrees())]);
    view! {
        <section class="faults" aria-label=w.put_in>
            <div class="cap-turn">
                <p class="kicker">{turned}</p>
                <button type="button" class="link" data-cap="half" on:click=move |_| desk.turn_cap(4)>{w.half_round}</button>
                <button type="button" class="link" data-cap="click" on:click=move |_| desk.turn_cap(1)>{w.a_click}</button>
            </div>
            <Complaint key="gun.cap_turn" keys=&[] />
            {move || match exercise.get() {
                Some(exercise) => view! { <Question exercise /> }.into_any(),
                None => view! { <Toggles /> }.into_any(),
            }}
        </section>
    }
}

/// The faults, each off or on.
#[component]
fn Toggles() -> impl IntoView {
    let desk = desk();
    let w = words();
    let now = move || desk.parsed.with(|j| j.as_ref().map_or(Faults::NONE, |j| j.gun.faults));
    let rows = w.faults.iter().filter_map(|(word, name, ..)| Some((Fault::named(word)?, *name)));
    view! {
        <h2 class="kicker">{w.put_in}</h2>
        <ul class="toggles">
            {rows.map(|(fault, name)| {
                let on = move || now().has(fault);
                let flip = move |_| {
                    let set = now();
                    let set = if set.has(fault) { set.without(fault) } else { set.with(fault) };
                    desk.set("gun.faults", &list(set));
                };
                view! {
                    <li><button type="button" role="switch" data-fault=fault.word() aria-checked=move || on().to_string() on:click=flip>
                        <span>{name}</span><span class="small">{move || if on() { w.on } else { w.off }}</span><span class="slot" aria-hidden="true"></span>
                    </button></li>
                }
            }).collect_view()}
        </ul>
        <Complaint key="gun.faults" keys=&[] />
        <ExerciseLink />
    }
}

/// Begins an exercise with a number that the clock gives.
#[component]
pub fn ExerciseLink() -> impl IntoView {
    view! { <button type="button" class="link" data-exercise="begin" on:click=move |_| begin()>{words().exercise}</button> }
}

fn begin() {
    let clock = window().performance().map_or(0.0, |p| p.now());
    let seed = ((clock * 7.0) as u64 % 9973) as u32;
    let desk = desk();
    desk.burst.set("0.4 s".into());
    desk.take("name", Exercise::begin(seed));
}

/// What is asked, and after the answer what gave it away.
#[component]
fn Question(exercise: Exercise) -> impl IntoView {
    let desk = desk();
    let w = words();
    let chosen = desk.answer;
    let answer = move |fault: Fault| {
        chosen.set(Some(fault));
        let text = desk.job.get_untracked();
        desk.take("name", exercise.answer(&text));
    };
    let (name, gave, mend) = told(exercise.fault());
    let verdict = move || {
        let right = chosen.get() == Some(exercise.fault());
        fill(if right { w.right } else { w.wrong }, &[&name.to_lowercase()])
    };
    view! {
        <div class="question" data-exercise=if exercise.answered { "answered" } else { "open" }>
            <h2 class="kicker">{w.ask} " " {exercise.seed}</h2>
            {if exercise.answered {
                view! {
                    <p class="advice" aria-live="polite">{verdict}</p>
                    <h3 class="kicker">{w.gave_away}</h3><p class="text">{gave}</p>
                    <h3 class="kicker">{w.mend}</h3><p class="text">{mend}</p>
                    <button type="button" class="link" on:click=move |_| begin()>{w.another}</button>
                }.into_any()
            } else {
                view! {
                    <p class="text">{w.how_to}</p>
                    <ul class="answers">
                        {HIDDEN.into_iter().map(|fault| view! {
                            <li><button type="button" data-answer=fault.word() on:click=move |_| answer(fault)>{told(fault).0}</button></li>
                        }).collect_view()}
                    </ul>
                    <p class="small">{w.hidden}</p>
                }.into_any()
            }}
            <button type="button" class="link" on:click=move |_| { chosen.set(None); desk.set("name", "test card"); }>{w.leave}</button>
        </div>
    }
}
