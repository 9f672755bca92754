//! The data sheet's fields: what is yours and what is typical stands beside each.

use leptos::html;
use leptos::prelude::*;
use mistcoat::job::{Job, Origin, with_key, without_key};
use mistcoat::units::{Quantity, System};

use super::desk::{Desk, desk};
use super::fields::{Complaint, with_unit};
use crate::figures::said;
use crate::state::{band_literal, band_shown, span};
use crate::words::words;

/// How a field's text is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Typed {
    /// As it stands: mix, share, number.
    Plain,
    /// A quantity; a bare number takes the unit shown.
    Quantity(Quantity),
    /// Two ends of one quantity.
    Band(Quantity),
    /// Two ends, in metric units whatever is shown elsewhere: tips are sold in mm everywhere.
    MetricBand(Quantity),
}

/// Keys that say the same thing: setting one takes the other out.
const EITHER: [[&str; 2]; 2] =
    [["paint.volume_solids", "paint.mass_solids"], ["paint.dry_film_per_coat", "paint.sheet.dry_film_total"]];

/// Puts a typed text under its key; an empty one takes the key out.
fn put(desk: Desk, key: &'static str, typed: Typed, text: &str) -> bool {
    let system = desk.system.get_untracked();
    let text = text.trim();
    if text.is_empty() {
        let edited = desk.job.with_untracked(|job| without_key(job, key));
        return desk.take(key, edited);
    }
    let value = match typed {
        Typed::Plain => text.to_string(),
        Typed::Quantity(quantity) => with_unit(text, quantity, system),
        Typed::Band(quantity) => band_literal(text, quantity, system),
        Typed::MetricBand(quantity) => band_literal(text, quantity, System::Metric),
    };
    let other = EITHER.iter().find(|pair| pair.contains(&key)).map(|pair| pair[usize::from(pair[0] == key)]);
    let edited = desk.job.with_untracked(|job| {
        let job = other.map_or_else(|| Ok(job.clone()), |other| without_key(job, other))?;
        with_key(&job, key, &value)
    });
    desk.take(key, edited)
}

/// "typical" or "yours" for a key.
#[component]
pub fn Whose(key: &'static str) -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let yours =
        move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.paint_origin(key) == Origin::Yours));
    view! { <span class="whose" class:is-yours=yours>{move || if yours() { w.yours } else { w.typical }}</span> }
}

