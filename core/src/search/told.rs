//! What is to be set, as the trade says it.

use super::flat::{End, Flat};
use super::lever::Lever;
use super::setup::Change;
use crate::units::{Quantity, System, show};

/// What a lever is called.
#[must_use]
pub fn name(lever: Lever) -> &'static str {
    match lever {
        Lever::Fan => "fan knob",
        Lever::Fluid => "fluid knob",
        Lever::Pressure => "pressure",
        Lever::AirKnob => "air knob",
        Lever::Distance => "distance",
        Lever::Overlap => "overlap",
        Lever::Axis => "fan",
        Lever::Sides => "sides",
        Lever::Speed => "speed",
        Lever::Lead => "lead-in",
        _ => "setting",
    }
}

/// A value of a lever, as the trade says it.
#[must_use]
pub fn value(lever: Lever, value: f64, system: System) -> String {
    match lever {
        Lever::Fan | Lever::Fluid | Lever::AirKnob => format!("{} turns out", eighths(value)),
        Lever::Pressure => show(Quantity::Pressure, value, system),
        Lever::Distance | Lever::Lead => show(Quantity::Length, value, system),
        Lever::Overlap => format!("{:.0} of 100", 100.0 * value),
        Lever::Axis => if value > 0.5 { "along the stroke" } else { "across the stroke" }.into(),
        Lever::Speed => show(Quantity::Speed, value, system),
        _ => format!("{value:.0}"),
    }
}

/// "Fan knob from 1 1/2 to 7/8 turns out".
#[must_use]
pub fn turn(change: &Change, system: System) -> String {
    let (from, to) = (value(change.lever, change.from, system), value(change.lever, change.to, system));
    format!("{} {to} (now {from})", capital(name(change.lever)))
}

/// "150 to 190 mm takes at most 1 % more paint".
#[must_use]
pub fn exact(flat: &Flat, system: System) -> String {
    if matches!(flat.lever, Lever::Axis) {
        let other = flat.points.iter().find(|p| (p[0] - flat.at).abs() > 0.5);
        return other.map_or_else(
            || "the other way does not do".into(),
            |p| format!("the other way takes {:+.0} of 100 of the paint", p[1]),
        );
    }
    let side = |end: &End| value(flat.lever, end.value, system);
    let (low, high) = (side(&flat.low), side(&flat.high));
    if low == high {
        return format!("{low} and no other is within 1 %");
    }
    let unsure = |end: &End| (end.range[1] - end.range[0]).abs() > 0.02 * flat.at.abs().max(1e-9);
    let about = if unsure(&flat.low) || unsure(&flat.high) { "about " } else { "" };
    let short = match (low.split_once(' '), high.split_once(' ')) {
        (Some((number, a)), Some((_, b))) if a == b => number.to_string(),
        _ => low,
    };
    format!("{about}{short} to {high} is within 1 %")
}

/// "1 3/8": turns to the nearest eighth.
fn eighths(turns: f64) -> String {
    let all = (turns.max(0.0) * 8.0 + 0.5) as u32;
    let (whole, rest) = (all / 8, all % 8);
    let part = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"][rest as usize];
    match (whole, part) {
        (_, "") => whole.to_string(),
        (0, part) => part.into(),
        (whole, part) => format!("{whole} {part}"),
    }
}

/// With a capital letter.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
