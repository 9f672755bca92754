//! How the part is sprayed: the plan's figures, whose hand moves the gun, what it did, what each of its errors costs.

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape, PassOrder};
use mistcoat::run::{HandCosts, HandFilm};
use mistcoat::stroke::{HANDS, Hand};
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::errand::Errand;
use super::fields::{Complaint, NumberField, QuantityField};
use crate::figures::said;
use crate::state::with_hand;
use crate::task::Task;
use crate::words::{fill, words};

/// The work of "what each error costs", kept while views come and go, and the job it was done for.
#[derive(Clone, Copy, Default)]
pub struct CostDesk {
    errand: Errand,
    of: RwSignal<String>,
}

fn length(job: Desk, mm: f64) -> String {
    said(Quantity::Length, mm * 1e-3, job.system.get())
}

/// Fan height and way down per pass [mm], where the last run's pattern tells them.
fn down(desk: Desk) -> Option<(f64, f64)> {
    let run = desk.fresh()?;
    let fan = run.number("pattern.length_mm")?;
    desk.parsed.with(|job| {
        let job = job.as_ref()?;
        let panel = matches!(job.part, PartShape::Panel { .. } | PartShape::Curved { .. });
        (panel && job.gun.cap_turn == 0.0).then_some((fan, fan * (1.0 - job.stroke.overlap)))
    })
}

/// The section.
#[component]
pub fn HowSprayed() -> impl IntoView {
    let desk = desk();
    let w = words().stroke;
    let is = move |of: fn(&Job) -> bool| desk.parsed.with(|j| j.as_ref().is_some_and(of));
    let panel = Memo::new(move |_| is(|j| matches!(j.part, PartShape::Panel { .. })));
    let rows = Memo::new(move |_| is(|j| !j.part.is_of_tubes()));
    let recorded = Memo::new(move |_| is(|j| j.track.is_some()));
    let sentence = move || {
        let (fan, way) = down(desk)?;
        Some(fill(w.down, &[&length(desk, fan), &length(desk, way)]))
    };
    let told = move || {
        desk.parsed.with(|job| {
            let track = job.as_ref()?.track.as_ref()?;
            let seconds = format!("{:.0}", track.seconds());
            Some(fill(w.recorded, &[&track.pieces().len().to_string(), &seconds]))
        })
    };
    view! {
        <section class="how-sprayed" id="how-sprayed">
            <h2>{w.head}</h2>
            <p class="advice" aria-live="polite">{move || if recorded.get() { told() } else { sentence() }}</p>
            <div class="how-grid">
                {move || (!recorded.get()).then(|| view! {
                    <div class="fields">
                        <h3 class="name">{w.plan_head}</h3>
                        {rows.get().then(|| view! {
                            <NumberField label=words().field_overlap key="stroke.overlap" read=|j| format!("{:.0} %", 100.0 * j.stroke.overlap) />
                        })}
                        {panel.get().then(|| view! { <OrderField /> })}
                        <QuantityField label=w.lead key="stroke.lead" quantity=Quantity::Length read=|j| Some(j.stroke.lead) />
                        <QuantityField label=w.feather key="stroke.feather" quantity=Quantity::Length read=|j| Some(j.stroke.feather) />
                        <QuantityField label=w.turn key="stroke.turn" quantity=Quantity::Time read=|j| Some(j.stroke.turn) />
                        <QuantityField label=w.flash key="stroke.flash" quantity=Quantity::Time read=|j| Some(j.stroke.flash) />
                        {panel.get().then(|| view! {
                            <QuantityField label=w.heel key="stroke.heel" quantity=Quantity::Angle read=|j| Some(j.stroke.heel) />
                            <QuantityField label=w.swing key="stroke.swing" quantity=Quantity::Angle read=|j| Some(j.stroke.swing) />
                        })}
                    </div>
                })}
                {move || (!recorded.get()).then(|| view! { <HandChoice /> })}
                <WhatItDid />
            </div>
            {move || (!recorded.get()).then(|| view! { <Costs /> })}
        </section>
    }
}

