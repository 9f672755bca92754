//! The report card: how much film is right, what the hand did in mm, s and mL, and what to do at the next try.

use leptos::prelude::*;
use mistcoat::practice::spread;
use mistcoat::units::Quantity;

use super::super::clipboard::Clip;
use super::super::desk::desk;
use super::super::link;
use super::{HandDesk, Phase, flying, hand_desk, hand_words};
use crate::draw::hand as draw;
use crate::figures::{of_100, said, seconds};
use crate::state::hand_said::{advice, length, pace, range};
use crate::task::practising::{Card, Plan};
use crate::words::fill;

/// Width of bar and charts [px].
const WIDTH: f64 = 310.0;
/// Tries that the chart shows.
const SHOWN: usize = 5;

/// The last tries of the job, 0..=1.
fn tries() -> Vec<f64> {
    desk().parsed.with(|j| j.as_ref().map(|j| j.practice.tries.clone()).unwrap_or_default())
}

/// Where the figure at hand is told.
#[component]
pub fn ReportCard() -> impl IntoView {
    let hand = hand_desk();
    let w = hand_words();
    let found = move || {
        let judged = hand.phase.get() == Phase::Judged;
        hand.told.with(|t| Some((t.card.clone()?, t.plan.clone()?))).filter(|_| judged)
    };
    view! {
        <section class="clipboard hand-card" aria-live="polite">
            <Clip />
            {move || match (found(), hand.phase.get()) {
                (Some((card, plan)), _) if !card.passes.is_empty() => view! { <Told card=card plan=plan /> }.into_any(),
                (Some(_), _) => view! { <p class="text">{w.no_pass}</p> }.into_any(),
                (None, Phase::Judging) => view! { <p class="text">{move || flying(hand).unwrap_or_else(|| w.judging.into())}</p> }.into_any(),
                _ => view! { <Before /> }.into_any(),
            }}
            <Tries />
            <Foot hand=hand />
        </section>
    }
}

/// What the hand is to do, before it has done it.
#[component]
fn Before() -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let line = |name: &'static str, value: String, beside: String| {
        view! { <div><dt>{name}</dt><dd>{value}</dd><dd class="beside">{beside}</dd></div> }
    };
    view! {
        <p class="kicker">{w.view}</p>
        <p class="sentence"><span>{w.begin}</span></p>
        {move || hand.told.with(|t| t.plan.clone()).map(|plan| {
            let system = desk.system.get();
            let wanted = plan.band.map(|[a, b]| (said(Quantity::Film, a, system), said(Quantity::Film, b, system)));
            view! {
                <dl class="lines">
                    {line(w.pace_mean, pace(plan.pace, system), String::new())}
                    {line(w.between, length(plan.spacing, system), fill(w.passes_planned, &[&plan.rows.len().to_string()]))}
                    {line(w.distance, length(plan.distance, system), String::new())}
                    {wanted.map(|(a, b)| line(w.as_film, a, format!("– {b}")))}
                </dl>
                {plan.best.map(|best| view! { <p class="small">{fill(w.by_machine, &[&of_100(best)])}</p> })}
            }
        })}
        <p class="small">{move || flying(hand)}</p>
    }
}

/// A try.
#[component]
fn Told(card: Card, plan: Plan) -> impl IntoView {
    let desk = desk();
    let w = hand_words();
    let number = tries().len().max(1).to_string();
    let system = desk.system.get();
    let bar = card.shares.map(|shares| {
        let [thin, right, thick] = shares.map(of_100);
        view! {
            <svg class="hand-bar" viewBox=format!("0 0 {WIDTH} 16") width="100%" height="16" preserveAspectRatio="none" aria-hidden="true" inner_html=draw::shares_bar(shares, WIDTH)></svg>
            <p class="hand-shares"><span>{w.thin} " " <b>{thin}</b></span><span>{w.right} " " <b>{right}</b></span><span>{w.thick} " " <b>{thick}</b></span></p>
        }
    });
    let line = |name: &'static str, value: String, beside: String, key: &'static str| {
        view! { <div data-line=key><dt>{name}</dt><dd>{value}</dd><dd class="beside">{beside}</dd></div> }
    };
    let widest = card.spacing.iter().map(|s| s.abs()).fold(0.0, f64::max);
    let closest = card.spacing.iter().map(|s| s.abs()).fold(f64::MAX, f64::min);
    let volume = |v: f64| said(Quantity::Volume, v, system);
    let still = card.passes.iter().filter(|p| p.still > 0.0).count();
    let count = card.passes.len().to_string();
    let spoken: Vec<_> = card.advice.iter().map(|a| (advice(a, &plan, &w, system), of_100(a.gain))).collect();
    view! {
        <p class="kicker">{fill(w.card, &[&number])}</p>
        {match card.shares {
            Some([_, right, _]) => view! {
                <p class="sentence" data-right=of_100(right)>
                    <span>{w.film_right}</span>
                    <span><b class="number">{of_100(right)}</b> " " {crate::words::words().of_100}</span>
                    <span>{w.of_the_panel}</span>
                </p>
            }.into_any(),
            None => view! { <p class="text">{w.no_band}</p> }.into_any(),
        }}
        {bar}
        <dl class="lines">
            {line(w.pace_mean, pace(card.pace[0], system), fill(w.job, &[&bare(&pace(plan.pace, system))]), "pace")}
            {line(w.slowest, pace(card.pace[1], system), String::new(), "slowest")}
            {(!card.spacing.is_empty()).then(|| line(w.between, range(closest, widest, system), fill(w.job, &[&bare(&length(plan.spacing, system))]), "spacing"))}
            {line(w.distance, range(card.distance[0], card.distance[1], system), fill(w.job, &[&bare(&length(plan.distance, system))]), "distance")}
            {line(w.still, seconds(card.still), if still > 0 { fill(w.of_passes, &[&still.to_string(), &count]) } else { String::new() }, "still")}
            {line(w.lead, fill(w.of_passes, &[&card.short[0].to_string(), &count]), fill(w.run_out, &[&card.short[1].to_string()]), "lead")}
            {card.wait.map(|wait| line(w.wait, seconds(wait), String::new(), "wait"))}
            {line(w.paint, volume(card.paint[0]), fill(w.best, &[&bare(&volume(card.paint[1]))]), "paint")}
        </dl>
        {plan.best.map(|best| view! { <p class="small">{fill(w.by_machine, &[&of_100(best)])}</p> })}
        <p class="small">{w.film_note}</p>
        {card.beyond.then(|| view! { <p class="small">{w.beyond}</p> })}
        <h2 class="kicker">{w.next}</h2>
        {if spoken.is_empty() {
            view! { <p class="advice">{w.nothing_next}</p> }.into_any()
        } else {
            view! {
                <ol class="hand-next">
                    {spoken.into_iter().enumerate().map(|(i, (words, gain))| view! {
                        <li data-advice=card.advice[i].what.clone()><span class="disc">{i + 1}</span><span class="advice">{words} " " <span class="small">{fill(w.gains, &[&gain])}</span></span></li>
                    }).collect_view()}
                </ol>
            }.into_any()
        }}
    }
}

