//! The panel under the gun: events in, film out.

use std::rc::Rc;

use leptos::html;
use leptos::prelude::*;
use mistcoat::units::Quantity;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::super::desk::desk;
use super::beat::Beat;
use super::canvas::{FilmLayer, Plume};
use super::frames::{Loop, beats, every_frame, measure, now, timed};
use super::input::Input;
use super::place::{NARROW, WIDE, narrow, room, window_for};
use super::steer::Held;
use super::{Phase, flying, hand_desk, hand_words};
use crate::draw::hand as draw;
use crate::figures::{said, seconds};
use crate::state::hand_said::{gap, length};
use crate::task::practising::Card;
use crate::words::fill;

/// Id of the stage, to hand it the keys.
const ID: &str = "hand-stage";
/// Hands the stage the keys.
pub fn focus() {
    if let Some(stage) = document().get_element_by_id(ID).and_then(|e| e.dyn_into::<HtmlElement>().ok()) {
        let _ = stage.focus();
    }
}

/// Whether the visitor wants things to stand still.
pub fn still_motion() -> bool {
    window().match_media("(prefers-reduced-motion: reduce)").ok().flatten().is_some_and(|m| m.matches())
}

/// The stage.
#[component]
pub fn Stage(size: [f64; 2]) -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let width = RwSignal::new(room());
    let resized = window_event_listener(leptos::ev::resize, move |_| width.set(room()));
    on_cleanup(move || resized.remove());
    let place = Memo::new(move |_| window_for(size, width.get(), hand.px_per_mm.get()));
    let pad = if narrow() { NARROW } else { WIDE };
    let extent = move || place.get().extent();
    let whole = move || {
        let [a, b] = extent();
        [a + pad[0] + pad[1], b + pad[2] + pad[3]]
    };
    let (film_node, plume_node) = (NodeRef::<html::Canvas>::new(), NodeRef::<html::Canvas>::new());
    let stage_node = NodeRef::<html::Div>::new();
    let layer = StoredValue::new_local(None::<FilmLayer>);
    let plume = StoredValue::new_local(None::<Plume>);
    let chalk = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_none_or(|j| j.practice.chalk)));
    let elbow = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.practice.elbow)));
    let band = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().and_then(|j| j.spec).map(|s| s.low)));
    let across = Memo::new(move |_| {
        hand.coat.get();
        hand.gun.with_value(|gun| gun.turn != 0.0)
    });
    let strong = RwSignal::new(false);
    let sent = StoredValue::new(std::collections::VecDeque::new());
    let last_event = StoredValue::new(0.0);
    let held = StoredValue::new(Held::default());

    // Canvases are made anew when the panel's place on the screen changes.
    Effect::new(move |_| {
        let (Some(film), Some(over)) = (film_node.get(), plume_node.get()) else { return };
        let window = place.get();
        layer.set_value(FilmLayer::new(film, window, band.get()));
        plume.set_value(Plume::new(&over, whole(), still_motion()));
    });
    Effect::new(move |_| {
        let phase = hand.phase.get();
        let playing = hand.replay.with(Option::is_some);
        let _ = (place.get(), band.get());
        let film = hand.errand.film.get();
        let from = now();
        layer.with_value(|layer| {
            let Some(layer) = layer else { return };
            match film {
                Some(film) if phase == Phase::Judged && !playing => layer.seen(&film),
                Some(film) => layer.live(&film),
                None => layer.clear(),
            }
        });
        if timed() && phase == Phase::Spraying {
            if let Some(event) = sent.try_update_value(std::collections::VecDeque::pop_front).flatten() {
                measure("hand-film", event);
            }
            measure("hand-draw", from);
        }
    });

    let alive = StoredValue::new(true);
    on_cleanup(move || {
        alive.try_update_value(|a| *a = false);
    });
    let (job_distance, overlap, coats) = desk.parsed.with_untracked(|j| {
        j.as_ref().map_or((0.18, 0.5, 1), |j| (j.stroke.distance, j.stroke.overlap, j.stroke.coats))
    });
    let frames = Rc::new(std::cell::RefCell::new(Loop {
        hand,
        window: place.into(),
        plume,
        beat: Beat::new(),
        held,
        before: now(),
        job_distance,
        overlap,
        coats,
        strong,
        elbow,
        chalk,
        sent,
        last_event,
    }));
    every_frame(alive, Rc::new(move || frames.borrow_mut().frame()));
    if hand.phase.get_untracked() == Phase::Ready {
        // Where the keys begin: outside the panel, left of the first pass.
        hand.gun.update_value(|gun| gun.at = [-0.5 * size[0] - 0.08, 0.5 * size[1]]);
    }

    let touches = StoredValue::new(Vec::new());
    let input = Input { hand, node: stage_node, place, held, last_event, touches };
    input.let_go_with_the_page();

    let spoken = move || {
        let system = desk.system.get();
        let say = |v: f64| said(Quantity::Length, v, system);
        hand.phase.get();
        let (at, distance) = hand.gun.with_value(|gun| (gun.at, gun.distance));
        let how = w.devices.get(hand.device.get()).map_or("", |d| d.1);
        fill(w.stage, &[w.begin, &say(at[0]), &say(at[1]), &say(distance), how])
    };
    let pixels = move |y: f64| {
        let place = place.get();
        (0.5 * size[1] - y) * place.scale
    };
    let ticks = move || {
        let plan = hand.told.with(|t| t.plan.clone());
        let (Some(plan), true) = (plan, chalk.get()) else { return String::new() };
        let (place, [a, b]) = (place.get(), extent());
        if across.get() {
            // Rows run up and down the panel: from its left edge, beats down its height.
            let rows: Vec<f64> = plan.across.iter().map(|x| (0.5 * size[0] - x) * place.scale).collect();
            let at: Vec<f64> = beats(&plan, 1).0.iter().map(|y| y * place.scale).collect();
            return draw::ticks(&rows, &at, (a, b), !place.turned);
        }
        let rows: Vec<f64> = plan.rows.iter().map(|y| pixels(*y)).collect();
        let at: Vec<f64> = beats(&plan, 0).0.iter().map(|x| x * place.scale).collect();
        draw::ticks(&rows, &at, (a, b), place.turned)
    };
    let judged = move || {
        hand.told
            .with(|t| t.card.clone())
            .filter(|c| hand.phase.get() == Phase::Judged && !c.passes.is_empty())
    };
    let lines = move |card: &Card| -> Vec<((f64, f64), (f64, f64))> {
        let place = place.get();
        let half = size.map(|v| 0.5 * v - 0.015);
        let at = |p: [f64; 2], across: bool| {
            // What runs past an edge is drawn to it.
            let on = [0, 1].map(|i| if across == (i == 1) { p[i].clamp(-half[i], half[i]) } else { p[i] });
            let [px, py] = place.pixel(on);
            (px - place.corner[0], py - place.corner[1])
        };
        let line = |p: &crate::task::practising::Pass| p.on_panel().map(|end| at(end, p.across)).into();
        card.passes.iter().map(line).collect()
    };
    let over = move || {
        let Some(card) = judged() else { return String::new() };
        let place = place.get();
        let at: Vec<(f64, f64)> = card
            .advice
            .iter()
            .map(|a| {
                let [x, y] = place.pixel(a.place);
                (x - place.corner[0], y - place.corner[1])
            })
            .collect();
        let [a, b] = extent();
        draw::passes(&lines(&card), Some(hand.chosen.get())) + &draw::discs(&at, (a, b))
    };
    let ruler = move || {
        let (card, plan) = (judged()?, hand.told.with(|t| t.plan.clone())?);
        // Beside the panel stand the distances of one coat along it.
        let first = card.passes.iter().position(|p| !p.across)?;
        let coat = card.passes[first].coat;
        let of = |p: &&crate::task::practising::Pass| p.coat == coat;
        let places: Vec<f64> = card.passes.iter().filter(of).map(|p| pixels(p.y)).collect();
        let figures: Vec<(String, Option<&str>)> = card
            .downs()
            .into_iter()
            .zip(&card.passes)
            .filter(|(_, p)| p.coat == coat)
            .filter_map(|(down, _)| down)
            .map(|s| {
                let s = &s;
                let figure = length(*s, desk.system.get());
                (
                    figure.split(crate::figures::THIN).next().unwrap_or("").to_string(),
                    gap(*s, plan.spacing, &w),
                )
            })
            .collect();
        Some(draw::ruler(&places, &figures))
    };
    let unit = move || {
        said(Quantity::Length, 1.0, desk.system.get())
            .split(crate::figures::THIN)
            .nth(1)
            .unwrap_or("mm")
            .to_string()
    };
    view! {
        <div class="hand-head">
            <p><b>{w.as_seen}</b> " " <span class="text">{w.as_seen_note}</span></p>
            <p class="text" hidden=move || judged().is_none()>{move || format!("{} {}", unit(), w.down)}</p>
        </div>
        <div
            node_ref=stage_node
            id=ID
            class="hand-stage"
            class:judged=move || !matches!(hand.phase.get(), Phase::Ready | Phase::Spraying | Phase::Held)
            role="application"
            tabindex="0"
            aria-label=spoken
            style:width=move || format!("{}px", whole()[0])
            style:height=move || format!("{}px", whole()[1])
            on:pointerdown=move |e| input.down(&e)
            on:pointermove=move |e| input.moved(e)
            on:pointerup=move |e| input.up(&e)
            on:pointercancel=move |e| input.up(&e)
            on:lostpointercapture=move |e| input.up(&e)
            on:wheel=move |e| input.wheel(&e)
            on:keydown=move |e| input.key(&e, true)
            on:keyup=move |e| input.key(&e, false)
            on:blur=move |_| input.left()
            on:contextmenu=move |e| e.prevent_default()
        >
            <canvas node_ref=film_node class="hand-film" aria-hidden="true"
                style:left=move || format!("{}px", place.get().corner[0]) style:top=move || format!("{}px", place.get().corner[1])
                style:width=move || format!("{}px", extent()[0]) style:height=move || format!("{}px", extent()[1])></canvas>
            <svg class="hand-over" aria-hidden="true" width=move || whole()[0].to_string() height=move || whole()[1].to_string()>
                <g transform=move || { let c = place.get().corner; format!("translate({} {})", c[0], c[1]) }>
                    <g class="hand-ticks" class:strong=move || strong.get() inner_html=ticks></g>
                    <g inner_html=over></g>
                    <g transform=move || format!("translate({} 0)", extent()[0] + 12.0)
                        inner_html=move || if place.get().turned { String::new() } else { ruler().unwrap_or_default() }></g>
                </g>
            </svg>
            <canvas node_ref=plume_node class="hand-plume" aria-hidden="true"
                style:width=move || format!("{}px", whole()[0]) style:height=move || format!("{}px", whole()[1])></canvas>
        </div>
        <div class="hand-foot">
            {move || match hand.phase.get() {
                Phase::Ready => view! { <p class="text">{w.begin}</p> }.into_any(),
                Phase::Spraying => view! { <p class="text">{w.spraying}</p> }.into_any(),
                Phase::Held => view! { <p class="text" role="status">{w.held}</p> }.into_any(),
                _ => ().into_any(),
            }}
            {move || (chalk.get() && matches!(hand.phase.get(), Phase::Ready | Phase::Spraying)).then(|| hand.told.with(|t| t.plan.as_ref().map(|p| {
                view! { <p class="small">{fill(w.beat, &[&seconds(beats(p, usize::from(across.get())).1)])}</p> }
            })))}
            <p class="small">{move || flying(hand)}</p>
            <button type="button" class="main-button" data-do="done" hidden=move || !matches!(hand.phase.get(), Phase::Spraying | Phase::Held)
                on:click=move |_| hand.done()>{w.done}</button>
            {move || (coats > 1).then(|| view! { <p class="text" data-coat=hand.coat.get().to_string()>{fill(w.coat_of, &[&hand.coat.get().to_string(), &coats.to_string()])}</p> })}
            <button type="button" class="plain-box" data-do="coat" hidden=move || hand.phase.get() != Phase::Spraying
                on:click=move |_| hand.next_coat(desk)>{move || fill(w.next_coat, &[&seconds(hand.flash(desk))])}</button>
            <button type="button" class="plain-box" data-do="step" hidden=move || !elbow.get() || !matches!(hand.phase.get(), Phase::Ready | Phase::Spraying)
                on:click=move |_| hand.gun.update_value(crate::state::hand::Sprayer::step)>{w.step}</button>
        </div>
    }
}
