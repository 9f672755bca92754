//! The set-up sheet: one page to print, the same as a plain list, and the job to take along.

mod files;

use leptos::prelude::*;
use mistcoat::sheet::{SetUpSheet, svg};
use mistcoat::units::System;

use super::desk::{Desk, desk};
use crate::figures::with_signs;
use crate::words::{fill, words};

/// The sheet in the page's units, of the last finished run.
fn sheet_of(desk: Desk) -> Option<SetUpSheet> {
    let us = desk.system.get() == System::Us;
    desk.sheets.with(|all| all.iter().find(|sheet| sheet.us == us).cloned())
}

/// Address of the page with the job behind it; only where others can open it.
fn address(sheet: &SetUpSheet) -> Option<String> {
    let link = sheet.link.as_deref()?;
    let page = document().url().ok()?;
    let page = page.split('#').next().unwrap_or_default();
    page.starts_with("http").then(|| format!("{page}#job={link}"))
}

/// The view.
#[component]
pub fn SheetView() -> impl IntoView {
    let desk = desk();
    let w = words().sheet;
    let sheet = Memo::new(move |_| sheet_of(desk));
    let drawn = Memo::new(move |_| sheet.with(|s| s.as_ref().map(|s| svg(s, address(s).as_deref()))));
    let state = move || {
        if !desk.busy() {
            String::new()
        } else if desk.stopped.get() {
            w.stopped.into()
        } else {
            fill(w.flying, &[&format!("{:.0}", desk.done.get() * 100.0)])
        }
    };
    let list = move || sheet.get().map(|sheet| view! { <PlainList sheet=sheet /> });
    let picture = move || {
        drawn.get().map(|drawn| {
            let label =
                sheet.with(|s| s.as_ref().map(|s| format!("{}: {}. {}", w.view, s.title, w.same_as_list)));
            view! {
                <div class="sheet-paper" class:stale=move || desk.busy()>
                    <img src=files::address("image/svg+xml", &drawn) alt=label.unwrap_or_default() />
                </div>
            }
        })
    };
    view! {
        <div class="sheet-view">
            <div class="sheet-tools">
                <button type="button" class="main-button" data-do="print" disabled=move || drawn.with(Option::is_none) on:click=move |_| {
                    // A browser without a printer says so itself.
                    let _ = window().print();
                }>{w.print}</button>
                {move || drawn.get().map(|drawn| view! {
                    <a class="plain-box" data-do="svg" download=w.svg_name href=files::address("image/svg+xml", &drawn)>{w.svg}</a>
                })}
                <files::JobFile />
                <p class="small" aria-live="polite">{state}</p>
            </div>
            <div class="sheet-both">
                {picture}
                <details class="sheet-list" open>
                    <summary>{w.list}</summary>
                    {list}
                </details>
            </div>
        </div>
    }
}

/// The sheet's lines as a list.
#[component]
fn PlainList(sheet: SetUpSheet) -> impl IntoView {
    let w = words().sheet;
    let blocks = sheet.blocks.into_iter().map(|block| {
        let lines = block.lines.into_iter().map(|line| {
            view! {
                <dt>{line.what}</dt>
                <dd><b>{with_signs(&line.value)}</b> " " <span class="small">{with_signs(&line.note)}</span></dd>
            }
        });
        view! {
            <h4>{block.heading}</h4>
            <dl>{lines.collect_view()}</dl>
        }
    });
    let knobs = sheet.knobs.into_iter().map(|knob| view! { <li>{knob.name} ": " <b>{knob.said}</b></li> });
    view! {
        <h3>{sheet.title}</h3>
        <p class="small">{sheet.about}</p>
        <p class="text">{with_signs(&sheet.sentence)}</p>
        <h4>{w.knobs}</h4>
        <ol>{knobs.collect_view()}</ol>
        {blocks.collect_view()}
        {sheet.notes.into_iter().map(|note| view! { <p class="text">{note}</p> }).collect_view()}
        {sheet.cautions.into_iter().map(|caution| view! { <p class="small">{caution}</p> }).collect_view()}
    }
}