/// One line of the data sheet.
#[component]
pub fn SheetField(
    label: &'static str,
    key: &'static str,
    typed: Typed,
    read: fn(&Job, System) -> Option<String>,
) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<html::Input>::new();
    let shown =
        move || desk.parsed.with(|j| j.as_ref().and_then(|j| read(j, desk.system.get()))).unwrap_or_default();
    let bad = move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key));
    let typical =
        move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.paint_origin(key) == Origin::Typical));
    view! {
        <div class="sheet-line">
            <label><span>{label}</span>
                <input node_ref=node type="text" autocomplete="off" name=key class:quiet=typical prop:value=shown aria-invalid=move || bad().to_string()
                    on:change=move |event| {
                        if put(desk, key, typed, &event_target_value(&event)) && let Some(input) = node.get_untracked() {
                            input.set_value(&untrack(shown));
                        }
                    } />
            </label>
            <Whose key=key />
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// A choice of the data sheet: value in the job file and word on screen.
#[component]
pub fn SheetChoice(
    label: &'static str,
    key: &'static str,
    choices: Vec<(&'static str, &'static str)>,
    read: fn(&Job) -> &'static str,
) -> impl IntoView {
    let desk = desk();
    let now = move || desk.parsed.with(|j| j.as_ref().map(read)).unwrap_or_default();
    view! {
        <div class="sheet-line">
            <label><span>{label}</span>
                <select name=key on:change=move |e| { desk.set(key, &event_target_value(&e)); }>
                    {choices.into_iter().map(|(value, word)| view! {
                        <option value=value selected=move || now() == value>{word}</option>
                    }).collect_view()}
                </select>
            </label>
            <Whose key=key />
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// All lines of the data sheet, in two columns.
#[component]
pub fn DataSheet() -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let two_pack =
        Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.recipe.hardener.is_some())));
    let cups = || mistcoat::flow_cup::Cup::all().map(|c| (c.id(), c.name())).collect::<Vec<_>>();
    let q = Typed::Quantity;
    view! {
        <div class="sheet-columns">
            <div>
                <h3 class="kicker">{w.mixing}</h3>
                {move || if two_pack.get() {
                    view! { <SheetField label=w.mix key="paint.mix" typed=Typed::Plain read=|j, _| Some(format!("{}:{}", j.mix.base, j.mix.hardener)) /> }.into_any()
                } else {
                    view! { <div class="sheet-line"><span class="sheet-say">{w.mix}</span><span class="small">{w.one_pack}</span></div> }.into_any()
                }}
                <SheetField label=w.thinning key="paint.thinning" typed=Typed::Plain read=|j, _| Some(percent(j.mix.thinning)) />
                {move || two_pack.get().then(|| view! {
                    <SheetChoice label=w.thinning_of key="paint.thinning_of" choices=vec![("mix", w.of_mix), ("base", w.of_base)]
                        read=|j| if j.mix.thinning_of == mistcoat::paint::ThinningOf::Base { "base" } else { "mix" } />
                    <SheetField label=w.pot_life key="paint.sheet.pot_life" typed=q(Quantity::Time) read=|j, _| j.sheet.pot_life.map(span) />
                })}
                <SheetField label=w.volume_solids key="paint.volume_solids" typed=Typed::Plain read=|j, _| Some(percent(j.paint.volume_solids)) />
                <SheetField label=w.mass_solids key="paint.mass_solids" typed=Typed::Plain read=|j, _| mass_solids(j).map(percent) />
                <SheetField label=w.density key="paint.density" typed=q(Quantity::Density) read=|j, s| Some(said(Quantity::Density, j.paint.density, s)) />
                <SheetField label=w.base_density key="paint.base_density" typed=q(Quantity::Density) read=|j, s| Some(said(Quantity::Density, j.recipe.base.density, s)) />
                {move || two_pack.get().then(|| view! {
                    <SheetField label=w.hardener_density key="paint.hardener_density" typed=q(Quantity::Density)
                        read=|j, s| j.recipe.hardener.as_ref().map(|h| said(Quantity::Density, h.density, s)) />
                })}
                <SheetField label=w.thinner_density key="paint.thinner_density" typed=q(Quantity::Density) read=|j, s| Some(said(Quantity::Density, j.recipe.thinner.density, s)) />
            </div>
            <div>
                <h3 class="kicker">{w.spraying}</h3>
                <SheetField label=w.tip key="paint.sheet.tip" typed=Typed::MetricBand(Quantity::Length) read=|j, _| Some(band_shown(Quantity::Length, j.sheet.tip, System::Metric)) />
                <SheetField label=w.pressure key="paint.sheet.pressure" typed=Typed::Band(Quantity::Pressure) read=|j, s| Some(pressure(j, s)) />
                <SheetChoice label=w.sheet_cup key="paint.sheet.cup" choices=cups() read=|j| j.sheet.cup.id() />
                <SheetField label=w.sheet_seconds key="paint.sheet.cup_seconds" typed=Typed::Band(Quantity::Time) read=|j, _| Some(seconds(j)) />
                <SheetField label=w.coats key="paint.sheet.coats" typed=Typed::Plain read=|j, _| Some(j.sheet.coats.to_string()) />
                <SheetField label=w.flash key="paint.sheet.flash" typed=q(Quantity::Time) read=|j, _| Some(span(j.sheet.flash)) />
                <SheetField label=w.film_coat key="paint.dry_film_per_coat" typed=Typed::Band(Quantity::Film) read=|j, s| Some(band_shown(Quantity::Film, j.paint.dry_film_per_coat, s)) />
                <SheetField label=w.film_total key="paint.sheet.dry_film_total" typed=Typed::Band(Quantity::Film) read=|j, s| Some(band_shown(Quantity::Film, j.sheet.dry_film_total, s)) />
                {move || outside(desk).into_iter().map(|note| view! { <p class="outside" role="status">{note}</p> }).collect_view()}
            </div>
        </div>
    }
}

/// What the job's notes say of the data sheet's window.
fn outside(desk: Desk) -> Vec<String> {
    let notes = desk.parsed.with(|j| j.as_ref().map(|j| j.notes.clone())).unwrap_or_default();
    notes.into_iter().filter(|n| n.contains("outside") && !n.starts_with("paint.cup")).collect()
}

/// A share of 100, a tenth only where it counts.
pub fn percent(share: f64) -> String {
    format!("{} %", (share * 1000.0).round() / 10.0)
}

/// Solids by mass that belong to the paint's density and its solids by volume.
fn mass_solids(job: &Job) -> Option<f64> {
    let mut volatile = 0.0;
    for s in &job.paint.solvents {
        volatile += s.volume_share * mistcoat::evaporation::Volatile::named(&s.name).ok()?.density;
    }
    let share = 1.0 - volatile / job.paint.density;
    (share > 0.0).then_some(share)
}

fn pressure(job: &Job, system: System) -> String {
    match job.sheet.pressure {
        Some(window) => band_shown(Quantity::Pressure, window, system),
        None => said(Quantity::Pressure, job.kit.rated_pressure, system),
    }
}

fn seconds(job: &Job) -> String {
    let [low, high] = job.sheet.cup_seconds.map(|s| (s * 10.0).round() / 10.0);
    format!("{low}–{high}\u{202f}s")
}
