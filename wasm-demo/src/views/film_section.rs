//! The film on the part: as the eye sees it and as a map, with what is wrong, where, and why.

use leptos::prelude::*;
use mistcoat::units::{Quantity, System};
use serde_json::Value;

use super::desk::desk;
use super::film_canvas::{FilmCanvas, Show, wanted};
use super::judged::SpotMarks;
use crate::draw::film::Ground;
use crate::figures::{THIN, in_words, of_100, said};
use crate::state::RunView;
use crate::words::{fill, words};

/// Width of the drawn film [px].
const WIDE: u32 = 784;
/// The old colour under the paint.
const OLD: [u8; 3] = [0xB9, 0xB2, 0xA4];

/// The film over the part; a tube is unrolled.
#[component]
pub fn FilmSection() -> impl IntoView {
    let desk = desk();
    let (w, f) = (words(), &words().finish);
    let map = RwSignal::new(false);
    let tube = move || desk.parsed.with(|j| j.as_ref().is_some_and(crate::state::is_tube));
    let title = move || {
        let member = desk.parsed.with(|j| match j.as_ref().map(|j| &j.part) {
            Some(mistcoat::job::PartShape::Frame(frame)) => {
                frame.members.get(desk.member.get()).map(|m| m.name.clone())
            }
            _ => None,
        });
        match member {
            Some(name) => crate::words::fill(w.parts.map_of, &[&name]),
            None if tube() => w.film_map_tube.to_string(),
            None => w.film_map_panel.into(),
        }
    };
    let shape = Memo::new(move |_| {
        desk.film.with(|f| f.as_ref().map(|f| f.height() / f.width())).unwrap_or(0.2).clamp(0.04, 1.0)
    });
    let there = Memo::new(move |_| desk.film.with(Option::is_some));
    let has_set = Memo::new(move |_| desk.film.with(|f| f.as_ref().is_some_and(|f| f.set.is_some())));
    let button = move |on: bool, words: &'static str| {
        view! {
            <button type="button" aria-pressed=move || (map.get() == on).to_string() on:click=move |_| map.set(on)>{words}</button>
        }
    };
    let canvas = move || {
        let height = (f64::from(WIDE) * shape.get()).clamp(56.0, 480.0) as u32;
        let label =
            move |what: &'static str| Signal::derive(move || format!("{}: {what}. {}", title(), told()));
        if map.get() {
            view! {
                <div class="spotted">
                    <FilmCanvas show=Show::Map width=WIDE height=height label=label(w.as_map) class="film-wide" />
                    <SpotMarks width=WIDE height=height />
                </div>
                {wanted().map(|_| view! { <super::card::MapKey width=204 /> })}
                <p class="small">{f.map_note} " " {f.marks_note}</p>
            }
            .into_any()
        } else {
            view! {
                <div class="spotted">
                    <FilmCanvas show=Show::Seen(Ground::Old(OLD)) width=WIDE height=height label=label(w.as_seen) class="film-wide" />
                    <SpotMarks width=WIDE height=height />
                </div>
                <p class="small">{if has_set.get() { f.seen_note } else { f.landing_note }}</p>
            }
            .into_any()
        }
    };
    move || {
        there.get().then(|| {
            view! {
                <section class="film-map" data-set=move || has_set.get().to_string()>
                    <div class="film-head">
                        <h2>{title}</h2>
                        <div class="choices" role="group" aria-label=f.how_shown>{button(false, w.as_seen)}{button(true, w.as_map)}</div>
                    </div>
                    <div class="film-body" class:flat=move || shape.get() < 0.25>
                        <div class="film-drawn">{canvas}</div>
                        <div class="film-told">{move || match desk.fresh() {
                            Some(run) => finish(&run).into_any(),
                            None => view! { <p class="small">{f.sprayed_so_far}</p> }.into_any(),
                        }}</div>
                    </div>
                </section>
            }
        })
    }
}

/// The marks in one sentence, for those who do not see the picture.
fn told() -> String {
    let f = &words().finish;
    let Some(run) = desk().fresh() else { return f.sprayed_so_far.into() };
    let said: Vec<String> = marks(&run).map(|(name, _, sentence)| format!("{name}: {sentence}")).collect();
    if said.is_empty() { f.nothing_wrong.into() } else { said.join(" ") }
}

/// What is wrong with a run's film, mark by mark, as a list; bare places round a still spot are nothing wrong.
#[component]
pub fn MarkList(run: std::sync::Arc<RunView>, #[prop(optional)] round_a_spot: bool) -> impl IntoView {
    let f = &words().finish;
    // Round a still spot a card is bare, and is meant to be.
    let marked: Vec<_> = marks(&run).filter(|m| !round_a_spot || m.0 != f.marks[2].1).collect();
    if marked.is_empty() {
        let told = run.number("finish.longest_slide_mm").is_some();
        let said = match (told, round_a_spot) {
            (true, true) => f.no_runs,
            (true, false) => f.nothing_wrong,
            (false, _) => f.nothing_said,
        };
        return view! { <p class="small" data-marks="0">{said}</p> }.into_any();
    }
    let count = marked.len().to_string();
    view! {
        <ul class="marks" data-marks=count>{marked.into_iter().map(|(name, pattern, sentence)| view! {
            <li><b>{name}</b> <span class="small">" (" {pattern} ") "</span> {sentence}</li>
        }).collect_view()}</ul>
    }
    .into_any()
}

