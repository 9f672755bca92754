//! What to change: what is wrong with the run, the likeliest cause, what to turn by how much, and what it gives. Begun by the reader;
//! it has a worker of its own, so that flying goes on.

use leptos::prelude::*;
use mistcoat::diagnose::{Advice, Answer};

use super::desk::{Desk, desk};
use super::errand::Errand;
use crate::figures::of_100;
use crate::state::{advice, with_hidden};
use crate::task::Task;
use crate::words::{fill, words};

/// What the views keep while others are shown.
#[derive(Clone, Copy, Default)]
pub struct AdviceDesk {
    part: Finding,
    card: Finding,
}

/// One diagnosis: the errand and the text it is of.
#[derive(Clone, Copy, Default)]
struct Finding {
    errand: Errand,
    begun: RwSignal<String>,
}

impl Finding {
    fn begin(&self, desk: Desk) {
        let text = desk.flown.get_untracked();
        self.begun.set(text.clone());
        self.errand.begin(Task::Diagnose { job: text });
    }

    /// What is known, and whether it is of the job in hand.
    fn answer(&self, desk: Desk) -> Option<(Answer, bool)> {
        let answer = self.errand.standing.with(|s| s.answer.as_deref().and_then(advice::read))?;
        Some((answer, desk.flown.with(|text| self.begun.with(|begun| begun == text))))
    }
}

fn advice_desk() -> AdviceDesk {
    use_context::<AdviceDesk>().unwrap_or_default()
}

/// Takes an advice: one step for Undo, the run before it kept to compare with.
fn take(desk: Desk, advice: &Advice) {
    if let Some(run) = untrack(|| desk.fresh()) {
        desk.kept.set(Some(run));
    }
    let edited = desk.job.with_untracked(|text| advice::taken(text, advice));
    desk.take("advice", edited);
}

/// The strip of the Part view.
#[component]
pub fn WhatToChange() -> impl IntoView {
    let desk = desk();
    let w = words().advice;
    let finding = advice_desk().part;
    let found = Memo::new(move |_| finding.answer(desk));
    let said = move || {
        let (answer, fresh) = found.get()?;
        Some(view! { <div class="change-said" class:stale=!fresh><Said answer=answer /></div> })
    };
    view! {
        <section class="change">
            <div class="change-in">
                <div class="change-words">
                    <h2>{w.name}</h2>
                    <Begin finding=finding />
                    {move || found.get().is_none().then(|| view! { <p class="small">{w.what_it_does}</p> })}
                </div>
                {said}
                <Work finding=finding />
            </div>
            <super::fields::Complaint key="advice" keys=&[] />
        </section>
    }
}

/// The button that begins it, where there is nothing under way and nothing new to know.
#[component]
fn Begin(finding: Finding) -> impl IntoView {
    let desk = desk();
    let w = words().advice;
    move || {
        let known = finding.answer(desk);
        let standing = finding.errand.standing.get();
        let done = standing.complete && known.as_ref().is_some_and(|k| k.1);
        (!standing.busy && !done).then(|| {
            let again = known.is_some() || standing.stopped;
            view! {
                {known.is_some_and(|k| !k.1).then(|| view! { <p class="small">{w.changed}</p> })}
                <button type="button" class="plain-box" data-find="change" on:click=move |_| finding.begin(desk)>
                    {if again { w.find_again } else { w.find }}
                </button>
            }
        })
    }
}

/// Progress and Stop, or why it cannot be found out.
#[component]
fn Work(finding: Finding) -> impl IntoView {
    let w = words().advice;
    move || {
        let standing = finding.errand.standing.get();
        if let Some((key, message)) = standing.refused {
            let message = key.map_or(message.clone(), |key| format!("{key}: {message}"));
            return Some(view! {
                <p class="complaint change-work" role="alert" data-change="refused"><span aria-hidden="true">"\u{00d7} "</span>{w.refused} " " {message}</p>
            }
            .into_any());
        }
        if !standing.busy {
            let state = if standing.complete { "done" } else { "" };
            return Some(view! { <i class="change-state" data-change=state></i> }.into_any());
        }
        let share = standing.done.clamp(0.0, 1.0);
        let doing = if share < 0.15 { w.looking } else { w.trying };
        Some(
            view! {
                <div class="change-work" data-change="busy" aria-live="polite">
                    <span>{doing} " " {fill(w.progress, &[&of_100(share)])}</span>
                    <button type="button" class="link" on:click=move |_| finding.errand.stop()>{words().stop}</button>
                    <i class="change-rule" style:width=format!("{:.1}%", 100.0 * share)></i>
                </div>
            }
            .into_any(),
        )
    }
}

