//! One gun's row of the Side by side table.

use leptos::prelude::*;
use mistcoat::compare::{PayBack, Sure};
use mistcoat::units::Quantity;

use super::desk::{Desk, Refused};
use super::side::{count, ml, money, price_of};
use crate::draw::side::{HEIGHT, WIDTH, air_bar, paint_bar};
use crate::draw::small_gun::small_gun;
use crate::figures::{parted, said, seconds};
use crate::state::Feed;
use crate::state::side::{Side, Sides, with_kits};
use crate::words::{fill, words};

/// Volumes as numbers without their unit.
fn number(desk: Desk, value: f64) -> String {
    parted(Quantity::Volume, value * 1e-6, desk.system.get()).0
}

/// Value of mL in the unit shown, for the axis.
pub(super) fn shown(desk: Desk, value: f64) -> f64 {
    mistcoat::units::value_shown(Quantity::Volume, value * 1e-6, desk.system.get())
}

fn word(list: &[(&'static str, &'static str)], id: &str) -> &'static str {
    list.iter().find(|w| w.0 == id).map_or("", |w| w.1)
}

pub(super) fn line(desk: Desk, row: &Side, sides: &Sides, axis: (f64, f64)) -> impl IntoView + use<> {
    let w = words().side;
    let price = price_of(desk, row, &sides.rows);
    let (back, sure) = row.verdict(price, &money(desk));
    let heads = super::side_table::heads(desk);
    let class = if row.label == "best" { "best" } else { "" };
    let cells = match (&row.figures, &row.cannot) {
        (Some(f), None) => {
            let as_set = sides.rows.first().filter(|own| own.label != row.label);
            let as_set = as_set.and_then(|own| own.figures.as_ref()).map(|f| shown(desk, f.ml));
            let range = format!("{}–{}", number(desk, f.ml_low), number(desk, f.ml_high));
            let bar = paint_bar(
                [f.ml_low, f.ml, f.ml_high].map(|v| shown(desk, v)),
                axis,
                as_set,
                (&number(desk, f.ml), &range),
            );
            let spoken = format!(
                "{}, {}",
                ml(desk, f.ml),
                fill(w.range, &[&number(desk, f.ml_low), &ml(desk, f.ml_high)])
            );
            // Where the table's head is not seen, each figure carries its own.
            let label = |i: usize| {
                let (name, under) = &heads[i];
                if under.is_empty() { name.clone() } else { format!("{name}, {under}") }
            };
            let fan = parted(Quantity::Length, f.fan_mm * 1e-3, desk.system.get()).0;
            view! {
                <td data-label=label(1)>{air(desk, row, sides)}</td>
                <td data-label=label(2)>{paints(row)}</td>
                <td class="right" data-label=label(3)>{fan}</td>
                <td class="bar" data-label=label(4)><svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") width=WIDTH height=HEIGHT role="img" aria-label=spoken inner_html=bar></svg></td>
                <td class="right" data-label=label(5)>{seconds(f.seconds)}</td>
                <td class="right" data-label=label(6)>{format!("±{:.0}", f.even_percent)}</td>
                <td class="right" data-label=label(7)>{number(desk, row.stays_ml)}</td>
                <td data-label=label(8)>{if row.label == "as-set" { "–".into_any() } else { saved(desk, row).into_any() }}</td>
                <td data-label=label(9)>{pays_back(row, back)}</td>
                <td data-label=label(10)>{sure_cell(row, sure)}</td>
            }
            .into_any()
        }
        _ => view! { <td colspan="10" class="side-cannot">{row.cannot.clone()}</td> }.into_any(),
    };
    view! { <tr class=class data-row=row.label.clone()><th scope="row">{name(desk, row, sides, price)}</th>{cells}</tr> }
}

