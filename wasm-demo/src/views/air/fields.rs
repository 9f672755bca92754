//! All that the air supply is typed in by.

use leptos::html;
use leptos::prelude::*;
use mistcoat::catalogue;
use mistcoat::job::{Job, JobError, as_written, with_key, without_key};
use mistcoat::supply::Coupling;
use mistcoat::units::Quantity;

use super::super::desk::desk;
use super::super::fields::{Complaint, KitAndPaint, NumberField, QuantityField};
use super::line::displacement;
use super::{AIR, BAR, BORE, InUnits, LONG, TANK, WAIT, air_desk};
use crate::state::{with_compressor, with_other, with_own};
use crate::words::{fill, words};

/// How a typed value gets into the job's text.
type Put = fn(&str, &str, &str) -> Result<String, JobError>;

/// A quantity in the units that a workshop says it in; an empty field takes the key out where `put` does so.
#[component]
fn Typed(
    label: &'static str,
    key: &'static str,
    units: InUnits,
    read: fn(&Job) -> Option<f64>,
    put: Put,
    #[prop(default = "")] note: &'static str,
) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<html::Input>::new();
    let shown = move || {
        let si = desk.parsed.with(|j| j.as_ref().and_then(read));
        si.map(|v| units.said(v, desk.system.get())).unwrap_or_default()
    };
    let bad = move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key));
    let id = format!("{key}-note");
    view! {
        <div class="field">
            <label><span>{label}</span>
                <input node_ref=node type="text" autocomplete="off" name=key prop:value=shown
                    aria-invalid=move || bad().to_string() aria-describedby=(!note.is_empty()).then(|| id.clone())
                    on:change=move |event| {
                        let text = units.typed(&event_target_value(&event), desk.system.get_untracked());
                        let edited = desk.job.with_untracked(|job| put(job, key, &text));
                        if desk.take(key, edited) && let Some(input) = node.get_untracked() {
                            input.set_value(&untrack(shown));
                        }
                    } />
            </label>
            {(!note.is_empty()).then(|| view! { <p class="small" id=id.clone()>{note}</p> })}
            <Complaint key=key keys=&[] />
        </div>
    }
}

/// Sets a key; takes it out when nothing is typed.
fn or_out(text: &str, key: &str, value: &str) -> Result<String, JobError> {
    if value.is_empty() { without_key(text, key) } else { with_key(text, key, value) }
}

fn others(text: &str, _key: &str, value: &str) -> Result<String, JobError> {
    with_other(text, words().air.also_name, value)
}

fn compressor(job: &Job, figure: fn(&mistcoat::supply::Compressor) -> f64) -> Option<f64> {
    job.supply.as_ref().map(|s| figure(&s.compressor))
}

/// The compressor that the text names, alone or as what its own figures are laid over.
fn named(text: &str) -> Option<String> {
    let known = |id: &String| catalogue::compressors().iter().any(|c| c.id == id);
    let of = |key| as_written(text, key).ok().flatten().filter(known);
    of("supply.compressor").or_else(|| of("supply.compressor.like"))
}

#[component]
fn Machine() -> impl IntoView {
    let desk = desk();
    let air = air_desk();
    let w = words().air;
    let chosen = Memo::new(move |_| desk.job.with(|text| named(text)));
    let pick = move |event| {
        let id = event_target_value(&event);
        if !id.is_empty() {
            let edited = desk.job.with_untracked(|text| with_compressor(text, &id));
            desk.take("supply.compressor", edited);
        }
    };
    let boast = move || {
        let said = air.get().as_deref().and_then(displacement)?;
        Some(fill(w.displacement, &[&AIR.said(said, desk.system.get())]))
    };
    view! {
        <div class="field">
            <label><span>{w.compressor}</span>
                <select name="supply.compressor" on:change=pick>
                    <option value="" selected=move || chosen.get().is_none()>{w.own}</option>
                    {catalogue::compressors().iter().map(|c| view! {
                        <option value=c.id selected=move || chosen.get().as_deref() == Some(c.id)>{c.name}</option>
                    }).collect_view()}
                </select>
            </label>
            {move || boast().map(|words| view! { <p class="small">{words}</p> })}
            <Complaint key="supply.compressor" keys=&[] />
        </div>
        <Typed label=w.delivered_field key="supply.compressor.delivered_air" units=AIR put=with_own note=w.delivered_note
            read=|j| compressor(j, |c| c.delivered_air) />
        <Typed label=w.tank_field key="supply.compressor.tank" units=TANK put=with_own read=|j| compressor(j, |c| c.tank) />
        <Typed label=w.cut_in key="supply.compressor.cut_in" units=BAR put=with_own read=|j| compressor(j, |c| c.cut_in) />
        <Typed label=w.cut_out key="supply.compressor.cut_out" units=BAR put=with_own read=|j| compressor(j, |c| c.cut_out) />
    }
}