/// What is known: the first advice large, then up to three more, then what nothing mends.
#[component]
fn Said(answer: Answer) -> impl IntoView {
    let desk = desk();
    let w = words().advice;
    let system = desk.system.get();
    if answer.complaints.is_empty() {
        return answer.complete.then(|| view! { <p class="sentence">{w.nothing_wrong}</p> }).into_any();
    }
    let complaint = |i: usize| answer.complaints.get(i).map(|c| advice::complaint(c, system));
    let of = |a: &Advice| answer.complaints.iter().position(|c| c.measure == a.measure);
    let Some(first) = answer.advices.first() else {
        return view! {
            <div>
                <p class="sentence">{complaint(0)}</p>
                {answer.complete.then(|| view! { <p class="advice">{w.no_help}</p> })}
            </div>
        }
        .into_any();
    };
    let worst = of(first).unwrap_or(0);
    let further: Vec<_> = answer.advices.iter().skip(1).take(3).cloned().collect();
    let rest: Vec<_> = answer.unmended().into_iter().map(|c| advice::complaint(c, system)).collect();
    let outside = first.outside.iter().map(|note| fill(w.as_it_is, &[note])).collect::<Vec<_>>();
    view! {
        <First advice=first.clone() wrong=complaint(worst).unwrap_or_default() />
        {(!further.is_empty()).then(|| view! {
            <div class="change-further">
                {further.into_iter().map(|a| {
                    let same = of(&a) == Some(worst);
                    let wrong = of(&a).filter(|_| !same).and_then(complaint);
                    view! { <Further advice=a wrong=wrong /> }
                }).collect_view()}
            </div>
        })}
        {(answer.complete && !rest.is_empty()).then(|| view! { <p class="text">{w.no_help_more} " " {rest.join(" ")}</p> })}
        {outside.into_iter().map(|o| view! { <p class="small">{o}</p> }).collect_view()}
        <p class="small">{w.note}</p>
    }
    .into_any()
}

/// What to do, from a job's own knobs.
fn to_do(desk: Desk, one: &Advice) -> String {
    desk.parsed
        .with(|job| job.as_ref().map(|job| advice::steps(one, job, desk.system.get())))
        .unwrap_or_default()
}

#[component]
fn First(advice: Advice, wrong: String) -> impl IntoView {
    let desk = desk();
    let w = words().advice;
    let system = desk.system.get();
    let promise = advice::promise(&advice, system);
    let besides = advice::besides(&advice, system);
    let (cause, doing) = (advice::cause(&advice), to_do(desk, &advice));
    let enough = advice.enough;
    view! {
        <div class="change-first">
            <p class="sentence">{wrong}</p>
            <p class="advice">{cause}</p>
            <p class="advice change-do">{doing}</p>
            <p class="change-figure">
                <span class="small">{promise.name}</span>
                <span>{promise.before} " \u{2192} " <b class="number">{promise.after}</b> " " {promise.unit}</span>
                <span class="small">{promise.likely}". " {besides} {(!enough).then_some(" ")} {(!enough).then_some(w.left)}</span>
            </p>
            <button type="button" class="main-button" data-try="0" on:click=move |_| take(desk, &advice)>{w.try_it}</button>
        </div>
    }
}

#[component]
fn Further(advice: Advice, wrong: Option<String>) -> impl IntoView {
    let desk = desk();
    let w = words().advice;
    let system = desk.system.get();
    let promise = advice::promise(&advice, system);
    let besides = advice::besides(&advice, system);
    let head = if wrong.is_some() { w.also_wrong } else { w.or_else };
    let doing = to_do(desk, &advice);
    view! {
        <div class="change-other">
            <h3 class="kicker">{head}</h3>
            {wrong.map(|wrong| view! { <p class="text">{wrong}</p> })}
            <p class="text">{doing}</p>
            <p class="small">
                {promise.name} ": " <b>{promise.before} " \u{2192} " {promise.after} " " {promise.unit}</b> ", " {promise.likely} ". " {besides}
            </p>
            <button type="button" class="plain-box" on:click=move |_| take(desk, &advice)>{w.try_it}</button>
        </div>
    }
}

/// Amounts for the knobs on the Card view; not while a fault is hidden in the gun, which it would tell.
#[component]
pub fn ByHowMuch() -> impl IntoView {
    let desk = desk();
    let w = words().advice;
    let finding = advice_desk().card;
    let hidden = move || desk.job.with(|text| with_hidden(text) != *text);
    let wrong = move || {
        desk.run
            .with(|r| r.as_ref().and_then(|r| r.pattern_kind()))
            .is_some_and(|k| k != "balanced" && k != "round")
    };
    let said = move || {
        let (answer, fresh) = finding.answer(desk).filter(|a| a.1)?;
        let system = desk.system.get();
        let advices: Vec<_> = answer.advices.iter().take(2).cloned().collect();
        let none = (fresh && answer.complete && advices.is_empty()).then_some(w.no_help);
        Some(view! {
            {advices.into_iter().map(|one| {
                let promise = advice::promise(&one, system);
                let doing = to_do(desk, &one);
                view! {
                    <p class="text">{doing} " " <span class="small">{promise.name} ": " {promise.before} " \u{2192} " {promise.after} " " {promise.unit} ", " {promise.likely} "."</span></p>
                    <button type="button" class="plain-box" on:click=move |_| take(desk, &one)>{w.try_it}</button>
                }
            }).collect_view()}
            {none.map(|none| view! { <p class="text">{none}</p> })}
        })
    };
    let begin = move || {
        let done = finding.answer(desk).is_some_and(|a| a.1);
        let busy = finding.errand.standing.with(|s| s.busy);
        (wrong() && !done && !busy).then(|| {
            view! { <button type="button" class="link" data-find="amounts" on:click=move |_| finding.begin(desk)>{w.by_how_much}</button> }
        })
    };
    move || {
        (!hidden()).then(|| view! { <div class="change-amounts">{said}{begin}<Work finding=finding /></div> })
    }
}