#[component]
fn OrderField() -> impl IntoView {
    let desk = desk();
    let w = words().stroke;
    let now = move || {
        desk.parsed.with(|j| match j.as_ref().map(|j| j.stroke.order) {
            Some(PassOrder::Cross) => "cross",
            Some(PassOrder::Banded) => "banded",
            _ => "raster",
        })
    };
    view! {
        <div class="field">
            <label><span>{w.order}</span>
                <select name="stroke.plan" on:change=move |e| { desk.set("stroke.plan", &event_target_value(&e)); }>
                    {w.orders.into_iter().map(|(word, label)| view! {
                        <option value=word selected=move || now() == word>{label}</option>
                    }).collect_view()}
                </select>
            </label>
            <Complaint key="stroke.plan" keys=&[] />
        </div>
    }
}

fn hand(desk: Desk) -> Hand {
    desk.parsed.with(|j| j.as_ref().map(|j| j.stroke.hand)).unwrap_or_default()
}

/// Whose hand: words, or own figures with a field each.
#[component]
fn HandChoice() -> impl IntoView {
    let desk = desk();
    let w = words().stroke;
    let word = Memo::new(move |_| hand(desk).word().unwrap_or("own"));
    let says = move || {
        let text = w.hands.iter().find(|h| h.0 == word.get()).map_or(w.own_says, |h| h.2);
        let hand = hand(desk);
        let figures = match word.get() {
            "drift" => [length(desk, 1e3 * hand.drift), String::new()],
            _ => [length(desk, 1e3 * hand.aim), length(desk, 1e3 * hand.distance)],
        };
        fill(text, &[&figures[0], &figures[1]])
    };
    let choose = move |chosen: String| {
        let edited = desk.job.with_untracked(|text| with_hand(text, &chosen));
        desk.take("stroke.hand", edited);
    };
    view! {
        <div class="hand-choice">
            <h3 class="name">{w.hand_head}</h3>
            <div class="field">
                <label><span>{w.hand}</span>
                    <select name="stroke.hand" on:change=move |e| choose(event_target_value(&e))>
                        {HANDS.iter().map(|(id, _)| {
                            let label = w.hands.iter().find(|h| h.0 == *id).map_or(*id, |h| h.1);
                            view! { <option value=*id selected=move || word.get() == *id>{label}</option> }
                        }).collect_view()}
                        <option value="own" selected=move || word.get() == "own">{w.own}</option>
                    </select>
                </label>
                <Complaint key="stroke.hand" keys=&[] />
            </div>
            <p class="text">{says}</p>
            {move || (word.get() == "own").then(|| view! {
                <div class="fields">
                    <QuantityField label=w.aim key="stroke.hand.aim" quantity=Quantity::Length read=|j| Some(j.stroke.hand.aim) />
                    <NumberField label=w.speed key="stroke.hand.speed" read=|j| format!("{:.0} %", 100.0 * j.stroke.hand.speed) />
                    <QuantityField label=w.distance key="stroke.hand.distance" quantity=Quantity::Length read=|j| Some(j.stroke.hand.distance) />
                    <QuantityField label=w.pivot key="stroke.hand.pivot" quantity=Quantity::Length read=|j| j.stroke.hand.pivot />
                    <QuantityField label=w.tilting key="stroke.hand.heel" quantity=Quantity::Angle read=|j| Some(j.stroke.hand.heel) />
                    <QuantityField label=w.drift key="stroke.hand.drift" quantity=Quantity::Length read=|j| Some(j.stroke.hand.drift) />
                </div>
            })}
        </div>
    }
}

/// What the last run's hand did.
#[component]
fn WhatItDid() -> impl IntoView {
    let desk = desk();
    let w = words().stroke;
    move || {
        let run = desk.fresh()?;
        let number = |key: &str| run.number(&format!("stroke.{key}"));
        let to = |low: f64, high: f64| {
            let (low, high) = (length(desk, low), length(desk, high));
            if low == high { low } else { format!("{low} – {high}") }
        };
        let speed = |mm: f64| said(Quantity::Speed, mm * 1e-3, desk.system.get());
        let pace = format!(
            "{} ({} – {})",
            speed(number("pace_mm_s")?),
            speed(number("pace_from_to_mm_s.from")?),
            speed(number("pace_from_to_mm_s.to")?)
        );
        let spacing = number("spacing_mm.from").zip(number("spacing_mm.to")).map(|(a, b)| to(a, b));
        Some(view! {
            <div class="hand-did">
                <h3 class="name">{w.did}</h3>
                <dl class="lines">
                    <div><dt>{w.did_distance}</dt><dd>{to(number("distance_mm.from")?, number("distance_mm.to")?)}</dd></div>
                    <div><dt>{w.did_pace}</dt><dd>{pace}</dd></div>
                    {spacing.map(|s| view! { <div><dt>{w.did_spacing}</dt><dd>{s}</dd></div> })}
                    <div><dt>{w.did_line}</dt><dd>{length(desk, number("off_line_mm")?)}</dd></div>
                </dl>
            </div>
        })
    }
}

