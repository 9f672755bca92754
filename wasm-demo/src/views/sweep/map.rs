//! Two knobs: a table whose cells are coloured by one hue, each a button; it is the map and its own data table.

use leptos::prelude::*;
use mistcoat::report::chart::DARK;
use mistcoat::report::chart::film_map::ramp;
use mistcoat::sweep::{Answer, Axis, Point};

use super::{key_name, sweep_desk};
use crate::state::sweep::{FIGURES, figure, setting, shown, unit};
use crate::words::words;

/// Lowest and highest of a figure.
fn ends(answer: &Answer, column: usize) -> Option<[f64; 2]> {
    let numbers = || answer.points.iter().filter_map(|p| p.figures.get(column)?.number());
    let ends = [numbers().fold(f64::INFINITY, f64::min), numbers().fold(f64::NEG_INFINITY, f64::max)];
    (ends[0] <= ends[1]).then_some(ends)
}

fn share(value: f64, ends: Option<[f64; 2]>) -> f64 {
    match ends {
        Some([low, high]) if high > low => (value - low) / (high - low),
        _ => 0.0,
    }
}

fn colour(share: f64) -> String {
    let [r, g, b] = ramp(share);
    format!("rgb({r} {g} {b})")
}

/// The map.
#[component]
pub fn KnobMapTable() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::super::desk::desk();
    let w = words().sweep;
    let choose = FIGURES
        .iter()
        .enumerate()
        .map(|(i, path)| {
            view! {
                <button type="button" class="plain-button" data-figure=*path
                    aria-pressed=move || (sweep.figure.get() == i).to_string()
                    on:click=move |_| sweep.figure.set(i)>{w.figures[i]}</button>
            }
        })
        .collect_view();
    let map = move || {
        let answer = sweep.answer.get()?;
        let path = FIGURES[sweep.figure.get().min(FIGURES.len() - 1)];
        let column = answer.column(path)?;
        let system = page.system.get();
        let (down, across) = (answer.axes.first()?.clone(), answer.axes.get(1)?.clone());
        let n = across.values.len();
        let scale = ends(&answer, column);
        let title =
            format!("{}, {}", w.figures[sweep.figure.get().min(FIGURES.len() - 1)], unit(path, system));
        let heads = across.values.iter().map(|v| {
            let tube = tube(&across, v).map(|d| view! { <svg class="sweep-tube" viewBox="0 0 30 30" width="30" height="30" aria-hidden="true"><circle cx="15" cy="15" r=format!("{:.2}", 14.0 * d)></circle></svg> });
            view! { <th scope="col">{tube}{setting(&across.key, v, system)}</th> }
        });
        // More at the top, as on a chart.
        let rows = (0..down.values.len()).rev().map(|row| {
            let name = setting(&down.key, &down.values[row], system);
            let cells = (0..n).map(|c| {
                let said = format!("{name}, {}", setting(&across.key, &across.values[c], system));
                cell(row * n + c, answer.point(row * n + c), &answer, path, column, scale, said)
            });
            view! { <tr><th scope="row">{name.clone()}</th>{cells.collect_view()}</tr> }
        });
        let short = mistcoat::report::chart::short;
        let legend = scale.map(|[low, high]| {
            let steps = (0..24).map(|i| view! { <i style:background-color=colour(f64::from(i) / 23.0)></i> });
            view! {
                <div class="sweep-legend" aria-hidden="true">
                    <span>{short(shown(path, low, system))}</span><span class="ramp">{steps.collect_view()}</span>
                    <span>{short(shown(path, high, system))} " " {unit(path, system)}</span>
                </div>
            }
        });
        Some(view! {
            <div class="sweep-map-scroll">
                <table class="sweep-map">
                    <caption>{title}</caption>
                    <thead><tr><th class="corner"><span>{key_name(&down.key)}</span></th>{heads.collect_view()}</tr></thead>
                    <tbody>{rows.collect_view()}</tbody>
                    <tfoot><tr><td></td><td class="axis-figure" colspan=n.to_string()>{key_name(&across.key)}</td></tr></tfoot>
                </table>
            </div>
            {legend}
        })
    };
    view! {
        <div class="sweep-figures" role="group" aria-label=w.figure>{choose}</div>
        {map}
        <p class="small">{w.map_says}</p>
    }
}

fn cell(
    number: usize,
    point: Option<&Point>,
    answer: &Answer,
    path: &str,
    column: usize,
    scale: Option<[f64; 2]>,
    said: String,
) -> impl IntoView + use<> {
    let sweep = sweep_desk();
    let w = words().sweep;
    let system = super::super::desk::desk().system.get();
    let value = point.and_then(|p| p.figures.get(column)?.number());
    let impossible = point.and_then(|p| p.impossible.as_ref());
    let text = match (point, impossible) {
        (_, Some(_)) => "\u{d7}".to_string(),
        (Some(point), None) => figure(point, answer, path, system),
        (None, None) => String::new(),
    };
    let label = match (point, impossible) {
        (_, Some(why)) => format!("{said}: {}: {}", w.impossible, why.why),
        (Some(_), None) => format!("{said}: {text} {}", unit(path, system)),
        (None, None) => said,
    };
    let at = value.map(|v| share(v, scale));
    let ground = at.map(colour);
    view! {
        <td>
            <button type="button" class="sweep-cell" data-point=number.to_string() aria-label=label.clone() title=label
                class:dark=at.is_some_and(|s| s > DARK) class:none=value.is_none() class:impossible=impossible.is_some()
                class:chosen=move || sweep.chosen.get() == Some(number)
                style:background-color=ground
                aria-pressed=move || (sweep.chosen.get() == Some(number)).to_string()
                on:click=move |_| sweep.chosen.set(Some(number))>{text}</button>
        </td>
    }
}

/// A tube's diameter over the thickest of its axis: columns of tubes wear theirs, to scale with each other.
fn tube(axis: &Axis, value: &str) -> Option<f64> {
    let (all, _) = axis.numbers().filter(|_| axis.key == "part.tube.diameter")?;
    let own = axis.values.iter().position(|v| v == value).and_then(|i| all.get(i))?;
    let most = all.iter().copied().fold(0.0, f64::max);
    (most > 0.0).then(|| own / most)
}
