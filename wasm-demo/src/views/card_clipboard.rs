//! What the card says: the pattern's word, one number, what to turn; and its profiles as tables.

use leptos::prelude::*;
use mistcoat::gun::Matched;
use mistcoat::report::REST_FAN;
use mistcoat::units::Quantity;

use super::advice::ByHowMuch;
use super::clipboard::Clipboard;
use super::counted::{Counted, Last};
use super::desk::{How, desk};
use super::match_gun::MatchLink;
use crate::draw::sign;
use crate::figures::{drop_size, of_100, parted, said};
use crate::state::{Profile, middle_over_ends};
use crate::words::{fill, words};

/// What the card says.
#[component]
pub fn CardClipboard() -> impl IntoView {
    let desk = desk();
    let w = words();
    let kind = move || desk.run.get().and_then(|r| r.pattern_kind());
    let kicker = move || {
        let distance = desk.parsed.with(|j| j.as_ref().map(|j| j.stroke.distance)).unwrap_or(f64::NAN);
        let stands = if desk.upright.get() { w.upright } else { w.flat };
        let (what, much) = match desk.how.get() {
            How::Pass => {
                let speed = desk.parsed.with(|j| j.as_ref().map(|j| j.stroke.speed)).unwrap_or(f64::NAN);
                (w.faults.pass, said(Quantity::Speed, speed, desk.system.get()))
            }
            _ => (w.burst, desk.burst.get()),
        };
        format!(
            "{what}, {much}, {}, {}",
            said(Quantity::Length, distance, desk.system.get()),
            stands.to_lowercase()
        )
    };
    let sentence = move || {
        let run = desk.run.get()?;
        let kind = capital(&kind()?);
        let share = run.film.as_ref().and_then(|f| middle_over_ends(&f.down()));
        if let Some(share) = share.filter(|_| kind == "Split") {
            return Some((
                fill(w.middle_sentence.0, &[&kind]),
                of_100(share),
                w.of_100.to_string(),
                w.middle_sentence.1.to_string(),
            ));
        }
        let (number, unit) =
            parted(Quantity::Length, run.number("pattern.length_mm")? * 1e-3, desk.system.get());
        let distance = desk.parsed.with(|j| j.as_ref().map(|j| j.stroke.distance))?;
        let tail = fill(w.height_sentence.1, &[&said(Quantity::Length, distance, desk.system.get())]);
        Some((fill(w.height_sentence.0, &[&kind]), number, unit, tail))
    };
    let last = Last::new(None);
    let advice = move || {
        let kind = kind()?;
        w.patterns.iter().find(|(k, _)| *k == kind).map(|(_, advice)| *advice)
    };
    let toward = move || {
        let run = desk.run.get()?;
        let f = w.faults;
        let side = f.sides.iter().find(|(word, _)| Some(*word) == run.word("pattern.toward"))?;
        let says = if run.word("pattern.kind") == Some("crescent") { f.belly } else { f.heavy_end };
        Some((side.0, fill(says, &[side.1])))
    };
    // A comb goes into wet film: as thick beside the dry as the run's means are.
    let wet = move || {
        let run = desk.run.get().filter(|_| desk.how.get() == How::Pass)?;
        let times = run.number("film.wet_um.mean")? / run.number("film.dry_um.mean")?;
        let wet = said(Quantity::Film, run.number("film.dry_um.max")? * times * 1e-6, desk.system.get());
        Some(view! { <div><dt>{w.wet_pass}</dt><dd>{wet}</dd><dd class="beside"></dd></div> })
    };
    let line = move |name: &'static str,
                     key: &'static str,
                     quantity: Quantity,
                     si: f64,
                     beside: &'static str| {
        move || {
            desk.run.get().and_then(|r| r.number(key)).map(|v| view! {
            <div><dt>{name}</dt><dd>{said(quantity, v * si, desk.system.get())}</dd><dd class="beside">{beside}</dd></div>
        })
        }
    };
    // A gun matched on a card has its fan from there.
    let matched =
        move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.kit.matched != Matched::default()));
    let fan_line = move |name: &'static str, key: &'static str, rest: f64| {
        move || {
            let mm = desk.run.get()?.number(key)?;
            let system = desk.system.get();
            let at = |factor: f64| parted(Quantity::Length, mm * 1e-3 * factor, system).0;
            let likely = (!matched()).then(|| fill(w.likely_short, &[&at((-rest).exp()), &at(rest.exp())]));
            let said = said(Quantity::Length, mm * 1e-3, system);
            Some(view! { <div><dt>{name}</dt><dd>{said}</dd><dd class="beside">{likely}</dd></div> })
        }
    };
    // Drop sizes are in microns in US workshops too.
    let drops =
        move || {
            desk.run.get().and_then(|r| r.number("spray.volume_median_um")).map(|um| view! {
            <div><dt>{w.drops_half}</dt><dd>{drop_size(um)}</dd><dd class="beside">{w.finer}</dd></div>
        })
        };
    view! {
        <Clipboard>
            <div class="sheet-top">
            <p class="kicker">{kicker}</p>
            <p class="sentence" aria-live="polite">
                {move || sentence().map(|(a, number, unit, b)| view! {
                    <span>{a}</span><span><Counted text=number unit=unit.clone() last=last />" "{unit}</span><span>{b}</span>
                })}
            </p>
            {move || toward().map(|words| view! { <p class="text toward" data-toward=words.0>{words.1}</p> })}
            {move || desk.run.with(Option::is_none).then(|| view! { <p class="text">{w.first_figures}</p> })}
            </div>
            <div class="sheet-rest">
            <ul class="signs">
                {w.patterns.iter().map(|(word, _)| view! {
                    <li class:on=move || kind().as_deref() == Some(*word) aria-current=move || (kind().as_deref() == Some(*word)).then_some("true")>
                        <svg viewBox="-20 -20 40 40" width="40" height="40" aria-hidden="true" inner_html=move || sign::towards(word, toward().filter(|_| kind().as_deref() == Some(*word)).map(|t| t.0))></svg>
                        <span>{*word}</span>
                    </li>
                }).collect_view()}
            </ul>
            {move || advice().map(|a| view! { <h2 class="kicker">{w.what_to_turn}</h2><p class="advice">{a}</p> })}
            <ByHowMuch />
            <dl class="lines">
                {fan_line(w.fan_height, "pattern.length_mm", REST_FAN[0])}
                {fan_line(w.fan_thickness, "pattern.width_mm", REST_FAN[1])}
                {line(w.peak_film, "film.dry_um.max", Quantity::Film, 1e-6, "")}
                {wet}
                {drops}
            </dl>
            <div class="buttons"><MatchLink /></div>
            </div>
        </Clipboard>
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|c| c.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// The two profiles as tables, a value every 10 mm.
#[component]
pub fn ProfileTable() -> impl IntoView {
    let desk = desk();
    let w = words();
    let table = move |name: &'static str, profile: Profile| {
        let system = desk.system.get();
        let rows: Vec<_> = profile
            .every(10e-3)
            .into_iter()
            .map(|(at, film)| (said(Quantity::Length, at, system), said(Quantity::Film, film, system)))
            .collect();
        view! {
            <table>
                <caption>{name}</caption>
                <thead><tr><th scope="col">{w.place}</th><th scope="col">{w.film_at}</th></tr></thead>
                <tbody>{rows.into_iter().map(|(at, film)| view! { <tr><th scope="row">{at}</th><td>{film}</td></tr> }).collect_view()}</tbody>
            </table>
        }
    };
    view! {
        <details class="data">
            <summary>{w.data_table}</summary>
            <div class="data-tables">
                {move || desk.film.get().map(|film| (table(w.along, film.down().smoothed(5e-3)), table(w.across, film.along().smoothed(5e-3))))}
            </div>
        </details>
    }
}
