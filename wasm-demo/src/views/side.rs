//! Side by side: your gun as set and at its best, then other kits, on the job's part; what each saves and when it pays.

use std::time::Duration;

use leptos::prelude::*;
use mistcoat::compare::{Money, PayBack, Sure};
use mistcoat::units::Quantity;

use super::desk::{Desk, desk};
use super::errand::Errand;
use super::side_box::FromBox;
use super::side_set::HowToSet;
use super::side_table::SideTable;
use crate::figures::said;
use crate::state::side::{Side, Sides, flight_text};
use crate::task::Task;
use crate::words::{fill, words};

/// A job that is being edited is compared when it has rested this long.
const REST: Duration = Duration::from_millis(500);

/// What the view keeps while others are shown.
#[derive(Clone, Copy, Default)]
pub struct SideDesk {
    /// The comparison.
    pub errand: Errand,
    /// The job's text that was compared last, without its prices.
    begun: StoredValue<String>,
}

/// The comparison of this page.
pub fn side_desk() -> SideDesk {
    use_context::<SideDesk>().unwrap_or_default()
}

impl SideDesk {
    /// Compares anew.
    fn begin(&self, text: String) {
        self.begun.set_value(text.clone());
        self.errand.begin(Task::Compare { job: text });
    }
}

/// Prices that the job gives.
pub fn money(desk: Desk) -> Money {
    desk.parsed.with(|job| job.as_ref().map(Money::of)).unwrap_or_default()
}

/// The price of a row's kit, as typed.
pub fn price_of(desk: Desk, row: &Side, rows: &[Side]) -> Option<f64> {
    let place = row.place(rows)?;
    desk.parsed.with(|job| job.as_ref()?.compare.kits.get(place)?.price)
}

/// The part's noun: "a tube", "tube", "tubes".
pub fn nouns(desk: Desk) -> [&'static str; 3] {
    let w = words().side;
    if desk.parsed.with(|j| j.as_ref().is_some_and(crate::state::is_tube)) {
        [w.a_tube, w.tube_one, w.tubes]
    } else {
        [w.a_panel, w.panel_one, w.panels]
    }
}

/// A volume of the rows, which are in mL.
pub fn ml(desk: Desk, value: f64) -> String {
    said(Quantity::Volume, value * 1e-6, desk.system.get())
}