fn name(desk: Desk, row: &Side, sides: &Sides, price: Option<f64>) -> impl IntoView + use<> {
    let w = words().side;
    let feed = match row.feed.as_str() {
        "suction" => Feed::Suction,
        "pressure" => Feed::Pressure,
        _ => Feed::Gravity,
    };
    let tip = format!("{:.1}\u{202f}mm", row.tip_mm);
    let under = fill(w.tip, &[word(&w.classes, &row.class), word(&w.feeds, &row.feed), &tip]);
    let place = row.place(&sides.rows);
    let notes = row.notes.join(". ");
    let (title, own) = match row.label.as_str() {
        "as-set" => (w.as_set.to_string(), true),
        "best" => (w.at_best.to_string(), true),
        letter => (letter.to_string(), false),
    };
    let under = if row.label == "best" { w.three_knobs.into() } else { under };
    let from_box = row.from_box && !own;
    let label = row.label.clone();
    view! {
        <div class="side-name">
            <svg class="small-gun" viewBox="0 0 48 72" width="48" height="72" aria-hidden="true" inner_html=small_gun(feed)></svg>
            <div>
                <span class=if own { "side-own" } else { "side-letter" }>{title}</span>
                <span class="small">{under}</span>
                {from_box.then(|| view! { <span class="small">{w.boxed}</span> })}
                <div class="side-tools">
                    {place.map(|place| view! {
                        <label class="small side-price">{w.price}
                            <input type="text" inputmode="decimal" autocomplete="off" size="5" name=format!("price-{place}")
                                prop:value=price.map(|p| format!("{p}")).unwrap_or_default()
                                on:change=move |event| set_price(desk, place, &event_target_value(&event)) />
                        </label>
                        <button type="button" class="side-out" aria-label=fill(w.take_out, &[&label]) title=fill(w.take_out, &[&label])
                            on:click=move |_| take_out(desk, place)>"×"</button>
                    })}
                    {(!notes.is_empty()).then(|| view! { <details class="small"><summary aria-label=w.notes>"i"</summary><p>{notes}</p></details> })}
                </div>
            </div>
        </div>
    }
}

/// Sets the price of a kit, or takes it out where the field is blank.
fn set_price(desk: Desk, place: usize, text: &str) {
    let Some(mut kits) = desk.parsed.with_untracked(|j| j.as_ref().map(|j| j.compare.kits.clone())) else {
        return;
    };
    let Some(kit) = kits.get_mut(place) else { return };
    let text = text.trim();
    let price = mistcoat::units::parse_number(text).ok();
    if !text.is_empty() && price.is_none() {
        let message = fill(words().side.price_wrong, &[text]);
        desk.refused.set(Some(Refused { key: "compare.price".into(), message }));
        return;
    }
    kit.price = price;
    let edited = desk.job.with_untracked(|job| with_kits(job, &kits));
    desk.take("compare.price", edited);
}

fn take_out(desk: Desk, place: usize) {
    let Some(mut kits) = desk.parsed.with_untracked(|j| j.as_ref().map(|j| j.compare.kits.clone())) else {
        return;
    };
    if place < kits.len() {
        kits.remove(place);
        let edited = desk.job.with_untracked(|job| with_kits(job, &kits));
        desk.take("compare.kits", edited);
    }
}

fn air(desk: Desk, row: &Side, sides: &Sides) -> impl IntoView + use<> {
    let w = words().side;
    let system = desk.system.get();
    let figures = row.figures.as_ref();
    let need = figures.map_or(0.0, |f| f.air_l_min);
    let flow = |l_min: f64| parted(Quantity::AirFlow, l_min / 60_000.0, system).0;
    let air = figures.and_then(|f| f.air.as_ref());
    let verdict = air.map(|a| word(&w.verdicts, &a.verdict));
    let bar = air_bar(need, air.map(|a| a.yours_l_min), sides.most_air());
    let line = match air {
        Some(a) => fill(w.needs_yours, &[&flow(need), &flow(a.yours_l_min)]),
        None => fill(w.needs, &[&flow(need)]),
    };
    let why = air.map(|a| match a.verdict.as_str() {
        "for-ever" => fill(w.to_spare, &[&flow(a.margin_l_min)]),
        "this-job" => w.tank_lasts.into(),
        "runs-down" => fill(w.lasts, &[&a.on_s.map_or("-".into(), seconds)]),
        _ => fill(w.gives, &[&said(Quantity::Pressure, a.gun_inlet_bar * 1e5, system)]),
    });
    view! {
        {verdict.map(|v| view! { <b>{v}</b> })}
        <svg class="side-air-bar" viewBox="0 0 106 20" width="106" height="20" aria-hidden="true" inner_html=bar></svg>
        <span class="small">{line}</span>
        {why.map(|why| view! { <span class="small">{why}</span> })}
    }
}

