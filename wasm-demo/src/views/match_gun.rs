//! Match my gun: what to measure, one step beside the other; the readings stand in the job's `[card]`.

use leptos::html;
use leptos::prelude::*;
use mistcoat::gun::{Feed, Matched};
use mistcoat::job::{as_written, with_key, without_key};
use mistcoat::units::{self, Quantity};

use super::desk::{Refused, desk};
use super::errand::Errand;
use super::fields::{Complaint, with_unit};
use super::match_result::MatchResult;
use crate::draw::card_how;
use crate::figures::{of_100, said};
use crate::task::Task;
use crate::words::fill;
use crate::words::match_gun::{MatchWords, Step};

/// What outlives the view: whether it is open, its work, and the job it was asked for.
#[derive(Clone, Copy)]
pub struct MatchDesk {
    /// The section is open.
    pub open: RwSignal<bool>,
    /// The fit.
    pub errand: Errand,
    /// The job's text that the fit was asked for, its matched gun taken out.
    pub asked: RwSignal<String>,
}

impl MatchDesk {
    /// Open at once where the job has readings.
    pub fn new(job: &str) -> Self {
        let open = mistcoat::job::Job::from_toml(job).is_ok_and(|j| !j.card.is_empty());
        Self { open: RwSignal::new(open), errand: Errand::default(), asked: RwSignal::default() }
    }
}

/// That of this page.
pub fn match_desk() -> MatchDesk {
    use_context::<MatchDesk>().unwrap_or_else(|| MatchDesk::new(""))
}

pub(super) fn words() -> MatchWords {
    crate::words::words().matching
}

/// The job without what was matched before: what a fit depends on.
pub(super) fn plain(text: &str) -> String {
    without_key(text, "gun.matched").unwrap_or_else(|_| text.into())
}

/// At the foot of the clipboard: opens the section.
#[component]
pub fn MatchLink() -> impl IntoView {
    let open = match_desk().open;
    view! {
        <button type="button" class="link" aria-controls="match-gun" aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|o| *o = !*o)>{words().open}</button>
    }
}

