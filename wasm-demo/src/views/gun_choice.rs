//! Which gun: a kit of the catalogue by class and feed, or the user's own from its box.

use leptos::html;
use leptos::prelude::*;
use mistcoat::catalogue;
use mistcoat::gun::{Class, Feed};
use mistcoat::set_up;
use mistcoat::units::{Quantity, System};

use super::desk::desk;
use super::fields::{Complaint, with_unit};
use crate::figures::said;
use crate::state::{with_box, with_kit};
use crate::words::{fill, words};

/// Id of a gun from its box.
const OWN: &str = "from-box";

fn class_word(class: Class) -> &'static str {
    let at = Class::ALL.iter().position(|c| *c == class).unwrap_or(0);
    words().kits.classes[at]
}

fn feed_word(feed: Feed) -> &'static str {
    let at = Feed::ALL.iter().position(|f| *f == feed).unwrap_or(0);
    words().kits.feeds[at]
}

/// The kits, grouped by class and feed.
#[component]
pub fn KitField() -> impl IntoView {
    let desk = desk();
    let w = words();
    let kit =
        Memo::new(move |_| desk.parsed.with(|j| j.as_ref().map(|j| j.kit.id.clone())).unwrap_or_default());
    let groups =
        Class::ALL.into_iter().flat_map(|class| Feed::ALL.into_iter().map(move |feed| (class, feed)));
    let groups = groups.filter_map(|(class, feed)| {
        let mut kits = catalogue::kits().iter().filter(|k| k.class == class && k.feed == feed).peekable();
        kits.peek()?;
        let options =
            kits.map(|k| view! { <option value=k.id selected=move || kit.get() == k.id>{k.name}</option> });
        let label = fill(w.kits.group, &[class_word(class), feed_word(feed)]);
        Some(view! { <optgroup label=label>{options.collect_view()}</optgroup> })
    });
    let choose = move |event| {
        let id = event_target_value(&event);
        if id != OWN {
            let edited = desk.job.with_untracked(|text| with_kit(text, &id));
            desk.take("gun.kit", edited);
        }
    };
    view! {
        <div class="field">
            <label><span>{w.field_kit}</span>
                <select name="gun.kit" on:change=choose>
                    {move || (kit.get() == OWN).then(|| view! { <option value=OWN selected=true>{w.kits.own}</option> })}
                    {groups.collect_view()}
                </select>
            </label>
            <Complaint key="gun.kit" keys=&[] />
            <FromBox />
        </div>
    }
}

/// Class, feed and figures as printed on a gun's box.
#[component]
fn FromBox() -> impl IntoView {
    let desk = desk();
    let w = &words().kits;
    let class = NodeRef::<html::Select>::new();
    let feed = NodeRef::<html::Select>::new();
    let fields = [
        ("gun.box.air", w.box_air, Quantity::AirFlow),
        ("gun.box.at", w.box_at, Quantity::Pressure),
        ("gun.box.tip", w.box_tip, Quantity::Length),
        ("gun.box.fan", w.box_fan, Quantity::Length),
        ("gun.box.fan_at", w.box_fan_at, Quantity::Length),
    ]
    .map(|(key, label, quantity)| (key, label, quantity, NodeRef::<html::Input>::new()));
    let written = move |key: &'static str| {
        desk.job.with(|text| mistcoat::job::as_written(text, key).ok().flatten()).unwrap_or_default()
    };
    let take = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let mut figures = Vec::new();
        for (key, _, quantity, node) in fields {
            let typed = node.get_untracked().map(|input| input.value()).unwrap_or_default();
            let text = if typed.trim().is_empty() {
                String::new()
            } else {
                // Tips are in mm in US workshops too.
                let tip = key == "gun.box.tip";
                with_unit(&typed, quantity, if tip { System::Metric } else { desk.system.get_untracked() })
            };
            figures.push((key, text));
        }
        for (key, node) in [("gun.class", class), ("gun.feed", feed)] {
            figures.push((key, node.get_untracked().map(|s| s.value()).unwrap_or_default()));
        }
        let edited = desk.job.with_untracked(|text| with_box(text, &figures));
        // The complaint stands by the key that the message names.
        let key = edited.as_ref().err().map_or_else(|| "gun.box".to_string(), |e| e.key.clone());
        desk.take(&key, edited);
    };
    let taken = move || {
        let (class, cap, flow) = desk.parsed.with(|j| {
            let j = j.as_ref().filter(|j| j.kit.id == OWN)?;
            let s = set_up::state(&j.kit, &j.kit.rated(), &j.paint, &j.booth).ok()?;
            Some((class_word(j.kit.class), s.air.cap_pressure, s.paint_flow))
        })?;
        let system = desk.system.get();
        Some(fill(
            w.box_taken,
            &[class, &said(Quantity::Pressure, cap, system), &said(Quantity::PaintFlow, flow, system)],
        ))
    };
    view! {
        <details class="from-box">
            <summary>{w.from_box}</summary>
            <form on:submit=take>
                <p class="small">{w.box_says}</p>
                {fields.map(|(key, label, _, node)| view! {
                    <label class="field inline"><span>{label}</span>
                        <input node_ref=node type="text" name=key autocomplete="off" size="9" prop:value=move || written(key) /></label>
                    <Complaint key=key keys=&[] />
                }).collect_view()}
                <label class="field inline"><span>{w.box_class}</span>
                    <select node_ref=class name="gun.class">
                        <option value="">{w.box_guess}</option>
                        {Class::ALL.map(|c| view! { <option value=c.id()>{class_word(c)}</option> }).collect_view()}
                    </select>
                </label>
                <Complaint key="gun.class" keys=&["gun.box"] />
                <label class="field inline"><span>{w.box_feed}</span>
                    <select node_ref=feed name="gun.feed">
                        {Feed::ALL.map(|f| view! { <option value=f.id()>{feed_word(f)}</option> }).collect_view()}
                    </select>
                </label>
                <button type="submit" class="plain">{w.box_take}</button>
                <p class="small" role="status">{taken}</p>
            </form>
        </details>
    }
}
