//! The answer: one sentence, one number, one plain range; then the lines, warnings, and what would help.

use leptos::prelude::*;
use mistcoat::supply::Verdict;
use mistcoat::units::{Quantity, System};

use super::super::clipboard::Clip;
use super::super::counted::{Counted, Last};
use super::super::desk::desk;
use super::{AIR, BAR, air_desk};
use crate::draw::range::{range_bar, round_axis};
use crate::figures::{THIN, said, seconds};
use crate::state::{AirState, Figure};
use crate::words::{fill, words};

/// A figure as said.
pub fn say(figure: Figure, system: System) -> String {
    match figure {
        Figure::Air(v) => AIR.said(v.abs(), system),
        Figure::Held(s) | Figure::On(s) => seconds(s),
        Figure::Gun(p) => BAR.said(p, system),
    }
}

/// The three parts of the verdict's sentence; `{}` is the number's place.
fn sentence(state: &AirState) -> [&'static str; 3] {
    let all = words().air.verdicts;
    match state.answer.verdict {
        Verdict::ForEver => all[0],
        Verdict::ThisJob => all[1],
        Verdict::RunsDown => all[2],
        Verdict::Never if state.starved() => all[4],
        Verdict::Never => all[3],
    }
}

/// The range as said: both ends, "without end" where one is.
fn likely(state: &AirState, system: System) -> String {
    let w = words().air;
    let end = |figure: Option<Figure>| match figure {
        None => w.for_ever.to_string(),
        Some(Figure::Air(v)) if v < 0.0 && !state.starved() => {
            format!("{} {}", AIR.said(-v, system), w.lacks)
        }
        Some(figure) => say(figure, system),
    };
    let (_, mut ends) = state.figures();
    if state.starved() {
        ends.reverse();
    }
    fill(w.likely, &[&end(ends[0]), &end(ends[1])])
}

/// The range as a bar, where both its ends lie on one axis.
fn bar(state: &AirState, system: System) -> Option<String> {
    let value = |figure: Option<Figure>| match figure? {
        Figure::Air(v) => Some(AIR.value(v, system)).filter(|v| *v >= 0.0),
        Figure::Held(s) | Figure::On(s) => Some(s),
        Figure::Gun(p) => Some(BAR.value(p, system)),
    };
    let (mid, [low, high]) = state.figures();
    let unit = match mid? {
        Figure::Air(_) => AIR.unit(system).0,
        Figure::Held(_) | Figure::On(_) => "s",
        Figure::Gun(_) => BAR.unit(system).0,
    };
    let (low, mid, high) = (value(low)?, value(mid)?, value(high)?);
    let (end, step) = round_axis(high.max(1e-9));
    Some(range_bar(336.0, low, mid, high, end, step, unit))
}

/// Name, figure, what stands beside it.
fn lines(state: &AirState, system: System) -> Vec<(&'static str, String, String)> {
    let (w, a) = (words().air, &state.answer);
    let delivered = state.job.supply.as_ref().map_or(0.0, |s| s.compressor.delivered_air);
    let beside = if a.margin < 0.0 { w.lacks } else { w.over };
    let mut out = vec![
        (
            w.wall_must,
            a.wall.map_or(w.wall_cannot.into(), |wall| BAR.said(wall.pulled, system)),
            match a.wall {
                Some(wall) => fill(w.at_rest, &[&BAR.said(wall.rest, system)]),
                None => String::new(),
            },
        ),
        (w.gun_draws, AIR.said(a.gun_air, system), String::new()),
    ];
    if a.also_air > 0.0 {
        out.push((w.others_draw, AIR.said(a.also_air, system), String::new()));
    }
    out.push((
        w.delivered,
        AIR.said(delivered, system),
        format!("{} {beside}", AIR.said(a.margin.abs(), system)),
    ));
    if let Some(held) = a.held_seconds.filter(|_| a.verdict != Verdict::ThisJob) {
        out.push((w.trigger_held, seconds(held), String::new()));
    }
    if let Some(wait) = a.wait_seconds {
        out.push((w.wait, seconds(wait), String::new()));
    }
    out.push((w.plan, seconds(a.plan_seconds), String::new()));
    let ml = |flow: f64| {
        let hour = flow * 3600.0;
        if hour < 0.5e-6 { w.nothing.into() } else { said(Quantity::Volume, hour, system) }
    };
    out.push((w.water, ml(a.water.line), w.per_hour.into()));
    out.push((w.tank_water, ml(a.water.tank), w.per_hour.into()));
    out
}

/// What the air says.
#[component]
pub fn AirClipboard() -> impl IntoView {
    let desk = desk();
    let air = air_desk();
    let w = words().air;
    let kicker = move || {
        air.get().map(|s| {
            let system = desk.system.get();
            let hose = s.job.supply.as_ref().map_or(0.0, |s| s.line.hose.bore);
            format!(
                "{}, {} {}, {}",
                s.job.kit.name,
                BAR.said(s.answer.wanted, system),
                w.asked,
                fill(w.hose_size, &[&super::BORE.said(hose, system), ""]).trim_end_matches([',', ' '])
            )
        })
    };
    let shown = Last::new(None);
    view! {
        <section class="clipboard" data-verdict=move || air.get().map(|s| s.answer.verdict.word())>
            <Clip />
            <p class="kicker">{kicker}</p>
            {move || air.get().map(|s| {
                let system = desk.system.get();
                let [before, after, last] = sentence(&s);
                let number = s.figures().0.map(|f| say(f, system)).unwrap_or_default();
                let (figure, unit) = number.split_once(THIN).map_or((number.clone(), String::new()), |(a, b)| (a.into(), b.into()));
                let after = fill(after, &[&unit]);
                let last = fill(last, &[&BAR.said(s.answer.wanted, system)]);
                view! {
                    <p class="sentence" aria-live="polite">
                        <span>{before}</span><span><Counted text=figure unit=unit last=shown />" "{after}</span>
                        {(!last.is_empty()).then(|| view! { <span>{last}</span> })}
                    </p>
                    {bar(&s, system).map(|bar| view! { <svg class="range" viewBox="0 0 336 42" aria-hidden="true" inner_html=bar></svg> })}
                    <p class="small">{likely(&s, system)} " " {w.gun_range}</p>
                    <dl class="lines">
                        {lines(&s, system).into_iter().map(|(name, value, beside)| view! {
                            <div><dt>{name}</dt><dd>{value}</dd><dd class="beside">{beside}</dd></div>
                        }).collect_view()}
                    </dl>
                    <p class="small">{w.water_note}</p>
                    {s.answer.warnings.iter().map(|m| view! { <p class="small air-warning">{m.to_string()}</p> }).collect_view()}
                }
            })}
            {move || air.state.with(|s| s.as_ref().err().cloned()).map(|m| view! { <p class="complaint" role="alert">{m}</p> })}
            <super::fixes::Fixes />
        </section>
    }
}
