//! SI values as text for the page: metric or US, with the digits a painter would say.

use super::{Quantity, table};

/// System of units on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// bar, mm, L/min, um, mL, C.
    #[default]
    Metric,
    /// psi, in, cfm, mil, US fl oz, F.
    Us,
}

/// Unit a quantity is shown in, and its decimals where the value is large enough for them.
#[must_use]
pub fn unit_shown(quantity: Quantity, system: System) -> (&'static str, usize) {
    let metric = system == System::Metric;
    match quantity {
        Quantity::Length if metric => ("mm", 0),
        Quantity::Length => ("in", 1),
        Quantity::Film if metric => ("um", 0),
        Quantity::Film => ("mil", 1),
        Quantity::Pressure if metric => ("bar", 1),
        Quantity::Pressure => ("psi", 0),
        Quantity::AirFlow if metric => ("L/min", 0),
        Quantity::AirFlow => ("cfm", 1),
        Quantity::PaintFlow if metric => ("mL/min", 0),
        Quantity::PaintFlow => ("fl oz/min", 1),
        Quantity::KinematicViscosity => ("mm2/s", 0),
        Quantity::Viscosity => ("mPa s", 0),
        Quantity::Temperature if metric => ("C", 0),
        Quantity::Temperature => ("F", 0),
        Quantity::Time => ("s", 1),
        Quantity::Speed if metric => ("mm/s", 0),
        Quantity::Speed => ("in/s", 1),
        Quantity::Angle => ("deg", 0),
        Quantity::Volume if metric => ("mL", 0),
        Quantity::Volume => ("fl oz", 1),
        Quantity::Density if metric => ("kg/L", 2),
        Quantity::Density => ("lb/gal", 1),
        Quantity::SurfaceTension => ("mN/m", 0),
        Quantity::Area if metric => ("m2", 2),
        Quantity::Area => ("ft2", 1),
        // Kitchen scales show grams everywhere; a paint weighed to a hundredth of a pound is not weighed.
        Quantity::Mass => ("g", 0),
    }
}

/// A SI value as a number in the unit shown, for an axis or a drawing.
#[must_use]
pub fn value_shown(quantity: Quantity, si: f64, system: System) -> f64 {
    let (name, _) = unit_shown(quantity, system);
    table::units(quantity).iter().find(|u| u.name == name).map_or(f64::NAN, |u| si / u.size - u.offset)
}

/// A SI value in the unit of `system`: "2.0 bar", "29 psi", "26 um".
///
/// A value too small for the usual decimals gets as many as show two digits, six at most. The text reads back
/// with `parse` to within its last digit. A value that is not finite is shown as "-".
#[must_use]
pub fn show(quantity: Quantity, si: f64, system: System) -> String {
    let (name, decimals) = unit_shown(quantity, system);
    let value = value_shown(quantity, si, system);
    if !value.is_finite() {
        return "-".into();
    }
    let mut places = decimals;
    if quantity != Quantity::Temperature {
        // Two significant digits: the value must reach 10 once shifted by its decimals.
        let mut shifted = value.abs();
        for _ in 0..places {
            shifted *= 10.0;
        }
        while shifted > 0.0 && shifted < 9.95 && places < 6 {
            shifted *= 10.0;
            places += 1;
        }
    }
    let text = format!("{value:.places$}");
    let zero = text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.');
    let text = if zero { format!("{:.decimals$}", 0.0) } else { text };
    format!("{text} {name}")
}

/// Turns of a knob in eighths: "1 3/8"; below zero is shut.
#[must_use]
pub fn turns_shown(turns: f64) -> String {
    let eighths = (turns.max(0.0) * 8.0).round() as u32;
    let part = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"][(eighths % 8) as usize];
    match (eighths / 8, part) {
        (0, "") => "0".into(),
        (0, part) => part.into(),
        (whole, "") => whole.to_string(),
        (whole, part) => format!("{whole} {part}"),
    }
}
