//! The comb in the wet film.

use leptos::prelude::*;
use mistcoat::judge::{Comb, CombReading, words as said_by};
use mistcoat::units::{Quantity, System};

use crate::draw::comb as draw;
use crate::figures::with_signs;
use crate::figures::{parted, said};
use crate::words::{fill, words};

/// Picture and sentence.
#[component]
pub fn CombBlock(comb: CombReading, system: System) -> impl IntoView {
    let w = words().judge;
    let teeth = Comb::of(system);
    let wet = comb.wet_um * 1e-6;
    let (reading, next) = teeth.bracket(wet);
    let picture = draw::about(&teeth.teeth, wet, |tooth| parted(Quantity::Film, tooth, system).0);
    let say = |si: f64| said(Quantity::Film, si, system);
    let spoken = fill(w.comb_drawn, &[&say(reading), &next.map(say).unwrap_or_default()]);
    let drawn = draw::comb(&picture, 336.0);
    view! {
        <div class="judged-block" data-comb="">
            <h3 class="name">{w.comb}</h3>
            <svg viewBox="0 0 336 136" role="img" aria-label=spoken inner_html=drawn></svg>
            <p class="text">{with_signs(&said_by::comb(&comb, system))}</p>
            <p class="small">{w.comb_note}</p>
        </div>
    }
}
