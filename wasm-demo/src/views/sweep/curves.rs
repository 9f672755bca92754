//! One knob: a curve a figure, with the model's range and the counting error; every point can be picked.

use leptos::prelude::*;
use mistcoat::report::chart::{Curve, CurvePoint};

use super::{key_name, sweep_desk};
use crate::state::sweep::{FIGURES, curve, setting, unit};
use crate::words::{fill, words};

/// Size drawn [px]: that of a phone, so that words there are not made smaller.
const WIDE: f64 = 376.0;
const TALL: f64 = 236.0;

/// The figures' curves.
#[component]
pub fn Curves() -> impl IntoView {
    let w = words().sweep;
    view! {
        <div class="sweep-curves">
            {FIGURES.into_iter().enumerate().map(|(i, path)| view! { <OneCurve path=path name=w.figures[i] /> }).collect_view()}
        </div>
        <p class="small">{w.curve_says}</p>
    }
}

/// A point's place in the drawing and what is said of it.
fn spot(point: &CurvePoint, unit: &str, setting: &str) -> String {
    let w = words().sweep;
    let short = mistcoat::report::chart::short;
    let value = match point.y {
        Some(y) => format!("{} {unit}", short(y)),
        None if point.impossible => w.impossible.into(),
        None => w.unknown.into(),
    };
    let likely = point.likely.map(|l| format!(", {}", fill(w.likely, &[&short(l[0]), &short(l[1])])));
    format!("{setting}: {value}{}", likely.unwrap_or_default())
}

#[component]
fn OneCurve(path: &'static str, name: &'static str) -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::super::desk::desk();
    let drawn = move || {
        let system = page.system.get();
        let answer = sweep.answer.get()?;
        let axis = answer.axes.first()?;
        let (points, by_name) = curve(&answer, path, system);
        let title = format!("{name}, {}", unit(path, system));
        let named = key_name(&axis.key);
        let axis_title = match axis.numbers() {
            Some((_, unit)) if !unit.is_empty() => format!("{named}, {unit}"),
            _ => named,
        };
        let wanted = None;
        let drawing = Curve { title: &title, axis: &axis_title, points: &points, by_name, wanted };
        let frame = drawing.frame(WIDE, TALL);
        let svg = drawing.svg(WIDE, TALL);
        let spots = frame.map(|frame| {
            points
                .iter()
                .map(|point| {
                    let x = frame.x(point.x);
                    let y = point.y.map_or(TALL - 51.0, |y| frame.y(y));
                    let number = axis.values.iter().position(|v| *v == point.name).unwrap_or(0);
                    let said = spot(point, unit(path, system), &setting(&axis.key, &point.name, system));
                    let title = said.clone();
                    let pick = move || sweep.chosen.set(Some(number));
                    view! {
                        <g class="sweep-spot" tabindex="0" role="button" aria-label=said data-point=number.to_string()
                            class:chosen=move || sweep.chosen.get() == Some(number)
                            on:click=move |_| pick()
                            on:keydown=move |event| if matches!(event.key().as_str(), "Enter" | " ") {
                                event.prevent_default();
                                pick();
                            }>
                            <title>{title}</title>
                            <circle class="hit" cx=x cy=y r="12" />
                            <circle class="sweep-ring" cx=x cy=y r="6.5" />
                        </g>
                    }
                })
                .collect_view()
        });
        Some(view! {
            <svg class="chart" viewBox=format!("0 0 {WIDE} {TALL}") role="group" aria-label=title.clone() data-figure=path>
                <g aria-hidden="true" inner_html=svg></g>
                {spots}
            </svg>
        })
    };
    view! { <figure class="sweep-curve">{drawn}</figure> }
}
