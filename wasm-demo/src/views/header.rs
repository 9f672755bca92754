//! Wordmark, menu, units, theme, and the questions at the front door.

use leptos::prelude::*;
use mistcoat::units::System;

use super::desk::{View, desk};
use crate::words::words;

/// The page's head.
#[component]
pub fn Header() -> impl IntoView {
    let desk = desk();
    let w = words();
    // On phones the views, and what stands at the end, are folded under a word.
    let open = RwSignal::new(false);
    let item = move |view: View, name: &'static str| {
        view! {
            <button
                type="button"
                class="menu-item"
                data-view=view.word()
                aria-current=move || (desk.view.get() == view).then_some("page")
                on:click=move |_| {
                    desk.view.set(view);
                    open.set(false);
                }
            >
                {name}
            </button>
        }
    };
    let unit = move |system: System, name: &'static str| {
        view! {
            <button
                type="button"
                class="plain-button"
                aria-pressed=move || (desk.system.get() == system).to_string()
                on:click=move |_| desk.system.set(system)
            >
                {name}
            </button>
        }
    };
    let step = move |back: bool, name: &'static str| {
        let off = move || desk.history.with(|h| if back { !h.can().0 } else { !h.can().1 });
        view! {
            <button type="button" class="plain-button" data-step=if back { "undo" } else { "redo" } disabled=off on:click=move |_| desk.step(back)>{name}</button>
        }
    };
    view! {
        <a class="skip" href="#view">{w.skip}</a>
        <header class="head">
            <div class="head-in" class:open=move || open.get()>
                <h1 class="wordmark">"mistcoat"</h1>
                <span class="head-now" aria-hidden="true">{move || view_name(desk.view.get())}</span>
                <button type="button" class="fold" aria-expanded=move || open.get().to_string() aria-controls="head-menu"
                    on:click=move |_| open.update(|o| *o = !*o)>{w.menu}<Chevron /></button>
                <nav aria-label=w.menu class="menu" id="head-menu">
                    {item(View::Card, w.card)} {item(View::Part, w.part)} {item(View::Sweep, w.sweep.view)} {item(View::Side, w.side.view)} {item(View::Hand, w.hand.view)}
                    {item(View::Air, w.air.name)} {item(View::Paint, w.paint.view)} {item(View::Sheet, w.sheet.view)}
                </nav>
                <div class="head-end">
                    {step(true, w.undo)}
                    {step(false, w.redo)}
                    <a class="plain-button" href=move || desk.job.with(|t| super::link::to(t)).unwrap_or_default()>{w.link}</a>
                    <div role="group" aria-label=w.units class="units">
                        {unit(System::Metric, w.metric)} {unit(System::Us, w.us)}
                    </div>
                    <Theme />
                </div>
            </div>
        </header>
    }
}

/// What a view is called.
pub fn view_name(view: View) -> &'static str {
    let w = words();
    match view {
        View::Card => w.card,
        View::Part => w.part,
        View::Paint => w.paint.view,
        View::Air => w.air.name,
        View::Side => w.side.view,
        View::Hand => w.hand.view,
        View::Sheet => w.sheet.view,
        View::Sweep => w.sweep.view,
    }
}

/// Shows that something unfolds.
#[component]
fn Chevron() -> impl IntoView {
    view! { <svg class="chevron" viewBox="0 0 14 9" width="14" height="9" aria-hidden="true"><path d="M1.5 1.5L7 7L12.500 1.5" /></svg> }
}

/// Dark or light, over what the system asks for.
#[component]
fn Theme() -> impl IntoView {
    let w = words();
    let prefers =
        window().match_media("(prefers-color-scheme: dark)").ok().flatten().is_some_and(|m| m.matches());
    let dark = RwSignal::new(prefers);
    let chosen = RwSignal::new(false);
    Effect::new(move |_| {
        let dark = dark.get();
        if chosen.get()
            && let Some(root) = document().document_element()
        {
            // Refused only for a bad attribute name, which this is not.
            let _ = root.set_attribute("data-theme", if dark { "dark" } else { "light" });
        }
    });
    view! {
        <button
            type="button"
            class="plain-button theme"
            on:click=move |_| {
                chosen.set(true);
                dark.update(|d| *d = !*d);
            }
        >
            {move || if dark.get() { w.light } else { w.dark }}
        </button>
    }
}

/// The questions that can be answered, each opening a preset.
#[component]
pub fn Questions() -> impl IntoView {
    let desk = desk();
    let w = words();
    let open = RwSignal::new(false);
    let asked = move || match desk.view.get() {
        View::Part => w.ask_fan,
        View::Air => w.air.ask,
        View::Paint => w.paint.ask,
        View::Card => w.ask_pattern,
        View::Side => w.side.ask,
        View::Hand | View::Sheet | View::Sweep => w.questions,
    };
    let ask = move |view: View, words: &'static str| {
        view! {
            <button
                type="button"
                class="question"
                data-ask=view.word()
                aria-current=move || (desk.view.get() == view).then_some("true")
                on:click=move |_| {
                    desk.open(view);
                    open.set(false);
                }
            >
                <span>{words}</span>
            </button>
        }
    };
    view! {
        <nav class="questions" aria-label=w.questions>
            <button type="button" class="fold question-now" aria-expanded=move || open.get().to_string() aria-controls="questions-list"
                on:click=move |_| open.update(|o| *o = !*o)><span>{asked}</span><Chevron /></button>
            <div class="questions-in" id="questions-list" class:open=move || open.get()>
                {ask(View::Part, w.ask_fan)} {ask(View::Air, w.air.ask)} {ask(View::Paint, w.paint.ask)} {ask(View::Card, w.ask_pattern)} {ask(View::Side, w.side.ask)}
            </div>
        </nav>
    }
}
