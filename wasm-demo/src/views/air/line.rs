//! The drawn line, and its figures as a list.

use leptos::prelude::*;

use super::super::desk::desk;
use super::{AIR, BAR, BORE, LONG, TANK, air_desk};
use crate::draw::air_line::{AirLine, Labels, SIZE, Said, air_line};
use crate::state::{AirState, Stage, face_of};
use crate::words::{fill, words};
use mistcoat::air::ROOM_PRESSURE;
use mistcoat::catalogue;
use mistcoat::units::System;

/// What is drawn of a state; `time` is the moment of the air test that is played.
fn drawn(state: &AirState, time: Option<f64>, system: System) -> AirLine {
    let w = words().air;
    let (answer, job) = (&state.answer, &state.job);
    let bar = |pa: f64| Said { bar: pa * 1e-5, words: BAR.said(pa, system) };
    let gauge = |pa: f64| pa - ROOM_PRESSURE;
    let p = &answer.pressures;
    let supply = job.supply.as_ref();
    let c = supply.map(|s| s.compressor);
    let (cut_in, cut_out) = c.map_or((0.0, 0.0), |c| (c.cut_in, c.cut_out));
    let (gun, tank) = time.map_or((answer.gun_inlet, cut_out), |t| state.at(t));
    let mark =
        |template: &str, pa: f64| Said { bar: pa * 1e-5, words: fill(template, &[&BAR.said(pa, system)]) };
    let mut marks =
        vec![mark(w.marks[0], cut_out), mark(w.marks[1], cut_in), mark(w.marks[2], answer.tank_needed)];
    marks.sort_by(|a, b| b.bar.total_cmp(&a.bar));
    let line = supply.map(|s| s.line);
    let (bore, length, count) = line.map_or((0.0, 0.0, 0), |l| (l.hose.bore, l.hose.length, l.couplings));
    let others = supply.map(|s| s.also.iter().map(|u| u.name.clone()).collect::<Vec<_>>().join(", "));
    let us = system == System::Us;
    AirLine {
        face: face_of(job),
        gun: bar(gun),
        rest: bar(answer.rest.min(tank)),
        wall: bar(gauge(p.wall)),
        hose: (gauge(p.hose_in) * 1e-5, gauge(p.hose_out) * 1e-5),
        tank: bar(tank),
        marks,
        full: cut_out * 1e-5,
        bore: bore * 1e3,
        couplings: (count.div_ceil(2), count / 2),
        stage: if time.is_some() { Stage::Air } else { Stage::Paint },
        dial: if us { (14.503_773_773, "psi", 20.0) } else { (1.0, "bar", 1.0) },
        labels: Labels {
            gun: w.gun_gauge.into(),
            gun_says: [
                fill(w.pulled, &[&BAR.said(gun, system)]),
                fill(w.at_rest, &[&BAR.said(answer.rest, system)]),
            ],
            hose: [
                fill(w.hose_size, &[&BORE.said(bore, system), &LONG.said(length, system)]),
                fill(w.loses, &[&BAR.said(p.hose_drop(), system)]),
            ],
            couplings: if count == 0 {
                w.no_couplings.into()
            } else {
                fill(w.couplings, &[&count.to_string(), &BAR.said(p.coupling_drop(), system)])
            },
            wall: w.wall_gauge.into(),
            wall_says: [
                fill(w.pulled, &[&BAR.said(gauge(p.wall), system)]),
                fill(w.at_rest, &[&BAR.said(answer.rest, system)]),
            ],
            mask: others
                .filter(|o| !o.is_empty())
                .map(|o| fill(w.others, &[&o, &AIR.said(answer.also_air, system)]))
                .unwrap_or_default(),
            pump: [
                c.map(|c| fill(w.delivers, &[&AIR.said(c.delivered_air, system)])).unwrap_or_default(),
                displacement(state)
                    .map(|d| fill(w.label_says, &[&AIR.said(d, system)]))
                    .unwrap_or_else(|| c.map(|c| TANK.said(c.tank, system)).unwrap_or_default()),
            ],
            curve: [w.curve.into(), fill(w.at_rest, &[&BAR.said(answer.rest, system)])],
            scale: w.scale.into(),
        },
    }
}

/// What the label of the catalogue's machine boasts, where the job has that machine as it is [m3/s].
pub fn displacement(state: &AirState) -> Option<f64> {
    let own = state.job.supply.as_ref()?.compressor;
    let data = catalogue::compressors().iter().find(|d| d.compressor() == own)?;
    data.displacement.map(|d| d.value)
}

/// The drawing; its figures stand in the list below it, for screens too small for it and for those who listen.
#[component]
pub fn Line() -> impl IntoView {
    let desk = desk();
    let air = air_desk();
    let w = words().air;
    let svg = move || {
        air.get().map(|s| air_line(&drawn(&s, air.time.get(), desk.system.get()))).unwrap_or_default()
    };
    let rows = move || {
        let Some(s) = air.get() else { return Vec::new() };
        let system = desk.system.get();
        let (p, say) = (&s.answer.pressures, |pa: f64| BAR.said(pa - ROOM_PRESSURE, system));
        let full = s.job.supply.as_ref().map_or(0.0, |s| s.compressor.cut_out);
        vec![
            (w.gun_gauge, say(p.gun), fill(w.at_rest, &[&BAR.said(s.answer.rest, system)])),
            (w.hose, say(p.hose_out), fill(w.loses, &[&BAR.said(p.hose_drop(), system)])),
            (w.wall_gauge, say(p.wall), fill(w.at_rest, &[&BAR.said(s.answer.rest, system)])),
            (w.tank, BAR.said(full, system), fill(w.marks[2], &[&BAR.said(s.answer.tank_needed, system)])),
        ]
    };
    view! {
        <section class="air-line" data-state=move || if air.get().is_some() { "done" } else { "none" }>
            <h2 class="unseen">{w.drawing}</h2>
            <svg viewBox=format!("0 0 {} {}", SIZE.0, SIZE.1) aria-hidden="true" inner_html=svg></svg>
            <details class="data" open=super::is_narrow()>
                <summary>{words().data_table}</summary>
                <table>
                    <caption>{w.along}</caption>
                    <tbody>{move || rows().into_iter().map(|(name, figure, beside)| view! {
                        <tr><th scope="row">{name}</th><td>{figure}</td><td>{beside}</td></tr>
                    }).collect_view()}</tbody>
                </table>
            </details>
        </section>
    }
}