/// What each error costs: on request, since it flies the job anew.
#[component]
fn Costs() -> impl IntoView {
    let desk = desk();
    let w = words().stroke;
    let CostDesk { errand, of } = use_context::<CostDesk>().unwrap_or_default();
    let ask = move |_| {
        let job = desk.flown.get_untracked();
        of.set(job.clone());
        errand.begin(Task::HandCosts { job });
    };
    let here = Memo::new(move |_| desk.flown.with(|job| of.with(|o| o == job)));
    // Another job: what was asked for this one is of no more use.
    Effect::new(move |_| {
        if !here.get() {
            errand.clear();
        }
    });
    let costs = Memo::new(move |_| {
        let answer = errand.standing.with(|s| s.answer.clone())?;
        serde_json::from_str::<Option<HandCosts>>(&answer).ok().flatten().filter(|_| here.get())
    });
    let busy = move || errand.standing.with(|s| s.busy);
    let refused = move || errand.standing.with(|s| s.refused.clone().map(|(_, why)| why));
    move || {
        (!hand(desk).is_machine()).then(|| {
            view! {
                <div class="hand-costs" data-costs=move || if costs.get().is_some() { "done" } else if busy() { "busy" } else { "none" }>
                    {move || (costs.get().is_none() && !busy()).then(|| view! {
                        <button type="button" class="plain-box" on:click=ask>{w.costs}</button>
                    })}
                    {move || busy().then(|| view! {
                        <p class="text" role="status">{w.costs_busy} " "
                            {move || format!("{:.0}", 100.0 * errand.standing.with(|s| s.done))} " / 100 "
                            <button type="button" class="link" on:click=move |_| errand.clear()>{words().stop}</button></p>
                    })}
                    {move || refused().map(|why| view! { <p class="complaint">{why}</p> })}
                    {move || costs.get().map(|costs| view! { <CostTable costs=costs /> })}
                </div>
            }
        })
    }
}

#[component]
fn CostTable(costs: HandCosts) -> impl IntoView {
    let desk = desk();
    let w = words().stroke;
    let share = |value: Option<f64>| value.map_or(w.cannot_tell.to_string(), |v| format!("{v:.0}"));
    let row = move |name: &'static str, film: &HandFilm, strong: bool| {
        let lost = said(Quantity::Volume, film.lost_ml * 1e-6, desk.system.get());
        view! {
            <tr class:strong=strong>
                <th scope="row">{name}</th>
                <td>{share(film.in_band_percent)}</td>
                <td>{share(film.thinnest_over_mean.map(|t| t * 100.0))}</td>
                <td>{format!("{:.0}", film.cv_percent)}</td>
                <td>{lost}</td>
            </tr>
        }
    };
    let rows = costs.errors.iter().map(|cost| {
        let name = w.errors.iter().find(|e| e.0 == cost.error).map_or("", |e| e.1);
        row(name, &cost.film, false)
    });
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label=w.costs_head>
            <table class="cost-table">
                <caption>{w.costs_head}</caption>
                <thead><tr>
                    <td></td>
                    <th scope="col">{w.right}</th><th scope="col">{w.thinnest}</th><th scope="col">{w.uneven}</th><th scope="col">{w.lost}</th>
                </tr></thead>
                <tbody>
                    {row(w.no_error, &costs.machine, true)}
                    {rows.collect_view()}
                    {row(w.all_errors, &costs.hand, true)}
                </tbody>
            </table>
        </div>
        <p class="small">{w.costs_note}</p>
    }
}
