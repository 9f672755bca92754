//! A gun from what is printed on its box, or one of the catalogue, set beside yours.

use leptos::prelude::*;
use mistcoat::catalogue;
use mistcoat::compare::Candidate;
use mistcoat::gun::Feed;
use mistcoat::job::{Job, KitSource, KitToCompare, with_key};
use mistcoat::units::{Quantity, System};

use super::desk::{Desk, Refused, desk};
use super::fields::{Complaint, with_unit};
use crate::state::side::with_kits;
use crate::words::words;

/// Fields of the form: name, kind, and the key that says what is allowed.
const FIELDS: [(&str, Quantity); 5] = [
    ("air", Quantity::AirFlow),
    ("at", Quantity::Pressure),
    ("tip", Quantity::Length),
    ("fan", Quantity::Length),
    ("fan_at", Quantity::Length),
];

/// Brings the form into view and its first field into hand.
pub fn to_form() {
    let form = document().get_element_by_id("side-box");
    if let Some(form) = form {
        form.scroll_into_view();
        let field = form.query_selector("input").ok().flatten();
        if let Some(field) = field.and_then(|f| {
            use wasm_bindgen::JsCast;
            f.dyn_into::<web_sys::HtmlElement>().ok()
        }) {
            // An element that cannot be focused is not there to be typed into.
            let _ = field.focus();
        }
    }
}

/// Adds a kit behind the others; tells beside the form what cannot be.
fn add(desk: Desk, kit: KitToCompare) -> bool {
    let kits = desk.parsed.with_untracked(|j| j.as_ref().map(|j| j.compare.kits.clone()));
    let mut kits = kits.unwrap_or_default();
    kits.push(kit);
    let edited = desk.job.with_untracked(|text| with_kits(text, &kits));
    // A box of no gun is refused here, not after the flight of the others.
    if let Ok(text) = &edited
        && let Ok(job) = Job::from_toml(text)
        && let Err(error) = Candidate::of(&job)
    {
        desk.refused.set(Some(Refused { key: "compare.kits".into(), message: error.to_string() }));
        return false;
    }
    desk.take("compare.kits", edited)
}

/// The catalogue's kits.
#[component]
fn AddKit() -> impl IntoView {
    let desk = desk();
    let w = words().side;
    view! {
        <div class="field inline">
            <label><span>{w.add_kit}</span>
                <select name="add-kit" on:change=move |event| {
                    let id = event_target_value(&event);
                    if !id.is_empty() {
                        add(desk, KitToCompare { what: KitSource::Catalogue(id), name: None, price: None });
                    }
                    use wasm_bindgen::JsCast;
                    if let Some(select) = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlSelectElement>().ok()) {
                        select.set_value("");
                    }
                }>
                    <option value="">{w.choose}</option>
                    {catalogue::kits().iter().map(|k| view! { <option value=k.id>{k.name}</option> }).collect_view()}
                </select>
            </label>
        </div>
    }
}

/// The form.
#[component]
pub fn FromBox() -> impl IntoView {
    let desk = desk();
    let w = words().side;
    let typed: [RwSignal<String>; 5] = std::array::from_fn(|_| RwSignal::new(String::new()));
    let price = RwSignal::new(String::new());
    let feed = RwSignal::new(String::from("gravity"));
    let submit = move || {
        let system = desk.system.get_untracked();
        match entry(&typed.map(|t| t.get_untracked()), &price.get_untracked(), &feed.get_untracked(), system)
        {
            Ok(kit) => {
                if add(desk, kit) {
                    typed.iter().for_each(|t| t.set(String::new()));
                    price.set(String::new());
                }
            }
            Err(message) => desk.refused.set(Some(Refused { key: "compare.kits".into(), message })),
        }
    };
    let field = move |i: usize, label: &'static str, hint: &'static str| {
        view! {
            <label><span>{label}</span>
                <input type="text" autocomplete="off" name=format!("box.{}", FIELDS[i].0) placeholder=hint
                    prop:value=move || typed[i].get() on:input=move |e| typed[i].set(event_target_value(&e)) />
            </label>
        }
    };
    let hints = move || {
        if desk.system.get() == System::Us {
            ["10 cfm", "29 psi", "1.3 mm", "11 in", "8 in"]
        } else {
            ["280 L/min", "2.0 bar", "1.3 mm", "280 mm", "200 mm"]
        }
    };
    view! {
        <form class="side-box" id="side-box" on:submit=move |event| { event.prevent_default(); submit(); }>
            <h2>{w.from_box}</h2>
            {move || {
                let h = hints();
                view! {
                    <div class="box-line">{field(0, w.box_air, h[0])}{field(1, w.box_at, h[1])}</div>
                    <div class="box-line">{field(2, w.box_tip, h[2])}
                        <label><span>{w.box_feed}</span>
                            <select name="box.feed" on:change=move |e| feed.set(event_target_value(&e))>
                                {w.feeds.into_iter().map(|(id, name)| view! { <option value=id selected=move || feed.get() == id>{name}</option> }).collect_view()}
                            </select>
                        </label>
                    </div>
                    <div class="box-line">{field(3, w.box_fan, h[3])}{field(4, w.box_fan_at, h[4])}</div>
                }
            }}
            <div class="box-line">
                <label><span>{w.price}</span>
                    <input type="text" inputmode="decimal" autocomplete="off" name="box.price" prop:value=move || price.get()
                        on:input=move |e| price.set(event_target_value(&e)) />
                </label>
                <button type="submit" class="plain-box">{w.box_add}</button>
            </div>
            <Complaint key="compare.kits" keys=&[] />
            <p class="small">{w.box_note}</p>
            <AddKit />
        </form>
    }
}

/// The typed fields as an entry: read by the job file's own rules, so that its words come back.
fn entry(typed: &[String; 5], price: &str, feed: &str, system: System) -> Result<KitToCompare, String> {
    let quoted = |s: &str| serde_json::Value::from(s).to_string();
    let mut fields = Vec::new();
    for ((name, quantity), text) in FIELDS.iter().zip(typed) {
        if !text.trim().is_empty() {
            // Tips are in mm in US workshops too.
            let system = if *name == "tip" { System::Metric } else { system };
            fields.push(format!("{name} = {}", quoted(&with_unit(text, *quantity, system))));
        }
    }
    if let Some(feed) = Feed::of(feed) {
        fields.push(format!("feed = \"{}\"", feed.id()));
    }
    let price = price.trim();
    let price = if price.is_empty() { String::new() } else { format!(", price = {price}") };
    let list = format!("[{{ box = {{ {} }}{price} }}]", fields.join(", "));
    let words = |e: mistcoat::job::JobError| Refused::from(&e).message;
    let text = with_key(crate::state::CHAIR_LEG, "compare.kits", &list).map_err(words)?;
    let job = Job::from_toml(&text).map_err(words)?;
    job.compare.kits.into_iter().next().ok_or_else(String::new)
}
