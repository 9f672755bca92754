//! How to set your own gun: the three knobs from where they are to where they should be.

use leptos::prelude::*;
use mistcoat::units::Quantity;

use super::desk::desk;
use crate::draw::side::gauge;
use crate::draw::spiral::spiral;
use crate::figures::{said, turns};
use crate::state::side::{Setting, Sides};
use crate::words::{fill, words};

/// The strip under the table.
#[component]
pub fn HowToSet(sides: Memo<Sides>) -> impl IntoView {
    let desk = desk();
    let w = words().side;
    let both = Memo::new(move |_| {
        sides.with(|s| {
            let of = |i: usize| s.rows.get(i).and_then(|r| r.figures.clone());
            of(0).zip(of(1))
        })
    });
    let load = move |_| {
        let Some((_, best)) = both.get_untracked() else { return };
        let edited = best.keys.iter().try_fold(desk.job.get_untracked(), |text, (key, value)| {
            mistcoat::job::with_key(&text, key, value)
        });
        desk.take("run", edited);
    };
    move || {
        both.get().map(|(now, best)| {
            let same = now.setting == best.setting;
            view! {
                <section class="side-set">
                    <div>
                        <h2>{w.how_to}</h2>
                        <p class="small">{w.how_to_order}</p>
                        <button type="button" class="plain-box" data-load="best" disabled=same on:click=load>{w.load}</button>
                        {same.then(|| view! { <p class="small">{w.loaded}</p> })}
                    </div>
                    {knobs(desk, &now.setting, &best.setting)}
                    <p class="small side-then">{fill(w.then, &[&stroke(desk, &now.setting, &best.setting)])}</p>
                </section>
            }
        })
    }
}

fn knobs(desk: super::desk::Desk, now: &Setting, best: &Setting) -> impl IntoView + use<> {
    let w = words();
    let bar = |b: f64| said(Quantity::Pressure, b * 1e5, desk.system.get());
    let full = desk.parsed.with(|j| j.as_ref().map_or(4.0, |j| crate::state::face_of(j).gauge_full_bar));
    let out =
        |from: (f64, f64), to: (f64, f64)| fill(w.side.out_to, &[&turns(from.0), w.turns_out, &turns(to.0)]);
    let fine = |b: f64| if (b * 10.0).fract().abs() < 1e-6 { bar(b) } else { format!("{b:.2}\u{202f}bar") };
    let metric = desk.system.get() == mistcoat::units::System::Metric;
    let pressure = |b: f64| if metric { fine((b * 100.0).round() / 100.0) } else { bar(b) };
    let turned = |at: (f64, f64)| spiral(at.0, at.1);
    let all = [
        (1, w.fan_knob, [now.fan_turns, best.fan_turns].map(turned), out(now.fan_turns, best.fan_turns)),
        (
            2,
            w.side.pressure,
            [now.inlet_bar, best.inlet_bar].map(|bar| gauge(bar, full)),
            fill(w.side.bar_to, &[&pressure(now.inlet_bar), &pressure(best.inlet_bar)]),
        ),
        (
            3,
            w.fluid_knob,
            [now.fluid_turns, best.fluid_turns].map(turned),
            out(now.fluid_turns, best.fluid_turns),
        ),
    ];
    all.into_iter()
        .map(|(number, name, [from, to], words)| {
            view! {
                <div class="side-knob" class:now=number == 1>
                    <span class="knob-name"><span class="disc" aria-hidden="true">{number}</span>{name}</span>
                    <div class="side-turn" aria-hidden="true">
                        <svg class="was" viewBox="0 0 44 44" width="44" height="44"><g inner_html=from></g></svg>
                        <svg viewBox="0 0 34 12" width="34" height="12"><path class="side-arrow" d="M1 6H32M26 1L32 6L26 11" /></svg>
                        <svg class="now" viewBox="0 0 44 44" width="44" height="44"><g inner_html=to></g></svg>
                    </div>
                    <span>{words}</span>
                </div>
            }
        })
        .collect_view()
}

/// The stroke that goes with it.
fn stroke(desk: super::desk::Desk, now: &Setting, best: &Setting) -> String {
    let w = words().side;
    let mut said_all = Vec::new();
    if best.sides.is_some() && now.fan_along != best.fan_along {
        said_all.push(if best.fan_along { w.fan_along } else { w.fan_across }.to_string());
    }
    if let Some(sides) = best.sides {
        said_all.push(fill(w.from_sides, &[&sides.to_string()]));
    }
    let speed = said(Quantity::Speed, best.speed_mm_s * 1e-3, desk.system.get());
    said_all.push(fill(w.at_speed, &[&speed]));
    said_all.join(", ")
}