/// Name, pattern and sentence of each mark of a run.
fn marks(run: &RunView) -> impl Iterator<Item = (&'static str, &'static str, String)> {
    let f = &words().finish;
    let list = run.report.pointer("/finish/marks").and_then(Value::as_array).cloned().unwrap_or_default();
    list.into_iter().filter_map(move |mark| {
        let word = mark.get("mark")?.as_str()?;
        let (_, name, pattern) = *f.marks.iter().find(|m| m.0 == word)?;
        let area = mark.get("area_percent")?.as_f64()? / 100.0;
        let reason = mark.get("reason")?.as_str()?;
        let system = desk().system.get();
        let at = place(mark.get("at")?)?;
        let said = format!(
            "{} {}",
            fill(f.mark_said, &[&of_100(area), &in_words(reason, system)]),
            fill(f.worst, &[&at])
        );
        Some((name, pattern, said))
    })
}

/// A place of the report in words.
fn place(at: &Value) -> Option<String> {
    let f = &words().finish;
    let system = desk().system.get();
    let (x, y) = (at.get("x_mm")?.as_f64()? * 1e-3, at.get("y_mm")?.as_f64()? * 1e-3);
    let mut said_of = Vec::new();
    for (value, below, above) in [(x, f.left, f.right), (y, f.down, f.up)] {
        if value.abs() >= 2.5e-3 {
            let way = if value < 0.0 { below } else { above };
            said_of.push(fill(way, &[&said(Quantity::Length, value.abs(), system)]));
        }
    }
    let place = if said_of.is_empty() { f.middle.to_string() } else { said_of.join(", ") };
    let member = at.get("member").and_then(Value::as_str).unwrap_or_default();
    Some(if member.is_empty() { place } else { format!("{member}, {place}") })
}

/// A short length [mm]: to a tenth of a millimetre, or a hundredth of an inch.
fn fine(mm: f64, system: System) -> String {
    match system {
        System::Metric if mm < 10.0 => format!("{mm:.1}{THIN}mm"),
        System::Us if mm < 25.4 => format!("{:.2}{THIN}in", mm / 25.4),
        _ => said(Quantity::Length, 1e-3 * mm, system),
    }
}

/// Waviness [um], far finer than a film.
fn waves(um: f64, system: System) -> String {
    match system {
        System::Metric => format!("{um:.2}{THIN}µm"),
        System::Us => format!("{:.3}{THIN}mil", um / 25.4),
    }
}

/// What the report says of the film after it set.
fn finish(run: &std::sync::Arc<RunView>) -> impl IntoView + use<> {
    let f = &words().finish;
    let system = desk().system.get();
    let um = |v: f64| said(Quantity::Film, v * 1e-6, system);
    let mm = |v: f64| said(Quantity::Length, v * 1e-3, system);
    let number = |path: &str| run.number(path);
    let Some(slid) = number("finish.longest_slide_mm") else {
        return view! { <p class="small">{f.nothing_said}</p> }.into_any();
    };
    let longest = run.report.pointer("/finish/longest_run").and_then(|longest| {
        let length = mm(longest.get("mm")?.as_f64()?);
        let tears = longest.get("tears_mm").and_then(Value::as_f64);
        let tears = tears.map_or_else(String::new, |t| format!(" {}", fill(f.tears, &[&mm(t)])));
        Some(fill(f.run_said, &[&length, &place(longest)?]) + &tears)
    });
    let range = |path: &str| {
        let end = |end: &str| number(&format!("{path}.{end}")).map(um);
        Some(fill(f.from_to, &[&end("min")?, &end("max")?]))
    };
    let mut lines = Vec::new();
    for (name, path) in [(f.landed, "film.dry_um"), (f.set, "finish.set_um")] {
        if let Some(mean) = number(&format!("{path}.mean")) {
            lines.push((name, um(mean), range(path).unwrap_or_default()));
        }
    }
    lines.push((f.slid, fine(slid, system), fill(f.slid_beside, &[&fine(1.6, system)])));
    if let Some(limit) = number("finish.sag_limit_um") {
        lines.push((f.sag_limit, um(limit), fill(f.sag_beside, &[&um(500.0)])));
    }
    if let Some(peel) = number("finish.orange_peel_um") {
        lines.push((f.peel, waves(peel, system), f.ours.into()));
    }
    if let Some(dry) = number("finish.dry_spray_index") {
        lines.push((f.dry_spray, format!("{dry:.2}"), f.ours.into()));
    }
    view! {
        <MarkList run=run.clone() />
        {longest.map(|said| view! { <p class="text">{said}</p> })}
        <dl class="lines" aria-label=f.figures>
            {lines.into_iter().map(|(name, value, beside)| view! {
                <div><dt>{name}</dt><dd>{value}</dd><dd class="beside">{beside}</dd></div>
            }).collect_view()}
        </dl>
        <p class="small">{fill(f.texture_note, &[&fine(0.5, system), &mm(11.0), &fine(1.0, system)])}</p>
    }
    .into_any()
}
