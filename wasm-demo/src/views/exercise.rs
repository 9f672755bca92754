//! The exercise in hand, over whichever view it is done in: what is to be done, its answer, its mark.

use leptos::prelude::*;
use mistcoat::class_hour::{Exercise, Mark};
use mistcoat::units::System;

use super::desk::{Desk, View, desk};
use super::errand::Errand;
use super::fields::Complaint;
use super::link;
use crate::figures::of_100;
use crate::state::class_hour::{left, question, told, unnamed, without_track};
use crate::task::Task;
use crate::task::marking::Marked;
use crate::words::{class_hour::ClassWords, fill, words};

/// The marking of this page's exercise, and of a class's.
#[derive(Clone, Copy, Default)]
pub struct ClassDesk {
    /// Of the job in hand.
    pub own: Errand,
    /// The job that was marked last.
    marked: RwSignal<String>,
    /// Of the class table.
    pub table: Errand,
}

/// That of this page.
pub fn class_desk() -> ClassDesk {
    use_context::<ClassDesk>().unwrap_or_default()
}

/// The view in which an exercise is done.
pub fn view_of(word: &str) -> View {
    match word {
        "five-tries" => View::Hand,
        "fan-for-tube" => View::Part,
        // What is asked is not to be read off a view.
        _ => View::Card,
    }
}

/// The view that shows why an answer is right or wrong.
fn why_view(exercise: Exercise) -> Option<View> {
    match exercise {
        Exercise::WallPressure => Some(View::Air),
        Exercise::MixForSix => Some(View::Paint),
        Exercise::TwoBoxes => Some(View::Side),
        _ => None,
    }
}

/// A pattern's name as the card says it.
pub fn pattern_name(word: &str) -> String {
    word.replace('-', " ")
}

/// A mark in words.
pub fn mark_said(mark: &Mark, w: &ClassWords, system: System) -> [String; 2] {
    told(mark, w, &pattern_name, system)
}

fn exercise_of(desk: Desk) -> Option<Exercise> {
    desk.parsed.with(|job| Exercise::named(job.as_ref()?.practice.exercise.as_deref()?))
}

/// The bar; nothing where the job is no exercise.
#[component]
pub fn ExerciseBar() -> impl IntoView {
    let desk = desk();
    let exercise = Memo::new(move |_| exercise_of(desk));
    view! { {move || exercise.get().map(|exercise| view! { <Bar exercise=exercise /> })} }
}

#[component]
fn Bar(exercise: Exercise) -> impl IntoView {
    let desk = desk();
    let class = class_desk();
    let w = words().class_hour;
    let (name, how) = w.exercises.iter().find(|e| e.0 == exercise.word()).map_or(("", ""), |e| (e.1, e.2));
    let asked =
        move || desk.parsed.with(|job| job.as_ref().and_then(|job| question(job, &w, desk.system.get())));
    let turns = move || {
        (exercise == Exercise::Balance)
            .then(|| desk.parsed.with(|j| j.as_ref().map_or(0, |j| j.practice.turns)))
            .map(|turns| fill(w.turns, &[&turns.to_string()]))
    };
    let answer =
        move || desk.parsed.with(|j| j.as_ref().and_then(|j| j.practice.answer.clone())).unwrap_or_default();
    let sample = w.answer_as.iter().find(|a| a.0 == exercise.word()).map(|a| a.1);
    let begin = move || {
        let text = desk.job.with_untracked(|text| without_track(text));
        class.marked.set(unnamed(&text));
        class.own.begin(Task::Mark { jobs: vec![text] });
    };
    // A mark holds for the job as it was marked.
    let fresh = move || desk.job.with(|text| unnamed(text)) == class.marked.get();
    let marked = move || -> Option<Marked> {
        let json = class.own.standing.with(|s| s.answer.clone())?;
        let all: Vec<Marked> = serde_json::from_str(&json).ok()?;
        all.into_iter().next().filter(|_| fresh())
    };
    let busy = move || class.own.standing.with(|s| s.busy.then_some(s.done));
    let who =
        move || desk.parsed.with(|j| j.as_ref().and_then(|j| j.practice.who.clone())).unwrap_or_default();
    view! {
        <section class="exercise" data-exercise-bar=exercise.word() data-marked=move || marked().is_some().to_string()>
            <p><span class="kicker">{w.this}</span> " " <b>{name}</b> " " <span class="text">{how}</span> " " {turns}</p>
            {move || asked().map(|question| view! { <p class="text">{question}</p> })}
            <div class="exercise-row">
                {sample.map(|sample| view! {
                    <div class="field"><label><span>{w.answer}</span>
                        <input type="text" name="practice.answer" size="9" maxlength="20" placeholder=sample prop:value=answer
                            on:change=move |e| { desk.set("practice.answer", &event_target_value(&e)); } /></label></div>
                })}
                <div class="field"><label><span>{w.who}</span>
                    <input type="text" name="practice.who" size="12" maxlength="40" prop:value=who
                        on:change=move |e| { desk.set("practice.who", &event_target_value(&e)); } /></label></div>
                <button type="button" class="main-button" data-do="mark" on:click=move |_| begin()>{w.mark}</button>
                <button type="button" class="link" data-do="leave" on:click=move |_| {
                    desk.take("practice.exercise", Ok(desk.job.with_untracked(|text| left(text))));
                }>{w.leave}</button>
                <button type="button" class="link" hidden=move || desk.view.get() == View::Hand on:click=move |_| desk.view.set(View::Hand)>{w.all}</button>
                <Complaint key="practice.answer" keys=&[] />
            </div>
            <div aria-live="polite">
                {move || busy().filter(|_| marked().is_none()).map(|done| view! { <p class="text">{fill(w.marking, &[&of_100(done)])}</p> })}
                {move || class.own.standing.with(|s| s.refused.clone()).map(|(_, why)| view! { <p class="complaint" role="alert"><span>"× "</span>{why}</p> })}
                {move || marked().map(|marked| view! { <Outcome exercise=exercise marked=marked /> })}
            </div>
        </section>
    }
}

/// How it came out, and its link.
#[component]
fn Outcome(exercise: Exercise, marked: Marked) -> impl IntoView {
    let desk = desk();
    let w = words().class_hour;
    let Some(mark) = marked.mark else {
        return view! { <p class="complaint" role="alert"><span>"× "</span>{marked.why}</p> }.into_any();
    };
    let reached = mark.reached;
    let said = Memo::new(move |_| mark_said(&mark, &w, desk.system.get()));
    view! {
        <p class="exercise-mark" data-reached=reached.to_string()>
            <b>{move || said.get()[0].clone()}</b> ", " {w.table_head[3]} " " {move || said.get()[1].clone()} ". "
            <b>{if reached { w.reached } else { w.not_reached }}</b> " "
            <a class="link" data-do="result" href=move || desk.job.with(|t| link::to(&without_track(t))).unwrap_or_default()>{w.result_link}</a> " "
            {why_view(exercise).map(|view| view! { <button type="button" class="link" on:click=move |_| desk.view.set(view)>{w.see}</button> })}
        </p>
    }
    .into_any()
}
