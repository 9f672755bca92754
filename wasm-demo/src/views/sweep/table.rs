//! All figures as a table, point by point.

use leptos::prelude::*;

use super::{key_name, sweep_desk};
use crate::state::sweep::{FIGURES, figure, setting, unit};
use crate::words::words;

/// The table, folded.
#[component]
pub fn Figures() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::super::desk::desk();
    let w = words().sweep;
    let open = RwSignal::new(false);
    let table = move || {
        let answer = sweep.answer.get().filter(|_| open.get())?;
        let system = page.system.get();
        let keys =
            answer.axes.iter().map(|a| view! { <th scope="col">{key_name(&a.key)}</th> }).collect_view();
        let heads = FIGURES
            .iter()
            .enumerate()
            .map(|(i, path)| view! { <th scope="col">{w.figures[i]} ", " {unit(path, system)}</th> })
            .collect_view();
        let rows = answer.points.iter().map(|point| {
            let number = point.number;
            let settings: Vec<_> = answer
                .axes
                .iter()
                .zip(&point.settings)
                .enumerate()
                .map(|(i, (axis, value))| {
                    let text = setting(&axis.key, value, system);
                    if i == 0 {
                        view! {
                            <th scope="row"><button type="button" class="link" on:click=move |_| sweep.chosen.set(Some(number))>{text}</button></th>
                        }
                        .into_any()
                    } else {
                        view! { <td>{text}</td> }.into_any()
                    }
                })
                .collect();
            let figures = match &point.impossible {
                Some(why) => view! { <td colspan=FIGURES.len().to_string()>{w.impossible} ": " {why.key.clone()} ": " {why.why.clone()}</td> }.into_any(),
                None => FIGURES.iter().map(|path| view! { <td>{figure(point, &answer, path, system)}</td> }).collect_view().into_any(),
            };
            view! { <tr>{settings}{figures}</tr> }
        });
        Some(view! {
            <div class="sweep-table-scroll" tabindex="0" role="region" aria-label=w.table>
                <table class="sweep-table"><thead><tr>{keys}{heads}</tr></thead><tbody>{rows.collect_view()}</tbody></table>
            </div>
        })
    };
    view! {
        <details class="sweep-all" on:toggle=move |_| open.update(|o| *o = !*o)>
            <summary>{w.table}</summary>
            {table}
        </details>
    }
}
