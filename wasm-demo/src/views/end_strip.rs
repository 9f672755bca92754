//! The strip below the bench: the tube seen from its end, kept run beside this one, and the fields for one's own part.

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::job::{Job, PartShape};
use mistcoat::units::Quantity;

use super::clipboard::{fan_name, film_wanted};
use super::desk::{Desk, desk};
use super::part_fields::PartFields;
use crate::draw::end_view::{EndView, end_view, fit};
use crate::figures::{of_100, said};
use crate::state::{RunView, is_tube, need};
use crate::words::{fill, words};

/// The strip.
#[component]
pub fn EndStrip() -> impl IntoView {
    let desk = desk();
    let w = words();
    let tube = move || desk.parsed.with(|j| j.as_ref().is_some_and(is_tube));
    let of_tubes = move || desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.part.is_of_tubes()));
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
    let why =
        move || desk.kept.with(|k| k.as_ref().is_some_and(|k| desk.fresh().is_some_and(|r| r.job != k.job)));
    let views = move || {
        let kept = desk.kept.get().filter(|k| desk.fresh().is_none_or(|r| r.job != k.job));
        let runs: Vec<_> =
            kept.map(|k| (k, w.kept)).into_iter().chain(desk.run.get().map(|r| (r, w.now))).collect();
        let size = if runs.len() > 1 { (310.0, 290.0) } else { (620.0, 420.0) };
        let scale = runs
            .iter()
            .filter_map(|(r, _)| with_view(r, desk, |v| fit(v, size.0, size.1)))
            .fold(f64::INFINITY, f64::min);
        runs.into_iter()
            .map(|(run, what)| view! { <OneEnd run=run what=what size=size scale=scale /> })
            .collect_view()
    };
    view! {
        <section class="strip">
            <div class="strip-in">
                <div class="strip-words">
                    {move || (why() && tube()).then(|| view! { <p class="chalk-words">{w.same_film}</p> })}
                    <h2>{move || if of_tubes() { w.end_tube } else { w.end_panel }}</h2>
                    <p class="text">{says}</p>
                    <p class="small">{w.to_scale}</p>
                </div>
                <div class="strip-views">{views}</div>
                <div class="yours">
                    <h2>{w.yours}</h2>
                    <div class="fields"><PartFields /></div>
                    <p class="small">{w.caution_start} " " {w.caution_part}</p>
                </div>
            </div>
        </section>
    }
}

/// Does something with a run's end view; none when its job cannot be read.
fn with_view<T>(run: &RunView, desk: Desk, act: impl FnOnce(&EndView) -> T) -> Option<T> {
    let job = Job::from_toml(&run.job).ok()?;
    let say = |v: f64| said(Quantity::Length, v, desk.system.get());
    let fan = run.number("pattern.length_mm").map(|mm| mm * 1e-3);
    let diameter = match &job.part {
        PartShape::Tube { diameter, .. } => Some(*diameter),
        // The gun before its first tube alone.
        PartShape::Frame(frame) => frame.members.iter().find(|m| m.sprayed).map(|m| m.diameter),
        _ => None,
    };
    let figures = (fan.map(say).unwrap_or_default(), say(job.stroke.distance));
    Some(act(&EndView {
        distance: job.stroke.distance,
        diameter,
        fan_height: fan,
        droplets: &run.droplets,
        figures,
    }))
}

#[component]
fn OneEnd(run: Arc<RunView>, what: &'static str, size: (f64, f64), scale: f64) -> impl IntoView {
    let desk = desk();
    let w = words();
    let job = Job::from_toml(&run.job).ok()?;
    let (drawn, fan_words) = with_view(&run, desk, |v| {
        let words = v.fan_height.map(|_| fill(w.fan_at, &[&v.figures.0, &v.figures.1])).unwrap_or_default();
        (end_view(v, size.0, size.1, scale), words)
    })?;
    let name = format!("{}, {what}", fan_name(job.gun.fan));
    let (width, height) = (size.0.to_string(), size.1.to_string());
    Some(view! {
        <figure class="one-end">
            <figcaption><b>{name.clone()}</b><span class="small">{fan_words.clone()}</span></figcaption>
            <svg viewBox=format!("0 0 {width} {height}") width=width height=height role="img" aria-label=format!("{name}. {fan_words}") inner_html=drawn></svg>
        </figure>
    })
}
