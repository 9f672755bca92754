//! Thinner speed, its effect in figures, and the solvents in a litre.

use leptos::prelude::*;
use mistcoat::evaporation::Voc;
use mistcoat::paint::ThinnerSpeed;
use mistcoat::paint::film_arithmetic::square_feet_per_gallon;
use mistcoat::units::{Quantity, System};

use super::desk::desk;
use super::fields::Complaint;
use super::sheet_fields::Whose;
use crate::figures::{of_100, said};
use crate::state::{covers, thinners};
use crate::words::{fill, words};

/// A share of 100 with a tenth: thinners differ by little.
fn tenth(share: f64) -> String {
    format!("{:.1}", 100.0 * share)
}

/// The section.
#[component]
pub fn ThinnerSpeeds() -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let all = Memo::new(move |_| desk.job.with(|text| thinners(text)));
    let now = move || {
        let written = desk.job.with(|text| mistcoat::job::as_written(text, "paint.thinner").ok().flatten());
        written.and_then(|word| ThinnerSpeed::of(&word)).unwrap_or_default()
    };
    let one = move |index: usize| {
        let thinner = all.get().get(index)?.clone();
        let (name, does) = w.speeds[index];
        let solvents: Vec<String> =
            thinner.solvents.iter().map(|(name, share)| format!("{name} {}", of_100(*share))).collect();
        let rate = format!("{:.2}", thinner.rate);
        let speed = thinner.speed;
        Some(view! {
            <li class:on=move || now() == speed>
                <button type="button" aria-pressed=move || (now() == speed).to_string() data-thinner=speed.word()
                    on:click=move |_| { desk.set("paint.thinner", speed.word()); }>
                    <span class="name">{name}</span>
                    <span class="lands"><b>{fill(w.lands, &[&tenth(thinner.landing)])}</b></span>
                </button>
                <p class="text">{does}</p>
                <p class="small">{fill(w.stands_for, &[&solvents.join(", ")])} " " {fill(w.rate, &[&rate])}</p>
            </li>
        })
    };
    let in_cup =
        move || desk.parsed.with(|j| j.as_ref().map(|j| tenth(j.paint.volume_solids))).unwrap_or_default();
    let here = move || {
        let run = desk.fresh()?;
        let solids =
            run.number("film.dry_um.mean")? / run.number("film.wet_um.mean").filter(|wet| *wet > 0.0)?;
        Some(fill(w.lands_here, &[&tenth(solids)]))
    };
    view! {
        <section class="paint-block">
            <div class="block-head"><h2>{w.thinner}</h2> <Whose key="paint.thinner" /></div>
            <ul class="thinners">{move || (0..3).map(one).collect_view()}</ul>
            <Complaint key="paint.thinner" keys=&[] />
            <p class="small">{move || fill(w.thinner_note, &[&in_cup()])} " " {here}</p>
        </section>
    }
}

/// Solvents in a litre, and the area it covers.
#[component]
pub fn SolventsAndCoverage() -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let voc = move || {
        let voc = desk.parsed.with(|j| j.as_ref().and_then(|j| Voc::of(&j.paint).ok()))?;
        let grams = |kg_m3: f64| match desk.system.get() {
            System::Metric => format!("{kg_m3:.0}\u{202f}g/L"),
            // 1 lb/gal is 119.8264 g/L.
            System::Us => format!("{:.2}\u{202f}lb/gal", kg_m3 / 119.8264),
        };
        Some(fill(w.voc, &[&grams(voc.actual), &grams(voc.less_water)]))
    };
    let covered = move || {
        let landed = desk.run.get()?.number("transfer_efficiency.value").filter(|share| *share > 0.0)?;
        let system = desk.system.get();
        let (film, all, here) = desk.parsed.with(|j| j.as_ref().map(|j| covers(j, landed)))?;
        let area = |m2_m3: f64| match system {
            System::Metric => format!("{:.1}\u{202f}m² a litre", m2_m3 * 1e-3),
            System::Us => format!("{:.0}\u{202f}ft² a gallon", square_feet_per_gallon(m2_m3)),
        };
        Some(fill(w.covers, &[&said(Quantity::Film, film, system), &area(all), &area(here), &of_100(landed)]))
    };
    view! {
        <section class="paint-block">
            <h2>{w.solvents}</h2>
            <p class="text" data-voc="">{voc}</p>
            <p class="text">{covered}</p>
        </section>
    }
}
