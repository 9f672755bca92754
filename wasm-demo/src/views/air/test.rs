//! The air test of one minute: how to do it, what the gauge should do, played and as a table.

use std::time::Duration;

use leptos::prelude::*;

use super::super::desk::desk;
use super::{BAR, air_desk};
use crate::draw::air_test::{AirTest as Chart, HEIGHT, WIDTH, air_test};
use crate::draw::range::round_axis;
use crate::figures::seconds;
use crate::state::AirState;
use crate::words::{fill, words};
use mistcoat::units::System;

/// Length of the test [s].
const MINUTE: f64 = 60.0;
/// One step of the play: a second of the test in a tenth of a second.
const STEP: (f64, Duration) = (1.0, Duration::from_millis(100));

fn chart(state: &AirState, time: Option<f64>, system: System) -> Chart {
    let w = words().air;
    let unit = |pa: f64| BAR.value(pa, system);
    let top = state.minute.iter().map(|m| unit(m.tank)).fold(1.0, f64::max);
    Chart {
        points: state.minute.iter().map(|m| [m.time, unit(m.gun), unit(m.tank)]).collect(),
        wanted: unit(state.answer.wanted),
        axis: round_axis(top),
        seconds: MINUTE,
        now: time.map(|t| (t, unit(state.at(t).0))),
        words: [w.gun_gauge.into(), w.tank_field.into(), w.asked.into(), BAR.unit(system).0.into()],
    }
}

/// What the gauge should do, in a sentence.
fn told(state: &AirState, system: System) -> String {
    let w = words().air;
    let first = state.answer.gun_inlet;
    let last = state.at(MINUTE).0;
    let falls = state.minute.iter().rposition(|m| m.gun >= first - 1.0).map_or(0.0, |i| state.minute[i].time);
    if falls >= MINUTE - 0.5 {
        fill(w.test_holds, &[&BAR.said(first, system)])
    } else {
        fill(w.test_falls, &[&BAR.said(first, system), &seconds(falls), &BAR.said(last, system)])
    }
}

fn still_motion() -> bool {
    window().match_media("(prefers-reduced-motion: reduce)").ok().flatten().is_some_and(|m| m.matches())
}

/// The test.
#[component]
pub fn AirTest() -> impl IntoView {
    let desk = desk();
    let air = air_desk();
    let w = words().air;
    let playing = RwSignal::new(false);
    let width = if super::is_narrow() { WIDTH.1 } else { WIDTH.0 };
    Effect::new(move |_| {
        if !playing.get() {
            return;
        }
        let time = air.time.get().unwrap_or(0.0);
        if time >= MINUTE {
            playing.set(false);
        } else {
            // The view may be gone by then.
            set_timeout(
                move || {
                    let _ = air.time.try_update(|t| *t = Some((time + STEP.0).min(MINUTE)));
                },
                STEP.1,
            );
        }
    });
    let press = move |_| {
        if playing.get_untracked() {
            playing.set(false);
            return;
        }
        let from = air.time.get_untracked().filter(|t| *t < MINUTE).unwrap_or(0.0);
        if still_motion() {
            air.time.set(Some(MINUTE));
        } else {
            air.time.set(Some(from));
            playing.set(true);
        }
    };
    let drag = move |event| {
        playing.set(false);
        air.time.set(event_target_value(&event).parse::<f64>().ok().map(|t| t.clamp(0.0, MINUTE)));
    };
    let svg = move || {
        air.get().map(|s| air_test(&chart(&s, air.time.get(), desk.system.get()), width)).unwrap_or_default()
    };
    let spoken = move || air.get().map(|s| told(&s, desk.system.get())).unwrap_or_default();
    let now = move || {
        let (state, time) = (air.get()?, air.time.get()?);
        Some(format!("{}: {}", seconds(time), BAR.said(state.at(time).0, desk.system.get())))
    };
    let rows = move || {
        let Some(state) = air.get() else { return Vec::new() };
        let system = desk.system.get();
        (0..=12)
            .map(|i| 5.0 * f64::from(i))
            .map(|t| {
                let (gun, tank) = state.at(t);
                (seconds(t), BAR.said(gun, system), BAR.said(tank, system))
            })
            .collect::<Vec<_>>()
    };
    view! {
        <section class="air-test">
            <h2>{w.test}</h2>
            <p class="text">{w.test_how}</p>
            <p class="advice">{spoken}</p>
            <svg viewBox=format!("0 0 {width} {HEIGHT}") role="img" aria-label=spoken inner_html=svg></svg>
            <div class="air-play">
                <button type="button" class="main-button" data-play=move || playing.get().to_string() on:click=press>
                    {move || if playing.get() { w.pause } else { w.play }}
                </button>
                <label class="grow"><span class="unseen">{w.second}</span>
                    <input type="range" min="0" max="60" step="1" prop:value=move || air.time.get().unwrap_or(0.0).to_string()
                        aria-valuetext=now on:input=drag />
                </label>
                <span class="small air-now">{move || now().unwrap_or_else(|| w.faster.into())}</span>
            </div>
            <details class="data">
                <summary>{words().data_table}</summary>
                <table>
                    <thead><tr><th scope="col">{w.time}</th><th scope="col">{w.gun_gauge}</th><th scope="col">{w.tank_field}</th></tr></thead>
                    <tbody>{move || rows().into_iter().map(|(t, gun, tank)| view! {
                        <tr><th scope="row">{t}</th><td>{gun}</td><td>{tank}</td></tr>
                    }).collect_view()}</tbody>
                </table>
            </details>
        </section>
    }
}
