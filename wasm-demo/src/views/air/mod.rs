//! Air view: the line from the gun back to the compressor, what it gives, what would help, the air test.

mod clipboard;
mod fields;
mod fixes;
mod line;
mod test;

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::units::{Quantity, System, parse};

use super::desk::{Desk, desk};
use super::fields::Complaint;
use crate::figures::THIN;
use crate::state::{AirState, air_state, with_supply};
use crate::words::words;

/// What the pieces of the view share.
#[derive(Clone, Copy)]
struct AirDesk {
    /// The answers; none without a supply, an error in words where the supply is refused.
    state: Memo<Result<Option<Arc<AirState>>, String>>,
    /// Moment of the air test that is shown [s].
    time: RwSignal<Option<f64>>,
}

impl AirDesk {
    /// The answers, where there are any.
    fn get(&self) -> Option<Arc<AirState>> {
        self.state.with(|s| s.as_ref().ok().cloned().flatten())
    }
}

fn air_desk() -> AirDesk {
    expect_context::<AirDesk>()
}

/// The answers for the job in hand; passes are spaced by the fan of a flown card as soon as there is one.
fn answers(desk: Desk) -> Memo<Result<Option<Arc<AirState>>, String>> {
    let fan = Memo::new(move |_| {
        let run = desk.fresh()?;
        run.number("pattern.length_mm").map(|mm| mm * 1e-3).filter(|m| *m > 0.0)
    });
    Memo::new(move |_| {
        desk.parsed.with(|job| match job {
            Some(job) => air_state(job, fan.get()).map_err(|e| e.to_string()),
            None => Ok(None),
        })
    })
}

/// A unit for each system, with its decimals: what neither millimetres nor millilitres say well.
#[derive(Debug, Clone, Copy)]
struct InUnits {
    quantity: Quantity,
    metric: (&'static str, usize),
    us: (&'static str, usize),
}

const AIR: InUnits = InUnits { quantity: Quantity::AirFlow, metric: ("L/min", 0), us: ("cfm", 1) };
const BAR: InUnits = InUnits { quantity: Quantity::Pressure, metric: ("bar", 1), us: ("psi", 0) };
const TANK: InUnits = InUnits { quantity: Quantity::Volume, metric: ("L", 0), us: ("gal", 1) };
const BORE: InUnits = InUnits { quantity: Quantity::Length, metric: ("mm", 1), us: ("in", 2) };
const WAIT: InUnits = InUnits { quantity: Quantity::Time, metric: ("min", 1), us: ("min", 1) };
const LONG: InUnits = InUnits { quantity: Quantity::Length, metric: ("m", 1), us: ("ft", 0) };

/// A tank's volume in words.
pub fn tank_said(volume: f64, system: System) -> String {
    TANK.said(volume, system)
}

impl InUnits {
    fn unit(&self, system: System) -> (&'static str, usize) {
        if system == System::Metric { self.metric } else { self.us }
    }

    /// The value in the unit shown.
    fn value(&self, si: f64, system: System) -> f64 {
        let unit = self.unit(system).0;
        si / parse(self.quantity, &format!("1 {unit}")).unwrap_or(f64::NAN)
    }

    /// "160 L/min", no idle zeros; "-" for what is not finite.
    fn said(&self, si: f64, system: System) -> String {
        let (unit, places) = self.unit(system);
        let value = self.value(si, system);
        if !value.is_finite() {
            return "-".into();
        }
        let text = format!("{value:.places$}");
        let idle = self.quantity != Quantity::Pressure && text.contains('.');
        let text = if idle { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
        format!("{text}{THIN}{unit}")
    }

    /// Typed text, a bare number taken in the unit shown.
    fn typed(&self, text: &str, system: System) -> String {
        let text = text.replace(THIN, " ");
        let text = text.trim();
        if mistcoat::units::parse_number(text).is_ok() {
            format!("{text} {}", self.unit(system).0)
        } else {
            text.into()
        }
    }
}

/// Screens of the size of a phone, when the view is opened.
fn is_narrow() -> bool {
    window().match_media("(max-width: 767px)").ok().flatten().is_some_and(|m| m.matches())
}

/// The view.
#[component]
pub fn AirView() -> impl IntoView {
    let desk = desk();
    let w = words().air;
    let air = AirDesk { state: answers(desk), time: RwSignal::new(None) };
    provide_context(air);
    let has = Memo::new(move |_| desk.parsed.with(|j| j.as_ref().is_some_and(|j| j.supply.is_some())));
    let put_in = move |_| {
        let edited = desk.job.with_untracked(|text| with_supply(text));
        desk.take("supply", edited);
    };
    view! {
        <div class="air-view">
            {move || if has.get() {
                view! {
                    <div class="air-grid">
                        <div class="air-left">
                            <line::Line />
                            <fields::Fields />
                            <test::AirTest />
                        </div>
                        <div class="air-right"><clipboard::AirClipboard /></div>
                    </div>
                }.into_any()
            } else {
                view! {
                    <div class="air-none">
                        <p class="sentence">{w.no_supply}</p>
                        <button type="button" class="main-button" on:click=put_in>{w.put_in}</button>
                        <Complaint key="supply" keys=&[] />
                    </div>
                }.into_any()
            }}
            <p class="caution small">{words().caution_start}</p>
        </div>
    }
}