/// A figure without its unit.
fn bare(said: &str) -> String {
    said.split(crate::figures::THIN).next().unwrap_or(said).to_string()
}

/// The last tries and how far they lie apart.
#[component]
fn Tries() -> impl IntoView {
    let desk = desk();
    let w = hand_words();
    move || {
        let all = tries();
        let (goal, limit) =
            desk.parsed.with(|j| j.as_ref().map_or((0.85, 0.1), |j| (j.practice.goal, j.practice.spread)));
        let shown = all[all.len().saturating_sub(SHOWN)..].to_vec();
        if shown.is_empty() {
            return None;
        }
        let words = match spread(&shown) {
            Some(spread) => fill(w.spread, &[&of_100(spread), &of_100(limit)]),
            None => w.one_try.to_string(),
        };
        let exercise = desk
            .parsed
            .with(|j| j.as_ref().is_some_and(|j| j.practice.exercise.as_deref() == Some("five-tries")));
        let outcome = exercise.then(|| {
            let right = shown.last().is_some_and(|v| *v >= goal);
            match (shown.len() < SHOWN, right && spread(&shown).is_some_and(|s| s < limit)) {
                (true, _) => fill(w.tries_left, &[&(SHOWN - shown.len()).to_string()]),
                (_, true) => crate::words::words().class_hour.reached.into(),
                _ => crate::words::words().class_hour.not_reached.into(),
            }
        });
        let spoken: Vec<String> = shown.iter().map(|v| of_100(*v)).collect();
        let spoken = spoken.join(", ");
        Some(view! {
            <h2 class="kicker">{w.tries}</h2>
            <svg class="hand-tries" viewBox=format!("0 0 {WIDTH} 84") width="100%" role="img"
                aria-label=spoken
                inner_html=draw::tries_chart(&shown, goal, &fill(w.goal, &[&of_100(goal)]), WIDTH)></svg>
            <p class="small" data-spread="">{words} " " {outcome}</p>
        })
    }
}

/// Try again, the wall strip, the data.
#[component]
fn Foot(hand: HandDesk) -> impl IntoView {
    let desk = desk();
    let w = hand_words();
    let over = move || matches!(hand.phase.get(), Phase::Judged | Phase::Judging);
    view! {
        <div class="hand-buttons">
            <button type="button" class="main-button" data-do="again" hidden=move || !over() on:click=move |_| {
                hand.begin();
                super::stage::focus();
            }>{w.again}</button>
            <button type="button" class="link" data-do="strip" on:click=move |_| hand.strip.set(true)>{w.strip}</button>
            <a class="link" hidden=move || !over() href=move || desk.job.with(|t| link::to(t)).unwrap_or_default()>{w.link}</a>
            <button type="button" class="link" hidden=move || tries().is_empty() on:click=move |_| { desk.set("practice.tries", "[]"); }>{w.forget}</button>
        </div>
        <Data hand=hand />
    }
}

/// The passes as a table.
#[component]
fn Data(hand: HandDesk) -> impl IntoView {
    let desk = desk();
    let w = hand_words();
    let rows = move || {
        let system = desk.system.get();
        hand.told.with(|t| t.card.clone()).filter(|_| hand.phase.get() == Phase::Judged).map(|card| {
            let downs = card.downs();
            let row = |(i, pass): (usize, &crate::task::practising::Pass)| {
                let way = (pass.ends[1] - pass.ends[0]).abs().max(1e-6);
                let down = downs[i].map(|s| length(s, system)).unwrap_or_default();
                view! {
                    <tr><th scope="row">{i + 1}</th><td>{pace((pass.time[1] - pass.time[0]) / way, system)}</td><td>{down}</td><td>{seconds(pass.still)}</td></tr>
                }
            };
            card.passes.iter().enumerate().map(row).collect_view()
        })
    };
    view! {
        <details class="data" hidden=move || hand.phase.get() != Phase::Judged>
            <summary>{w.data}</summary>
            <table>
                <thead><tr><th scope="col">{w.pass}</th><th scope="col">{w.pace}</th><th scope="col">{w.between}</th><th scope="col">{w.still}</th></tr></thead>
                <tbody>{rows}</tbody>
            </table>
        </details>
    }
}
