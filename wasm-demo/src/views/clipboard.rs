//! The clipboard: one sentence, one number, one plain range; then the lines.

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape};
use mistcoat::part::Frame;
use mistcoat::units::{Quantity, System};

use super::counted::{Counted, Last};
use super::desk::{Desk, View, desk};
use super::fields::Complaint;
use crate::draw::flow::{End, Fill, flow};
use crate::draw::range::{range_bar, round_axis};
use crate::figures::{in_words, metres, of_100, parted, said, seconds};
use crate::state::{CHAIR_LEG, Need, RunView, need, need_so_far};
use crate::words::{fill, words};

/// The clip.
#[component]
pub fn Clip() -> impl IntoView {
    view! {
        <svg class="clip" viewBox="0 0 116 38" width="116" height="38" aria-hidden="true">
            <path d="M1 18H31C34 8 46 6 49 5C53 0 63 0 67 5C70 6 82 8 85 18H115V37H1Z" />
            <circle cx="58" cy="9.500" r="3" />
            <path class="inside-line" d="M8 31H108" />
        </svg>
    }
}

/// A sheet under a clip.
#[component]
pub fn Clipboard(children: Children) -> impl IntoView {
    let desk = desk();
    let run = desk.run;
    let busy = move || desk.busy();
    let stale = move || desk.flown.with(|t| run.with(|r| r.as_ref().is_some_and(|r| r.job != *t)));
    view! {
        <section class="clipboard" class:stale=stale class:under-way=move || desk.so_far.get().is_some()>
            <Clip />
            {children()}
            <Complaint key="run" keys=&[] />
            <div class="busy" class:on=busy aria-live="polite">
                {move || busy().then(|| view! {
                    <span>{busy_words(desk)}</span>
                    <button type="button" class="link" hidden=move || desk.stopped.get() on:click=move |_| desk.stops.update(|s| *s += 1)>{words().stop}</button>
                })}
            </div>
        </section>
    }
}

/// From so long on it is said how long a run still takes [s].
const GUESS_AFTER: f64 = 5.0;

fn busy_words(desk: Desk) -> String {
    let done = desk.done.get();
    if desk.stopped.get() {
        return words().stopped.into();
    }
    if done <= 0.0 {
        return words().waiting.into();
    }
    let flown = fill(words().flown, &[&of_100(done)]);
    // The part is bare until a card has found the fan that spaces the passes.
    let panel =
        desk.parsed.with(|j| j.as_ref().is_some_and(|j| !j.part.is_of_tubes() && j.stroke.burst.is_none()));
    if panel && desk.view.get() == View::Part && desk.under.with(Option::is_none) {
        return format!("{flown}: {}", words().card_first);
    }
    let now = window().performance().map_or(0.0, |p| p.now());
    let gone = 1e-3 * (now - desk.since.get_untracked());
    let left = gone * (1.0 - done) / done;
    // A guess from what is done; said only where it is worth saying.
    if done > 0.995 {
        return words().setting.into();
    }
    if gone > GUESS_AFTER && left > GUESS_AFTER {
        return fill(words().to_go, &[&flown, &seconds(left.round())]);
    }
    flown
}

/// The fan's plain name.
pub fn fan_name(fan: f64) -> &'static str {
    let names = words().fan_names;
    match fan {
        f if f < 0.03 => names[0],
        f if f < 0.35 => names[1],
        f if f < 0.8 => names[2],
        _ => names[3],
    }
}

/// Middle of the film wanted of all coats [m].
pub fn film_wanted(desk: Desk) -> Option<f64> {
    desk.parsed.with(|j| j.as_ref().and_then(mistcoat::judge::wanted)).map(|(low, high)| 0.5 * (low + high))
}

/// A warning of the report as a sentence.
fn sentence(warning: &str, system: System) -> String {
    let mut letters = warning.chars();
    let first: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    let end = if warning.ends_with('.') { "" } else { "." };
    in_words(&format!("{first}{}{end}", letters.as_str()), system)
}

/// Which part the millilitres are for.
fn ml_for(part: &PartShape) -> &'static str {
    let w = words();
    match part {
        PartShape::Panel { .. } => w.ml_for_panel,
        PartShape::Tube { .. } => w.ml_for_tube,
        PartShape::Curved { .. } => w.parts.ml_for_curved,
        PartShape::Frame(_) => w.parts.ml_for_frame,
    }
}

/// How many of the job's part one chair takes: at the front door, whose leg stands for the chair's whole length of tube.
fn chair(job: &Job) -> Option<(f64, f64)> {
    let PartShape::Tube { diameter, length } = job.part else { return None };
    let leg = Job::from_toml(CHAIR_LEG).ok().map(|j| j.part);
    let tube = Frame::named("chair").map(|frame| frame.length())?;
    (leg == Some(PartShape::Tube { diameter, length }) && length > 0.0).then_some((tube / length, tube))
}

