//! Part view: the booth, the gun on the bench, the clipboard over both, the strip seen from the end, the film map.

use leptos::prelude::*;

use super::advice::WhatToChange;
use super::booth::BoothBand;
use super::clipboard::PartClipboard;
use super::end_strip::EndStrip;
use super::film_section::FilmSection;
use super::gun_panel::{BENCH, GunPanel, PieceByPiece};
use super::how_sprayed::HowSprayed;
use super::judged::Judged;
use super::kept::KeptRuns;
use super::members::MemberPicker;
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
            <KeptRuns />
            <EndStrip />
            <MemberPicker />
            <FilmSection />
            <Judged />
            <HowSprayed />
            <PieceByPiece />
            <p class="caution small">{w.caution_gun}</p>
        </div>
    }
}
