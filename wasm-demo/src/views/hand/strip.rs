//! The wall strip: the job's pace and spacing on paper at true size, to practise with air alone while the page beats.

use std::rc::Rc;

use leptos::prelude::*;

use super::super::desk::desk;
use super::beat::Beat;
use super::frames::beats;
use super::{flying, hand_desk, hand_words};
use crate::draw::wall_strip::{WIDE, pieces};
use crate::figures::seconds;
use crate::state::hand_said::{length, pace};
use crate::words::{fill, words};

/// A beat is looked for so often.
const LOOK: std::time::Duration = std::time::Duration::from_millis(20);

/// The strip.
#[component]
pub fn WallStrip() -> impl IntoView {
    let desk = desk();
    let hand = hand_desk();
    let w = hand_words();
    let beating = RwSignal::new(false);
    let strong = RwSignal::new(false);
    let beat = Rc::new(std::cell::RefCell::new(Beat::new()));
    let looked = set_interval_with_handle(
        move || {
            let Some(every) = hand.told.with_untracked(|t| t.plan.as_ref().map(|p| beats(p, 0).1)) else {
                return;
            };
            let now = window().performance().map_or(0.0, |p| p.now());
            if beating.get_untracked() && beat.borrow_mut().tick(now, every, hand.sound.get_untracked()) {
                strong.update(|s| *s = !*s);
            }
        },
        LOOK,
    );
    on_cleanup(move || {
        if let Ok(handle) = looked {
            handle.clear();
        }
    });
    let strips = move || {
        hand.told.with(|t| t.plan.clone()).map(|plan| {
            let system = desk.system.get();
            let top = plan.rows.iter().copied().fold(f64::MIN, f64::max);
            let rows: Vec<(f64, String)> = plan
                .rows
                .iter()
                .enumerate()
                .map(|(i, y)| ((top - y) * 1e3 + 8.0, fill(w.strip_row, &[&(i + 1).to_string()])))
                .collect();
            let long = rows.iter().map(|(at, _)| *at).fold(0.0, f64::max) + 8.0;
            let (at, every) = beats(&plan, 0);
            let lead = plan.lead * 1e3;
            let mut along: Vec<(f64, String)> =
                at.iter().enumerate().map(|(i, x)| (x * 1e3 + lead, fill(w.strip_along, &[&(i + 1).to_string()]))).collect();
            along.insert(0, (0.0, w.strip_on.into()));
            along.push((plan.size[0] * 1e3 + 2.0 * lead, w.strip_off.into()));
            let all = pieces(long, &rows, w.strip_down)
                .into_iter()
                .chain(pieces(plan.size[0] * 1e3 + 2.0 * lead, &along, w.strip_across));
            view! {
                <p class="text">{w.strip_how} " " {format!("{}, {}, {}.", pace(plan.pace, system), length(plan.spacing, system), fill(w.beat, &[&seconds(every)]))}</p>
                <p class="small">{w.strip_cut}</p>
                <div class="strip-check"><span></span></div>
                <p class="small">{w.strip_check}</p>
                <div class="strip-sheets">
                    {all.map(|(high, drawn)| view! {
                        <svg viewBox=format!("0 0 {WIDE} {high}") width=format!("{WIDE}mm") height=format!("{high}mm") role="img" aria-label=w.strip_title inner_html=drawn></svg>
                    }).collect_view()}
                </div>
            }
        })
    };
    view! {
        <section class="wall-strip">
            <div class="strip-tools">
                <button type="button" class="link" data-do="back" on:click=move |_| hand.strip.set(false)>{w.strip_close}</button>
                <button type="button" class="main-button" data-do="print" on:click=move |_| {
                    // A browser without a printer says so itself.
                    let _ = window().print();
                }>{w.strip_print}</button>
                <button type="button" class="plain-box" aria-pressed=move || beating.get().to_string() on:click=move |_| beating.update(|b| *b = !*b)>{w.strip_beat}</button>
                <span class="strip-beat" class:on=move || strong.get() && beating.get() aria-hidden="true"></span>
            </div>
            <h2>{w.strip_title}</h2>
            {strips}
            <p class="small">{move || flying(hand)}</p>
            <p class="small">{w.trains} " " {words().caution_part} " " {words().caution_gun}</p>
        </section>
    }
}
