//! One's own knobs: a key out of the list, and its values as a range or a list.

use leptos::prelude::*;

use super::sweep_desk;
use crate::words::words;

/// The form.
#[component]
pub fn OwnKnobs() -> impl IntoView {
    let sweep = sweep_desk();
    let page = super::super::desk::desk();
    let w = words().sweep;
    let first = |key: &str| w.keys.iter().find(|k| k.0 == key).map_or("", |k| k.2).to_string();
    let keys = [RwSignal::new("stroke.distance".to_string()), RwSignal::new(String::new())];
    let values = [RwSignal::new(first("stroke.distance")), RwSignal::new(String::new())];
    let knob = move |i: usize, label: &'static str, name: &'static str| {
        let options = move || {
            let none = (i > 0).then(|| view! { <option value="">{w.no_second}</option> });
            let all = w.keys.iter().map(|(key, words, _)| {
                view! { <option value=*key selected=move || keys[i].with(|k| k == key)>{*words}</option> }
            });
            view! { {none} {all.collect_view()} }
        };
        view! {
            <div class="field sweep-knob">
                <label><span>{label}</span>
                    <select name=format!("{name}-key") on:change=move |event| {
                        let key = event_target_value(&event);
                        values[i].set(first(&key));
                        keys[i].set(key);
                    }>{options}</select>
                </label>
                <label><span>{w.values}</span>
                    <input type="text" autocomplete="off" name=format!("{name}-values") size="22" prop:value=move || values[i].get()
                        disabled=move || keys[i].with(String::is_empty)
                        aria-describedby="sweep-values-help"
                        aria-invalid=move || sweep.refused.with(|r| r.as_ref().is_some_and(|r| keys[i].with(|k| *k == r.0))).to_string()
                        on:input=move |event| values[i].set(event_target_value(&event)) />
                </label>
            </div>
        }
    };
    let fly = move || {
        let axes: Vec<(String, String)> = (0..2)
            .filter(|&i| !keys[i].with_untracked(String::is_empty))
            .map(|i| (keys[i].get_untracked(), values[i].get_untracked()))
            .collect();
        page.job.with_untracked(|text| sweep.open_own(text, &axes));
    };
    view! {
        <details class="sweep-own">
            <summary>{w.own}</summary>
            <form on:submit=move |event| {
                event.prevent_default();
                fly();
            }>
                {knob(0, w.knob, "first")}
                {knob(1, w.second, "second")}
                <p class="small" id="sweep-values-help">{w.values_help}</p>
                <button type="submit" class="main-button" data-fly>{w.fly}</button>
                {move || sweep.refused.get().map(|(_, why)| view! { <p class="complaint" role="alert"><span>"\u{d7} "</span>{why}</p> })}
            </form>
        </details>
    }
}
