//! Under the panel: the replay line, the film as a map, the pace along each pass.

use leptos::html;
use leptos::prelude::*;
use mistcoat::units::{Quantity, System};

use super::super::card::MapKey;
use super::super::desk::desk;
use super::canvas::{map, show};
use super::stage::still_motion;
use super::{hand_desk, hand_words};
use crate::draw::hand as draw;
use crate::figures::said;
use crate::task::practising::{Card, Order, Plan};
use crate::words::fill;

/// Map and chart [px].
const MAP: f64 = 304.0;
const CHART: (f64, f64) = (384.0, 190.0);
/// The replay line [px].
const LINE: f64 = 600.0;

/// What stands there once a try is judged.
#[component]
pub fn Below() -> impl IntoView {
    let hand = hand_desk();
    move || {
        let (card, plan) = hand.told.with(|t| Some((t.card.clone()?, t.plan.clone()?)))?;
        (!card.passes.is_empty()).then(|| {
            view! {
                <Replay card=card.clone() />
                <div class="hand-below"><Map plan=plan.clone() /> <Pace card=card plan=plan /></div>
            }
        })
    }
}

/// Watch that pass again.
#[component]
fn Replay(card: Card) -> impl IntoView {
    let hand = hand_desk();
    let w = hand_words();
    let first = card.passes.first().map_or(0.0, |p| p.time[0]);
    let times: Vec<[f64; 2]> = card.passes.iter().map(|p| p.time.map(|t| t - first)).collect();
    let ends: Vec<(f64, usize)> = card.passes.iter().map(|p| (p.time[0], p.moments[1])).collect();
    let count = ends.len();
    let play = move || {
        let chosen = hand.chosen.get_untracked().min(count - 1);
        if still_motion() {
            // Pass by pass on a key: the film as that pass left it.
            hand.errand.tell(Order::Show(ends[chosen].1 + 1).numbers());
            hand.chosen.set((chosen + 1) % count);
            return;
        }
        let now = window().performance().map_or(0.0, |p| p.now());
        hand.replay.set(if hand.replay.with_untracked(Option::is_some) {
            None
        } else {
            Some((now, ends[chosen].0))
        });
        if hand.replay.with_untracked(Option::is_none) {
            hand.errand.tell(Order::Show(usize::MAX >> 12).numbers());
        }
    };
    let shown = times.clone();
    let seconds = card.seconds;
    let press = play.clone();
    view! {
        <div class="hand-replay">
            <button type="button" class="hand-play" data-do="replay" aria-label=w.watch aria-pressed=move || hand.replay.with(Option::is_some).to_string() on:click=move |_| press()>
                <svg viewBox="0 0 36 36" width="36" height="36" aria-hidden="true"><circle class="hand-ring" cx="18" cy="18" r="16.5" />
                    {move || if hand.replay.with(Option::is_some) {
                        view! { <path class="hand-go" d="M12 11H16V25H12ZM20 11H24V25H20Z" /> }.into_any()
                    } else {
                        view! { <path class="hand-go" d="M14 10L26 18L14 26Z" /> }.into_any()
                    }}
                </svg>
            </button>
            <div class="hand-bars">
                <svg viewBox=format!("0 0 {LINE} 42") width="100%" aria-hidden="true"
                    inner_html=move || draw::replay_line(&shown, seconds, Some(hand.chosen.get()), LINE)></svg>
                <div class="hand-picks" role="group" aria-label=w.watch>
                    {times.iter().enumerate().map(|(i, [from, to])| {
                        let share = |t: f64| 100.0 * (t / seconds.max(1e-3)).clamp(0.0, 1.0);
                        let (left, wide) = (share(*from), (share(*to) - share(*from)).max(1.0));
                        view! {
                            <button type="button" aria-label=format!("{} {}", w.pass, i + 1) aria-pressed=move || (hand.chosen.get() == i).to_string()
                                style:left=format!("{left}%") style:width=format!("{wide}%")
                                on:click=move |_| { hand.replay.set(None); hand.chosen.set(i); }></button>
                        }
                    }).collect_view()}
                </div>
            </div>
        </div>
        <p class="hand-watch"><button type="button" class="link" on:click=move |_| play()>{w.watch}</button> <span class="text">{w.bars}</span></p>
    }
}

/// The film as a map.
#[component]
fn Map(plan: Plan) -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let node = NodeRef::<html::Canvas>::new();
    let ratio = window().device_pixel_ratio().clamp(1.0, 3.0);
    let high = MAP * plan.size[1] / plan.size[0];
    let size = ((MAP * ratio).round() as usize, (high * ratio).round() as usize);
    let (panel, band) = (plan.size, plan.band);
    Effect::new(move |_| {
        let (Some(canvas), Some(film)) = (node.get(), hand.errand.film.get()) else { return };
        if let Some(picture) = map(&film, panel, band, size, ratio) {
            show(&canvas, &picture);
        }
    });
    let wanted = move || {
        let system = desk.system.get();
        band.map(|[low, high]| {
            let low = said(Quantity::Film, low, system);
            let low = low.split(crate::figures::THIN).next().unwrap_or("").to_string();
            fill(w.map_wanted, &[&low, &said(Quantity::Film, high, system)])
        })
    };
    view! {
        <section class="hand-map">
            <p><b>{w.map}</b> " " <span class="text">{wanted}</span></p>
            <canvas node_ref=node class="hand-map-canvas" width=size.0.to_string() height=size.1.to_string() role="img" aria-label=w.map
                style:width=format!("{MAP}px") style:height=format!("{high}px")></canvas>
            <MapKey width=304 />
        </section>
    }
}

/// Pace along each pass.
#[component]
fn Pace(card: Card, plan: Plan) -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let svg = move || {
        let factor = if desk.system.get() == System::Us { 0.3048 } else { 1.0 };
        let along = |p: &crate::task::practising::Pass| -> Vec<(f64, f64)> {
            let way = p.ends[1] - p.ends[0];
            p.pace.iter().map(|[x, pace]| ((x - p.ends[0]) / way, pace * factor)).collect()
        };
        let chart = draw::PaceChart {
            passes: card.passes.iter().map(along).collect(),
            plan: plan.pace * factor,
            chosen: Some(hand.chosen.get()),
            still: card.passes.iter().enumerate().filter(|(_, p)| p.still > 0.0).map(|(i, _)| i).collect(),
            words: [w.job_short, w.stood, w.pass],
        };
        draw::pace_chart(&chart, CHART.0, CHART.1)
    };
    let note = move || if desk.system.get() == System::Us { w.pace_note_us } else { w.pace_note };
    view! {
        <section class="hand-pace-chart">
            <p><b>{w.pace}</b> " " <span class="text">{note}</span></p>
            <svg viewBox=format!("0 -16 {} {}", CHART.0, CHART.1 + 56.0) width="100%" role="img" aria-label=w.pace inner_html=svg></svg>
        </section>
    }
}
