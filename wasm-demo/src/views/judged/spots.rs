//! Every spot with its readings, area by area.

use leptos::prelude::*;
use mistcoat::judge::{FilmVerdict, Spot, Verdict};
use mistcoat::units::{Quantity, System};

use super::verdict_word;
use crate::figures::{parted, said};
use crate::views::desk::desk;
use crate::words::{fill, words};

/// The table; nothing where the method has no spots.
#[component]
pub fn Spots(film: FilmVerdict, system: System) -> impl IntoView {
    let w = words().judge;
    if film.spots.is_empty() {
        return ().into_any();
    }
    let say = move |um: f64| said(Quantity::Film, um * 1e-6, system);
    let areas: Vec<String> = film
        .areas
        .iter()
        .map(|a| {
            let mean = fill(
                w.give_or_take,
                &[&parted(Quantity::Film, a.um * 1e-6, system).0, &say(a.standard_error_um)],
            );
            fill(w.area_line, &[&a.number.to_string(), &mean, verdict_word(a.verdict)])
        })
        .collect();
    let followed: Vec<String> = film
        .areas
        .iter()
        .flat_map(|a| &a.follow_up)
        .map(|f| {
            let spots: Vec<_> =
                f.spots.iter().map(|s| format!("{} {}", say(s.um), verdict_word(s.verdict))).collect();
            format!("{}°: {}", f.degrees, spots.join(", "))
        })
        .collect();
    let single = film.areas.is_empty();
    let spots = film.spots.clone();
    let few = spots.len() <= 6;
    view! {
        <details class="judged-spots" open=few>
            <summary>{w.every_spot}</summary>
            <div class="judged-scroll">
                <table class="judged-table" data-spots="">
                    <thead><tr>
                        {if single { w.readings_head.to_vec() } else { w.spots_head.to_vec() }.into_iter().map(|h| view! { <th scope="col">{h}</th> }).collect_view()}
                    </tr></thead>
                    <tbody>{spots.into_iter().map(|spot| view! { <Row spot=spot single=single system=system /> }).collect_view()}</tbody>
                </table>
            </div>
            {areas.into_iter().map(|a| view! { <p class="text">{a}</p> }).collect_view()}
            {followed.into_iter().map(|f| view! { <p class="small">{fill(w.outwards, &[&f])}</p> }).collect_view()}
            <p class="small">{w.places_how} " " {w.gauge}</p>
        </details>
    }
    .into_any()
}

#[component]
fn Row(spot: Spot, single: bool, system: System) -> impl IntoView {
    let desk = desk();
    let w = words().judge;
    let readings: Vec<String> =
        spot.readings.iter().map(|r| parted(Quantity::Film, r.um * 1e-6, system).0).collect();
    let value = parted(Quantity::Film, spot.um * 1e-6, system).0;
    let film = fill(w.give_or_take, &[&value, &said(Quantity::Film, spot.standard_error_um * 1e-6, system)]);
    let face = spot.place.face;
    let elsewhere = move || desk.members.with(|m| m.len() > 1) && desk.member.get() != face;
    view! {
        <tr>
            <th scope="row">{spot.number}</th>
            <td>{spot.place.place}
                {move || elsewhere().then(|| view! {
                    " " <button type="button" class="link" on:click=move |_| desk.show_member(face)>{w.on_map}</button>
                })}
            </td>
            {(!single).then(|| view! { <td class="beside">{readings.join(", ")}</td> })}
            <td>{film}</td>
            <td class:wrong=spot.verdict == Verdict::Fail><b>{verdict_word(spot.verdict)}</b></td>
        </tr>
    }
}
