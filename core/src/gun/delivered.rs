//! Paint that reaches the air, with what faults of cup, packing and passage take from it.

use super::class::Feed;
use super::cup::ClosedCup;
use super::faults::Fault;
use super::fluid::paint_flow;
use super::spec::{GunSetting, Kit};
use super::warning::Warning;
use crate::air::Jet;
use crate::constants::Constants;
use crate::paint::Paint;

/// Standard gravity [m/s2].
const GRAVITY: f64 = 9.806_65;

/// What comes out of the tip.
pub(super) struct Delivered {
    /// Paint flow, mean over the time the trigger is held [m3/s].
    pub flow: f64,
    /// Share of the time that air fills the bore [-].
    pub air: f64,
    /// What to tell the painter of it.
    pub told: Vec<Warning>,
}

/// Flow of a gun whose passages are as its faults leave them (`kit`).
pub(super) fn delivered(
    kit: &Kit,
    setting: &GunSetting,
    paint: &Paint,
    annulus: &Jet,
    c: &Constants,
) -> Delivered {
    let first = paint_flow(kit, setting, paint, annulus, c);
    let mut out = Delivered { flow: first, air: 0.0, told: Vec::new() };
    if setting.faults.is_empty() || first <= 0.0 {
        return out;
    }
    let mut suction = 0.0;
    if setting.faults.has(Fault::CupVentBlocked) && setting.held > 0.0 {
        let cup = ClosedCup::after(setting.held, kit, setting, paint, annulus, c);
        out.told.push(Warning::VentBlocked(cup.flow / first, setting.held));
        (out.flow, suction) = (cup.left / setting.held, cup.underpressure);
    }
    // A loose packing draws air where the passage is below the room's pressure, else paint drips out of it.
    let head = paint.density * GRAVITY * kit.head_at(setting.cup_level);
    let draws = kit.feed != Feed::Pressure && head < suction;
    out.air = setting.faults.air_in_paint(draws);
    if out.air > 0.0 {
        out.told.push(Warning::Spitting(out.air));
        out.flow *= 1.0 - out.air;
    }
    let drip = setting.faults.dripping(draws);
    if drip > 0.0 {
        out.told.push(Warning::Dripping(out.flow * drip));
        out.flow *= 1.0 - drip;
    }
    out
}
