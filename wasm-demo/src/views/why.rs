//! Why does the run in hand take less paint than a kept one? The difference split by cause, both orders shown.

use leptos::prelude::*;
use mistcoat::units::{Quantity, System};
use mistcoat::why::{Answer, name, sentence};

use super::desk::{Desk, desk};
use super::errand::Errand;
use crate::figures::{of_100, said, with_signs};
use crate::task::Task;
use crate::words::{fill, words};

/// What is kept while views come and go.
#[derive(Clone, Copy, Default)]
pub struct WhyDesk(Errand);

/// Asks why the job in hand differs from a kept one.
pub fn ask(desk: Desk, kept: &str) {
    let second = desk.flown.get_untracked();
    let errand = use_context::<WhyDesk>().unwrap_or_default().0;
    errand.begin(Task::Why { first: kept.into(), second });
}

/// A signed amount of paint.
fn signed(ml: f64, system: System) -> String {
    let text = said(Quantity::Volume, ml.abs() * 1e-6, system);
    if ml.abs() < 5e-3 { "0".into() } else { format!("{}{text}", if ml < 0.0 { '\u{2212}' } else { '+' }) }
}

/// The answer under the shelf; nothing before it is asked.
#[component]
pub fn WhyLess() -> impl IntoView {
    let page = desk();
    let errand = use_context::<WhyDesk>().unwrap_or_default().0;
    let w = words().why;
    move || {
        let standing = errand.standing.get();
        if let Some((key, message)) = standing.refused {
            let message = key.map_or(message.clone(), |key| format!("{key}: {message}"));
            return Some(
                view! { <p class="complaint" role="alert" data-why="refused">{w.refused} " " {message}</p> }
                    .into_any(),
            );
        }
        if standing.busy {
            let text = fill(w.busy, &[&of_100(standing.done)]);
            return Some(
                view! {
                    <p class="change-work" data-why="busy" aria-live="polite"><span>{text}</span>
                        <button type="button" class="link" on:click=move |_| errand.stop()>{words().stop}</button></p>
                }
                .into_any(),
            );
        }
        let answer: Answer = serde_json::from_str(standing.answer.as_deref()?).ok()?;
        Some(view! { <Split answer=answer system=page.system.get() /> }.into_any())
    }
}

#[component]
fn Split(answer: Answer, system: System) -> impl IntoView {
    let w = words().why;
    let most = answer
        .parts
        .iter()
        .flat_map(|p| p.ml_orders)
        .chain([answer.ml])
        .fold(1e-9f64, |most, ml| most.max(ml.abs()));
    // Nothing lies at the middle; half the width is the largest.
    let place = move |ml: f64| 50.0 + 48.0 * ml / most;
    let bar = move |from: f64, to: f64, class: &'static str| {
        let (a, b) = (place(from).min(place(to)), place(from).max(place(to)));
        view! { <i class=class style:left=format!("{a:.2}%") style:width=format!("{:.2}%", (b - a).max(0.2))></i> }
    };
    let rows = answer
        .parts
        .iter()
        .map(|part| {
            let [a, b] = part.ml_orders;
            view! {
                <tr>
                    <th scope="row">{name(part.cause)}</th>
                    <td class="why-drawn" aria-hidden="true"><span>{bar(0.0, part.ml, "why-bar")} {bar(a, b, "why-span")}</span></td>
                    <td><b>{signed(part.ml, system)}</b></td>
                    <td data-head=w.orders>{signed(a, system)} ", " {signed(b, system)}</td>
                    <td data-head=w.error>{said(Quantity::Volume, part.ml_standard_error * 1e-6, system)}</td>
                </tr>
            }
        })
        .collect_view();
    view! {
        <section class="why-less" data-why="done" aria-labelledby="why-title">
            <h3 id="why-title">{w.title}</h3>
            <p class="sentence">{with_signs(&sentence(&answer, system))}</p>
            <p class="small">{w.about}</p>
            <table>
                <thead><tr><th scope="col">{w.cause}</th><td></td><th scope="col">{w.paint}</th><th scope="col">{w.orders}</th><th scope="col">{w.error}</th></tr></thead>
                <tbody>
                    {rows}
                    <tr class="why-whole">
                        <th scope="row">{w.whole}</th>
                        <td class="why-drawn" aria-hidden="true"><span>{bar(0.0, answer.ml, "why-bar")}</span></td>
                        <td><b>{signed(answer.ml, system)}</b></td>
                        <td></td>
                        <td>{said(Quantity::Volume, answer.ml_standard_error * 1e-6, system)}</td>
                    </tr>
                </tbody>
            </table>
        </section>
    }
}