#[component]
fn WallAndHose() -> impl IntoView {
    let desk = desk();
    let w = words().air;
    let full = Memo::new(move |_| {
        desk.parsed.with(|j| {
            j.as_ref().and_then(|j| j.supply.as_ref()).is_some_and(|s| s.line.coupling == Coupling::FullBore)
        })
    });
    let count = |j: &Job| j.supply.as_ref().map(|s| s.line.couplings.to_string()).unwrap_or_default();
    view! {
        <Typed label=w.regulator key="supply.regulator" units=BAR put=or_out note=w.regulator_note
            read=|j| j.supply.as_ref().and_then(|s| s.line.regulator) />
        <Typed label=w.bore key="supply.hose.bore" units=BORE put=or_out read=|j| j.supply.as_ref().map(|s| s.line.hose.bore) />
        <Typed label=w.length key="supply.hose.length" units=LONG put=or_out
            read=|j| j.supply.as_ref().map(|s| s.line.hose.length) />
        <NumberField label=w.count key="supply.couplings" read=count />
        <div class="field">
            <label><span>{w.kind}</span>
                <select name="supply.coupling" on:change=move |e| { desk.set("supply.coupling", &event_target_value(&e)); }>
                    <option value="standard" selected=move || !full.get()>{w.standard}</option>
                    <option value="full-bore" selected=move || full.get()>{w.full_bore}</option>
                </select>
            </label>
        </div>
        <Typed label=w.also key="supply.also" units=AIR put=others note=w.also_note
            read=|j| j.supply.as_ref().map(mistcoat::supply::Supply::also_air).filter(|air| *air > 0.0) />
    }
}

/// Every field, by what it belongs to.
#[component]
pub fn Fields() -> impl IntoView {
    let desk = desk();
    let w = words().air;
    let take_out = move |_| {
        let edited = desk.job.with_untracked(|text| without_key(text, "supply"));
        desk.take("supply", edited);
    };
    let humid = |j: &Job| {
        j.supply.as_ref().map(|s| format!("{:.0} %", 100.0 * s.intake_humidity)).unwrap_or_default()
    };
    view! {
        <div class="air-fields">
            <section><h2 class="name">{w.compressor}</h2><div class="fields"><Machine /></div></section>
            <section><h2 class="name">{w.line}</h2><div class="fields"><WallAndHose /></div><p class="small">{w.hose_caution}</p></section>
            <section>
                <h2 class="name">{w.gun_and_job}</h2>
                <div class="fields">
                    <KitAndPaint />
                    <QuantityField label=w.pressure key="gun.inlet_pressure" quantity=Quantity::Pressure read=|j| Some(j.gun.inlet_pressure) />
                    <NumberField label=words().field_coats key="stroke.coats" read=|j| j.stroke.coats.to_string() />
                    <Typed label=w.flash key="stroke.flash" units=WAIT put=or_out read=|j| Some(j.stroke.flash) />
                    <QuantityField label=w.turn key="stroke.turn" quantity=Quantity::Time read=|j| Some(j.stroke.turn) />
                </div>
                <h2 class="name air-intake">{w.intake}</h2>
                <div class="fields">
                    <QuantityField label=w.intake_temperature key="supply.intake_temperature" quantity=Quantity::Temperature
                        read=|j| j.supply.as_ref().map(|s| s.intake_temperature) />
                    <NumberField label=w.intake_humidity key="supply.intake_humidity" read=humid />
                    <QuantityField label=w.tank_temperature key="supply.tank_temperature" quantity=Quantity::Temperature
                        read=|j| j.supply.as_ref().map(|s| s.tank_temperature) />
                </div>
                <button type="button" class="link" on:click=take_out>{w.take_out}</button>
            </section>
        </div>
    }
}
