//! The strip below the bench: the tube seen from its end, kept run beside this one, and the fields for one's own part.

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape};
use mistcoat::units::Quantity;

use super::clipboard::{fan_name, film_wanted};
use super::desk::desk;
use super::fields::PartFields;
use crate::draw::end_view::{EndView, end_view};
use crate::figures::{of_100, said};
use crate::state::{RunView, is_tube, need};
use crate::words::{fill, words};

/// The strip.
#[component]
pub fn EndStrip() -> impl IntoView {
    let desk = desk();
    let w = words();
    let tube = move || desk.parsed.with(|j| j.as_ref().is_some_and(is_tube));
    let says = move || {
        let run = desk.fresh()?;
        let share = run.number("transfer_efficiency.value")?;
        let job = Job::from_toml(&run.job).ok()?;
        if let (Some(kept), true) = (desk.kept.get().filter(|k| k.job != run.job), tube()) {
            let before = Job::from_toml(&kept.job).ok()?;
            let need = need(&run, film_wanted(desk))?;
            let volume = said(Quantity::Volume, need.on_part * 1e-6, desk.system.get());
            let then = kept.number("transfer_efficiency.value")?;
            let figures =
                [&volume, fan_name(job.gun.fan), &of_100(share), fan_name(before.gun.fan), &of_100(then)];
            return Some(fill(w.end_compare, &figures));
        }
        let PartShape::Tube { diameter, .. } = job.part else {
            return Some(fill(w.end_panel_says, &[&of_100(share)]));
        };
        let times = run.number("pattern.length_mm")? * 1e-3 / diameter;
        Some(fill(w.end_says, &[&of_100(share), &format!("{times:.0}")]))
    };
    let why = move || {
        desk.kept.with(|k| {
            k.as_ref().is_some_and(|k| desk.fresh().is_some_and(|r| r.job != k.job && r.done >= 1.0))
        })
    };
    view! {
        <section class="strip">
            <div class="strip-in">
                <div class="strip-words">
                    {move || (why() && tube()).then(|| view! { <p class="chalk-words">{w.same_film}</p> })}
                    <h2>{move || if tube() { w.end_tube } else { w.end_panel }}</h2>
                    <p class="text">{says}</p>
                    <p class="small">{w.to_scale}</p>
                </div>
                <div class="strip-views">
                    {move || desk.kept.get().filter(|k| desk.fresh().is_none_or(|r| r.job != k.job))
                        .map(|k| view! { <OneEnd run=k what=w.kept /> })}
                    {move || match desk.run.get() {
                        Some(run) => view! { <OneEnd run=run what=w.now /> }.into_any(),
                        None => ().into_any(),
                    }}
                </div>
                <div class="yours">
                    <h2>{w.yours}</h2>
                    <div class="fields"><PartFields /></div>
                    <p class="small">{w.caution_start} " " {w.caution_part}</p>
                </div>
            </div>
        </section>
    }
}

#[component]
fn OneEnd(run: Arc<RunView>, what: &'static str) -> impl IntoView {
    let desk = desk();
    let w = words();
    let job = Job::from_toml(&run.job).ok()?;
    let system = desk.system.get();
    let say = |v: f64| said(Quantity::Length, v, system);
    let fan = run.number("pattern.length_mm").map(|mm| mm * 1e-3);
    let diameter = match job.part {
        PartShape::Tube { diameter, .. } => Some(diameter),
        PartShape::Panel { .. } => None,
    };
    let fan_words = fan.map(|f| fill(w.fan_at, &[&say(f), &say(job.stroke.distance)])).unwrap_or_default();
    let figures = (fan.map(say).unwrap_or_default(), say(job.stroke.distance));
    let view = EndView {
        distance: job.stroke.distance,
        diameter,
        fan_height: fan,
        droplets: &run.droplets,
        figures,
    };
    let drawn = end_view(&view, 400.0, 300.0);
    let name = format!("{}, {what}", fan_name(job.gun.fan));
    Some(view! {
        <figure class="one-end">
            <figcaption><b>{name.clone()}</b><span class="small">{fan_words.clone()}</span></figcaption>
            <svg viewBox="0 0 400 300" role="img" aria-label=format!("{name}. {fan_words}") inner_html=drawn></svg>
        </figure>
    })
}