fn paints(row: &Side) -> impl IntoView + use<> {
    let w = words().side;
    let can: Vec<_> =
        w.uses.iter().zip(row.paints.uses).filter(|(_, can)| *can).map(|(name, _)| *name).collect();
    let said = if can.is_empty() { w.uses_none.to_string() } else { can.join(", ") };
    view! { <span>{said}</span>{(!row.paints.this_paint).then(|| view! { <span class="small">{w.not_this}</span> })} }
}

fn saved(desk: Desk, row: &Side) -> impl IntoView + use<> {
    let w = words().side;
    row.counts().map(|saved| {
        // "0.6 to 1.1 less" rather than two negative ends.
        let ends = if saved.high < 0.0 { [-saved.high, -saved.low] } else { [saved.low, saved.high] };
        // An end far smaller than the other is nothing beside it.
        let widest = ends[0].abs().max(ends[1].abs());
        let end = |v: f64| {
            if v.abs() < 0.02 * widest { "0".to_string() } else { number(desk, v).replace('-', "\u{2212}") }
        };
        let range = fill(w.range, &ends.map(end).each_ref().map(String::as_str));
        if saved.saving().is_same() {
            return view! { <b>{w.same_short}</b><span class="small">{w.same_why}</span><span class="small">{range}</span> }.into_any();
        }
        let amount = number(desk, saved.value.abs());
        let figure = match (row.saved_more.is_some(), saved.value >= 0.0) {
            (true, true) => fill(w.more, &[&amount]),
            (false, true) => amount,
            (_, false) => fill(w.less, &[&amount]),
        };
        view! { <b>{figure}</b><span class="small">{range}</span> }.into_any()
    })
}

fn pays_back(row: &Side, back: Option<PayBack>) -> impl IntoView + use<> {
    let w = words().side;
    match back {
        _ if row.label == "as-set" => view! { <span>"–"</span> }.into_any(),
        None => view! { <span class="small">{w.no_price}</span> }.into_any(),
        Some(PayBack::AtOnce) => view! { <b>{w.at_once}</b> }.into_any(),
        Some(PayBack::After { low, high }) => {
            view! { <b>{format!("{}–{}", count(low), count(high))}</b> }.into_any()
        }
        Some(PayBack::CannotTell { low }) => view! {
            <b>{w.sure[4]}</b><span class="small">{fill(w.not_before, &[&count(low)])}</span>
        }
        .into_any(),
        Some(PayBack::Never) => view! { <b>{w.never}</b> }.into_any(),
    }
}

fn sure_cell(row: &Side, sure: Option<Sure>) -> impl IntoView + use<> {
    let w = words().side;
    let Some(sure) = sure else { return view! { <span>"–"</span> }.into_any() };
    let said = w.sure[match sure {
        Sure::Yes => 0,
        Sure::Likely => 1,
        Sure::No => 2,
        Sure::Same => 3,
        Sure::CannotTell => 4,
    }];
    let borrow = sure == Sure::CannotTell && row.label != "best";
    view! { <b>{said}</b>{borrow.then(|| view! { <span class="small">{w.borrow_one}</span> })} }.into_any()
}
