//! Card view: a burst on a test card, as seen and as map, with its profiles, its measures and what to turn.

use leptos::prelude::*;
use mistcoat::units::{Quantity, System};

use super::card_clipboard::{CardClipboard, ProfileTable};
use super::desk::{How, Refused, Shown, desk};
use super::faults::FaultPanel;
use super::fields::{Complaint, KitAndPaint, QuantityField, with_unit};
use super::film_canvas::{FilmCanvas, Show, wanted};
use super::flood::FloodCard;
use super::gun_panel::{GunPanel, PieceByPiece, SIDE};
use super::match_gun::MatchGun;
use crate::draw::film::Ground;
use crate::draw::profile::{Curve, dimension, lying, upright};
use crate::figures::{parted, said};
use crate::state::{CARD_MM, Profile, card_job};
use crate::words::{fill, words};

/// Shortest and longest trigger time of a flood test [s].
const FLOOD: [f64; 2] = [0.5, 10.0];
/// Card on screen [px]: 1.02 px for each mm.
const CARD: (f64, f64) = (204.0, 408.0);

/// The view.
#[component]
pub fn CardView() -> impl IntoView {
    let w = words();
    let how = desk().how;
    view! {
        <div class="card-view">
            <Choices />
            <div class="card-grid">
                <div class="card-gun">
                    <GunPanel stand=SIDE />
                    <FaultPanel />
                </div>
                {move || match how.get() {
                    How::Burst | How::Pass => view! { <Cards /> }.into_any(),
                    How::Flood => view! { <FloodCard /> }.into_any(),
                }}
                <div class="fields">
                    <KitAndPaint />
                    <QuantityField label=w.field_distance key="stroke.distance" quantity=Quantity::Length read=|j| Some(j.stroke.distance) />
                </div>
                <CardClipboard />
            </div>
            <MatchGun />
            <PieceByPiece />
            <p class="caution small">{w.caution_start} " " {w.caution_gun}</p>
        </div>
    }
}

/// A row of words of which one is chosen.
fn chosen<T: Copy + PartialEq + Send + Sync + 'static>(
    name: &'static str,
    signal: RwSignal<T>,
    choices: Vec<(T, &'static str)>,
) -> impl IntoView {
    view! {
        <div class="choices" role="group" aria-label=name>
            {choices.into_iter().map(|(value, words)| view! {
                <button type="button" aria-pressed=move || (signal.get() == value).to_string() on:click=move |_| signal.set(value)>{words}</button>
            }).collect_view()}
        </div>
    }
}

/// How long, how the card stands, how the film is shown.
#[component]
fn Choices() -> impl IntoView {
    let desk = desk();
    let w = words();
    let burst = move |event| {
        let text = with_unit(&event_target_value(&event), Quantity::Time, desk.system.get_untracked());
        match desk.job.with_untracked(|job| card_job(job, &text, true)) {
            Ok(_) => {
                desk.refused.set(None);
                desk.burst.set(text);
            }
            Err(error) => desk.refused.set(Some((&error).into())),
        }
    };
    let held = move |event| {
        let typed = event_target_value(&event);
        let text = with_unit(&typed, Quantity::Time, desk.system.get_untracked());
        match mistcoat::units::parse(Quantity::Time, &text) {
            Ok(seconds) if (FLOOD[0]..=FLOOD[1]).contains(&seconds) => {
                desk.refused.set(None);
                desk.flood_seconds.set(seconds);
            }
            _ => desk
                .refused
                .set(Some(Refused { key: "flood.seconds".into(), message: fill(w.faults.held, &[&typed]) })),
        }
    };
    view! {
        <div class="choice-bar">
            {chosen(w.faults.how, desk.how, vec![(How::Burst, w.faults.burst), (How::Pass, w.faults.pass), (How::Flood, w.faults.flood)])}
            {move || match desk.how.get() {
                How::Burst => view! {
                    <div class="field inline"><label><span>{w.burst_seconds}</span>
                        <input type="text" name="stroke.burst" size="6" prop:value=move || desk.burst.get() on:change=burst /></label>
                        <Complaint key="stroke.burst" keys=&[] />
                    </div>
                    {chosen(w.how_sprayed, desk.upright, vec![(true, w.upright), (false, w.flat)])}
                }.into_any(),
                How::Pass => view! {
                    <div class="pass-speed"><QuantityField label=w.field_speed key="stroke.speed" quantity=Quantity::Speed read=|j| Some(j.stroke.speed) /></div>
                    {chosen(w.how_sprayed, desk.upright, vec![(true, w.upright), (false, w.flat)])}
                }.into_any(),
                How::Flood => view! {
                    <div class="field inline"><label><span>{w.faults.seconds}</span>
                        <input type="text" name="flood.seconds" size="6" prop:value=move || said(Quantity::Time, desk.flood_seconds.get(), desk.system.get()) on:change=held /></label>
                        <Complaint key="flood.seconds" keys=&[] />
                    </div>
                }.into_any(),
            }}
            <div class="grow"></div>
            {chosen(w.how_shown, desk.shown, vec![(Shown::Seen, w.as_seen), (Shown::Map, w.as_map), (Shown::Both, w.both)])}
        </div>
    }
}

