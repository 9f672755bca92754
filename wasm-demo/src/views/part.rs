//! Part view: the booth, the gun on the bench, the clipboard over both, the strip seen from the end, the film map.

use leptos::prelude::*;

use super::advice::WhatToChange;
use super::booth::BoothBand;
use super::clipboard::PartClipboard;
use super::desk::desk;
use super::end_strip::EndStrip;
use super::film_canvas::{FilmCanvas, Show, wanted};
use super::gun_panel::{BENCH, GunPanel, PieceByPiece};
use super::how_sprayed::HowSprayed;
use super::judged::{Judged, SpotMarks};
use crate::words::words;

/// The view.
#[component]
pub fn PartView() -> impl IntoView {
    let w = words();
    view! {
        <div class="part-view">
            <BoothBand />
            <div class="bench">
                <GunPanel stand=BENCH chalk_arrow=true />
                <PartClipboard />
            </div>
            <WhatToChange />
            <EndStrip />
            <FilmMap />
            <Judged />
            <HowSprayed />
            <PieceByPiece />
            <p class="caution small">{w.caution_gun}</p>
        </div>
    }
}

/// The film over the part; a tube is unrolled.
#[component]
fn FilmMap() -> impl IntoView {
    let desk = desk();
    let w = words();
    let tube = move || desk.parsed.with(|j| j.as_ref().is_some_and(crate::state::is_tube));
    let title = move || if tube() { w.film_map_tube } else { w.film_map_panel };
    let shape = Memo::new(move |_| {
        desk.film.with(|f| f.as_ref().map(|f| f.height() / f.width())).unwrap_or(0.2).clamp(0.04, 1.0)
    });
    move || {
        desk.film.with(Option::is_some).then(|| {
            let height = (784.0 * shape.get()).clamp(56.0, 480.0) as u32;
            view! {
                <section class="film-map">
                    <h2>{title}</h2>
                    <div class="spotted">
                        <FilmCanvas show=Show::Map width=784 height=height label=Signal::derive(move || title().to_string()) class="film-wide" />
                        <SpotMarks width=784 height=height />
                    </div>
                    {wanted().map(|_| view! { <super::card::MapKey width=204 /> })}
                    <p class="small">{w.map_note}</p>
                </section>
            }
        })
    }
}