/// The need of so many parts.
fn times(need: Need, parts: f64) -> Need {
    Need {
        sprayed: need.sprayed * parts,
        low: need.low * parts,
        high: need.high * parts,
        on_part: need.on_part * parts,
        ..need
    }
}

/// The Part view's clipboard.
#[component]
pub fn PartClipboard() -> impl IntoView {
    let desk = desk();
    let shelf = expect_context::<super::kept::Shelf>();
    let w = words();
    let chair = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().and_then(chair)));
    let parts = move || chair.get().map_or(1.0, |(parts, _)| parts);
    let found = move || {
        let run = desk.run.get()?;
        let need = need(&run, film_wanted(desk))?;
        Some((run, times(need, parts())))
    };
    // While a run is under way: what it comes to so far.
    let so_far = move || {
        let (sprayed, on) = need_so_far(&desk.so_far.get()?, film_wanted(desk))?;
        Some((sprayed * parts(), on * parts()))
    };
    let so_far_on_line = move || desk.so_far.with(|s| s.is_some_and(|s| s.on_its_line));
    let last = Last::new(None);
    let figures = move || {
        let under_way = so_far();
        let (sprayed, on) = under_way.or_else(|| found().map(|(_, need)| (need.sprayed, need.on_part)))?;
        let range = found().filter(|_| under_way.is_none()).map_or(0.0, |(_, need)| need.high - need.low);
        Some((sprayed, on, range))
    };
    let part = move || match chair.get() {
        Some(_) => w.ml_for_chair,
        None => desk.parsed.with(|j| j.as_ref().map_or(w.ml_for_panel, |j| ml_for(&j.part))),
    };
    let kicker = move || {
        desk.parsed.with(|j| {
            let Some(j) = j else { return String::new() };
            let shape = super::part_said::part_said(&j.part, desk.system.get());
            let coats = if j.stroke.coats == 1 {
                w.coats_words[0].into()
            } else {
                fill(w.coats_words[1], &[&j.stroke.coats.to_string()])
            };
            format!("{shape}, {coats}")
        })
    };
    view! {
        <Clipboard>
            <div class="sheet-top">
            <p class="kicker">{kicker}</p>
            <p class="sentence" aria-live="polite">
                <span>{move || format!("{}:", fan_name(desk.face().fan))}</span>
                {move || figures().map(|(sprayed, on, range)| {
                    let system = desk.system.get();
                    let (text, unit) = parted(Quantity::Volume, sprayed * 1e-6, system);
                    let range = range * text.parse::<f64>().unwrap_or(0.0) / sprayed.max(1e-9);
                    let (tail, on) = (fill(part(), &[&unit]), said(Quantity::Volume, on * 1e-6, system));
                    view! {
                        <span><Counted text=text unit=unit range=range last=last />" "{tail}</span>
                        <span>{fill(w.on_it, &[&on])}</span>
                    }
                })}
            </p>
            {move || match found() {
                _ if so_far().is_some() => view! { <p class="text" data-so-far>{if so_far_on_line() { w.so_far_on_line } else { w.so_far }}</p> }.into_any(),
                Some((_, need)) => view! { <Range need=need chair=chair.get() /> }.into_any(),
                None => view! { <p class="text">{w.first_figures}</p> }.into_any(),
            }}
            </div>
            <div class="sheet-rest">
            {move || found().map(|(run, need)| view! { <super::judged::VerdictLine by=false /> <Lines run=run.clone() need=need /> })}
            <div class="buttons">
                <button type="button" class="main-button" disabled=move || desk.fresh().is_none()
                    on:click=move |_| {
                        let fresh = desk.fresh();
                        if let Some(run) = &fresh {
                            shelf.keep(run);
                        }
                        desk.kept.set(fresh);
                    }>{w.keep}</button>
            </div>
            </div>
        </Clipboard>
    }
}

#[component]
fn Range(need: Need, chair: Option<(f64, f64)>) -> impl IntoView {
    let desk = desk();
    let w = words();
    let system = desk.system.get();
    let figure = |ml: f64| parted(Quantity::Volume, ml * 1e-6, system);
    let value = |ml: f64| figure(ml).0.parse::<f64>().unwrap_or(0.0);
    // One axis for the kept run and this one, so that the dot's way is seen.
    let parts = chair.map_or(1.0, |(parts, _)| parts);
    let kept = desk.kept.get().and_then(|r| crate::state::need(&r, film_wanted(desk)));
    let kept = kept.map_or(0.0, |n| n.high * parts);
    let (end, step) = round_axis(value(need.high.max(kept)) * 1.02);
    let bar = range_bar(
        336.0,
        value(need.low),
        value(need.sprayed),
        value(need.high),
        end,
        step,
        &figure(need.high).1,
    );
    let film = said(Quantity::Film, need.film, system);
    let likely = fill(w.likely, &[&figure(need.low).0, &said(Quantity::Volume, need.high * 1e-6, system)]);
    view! {
        <svg class="range" viewBox="0 0 336 42" aria-hidden="true" inner_html=bar></svg>
        <p class="small">{likely} " " {fill(w.at_film, &[&film])}</p>
        {chair.map(|(parts, tube)| {
            let leg = said(Quantity::Volume, need.sprayed / parts * 1e-6, system);
            view! { <p class="small">{fill(w.a_chair, &[&metres(tube, system), &leg])}</p> }
        })}
    }
}

