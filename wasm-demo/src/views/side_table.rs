//! The table of the Side by side view: a row for each gun; on phones a card for each.

use leptos::prelude::*;
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::fields::Complaint;
use super::side::{nouns, side_desk};
use super::side_row::{line, shown};
use crate::draw::range::round_axis;
use crate::draw::side::{WIDTH, paint_axis};
use crate::figures::{drop_size, said, seconds};
use crate::state::side::Sides;
use crate::words::{fill, words};

fn unit(desk: Desk, quantity: Quantity) -> &'static str {
    mistcoat::units::unit_shown(quantity, desk.system.get()).0
}

/// Names of the columns, and what stands under them, with the units shown.
pub(super) fn heads(desk: Desk) -> [(String, String); 11] {
    let [a_part, _, parts] = nouns(desk);
    let volume = unit(desk, Quantity::Volume);
    let heads = words().side.heads;
    std::array::from_fn(|i| {
        let (name, under) = heads[i];
        let under = match i {
            1 => fill(under, &[unit(desk, Quantity::AirFlow)]),
            3 => fill(under, &[unit(desk, Quantity::Length)]),
            4 | 7 => fill(under, &[volume]),
            8 => fill(under, &[volume, a_part]),
            9 => format!("{under} {parts}"),
            _ => under.to_string(),
        };
        (fill(name, &[a_part]), under)
    })
}

/// The table, its foot, and how far the work is.
#[component]
pub fn SideTable(sides: Memo<Sides>, again: Callback<()>) -> impl IntoView {
    let desk = desk();
    let w = words().side;
    let heads = move || {
        heads(desk)
            .map(|(name, under)| view! { <th scope="col"><b>{name}</b><span>{under}</span></th> })
            .collect_view()
    };
    let axis = move || round_axis(shown(desk, sides.with(Sides::most_ml)) * 1.04);
    view! {
        <section class="side-table">
            <table>
                <thead><tr>{heads}</tr></thead>
                <tbody>
                    {move || {
                        let sides = sides.get();
                        let axis = axis();
                        sides.rows.iter().map(|row| line(desk, row, &sides, axis)).collect_view()
                    }}
                </tbody>
            </table>
            <div class="side-axis">
                <span class="small">{w.foot}</span>
                <svg viewBox=format!("0 0 {WIDTH} 24") width=WIDTH height="24" aria-hidden="true"
                    inner_html=move || { let (end, step) = axis(); paint_axis(end, step) }></svg>
            </div>
            <Complaint key="compare.price" keys=&[] />
            <Work sides=sides again=again />
        </section>
        <p class="small side-fair">{move || fair(desk, &sides.get())}</p>
    }
}

/// What makes the rows fair, with the limits.
fn fair(desk: Desk, sides: &Sides) -> Option<String> {
    let (limits, film) = (sides.limits?, sides.film_um?);
    let system = desk.system.get();
    let speed = |mm_s: f64| said(Quantity::Speed, mm_s * 1e-3, system);
    Some(fill(
        words().side.fair,
        &[
            &said(Quantity::Film, film * 1e-6, system),
            &format!("{:.0}", limits.even_percent),
            &drop_size(limits.sauter_um),
            &speed(limits.speed_mm_s[0]),
            &speed(limits.speed_mm_s[1]),
            &seconds(limits.seconds),
        ],
    ))
}

/// Progress and Stop, or why it ended.
#[component]
fn Work(sides: Memo<Sides>, again: Callback<()>) -> impl IntoView {
    let desk = desk();
    let w = words().side;
    let errand = side_desk().errand;
    let guns = move || desk.parsed.with(|j| j.as_ref().map_or(0, |j| j.compare.kits.len())) + 2;
    move || {
        let standing = errand.standing.get();
        let done = sides.with(|s| s.rows.len());
        if let Some((key, message)) = standing.refused {
            let message = key.map_or(message.clone(), |key| format!("{key}: {message}"));
            return view! {
                <p class="complaint side-work" role="alert" data-side="refused"><span aria-hidden="true">"\u{00d7} "</span>{w.refused} " " {message}</p>
            }
            .into_any();
        }
        let progress = fill(w.progress, &[&done.to_string(), &guns().to_string()]);
        if standing.busy {
            let share = format!("{:.1}%", 100.0 * standing.done.clamp(0.0, 1.0));
            return view! {
                <div class="side-work" data-side="busy" aria-live="polite">
                    <span>{progress}</span>
                    <button type="button" class="link" on:click=move |_| errand.stop()>{words().stop}</button>
                    <i class="side-rule" style:width=share></i>
                </div>
            }
            .into_any();
        }
        let state = if standing.stopped { "stopped" } else { "done" };
        view! {
            <div class="side-work" data-side=state>
                <span>{if standing.stopped { format!("{} {progress}", words().stopped) } else { String::new() }}</span>
                {standing.stopped.then(|| view! { <button type="button" class="link" on:click=move |_| again.run(())>{w.again}</button> })}
            </div>
        }
        .into_any()
    }
}