/// Parts to two digits: "240", "1,700".
pub fn count(parts: f64) -> String {
    let mut unit = 1.0;
    while parts / unit >= 100.0 && unit < 1e12 {
        unit *= 10.0;
    }
    let digits = format!("{:.0}", (parts / unit).ceil() * unit);
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i) % 3 == 0 {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// The view.
#[component]
pub fn SideView() -> impl IntoView {
    let desk = desk();
    let side = side_desk();
    let flight = Memo::new(move |_| desk.job.with(|text| flight_text(text)));
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    Effect::new(move |before: Option<()>| {
        let text = flight.get();
        if let Some(handle) = waiting.get_value() {
            handle.clear();
        }
        if side.begun.with_value(|begun| *begun == text) {
            return;
        }
        if before.is_none() {
            side.begin(text);
        } else {
            waiting.set_value(set_timeout_with_handle(move || side.begin(text), REST).ok());
        }
    });
    let sides = Memo::new(move |_| {
        side.errand.standing.with(|s| s.answer.as_deref().and_then(Sides::read)).unwrap_or_default()
    });
    let again = Callback::new(move |()| side.begin(flight.get_untracked()));
    view! {
        <div class="side-view">
            <Given />
            <Sentences sides=sides />
            <SideTable sides=sides again=again />
            <div class="side-foot">
                <HowToSet sides=sides />
                <FromBox />
            </div>
            <p class="caution small">{words().caution_start} " " {words().caution_gun}</p>
        </div>
    }
}

/// What the comparison rests on: part, paint and its price, air.
#[component]
fn Given() -> impl IntoView {
    let desk = desk();
    let w = words().side;
    let part = move || {
        let system = desk.system.get();
        desk.parsed.with(|j| j.as_ref().map(|j| super::part_said::part_said(&j.part, system)))
    };
    let paint = move || desk.parsed.with(|j| j.as_ref().map(|j| j.paint.name.clone()));
    let air = move || {
        desk.parsed.with(|j| {
            let Some(supply) = j.as_ref().and_then(|j| j.supply.as_ref()) else {
                return w.air_none.to_string();
            };
            let system = desk.system.get();
            let flow = said(Quantity::AirFlow, supply.compressor.delivered_air, system);
            let tank = super::air::tank_said(supply.compressor.tank, system);
            fill(w.air_some, &[&flow, &tank])
        })
    };
    view! {
        <div class="choice-bar side-given">
            <span><span class="small">{w.part}</span> " " {part}</span>
            <span><span class="small">{words().field_paint}</span> " " {paint}</span>
            <span><span class="small">{w.air}</span> " " {air}</span>
            <MoneyField label=w.paint_price key="compare.paint_price" />
            <MoneyField label=w.parts key="compare.parts" />
            <div class="grow"></div>
            <a class="main-button" href="#side-box" on:click=move |event| {
                event.prevent_default();
                super::side_box::to_form();
            }>{w.add_box}</a>
        </div>
    }
}

/// A bare number of `[compare]`; blank takes it out.
#[component]
fn MoneyField(label: &'static str, key: &'static str) -> impl IntoView {
    let desk = desk();
    let shown =
        move || desk.job.with(|text| mistcoat::job::as_written(text, key).ok().flatten()).unwrap_or_default();
    let bad = move || desk.refused.with(|r| r.as_ref().is_some_and(|r| r.key == key));
    view! {
        <div class="field inline">
            <label><span>{label}</span>
                <input type="text" inputmode="decimal" autocomplete="off" name=key size="5" prop:value=shown
                    aria-invalid=move || bad().to_string()
                    on:change=move |event| {
                        let text = event_target_value(&event);
                        if text.trim().is_empty() {
                            let edited = desk.job.with_untracked(|job| mistcoat::job::without_key(job, key));
                            desk.take(key, edited);
                        } else {
                            desk.set(key, text.trim());
                        }
                    } />
            </label>
            <super::fields::Complaint key=key keys=&[] />
        </div>
    }
}

/// The answer in words: your own gun first, then each kit.
#[component]
fn Sentences(sides: Memo<Sides>) -> impl IntoView {
    let desk = desk();
    let w = words().side;
    let own = move || {
        let sides = sides.get();
        let [a_part, ..] = nouns(desk);
        let Some(best) = sides.rows.get(1) else {
            let busy = if sides.rows.is_empty() { w.flying } else { w.searching };
            return view! { <p class="sentence quiet">{busy}</p> }.into_any();
        };
        let Some(saved) = best.saved else {
            return view! { <p class="sentence">{w.own_cannot}</p><p class="small">{best.cannot.clone()}</p> }.into_any();
        };
        let (number, unit) = crate::figures::parted(Quantity::Volume, saved.value * 1e-6, desk.system.get());
        if saved.saving().is_same() || saved.value <= 0.0 {
            let range = fill(w.range, &[&ml(desk, saved.low), &ml(desk, saved.high)]);
            return view! {
                <p class="sentence">{w.right_already}</p>
                <p class="small">{format!("{} {a_part}: {range}. {}", ml(desk, saved.value), w.same_why)}</p>
            }
            .into_any();
        }
        let likely = fill(
            w.likely,
            &[
                &crate::figures::parted(Quantity::Volume, saved.low * 1e-6, desk.system.get()).0,
                &ml(desk, saved.high),
            ],
        );
        view! {
            <p class="sentence">
                <span>{w.set_right}</span>
                <span><b class="number">{number}</b> " " {fill(w.for_nothing, &[&unit, a_part])}</span>
            </p>
            <p class="small">{likely}</p>
        }
        .into_any()
    };
    let others = move || {
        let sides = sides.get();
        let none = desk.parsed.with(|j| j.as_ref().is_none_or(|j| j.compare.kits.is_empty()));
        if none {
            return view! { <p class="advice">{w.no_kits}</p> }.into_any();
        }
        let rows = sides.rows.clone();
        rows.iter()
            .skip(2)
            .map(|row| {
                let text = sentence(desk, row, &rows);
                view! { <p class="advice"><b>{row.label.clone()}</b>{text}</p> }
            })
            .collect_view()
            .into_any()
    };
    view! {
        <div class="side-sentences" aria-live="polite">
            <div>{own}</div>
            <div class="side-others">{others}</div>
        </div>
    }
}

/// What is said of a kit after its letter.
fn sentence(desk: Desk, row: &Side, rows: &[Side]) -> String {
    let w = words().side;
    let [a_part, _, parts] = nouns(desk);
    if let Some(why) = &row.cannot {
        return fill(w.cannot, &[why]);
    }
    let (back, sure) = row.verdict(price_of(desk, row, rows), &money(desk));
    let (Some(saving), Some(sure)) = (row.counts(), sure) else { return String::new() };
    let no_primer = rows.first().is_some_and(|own| own.paints.uses[2]) && !row.paints.uses[2];
    let held = row
        .figures
        .as_ref()
        .and_then(|f| f.air.as_ref())
        .is_none_or(|a| a.verdict == "for-ever" || a.verdict == "this-job");
    let amount = ml(desk, saving.value);
    match (sure, back) {
        _ if !held && saving.saving().is_same() => format!("{}{}", w.cannot_tell_air, w.borrow),
        _ if !held => w.air_not.into(),
        _ if !row.keeps => w.not_kept.into(),
        (Sure::CannotTell, _) => format!("{}{}", w.cannot_tell, w.borrow),
        (Sure::Same, _) => w.same.into(),
        (Sure::No, _) if saving.high <= 0.0 => w.saves_nothing.into(),
        (Sure::No, _) => w.too_few.into(),
        (_, Some(PayBack::After { low, high })) => {
            let (low, high) = (count(low), count(high));
            let lost = if no_primer { w.or_primer } else { "" };
            format!(
                "{}{}{lost}.",
                fill(w.pays_back, &[&amount, &low, &high, parts]),
                fill(w.not_worth, &[&low])
            )
        }
        _ => {
            let lost = if no_primer { w.not_worth_primer } else { "" };
            format!("{}{lost}", fill(w.saves_more, &[&amount, a_part]))
        }
    }
}
