//! By hand: the pointer is the gun. A try is laid as it is sprayed, then told in mm, s and mL.

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape};
use mistcoat::units::{Quantity, System};

use super::desk::{Desk, desk};
use super::fields::Complaint;
use crate::figures::{of_100, said};
use crate::state::hand::{panel_of, practice_job};
use crate::words::{fill, hand::HandWords, words};

mod beat;
mod below;
mod canvas;
mod class;
mod frames;
mod input;
mod place;
mod report;
mod session;
mod size;
mod stage;
mod steer;
mod strip;

use session::follow;
pub use session::{HandDesk, Phase, hand_desk};

pub(super) fn hand_words() -> HandWords {
    words().hand
}

/// The view.
#[component]
pub fn HandView() -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    follow(desk, hand);
    let panel = Memo::new(move |_| desk.parsed.with(|job| job.as_ref().and_then(panel_of)));
    let card = move || hand.phase.get() == Phase::Judged && hand.told.with(|t| t.card.is_some());
    view! {
        <div class="hand-view" data-hand=move || hand.phase.get().word() data-ready=move || hand.told.with(|t| t.ready).to_string()
            data-plan=move || hand.told.with(|t| t.plan.as_ref().is_some_and(|p| p.best.is_some() || p.band.is_none())).to_string()>
            {move || match (hand.strip.get(), panel.get()) {
                (_, None) => view! { <NoPanel /> }.into_any(),
                (true, Some(_)) => view! { <strip::WallStrip /> }.into_any(),
                (false, Some(size)) => view! {
                    <Choices size=size />
                    <div class="hand-grid">
                        <div class="hand-left">
                            <stage::Stage size=size />
                            {move || card().then(|| view! { <below::Below /> })}
                        </div>
                        <report::ReportCard />
                    </div>
                }.into_any(),
            }}
            <class::ClassHour />
            <p class="caution small">
                {w.trains} " " {words().caution_part} " "
                {move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.paint.isocyanate)).then_some(words().caution_two_pack)}
            </p>
        </div>
    }
}

/// What stands where the part is no panel.
#[component]
fn NoPanel() -> impl IntoView {
    let desk = desk();
    let w = hand_words();
    view! {
        <section class="hand-none">
            <h2>{w.no_panel}</h2>
            <button type="button" class="main-button" data-take="panel" on:click=move |_| { desk.take("preset", Ok(practice_job())); }>{move || take_panel(desk.system.get())}</button>
        </section>
    }
}

/// Devices, guide, elbow, size.
#[component]
fn Choices(size: [f64; 2]) -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let chalk = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_none_or(|j| j.practice.chalk)));
    let elbow = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.practice.elbow)));
    let guide = move |on: bool, name: &'static str| {
        view! {
            <button type="button" aria-pressed=move || (chalk.get() == on).to_string()
                on:click=move |_| { desk.set("practice.guide", if on { "chalk" } else { "none" }); }>{name}</button>
        }
    };
    let said_size = move || {
        let say = |v: f64| said(Quantity::Length, v, desk.system.get());
        let panel = fill(w.panel, &[&say(size[0]), &say(size[1])]);
        format!("{panel}, {}", place::sized(size, hand))
    };
    view! {
        <div class="choice-bar hand-choices">
            <div class="choices" role="group" aria-label=w.device>
                {w.devices.iter().enumerate().map(|(i, (name, _))| view! {
                    <button type="button" aria-pressed=move || (hand.device.get() == i).to_string() on:click=move |_| {
                        hand.device.set(i);
                        stage::focus();
                    }>{*name}</button>
                }).collect_view()}
            </div>
            <div class="choices" role="group" aria-label=w.guide>{guide(true, w.chalk)} {guide(false, w.no_guide)}</div>
            <label class="hand-check" title=w.elbow_does>
                <input type="checkbox" data-choice="elbow" prop:checked=move || elbow.get()
                    on:change=move |e| { desk.set("practice.elbow", if event_target_checked(&e) { "true" } else { "false" }); } />
                {w.elbow}
            </label>
            <label class="hand-check">
                <input type="checkbox" data-choice="sound" prop:checked=move || hand.sound.get() on:change=move |e| hand.sound.set(event_target_checked(&e)) />
                {w.sound}
            </label>
            <span class="text hand-size">{said_size}</span>
            <size::TrueSize size=size />
        </div>
        <div class="choice-bar hand-how small">
            <span>{move || w.devices.get(hand.device.get()).map(|d| d.1)}</span>
            <span>{move || elbow.get().then_some(w.elbow_does)}</span>
            <Complaint key="stroke.track" keys=&[] />
            {move || hand.errand.standing.with(|s| s.refused.clone()).map(|(key, why)| view! {
                <p class="complaint" role="alert"><span>"× "</span>{key.map(|k| format!("{k}: "))}{why}</p>
            })}
        </div>
    }
}

/// How the flying stands, in words; none when all is flown.
fn flying(hand: HandDesk) -> Option<String> {
    let w = hand_words();
    let (busy, done) = hand.errand.standing.with(|s| (s.busy || !s.heard, s.done));
    if !busy || done >= 1.0 || hand.errand.standing.with(|s| s.refused.is_some()) {
        return None;
    }
    let words = fill(w.flying, &[&of_100(done)]);
    Some(if hand.told.with(|t| t.ready) { words } else { format!("{words}. {}", w.begin_soon) })
}

/// Opens the view that a link asks for: an exercise's, or this one where the job holds a try.
pub fn open_where_asked(desk: Desk) {
    let asked = desk.parsed.with_untracked(|job| {
        let practice = &job.as_ref()?.practice;
        practice
            .exercise
            .as_deref()
            .map(super::exercise::view_of)
            .or_else(|| (!practice.tries.is_empty()).then_some(super::desk::View::Hand))
    });
    if let Some(view) = asked {
        desk.view.set(view);
    }
}

/// What is taken where the job's part is none to paint by hand.
fn take_panel(system: System) -> String {
    let say = |v: f64| said(Quantity::Length, v, system);
    match Job::from_toml(&practice_job()).map(|job| job.part) {
        Ok(PartShape::Panel { width, height }) => fill(words().hand.take_panel, &[&say(width), &say(height)]),
        _ => String::new(),
    }
}