/// A quantity of the card; emptied, its key is taken out.
#[component]
fn Measured(
    label: &'static str,
    key: &'static str,
    quantity: Quantity,
    /// Shown where the job gives nothing: the key's default.
    #[prop(into)]
    otherwise: Signal<Option<f64>>,
) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<html::Input>::new();
    let say = move |v| said(quantity, v, desk.system.get());
    let shown = move || {
        let written = desk.job.with(|text| as_written(text, key).ok().flatten());
        written.and_then(|w| units::parse(quantity, &w).ok()).map(say).unwrap_or_default()
    };
    let bad = move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key));
    let change = move |event| {
        let text = with_unit(&event_target_value(&event), quantity, desk.system.get_untracked());
        let edited = desk.job.with_untracked(|job| {
            if text.is_empty() { without_key(job, key) } else { with_key(job, key, &text) }
        });
        if desk.take(key, edited)
            && let Some(input) = node.get_untracked()
        {
            input.set_value(&untrack(shown));
        }
    };
    view! {
        <div class="field">
            <label><span>{label}</span>
                <input node_ref=node type="text" autocomplete="off" name=key prop:value=shown aria-invalid=move || bad().to_string()
                    placeholder=move || otherwise.get().map(say).unwrap_or_default() on:change=change /></label>
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// How sure a reading is, in percent.
#[component]
fn GiveOrTake(key: &'static str) -> impl IntoView {
    let desk = desk();
    let shown = move || desk.job.with(|text| as_written(text, key).ok().flatten()).unwrap_or_default();
    let bad = move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key));
    let change = move |event| {
        let typed = event_target_value(&event);
        let typed = typed.trim().trim_end_matches('%').trim();
        let edited = desk.job.with_untracked(|job| {
            if typed.is_empty() { without_key(job, key) } else { with_key(job, key, &format!("{typed} %")) }
        });
        desk.take(key, edited);
    };
    view! {
        <div class="field sure">
            <label><span>{words().give_or_take}</span>
                <input type="text" autocomplete="off" name=key prop:value=shown placeholder="5 %" aria-invalid=move || bad().to_string() on:change=change /></label>
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// A step with its drawing.
#[component]
fn StepOf(step: Step, drawing: String, children: Children) -> impl IntoView {
    view! {
        <li class="match-step">
            <svg viewBox="0 0 132 104" width="132" height="104" aria-hidden="true" inner_html=drawing></svg>
            <h3 class="name">{step.name}</h3>
            <p class="small">{step.how}</p>
            <div class="fields">{children()}</div>
        </li>
    }
}

/// The section.
#[component]
pub fn MatchGun() -> impl IntoView {
    let desk = desk();
    let MatchDesk { open, errand, asked } = match_desk();
    let w = words();
    let pressure =
        Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.kit.feed == Feed::Pressure)));
    let stroke = move |read: fn(&mistcoat::job::StrokePlan) -> f64| {
        Signal::derive(move || desk.parsed.with(|j| j.as_ref().map(|j| read(&j.stroke))).filter(|v| *v > 0.0))
    };
    let nothing = Signal::derive(|| None::<f64>);
    let seconds = Signal::derive(|| Some(15.0));
    let empty = move || desk.parsed.with(|j| j.as_ref().is_none_or(|j| j.card.is_empty()));
    let state = move || {
        errand.standing.with(|s| match () {
            () if s.busy => "busy",
            () if s.complete => "done",
            () => "idle",
        })
    };
    let begin = move |_| {
        let job = desk.job.get_untracked();
        desk.refused.set(None);
        asked.set(plain(&job));
        errand.begin(Task::Match { job });
    };
    // What the fit refuses stands by its field.
    Effect::new(move |_| {
        if let Some((key, message)) = errand.standing.with(|s| s.refused.clone()) {
            let key = key.filter(|k| k.starts_with("card.")).unwrap_or_else(|| "card".into());
            desk.refused.set(Some(Refused { key, message }));
        }
    });
    let kept = move || {
        let written = desk.job.with(|text| as_written(text, "card.kept_back").ok().flatten());
        written.unwrap_or_else(|| "none".into())
    };
    let matched =
        move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.kit.matched != Matched::default()));
    let give_back = move |_| {
        let edited = desk.job.with_untracked(|text| without_key(text, "gun.matched"));
        desk.take("card", edited);
    };
    view! {
        <section id="match-gun" class="match" hidden=move || !open.get() aria-label=w.title data-match=state>
            <h2>{w.title}</h2>
            <p class="text match-intro">{w.intro}</p>
            <ol class="match-steps">
                <StepOf step=w.height drawing=card_how::height()>
                    <Measured label=w.distance key="card.distance" quantity=Quantity::Length otherwise=stroke(|s| s.distance) />
                    <Measured label=w.fan_height key="card.fan_height" quantity=Quantity::Length otherwise=nothing />
                    <GiveOrTake key="card.uncertainty.fan_height" />
                </StepOf>
                <StepOf step=w.thickness drawing=card_how::thickness()>
                    <Measured label=w.fan_thickness key="card.fan_thickness" quantity=Quantity::Length otherwise=nothing />
                    <GiveOrTake key="card.uncertainty.fan_thickness" />
                </StepOf>
                {move || {
                    let (step, label, key, quantity) = if pressure.get() {
                        (w.catch, w.caught, "card.caught", Quantity::Volume)
                    } else {
                        (w.weigh, w.lighter, "card.weighed", Quantity::Mass)
                    };
                    view! {
                        <StepOf step=step drawing=card_how::weigh()>
                            <Measured label=label key=key quantity=quantity otherwise=nothing />
                            <Measured label=w.seconds key="card.seconds" quantity=Quantity::Time otherwise=seconds />
                            <GiveOrTake key="card.uncertainty.flow" />
                        </StepOf>
                    }
                }}
                <StepOf step=w.film drawing=card_how::film()>
                    <Measured label=w.speed key="card.speed" quantity=Quantity::Speed otherwise=stroke(|s| s.speed) />
                    <Measured label=w.wet_film key="card.wet_film" quantity=Quantity::Film otherwise=nothing />
                    <Measured label=w.dry_film key="card.dry_film" quantity=Quantity::Film otherwise=nothing />
                    <GiveOrTake key="card.uncertainty.film" />
                </StepOf>
                <StepOf step=w.second drawing=card_how::second()>
                    <Measured label=w.second_distance key="card.second_distance" quantity=Quantity::Length otherwise=nothing />
                    <Measured label=w.second_height key="card.second_height" quantity=Quantity::Length otherwise=nothing />
                    <GiveOrTake key="card.uncertainty.second_height" />
                </StepOf>
            </ol>
            <div class="match-foot">
                <div class="field">
                    <label><span>{w.keep_back}</span>
                        <select name="card.kept_back" on:change=move |e| { desk.set("card.kept_back", &event_target_value(&e)); }>
                            {w.keep_names.into_iter().map(|(value, name)| view! {
                                <option value=value selected=move || kept() == value>{name}</option>
                            }).collect_view()}
                        </select></label>
                    <Complaint key="card.kept_back" keys=&[] />
                    <p class="small">{w.keep_why}</p>
                </div>
                <div class="match-go">
                    <button type="button" class="main-button" disabled=move || empty() || errand.standing.with(|s| s.busy) on:click=begin>{w.go}</button>
                    <span aria-live="polite">{move || errand.standing.with(|s| {
                        if s.busy { fill(w.working, &[&of_100(s.done)]) }
                        else if s.stopped { w.stopped.into() }
                        else if empty() { w.nothing_yet.to_string() }
                        else { String::new() }
                    })}</span>
                    <button type="button" class="link" hidden=move || !errand.standing.with(|s| s.busy) on:click=move |_| errand.stop()>{crate::words::words().stop}</button>
                </div>
                <Complaint key="card" keys=&[] />
                <p class="text" hidden=move || !matched()>{w.taken} " " <button type="button" class="link" on:click=give_back>{w.give_back}</button></p>
            </div>
            <MatchResult />
        </section>
    }
}
