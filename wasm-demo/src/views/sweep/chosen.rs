//! The point in hand: its figures, its difference to the point before it, and the way onto the desk.

use leptos::prelude::*;
use mistcoat::report::chart::short;
use mistcoat::sweep::{Answer, Point};
use mistcoat::units::System;

use super::super::clipboard::Clip;
use super::super::desk::View;
use super::{key_name, sweep_desk};
use crate::state::sweep::{FIGURES, figure, setting, shown, unit};
use crate::words::{fill, words};

/// The clipboard.
#[component]
pub fn Chosen() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::super::desk::desk();
    let w = words().sweep;
    let point = move || {
        let answer = sweep.answer.get()?;
        let number = sweep.chosen.get()?;
        let point = answer.point(number)?.clone();
        Some((answer, point))
    };
    let inside = move || {
        let Some((answer, point)) = point() else {
            return view! { <p class="advice">{w.pick}</p> }.into_any();
        };
        let system = page.system.get();
        let keys = answer.axes.iter().zip(&point.settings).map(|(axis, value)| {
            view! { <p class="name">{key_name(&axis.key)} ": " {setting(&axis.key, value, system)}</p> }
        });
        let body = match &point.impossible {
            Some(why) => view! {
                <p class="complaint"><span>{w.impossible} ". "</span>{why.key.clone()} ": " {why.why.clone()}</p>
            }
            .into_any(),
            None => lines(&answer, &point, system).into_any(),
        };
        let number = point.number;
        let possible = point.impossible.is_none();
        let load = move |_| {
            let text = sweep.asked.with_untracked(|a| a.as_ref().and_then(|a| a.text(number)));
            if let Some(text) = text
                && page.take("sweep", Ok(text))
            {
                sweep.loaded.set(Some(number));
            }
        };
        view! {
            <h2 class="kicker">{w.point}</h2>
            {keys.collect_view()}
            {body}
            {possible.then(|| view! {
                <div class="buttons"><button type="button" class="main-button" data-load on:click=load>{w.load}</button></div>
            })}
            {move || (sweep.loaded.get() == Some(number)).then(|| view! {
                <p class="small" role="status" data-loaded>{w.loaded} " "
                    <button type="button" class="link" on:click=move |_| page.view.set(View::Part)>{w.to_part}</button></p>
            })}
        }
        .into_any()
    };
    view! {
        <section class="clipboard sweep-chosen" aria-live="polite">
            <Clip />
            {inside}
            <super::super::fields::Complaint key="sweep" keys=&[] />
        </section>
    }
}

/// The figures, each with its range and its difference.
fn lines(answer: &Answer, point: &Point, system: System) -> impl IntoView + use<> {
    let w = words().sweep;
    let before = before(answer, point.number);
    let rows: Vec<_> = FIGURES
        .iter()
        .enumerate()
        .map(|(i, path)| {
            let found = answer.column(path).and_then(|c| point.figures.get(c));
            let likely = found.and_then(|f| f.likely).map(|l| {
                let [low, high] = l.map(|v| short(shown(path, v, system)));
                fill(w.likely, &[&low, &high])
            });
            let sure = found
                .and_then(|f| f.standard_error)
                .map(|e| fill(w.sure, &[&short(shown(path, 2.0 * e, system))]));
            let step = before.and_then(|before| difference(answer, path, point.number, before, system));
            let beside: Vec<String> = [likely, sure].into_iter().flatten().collect();
            view! {
                <div>
                    <dt>{w.figures[i]}</dt>
                    <dd>{figure(point, answer, path, system)} " " {unit(path, system)}</dd>
                    <dd class="beside">{beside.join(", ")}{step.map(|step| view! { <span class="sweep-step">{step}</span> })}</dd>
                </div>
            }
        })
        .collect();
    let droplets = point.droplets.to_string();
    let told = point.warnings.iter().map(|t| view! { <li>{t.clone()}</li> }).collect_view();
    view! {
        <dl class="lines">{rows}</dl>
        {before.map(|_| view! { <p class="small">{w.against} "."</p> })}
        <p class="small">{w.droplets} ": " {droplets}</p>
        <ul class="small sweep-told">{told}</ul>
    }
}

/// The point before, on the axis that changes fastest.
fn before(answer: &Answer, number: usize) -> Option<usize> {
    let n = answer.axes.last()?.values.len().max(1);
    (!number.is_multiple_of(n)).then(|| number - 1)
}

/// "3.2 more, sure to 0.4": twice the paired error either way.
fn difference(answer: &Answer, path: &str, point: usize, less: usize, system: System) -> Option<String> {
    let w = words().sweep;
    let (value, error) = answer.difference(path, point, less)?;
    let scale = shown(path, 1.0, system);
    let (value, error) = (value * scale, 2.0 * error * scale);
    let words = match value {
        v if v.abs() <= error => w.no_difference,
        v if v > 0.0 => w.more,
        _ => w.less,
    };
    Some(fill(words, &[&short(value.abs()), &short(error)]))
}
