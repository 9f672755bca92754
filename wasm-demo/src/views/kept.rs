//! Runs put aside, each beside the one in hand: what was set differently, and what came out differently.

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use crate::figures::{said, seconds};
use crate::state::RunView;
use crate::state::kept::{Changed, Column, KeptRun, changed, keep};
use crate::words::{fill, words};

/// Where the browser keeps the shelf.
const KEY: &str = "mistcoat-kept";
/// Changes that are named; the rest are counted.
const NAMED: usize = 4;

/// The shelf. Passed by copy; made once for a page.
#[derive(Clone, Copy)]
pub struct Shelf(RwSignal<Vec<KeptRun>>);

fn storage() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

impl Default for Shelf {
    fn default() -> Self {
        let text = storage().and_then(|s| s.get_item(KEY).ok().flatten()).unwrap_or_default();
        let shelf = RwSignal::new(serde_json::from_str(&text).unwrap_or_default());
        Effect::new(move |before: Option<()>| {
            let text = shelf.with(|all| serde_json::to_string(all).unwrap_or_default());
            // Full or refused: the shelf then lasts as long as the page.
            if let (Some(()), Some(storage)) = (before, storage()) {
                let _ = storage.set_item(KEY, &text);
            }
        });
        Self(shelf)
    }
}

impl Shelf {
    /// Puts a run aside.
    pub fn keep(self, run: &RunView) {
        self.0.update(|all| keep(all, run));
    }
}

/// A figure of a column with its unit.
fn figure(column: Column, value: f64, desk: Desk) -> String {
    let system = desk.system.get();
    match column {
        Column::Paint => said(Quantity::Volume, value * 1e-6, system),
        Column::Dry => said(Quantity::Film, value * 1e-6, system),
        Column::Seconds => seconds(value),
        Column::Uneven => format!("{value:.0}\u{202f}%"),
        Column::Stays | Column::Runs => format!("{value:.0}"),
    }
}

/// "+3", "-12 mL", "same".
fn difference(column: Column, value: f64, desk: Desk) -> String {
    let shown = figure(column, value.abs(), desk);
    let nothing = !shown.chars().any(|c| ('1'..='9').contains(&c));
    if nothing {
        words().kept_runs.same.into()
    } else {
        format!("{}{shown}", if value < 0.0 { '\u{2212}' } else { '+' })
    }
}

/// One change as said: "fan knob 1.0 → 0.5".
fn said_change((key, then, now): &Changed) -> String {
    let w = words().kept_runs;
    let plain = |value: &Option<String>| {
        value.as_deref().map_or_else(|| w.left_out.to_string(), |v| v.trim_matches('"').to_string())
    };
    format!("{} {} \u{2192} {}", w.key(key), plain(then), plain(now))
}

fn changes(then: &str, now: &str) -> String {
    let w = words().kept_runs;
    let all = changed(then, now);
    let mut said: Vec<_> = all.iter().take(NAMED).map(said_change).collect();
    if all.is_empty() {
        said.push(w.alike.into());
    } else if all.len() > NAMED {
        said.push(fill(w.more, &[&(all.len() - NAMED).to_string()]));
    }
    said.join("; ")
}

/// The table; nothing while the shelf is empty.
#[component]
pub fn KeptRuns() -> impl IntoView {
    let desk = desk();
    let shelf = expect_context::<Shelf>();
    let w = words().kept_runs;
    let now = move || desk.fresh().or_else(|| desk.run.get());
    let row = move |kept: KeptRun| {
        let name = fill(w.run, &[&kept.number.to_string()]);
        let cells = Column::ALL.map(|column| {
            let then = column.of(&kept.job, &kept.report);
            let apart =
                now().and_then(|now| column.difference((&now.job, &now.report), (&kept.job, &kept.report)));
            view! {
                <td data-head=w.columns[column as usize]>
                    <b>{then.map_or("-".into(), |v| figure(column, v, desk))}</b>
                    <span class="small">{apart.map(|v| difference(column, v, desk))}</span>
                </td>
            }
        });
        let set = now().map(|now| changes(&kept.job, &now.job));
        let (job, number) = (kept.job.clone(), kept.number);
        let compared = kept.clone();
        let asked = kept.job.clone();
        let compare = move |_| {
            let KeptRun { job, report, digest, .. } = compared.clone();
            desk.kept.set(Some(Arc::new(RunView {
                job,
                report,
                film: None,
                droplets: Arc::from([]),
                digest,
            })));
        };
        view! {
            <tr data-kept=number.to_string()>
                <th scope="row">{name.clone()}</th>
                {cells.into_iter().collect_view()}
                <td class="kept-set" data-head=w.set>{set}</td>
                <td class="kept-do">
                    <button type="button" class="link" aria-label=format!("{}: {name}", w.compare) on:click=compare>{w.compare}</button>
                    <button type="button" class="link" aria-label=format!("{}: {name}", words().why.ask) on:click=move |_| super::why::ask(desk, &asked)>{words().why.ask}</button>
                    <button type="button" class="link" aria-label=format!("{}: {name}", w.load) on:click=move |_| desk.put("kept", job.clone())>{w.load}</button>
                    <button type="button" class="link" aria-label=format!("{}: {name}", w.drop) on:click=move |_| shelf.0.update(|all| all.retain(|k| k.number != number))>{w.drop}</button>
                </td>
            </tr>
        }
    };
    let this = move || {
        now().map(|run| {
            let cells = Column::ALL.map(|column| {
                let value = column.of(&run.job, &run.report);
                view! { <td data-head=w.columns[column as usize]><b>{value.map_or("-".into(), |v| figure(column, v, desk))}</b></td> }
            });
            view! { <tr class="kept-now"><th scope="row">{w.now}</th>{cells.into_iter().collect_view()}<td></td><td></td></tr> }
        })
    };
    move || {
        (!shelf.0.with(Vec::is_empty)).then(|| {
            let heads = w.columns.map(|head| view! { <th scope="col">{head}</th> });
            view! {
                <section class="kept-runs" aria-labelledby="kept-title">
                    <h2 id="kept-title">{w.title}</h2>
                    <p class="small">{w.about}</p>
                    <table>
                        <thead><tr><td></td>{heads.into_iter().collect_view()}<th scope="col">{w.set}</th><td></td></tr></thead>
                        <tbody>{this} {move || shelf.0.get().into_iter().rev().map(row).collect_view()}</tbody>
                    </table>
                    <super::why::WhyLess />
                </section>
            }
        })
    }
}