/// The card twice, with its profiles and measures.
#[component]
fn Cards() -> impl IntoView {
    let desk = desk();
    let w = words();
    let length = move |key: &'static str| desk.run.get().and_then(|r| r.number(key)).map(|mm| mm * 1e-3);
    let say = move |v: f64| said(Quantity::Length, v, desk.system.get());
    let px = CARD.0 / (f64::from(CARD_MM.0) * 1e-3);
    let frame = move || {
        let mut out = String::new();
        let (mx, my) = (44.0 + 0.5 * CARD.0, 40.0 + 0.5 * CARD.1);
        // Measures stand beside an upright fan only.
        let upright_fan =
            desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.gun.quarters().is_some_and(|q| q % 2 == 0)));
        if let Some(h) = length("pattern.length_mm").filter(|_| upright_fan) {
            let half = (0.5 * h * px).min(0.5 * CARD.1);
            out += &dimension((22.0, my - half), (22.0, my + half), &say(h));
            for y in [my - half, my + half] {
                out += &crate::draw::svg::line("dotted", (22.0, y), (44.0, y));
            }
        }
        if let Some(t) = length("pattern.width_mm").filter(|_| upright_fan) {
            let half = 0.5 * t * px;
            out += &dimension((mx - half, 28.0), (mx + half, 28.0), "");
            out += &crate::draw::svg::text("dim-figure", (mx, 18.0), "middle", &say(t));
            for x in [mx - half, mx + half] {
                out += &crate::draw::svg::line("dotted", (x, 28.0), (x, 40.0));
            }
        }
        if let Some(film) = desk.film.get() {
            let curve = mm_curve(&film.down().smoothed(5e-3));
            let drawn = upright(&curve, f64::from(CARD_MM.1), 62.0, CARD.1);
            out += &crate::draw::svg::group("translate(260 40)", &drawn);
        }
        out
    };
    let foot = move || {
        let film = desk.film.get();
        film.map(|film| {
            let mut curve = mm_curve(&film.along().smoothed(5e-3));
            // Figures an inch or 25 mm apart.
            let (one, step, unit) = match desk.system.get() {
                System::Metric => (1.0, 25.0, "mm"),
                System::Us => (1.0 / 25.4, 1.0, "in"),
            };
            curve.start *= one;
            curve.step *= one;
            let ticks: Vec<f64> = (-3..=3).map(|k| step * f64::from(k)).collect();
            let drawn = lying(&curve, one * f64::from(CARD_MM.0), CARD.0, 46.0, &ticks, unit);
            crate::draw::svg::group("translate(44 8)", &drawn)
        })
        .unwrap_or_default()
    };
    let map_of = move || {
        let wanted = wanted()?;
        let low = parted(Quantity::Film, wanted.low, desk.system.get()).0;
        Some(fill(w.map_of, &[&low, &said(Quantity::Film, wanted.high, desk.system.get())]))
    };
    let spoken = move |what: &'static str| {
        Signal::derive(move || {
            let kind = desk.run.get().and_then(|r| r.pattern_kind()).unwrap_or_default();
            let height = length("pattern.length_mm").map(say).unwrap_or_default();
            format!("{what}: {kind} {height}")
        })
    };
    view! {
        <div class="cards">
            <section class="seen" hidden=move || desk.shown.get() == Shown::Map>
                <h2 class="name">{w.as_seen}</h2>
                <div class="card-frame">
                    <FilmCanvas show=Show::Seen(Ground::Striped) width=204 height=408 label=spoken(w.as_seen) class="card-canvas" />
                    <svg viewBox="0 0 330 456" width="330" height="456" aria-hidden="true"><g inner_html=frame></g></svg>
                </div>
                <svg class="profile-foot" viewBox="0 0 330 84" width="330" height="84" aria-hidden="true"><g inner_html=foot></g></svg>
                <p class="small">{w.measured}</p>
                <ProfileTable />
            </section>
            <section class="map" hidden=move || desk.shown.get() == Shown::Seen>
                <h2 class="name">{w.as_map} " " <span class="small">{map_of}</span></h2>
                <div class="map-frame"><FilmCanvas show=Show::Map width=204 height=408 label=spoken(w.as_map) class="card-canvas" /></div>
                <MapKey width=204 />
                <p class="small">{w.map_note}</p>
                {move || desk.fresh().map(|run| view! { <super::film_section::MarkList run=run round_a_spot=desk.how.get() == How::Burst /> })}
            </section>
        </div>
    }
}

fn mm_curve(profile: &Profile) -> Curve {
    Curve {
        start: profile.start * 1e3,
        step: profile.step * 1e3,
        values: profile.dry.iter().map(|v| f64::from(*v) * 1e6).collect(),
    }
}

/// Key of the map: thin, wanted, thick.
#[component]
pub fn MapKey(width: u32) -> impl IntoView {
    let desk = desk();
    let w = words();
    move || {
        wanted().map(|band| {
            let system = desk.system.get();
            let share = |v: f64| f64::from(width) * v / band.top();
            let mut out = String::new();
            let figure = |v: f64| parted(Quantity::Film, v, system).0;
            let marks = [(0.0, "start", "0".into()), (share(band.low), "middle", figure(band.low)), (share(band.high), "middle", figure(band.high))];
            for (x, anchor, words) in &marks {
                out += &crate::draw::svg::line("part", (*x, 0.0), (*x, 5.0));
                out += &crate::draw::svg::text("axis-figure", (*x, 18.0), anchor, words);
            }
            out += &crate::draw::svg::text("axis-figure", (f64::from(width), 18.0), "end", &said(Quantity::Film, band.top(), system));
            let words = [(0.5 * band.low, w.thin), (0.5 * (band.low + band.high), w.wanted_short), (0.5 * (band.high + band.top()), w.thick)];
            for (at, word) in words {
                out += &crate::draw::svg::text("axis-figure", (share(at), 34.0), "middle", word);
            }
            view! {
                <div class="map-key">
                    <FilmCanvas show=Show::Key width=width height=20 label=Signal::derive(words_of_key) class="key-canvas" />
                    <svg viewBox=format!("0 0 {width} 38") width=width.to_string() height="38" aria-hidden="true" inner_html=out></svg>
                </div>
            }
        })
    }
}

fn words_of_key() -> String {
    words().map_note.into()
}