#[component]
fn Lines(run: std::sync::Arc<RunView>, need: Need) -> impl IntoView {
    let desk = desk();
    let w = words();
    let system = desk.system.get();
    let film = |um: f64| said(Quantity::Film, um * 1e-6, system);
    let spec = desk.parsed.with(|j| j.as_ref().and_then(mistcoat::judge::wanted));
    let band = spec.map(|(low, high)| {
        fill(w.wanted, &[&parted(Quantity::Film, low, system).0, &said(Quantity::Film, high, system)])
    });
    let mut lines: Vec<(&str, String, String)> = Vec::new();
    let ends = |path: &str, of: &dyn Fn(f64) -> (String, String)| {
        let [low, high] = ["low", "high"].map(|end| run.number(&path.replace("{}", end)).map(of));
        Some((low?.0, high?))
    };
    if let Some(mean) = run.number("film.dry_um.mean") {
        let parts = |um: f64| parted(Quantity::Film, um * 1e-6, system);
        let likely = ends("film.dry_um.model_{}", &parts)
            .map(|(low, (high, _))| {
                fill(if band.is_some() { w.likely_film } else { w.likely_short }, &[&low, &high])
            })
            .unwrap_or_default();
        lines.push((w.dry_mean, film(mean), likely + &band.unwrap_or_default()));
    }
    if let Some(min) = run.number("film.dry_um.min") {
        let thin = spec.is_some_and(|(low, _)| min * 1e-6 < low);
        lines.push((w.thinnest, film(min), if thin { w.thin.into() } else { String::new() }));
    }
    if let Some(s) = run.number("paint.seconds") {
        lines.push((w.trigger_on, seconds(s), w.by_the_plan.into()));
    }
    if let Some(runs) = run.number("finish.run_area_percent") {
        let said = if runs <= 0.0 { w.none.into() } else { format!("{} {}", of_100(runs / 100.0), w.of_100) };
        lines.push((w.runs, said, String::new()));
    }
    if let (Some(wet), Some(last)) = (run.number("film.wet_um.mean"), lines.last_mut())
        && last.2.is_empty()
    {
        last.2 = fill(w.wet_film, &[&film(wet)]);
    }
    if let Some(sprayed) = run.number("paint.sprayed_ml") {
        let parts = |ml: f64| parted(Quantity::Volume, ml * 1e-6, system);
        let likely = ends("paint.sprayed_{}_ml", &parts)
            .map(|(low, (high, _))| fill(w.likely_short, &[&low, &high]))
            .unwrap_or_default();
        lines.push((w.as_it_stands, said(Quantity::Volume, sprayed * 1e-6, system), likely));
    }
    let share = |name: &str| run.number(&format!("fates.{name}")).unwrap_or(0.0);
    let say = |ml: f64| said(Quantity::Volume, ml * 1e-6, system);
    let end = |share: f64, words: &str, fill: Fill| End {
        amount: share * need.sprayed,
        figure: say(share * need.sprayed),
        words: words.into(),
        fill,
    };
    let ends = [
        end(share("landed"), w.on_part, Fill::Solid),
        end(share("missed"), w.passed, Fill::DenseDots),
        end(share("bounced") + share("drifted") + share("dried"), w.fog, Fill::WideDots),
    ];
    let spoken = ends.iter().map(|e| format!("{} {}", e.figure, e.words)).collect::<Vec<_>>().join(", ");
    let drawn = flow("wf", 336.0, &say(need.sprayed), &ends);
    let ranged = |path: &str, words: &str| {
        run.bar(path).map(|b| fill(words, &[&of_100(b.value), &of_100(b.low), &of_100(b.high)]))
    };
    let this_job = ranged("transfer_efficiency", w.this_job);
    let large = ranged("large_panel_efficiency", w.large_panel);
    let warnings: Vec<String> =
        run.report.get("warnings").and_then(|v| v.as_array()).map_or_else(Vec::new, |list| {
            list.iter().filter_map(|v| v.as_str().map(|text| sentence(text, system))).collect()
        });
    view! {
        <dl class="lines">
            {lines.into_iter().map(|(name, value, beside)| view! {
                <div><dt>{name}</dt><dd>{value}</dd><dd class="beside">{beside}</dd></div>
            }).collect_view()}
        </dl>
        <h2 class="kicker">{w.where_went}</h2>
        <svg class="flow" viewBox="0 0 336 168" role="img" aria-label=spoken inner_html=drawn></svg>
        <p class="text"><b>{this_job}</b></p>
        <p class="small">{large} " " {w.ranges_note}</p>
        {warnings.into_iter().map(|m| view! { <p class="small">{m}</p> }).collect_view()}
    }
}
