//! Cup seconds: any cup into any cup, with temperature; a reading of one's own sets the paint's viscosity.

use leptos::prelude::*;
use mistcoat::flow_cup::Cup;
use mistcoat::job::{Job, as_written, with_key, without_key};
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::fields::{Complaint, QuantityField};
use super::sheet_fields::{SheetField, Typed, Whose};
use crate::figures::said;
use crate::state::all_cups;
use crate::words::{fill, words};

/// A key of the job's text as it stands there.
fn written(job: &Job, key: &str) -> Option<String> {
    as_written(&job.text, key).ok().flatten()
}

fn is_measured(job: &Job) -> bool {
    job.given.contains(&"paint.cup.seconds")
}

/// Seconds with a tenth, without a unit.
fn figure(seconds: f64) -> String {
    format!("{}", (seconds * 10.0).round() / 10.0)
}

/// Cup, seconds and whether the formula was made for them; of the reading, else of the typical paint in `cup`.
fn reading(job: &Job, cup: Cup) -> Option<(Cup, f64, bool)> {
    if is_measured(job) {
        let cup = Cup::from_id(&written(job, "paint.cup.standard")?).ok()?;
        let seconds: f64 = written(job, "paint.cup.seconds")?.parse().ok()?;
        return Some((cup, seconds, cup.viscosity(seconds).ok()?.in_range));
    }
    let now = cup.seconds(job.paint.kinematic_viscosity()).ok()?;
    Some((cup, now.value, now.in_range))
}

/// Puts seconds typed under the cup shown; an empty text goes back to the typical viscosity.
fn put(desk: Desk, cup: Cup, typed: &str) {
    let typed = typed.replace('\u{202f}', " ");
    let typed = typed.trim().trim_end_matches('s').trim();
    let edited = desk.job.with_untracked(|job| {
        if typed.is_empty() {
            return without_key(job, "paint.cup");
        }
        let mut job = job.clone();
        for other in ["paint.viscosity", "paint.kinematic_viscosity"] {
            job = without_key(&job, other)?;
        }
        if as_written(&job, "paint.cup.standard")?.is_none() {
            job = with_key(&job, "paint.cup.standard", cup.id())?;
        }
        with_key(&job, "paint.cup.seconds", typed)
    });
    desk.take("paint.cup.seconds", edited);
}

fn options(now: impl Fn() -> Cup + Copy + Send + Sync + 'static) -> impl IntoView {
    Cup::all()
        .map(|cup| {
            view! { <option value=cup.id() selected=move || now() == cup>{cup.name()}</option> }
        })
        .collect_view()
}

/// The section.
#[component]
pub fn CupSeconds() -> impl IntoView {
    let desk = desk();
    let w = words().paint;
    let (from, into) = (RwSignal::new(Cup::Din4), RwSignal::new(Cup::Ford4));
    let now = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().and_then(|j| reading(j, from.get()))));
    let cup = move || now.get().map_or(from.get(), |(cup, _, _)| cup);
    let measured = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(is_measured)));
    let choose = move |event| {
        let Ok(cup) = Cup::from_id(&event_target_value(&event)) else { return };
        if measured.get_untracked() {
            desk.set("paint.cup.standard", cup.id());
        } else {
            from.set(cup);
        }
    };
    let far = move |in_range: bool| (!in_range).then(|| view! { <b class="far">{w.extrapolated}</b> });
    let told = move || {
        let (cup, paint) = (into.get(), desk.parsed.get().map(|j| j.paint)?);
        let system = desk.system.get();
        let nu = said(Quantity::KinematicViscosity, paint.kinematic_viscosity(), system);
        let at = said(Quantity::Temperature, paint.temperature, system);
        let (answer, in_range) = match cup.seconds(paint.kinematic_viscosity()) {
            Ok(r) => (format!("{}\u{202f}s", figure(r.value)), r.in_range),
            Err(_) => (w.too_slow.into(), true),
        };
        let sentence = fill(w.cup_says, &[&answer, cup.name()]);
        Some(view! {
            <p class="advice" data-cup-says=answer>{sentence} " " {far(in_range)}</p>
            <p class="small">{fill(w.cup_long, &[&nu, &at])}</p>
        })
    };
    view! {
        <section class="paint-block">
            <h2>{w.cups}</h2>
            <p class="small">{w.cups_how}</p>
            <div class="cup-row">
                <div>
                    <div class="sheet-line">
                        <label><span>{w.cup}</span><select name="paint.cup.standard" on:change=choose>{options(cup)}</select></label>
                        <Complaint key="paint.cup.standard" keys=&[] />
                    </div>
                    <div class="sheet-line">
                        <label><span>{w.seconds}</span>
                            <input type="text" name="paint.cup.seconds" autocomplete="off" class:quiet=move || !measured.get()
                                prop:value=move || now.get().map(|(_, s, _)| format!("{}\u{202f}s", figure(s))).unwrap_or_default()
                                on:change=move |e| put(desk, cup(), &event_target_value(&e)) />
                        </label>
                        <Whose key="paint.cup.seconds" />
                        {move || now.get().and_then(|(_, _, in_range)| far(in_range))}
                        <Complaint key="paint.cup.seconds" keys=&[] />
                    </div>
                    {move || measured.get().then(|| view! {
                        <SheetField label=w.taken_at key="paint.cup.temperature" typed=Typed::Quantity(Quantity::Temperature) read=taken_at />
                    })}
                </div>
                <div>
                    <QuantityField label=w.paint_at key="paint.temperature" quantity=Quantity::Temperature read=|j| Some(j.paint.temperature) />
                    <div class="sheet-line">
                        <label><span>{w.into_cup}</span>
                            <select name="into-cup" on:change=move |e| if let Ok(cup) = Cup::from_id(&event_target_value(&e)) { into.set(cup) }>
                                {options(move || into.get())}
                            </select>
                        </label>
                    </div>
                    <div class="cup-answer" aria-live="polite">{told}</div>
                </div>
            </div>
            <details class="data">
                <summary>{w.all_cups}</summary>
                <table>
                    <tbody>{move || desk.parsed.with(|j| j.as_ref().map(all_cups)).unwrap_or_default().into_iter().map(|(cup, seconds)| view! {
                        <tr><th scope="row">{cup.name()}</th>
                            <td>{seconds.map_or(w.too_slow.into(), |(s, _)| format!("{}\u{202f}s", figure(s)))}</td>
                            <td>{seconds.filter(|(_, in_range)| !in_range).map(|_| w.extrapolated)}</td></tr>
                    }).collect_view()}</tbody>
                </table>
            </details>
        </section>
    }
}

fn taken_at(job: &Job, system: mistcoat::units::System) -> Option<String> {
    let taken = written(job, "paint.cup.temperature")
        .and_then(|text| mistcoat::units::parse(Quantity::Temperature, &text).ok());
    Some(said(Quantity::Temperature, taken.unwrap_or(job.paint.temperature), system))
}
