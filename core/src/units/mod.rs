//! Edge conversions: text with a unit to SI and back. Inside the library everything is SI.
//!
//! A quantity is a number, an optional space and a unit out of a closed list ("180 mm", "2.0 bar", "20 C").
//! A bare number, a unit of another kind and an unknown unit are refused; so are "nan" and "inf".

mod in_text;
mod show;
mod table;

use std::fmt;

pub use in_text::in_units;
pub use show::{System, show, turns_shown, unit_shown, value_shown};

/// Kind of quantity; each has its own closed list of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Quantity {
    /// Length [m].
    Length,
    /// Film thickness [m]: units of length, shown in um or mil.
    Film,
    /// Gauge pressure [Pa].
    Pressure,
    /// Flow of free air [m3/s].
    AirFlow,
    /// Flow of paint [m3/s]: units of flow, shown in mL/min or fl oz/min.
    PaintFlow,
    /// Kinematic viscosity [m2/s].
    KinematicViscosity,
    /// Dynamic viscosity [Pa s].
    Viscosity,
    /// Temperature [K].
    Temperature,
    /// Time [s].
    Time,
    /// Speed [m/s].
    Speed,
    /// Angle [rad].
    Angle,
    /// Volume [m3].
    Volume,
    /// Density [kg/m3].
    Density,
    /// Surface tension [N/m].
    SurfaceTension,
    /// Area [m2].
    Area,
    /// Mass [kg].
    Mass,
}

impl Quantity {
    /// All kinds.
    pub const ALL: [Quantity; 16] = [
        Quantity::Length,
        Quantity::Film,
        Quantity::Pressure,
        Quantity::AirFlow,
        Quantity::PaintFlow,
        Quantity::KinematicViscosity,
        Quantity::Viscosity,
        Quantity::Temperature,
        Quantity::Time,
        Quantity::Speed,
        Quantity::Angle,
        Quantity::Volume,
        Quantity::Density,
        Quantity::SurfaceTension,
        Quantity::Area,
        Quantity::Mass,
    ];

    /// Name with its article, for a sentence ("a length").
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Quantity::Length => "a length",
            Quantity::Film => "a film thickness",
            Quantity::Pressure => "a pressure",
            Quantity::AirFlow => "an air flow",
            Quantity::PaintFlow => "a paint flow",
            Quantity::KinematicViscosity => "a kinematic viscosity",
            Quantity::Viscosity => "a viscosity",
            Quantity::Temperature => "a temperature",
            Quantity::Time => "a time",
            Quantity::Speed => "a speed",
            Quantity::Angle => "an angle",
            Quantity::Volume => "a volume",
            Quantity::Density => "a density",
            Quantity::SurfaceTension => "a surface tension",
            Quantity::Area => "an area",
            Quantity::Mass => "a mass",
        }
    }

    /// Names of its units, the usual one first.
    #[must_use]
    pub fn unit_names(self) -> Vec<&'static str> {
        table::units(self).iter().map(|u| u.name).collect()
    }
}

/// Why a text is no quantity of the wanted kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UnitError {
    /// It does not start with a plain number.
    NoNumber,
    /// The number is too large to hold, or is not a number at all.
    NotFinite,
    /// A number without a unit.
    NoUnit,
    /// A unit that nobody here knows; the nearest one of the wanted kind, where there is one near.
    UnknownUnit {
        /// As written.
        unit: String,
        /// What was probably meant.
        nearest: Option<&'static str>,
    },
    /// A unit of another kind of quantity.
    WrongKind {
        /// As written.
        unit: String,
        /// What it is a unit of.
        is: Quantity,
    },
}

impl fmt::Display for UnitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            UnitError::NoNumber => write!(f, "it does not start with a plain number, such as 12.5 or 1e-3"),
            UnitError::NotFinite => write!(f, "the number is not finite"),
            UnitError::NoUnit => write!(f, "the unit is missing"),
            UnitError::UnknownUnit { unit, nearest: Some(n) } => {
                write!(f, "unit \"{unit}\" is not known; nearest is \"{n}\"")
            }
            UnitError::UnknownUnit { unit, nearest: None } => write!(f, "unit \"{unit}\" is not known"),
            UnitError::WrongKind { unit, is } => write!(f, "\"{unit}\" is the unit of {}", is.name()),
        }
    }
}

impl std::error::Error for UnitError {}

/// Reads "number, optional space, unit" into SI.
///
/// # Errors
/// `UnitError` says what is wrong with the text.
pub fn parse(quantity: Quantity, text: &str) -> Result<f64, UnitError> {
    let (number, unit) = split_number(text.trim())?;
    let unit = unit.trim_start();
    if unit.is_empty() {
        return Err(UnitError::NoUnit);
    }
    let named = |u: &table::Unit| u.name == unit || u.also.contains(&unit);
    if let Some(u) = table::units(quantity).iter().find(|u| named(u)) {
        let si = (number + u.offset) * u.size;
        return if si.is_finite() { Ok(si) } else { Err(UnitError::NotFinite) };
    }
    for other in Quantity::ALL {
        if table::units(other).iter().any(named) {
            return Err(UnitError::WrongKind { unit: unit.into(), is: other });
        }
    }
    Err(UnitError::UnknownUnit { unit: unit.into(), nearest: nearest_unit(quantity, unit) })
}

/// Reads a plain number without a unit: digits, a point, an exponent; nothing else.
///
/// # Errors
/// `UnitError::NoNumber` or `UnitError::NotFinite`.
pub fn parse_number(text: &str) -> Result<f64, UnitError> {
    match split_number(text.trim())? {
        (number, "") => Ok(number),
        (_, rest) => Err(UnitError::UnknownUnit { unit: rest.trim().into(), nearest: None }),
    }
}

/// Reads a share: a bare number, or a number and "%".
///
/// # Errors
/// `UnitError` says what is wrong with the text; the range is the caller's to check.
pub fn parse_share(text: &str) -> Result<f64, UnitError> {
    match split_number(text.trim())? {
        (number, "") => Ok(number),
        (number, rest) if rest.trim_start() == "%" => Ok(number / 100.0),
        (_, rest) => {
            let unit = rest.trim();
            let of_kind = Quantity::ALL
                .into_iter()
                .find(|q| table::units(*q).iter().any(|u| u.name == unit || u.also.contains(&unit)));
            Err(match of_kind {
                Some(is) => UnitError::WrongKind { unit: unit.into(), is },
                None => UnitError::UnknownUnit { unit: unit.into(), nearest: Some("%") },
            })
        }
    }
}

/// Splits a leading plain number off; what follows is returned untrimmed.
fn split_number(text: &str) -> Result<(f64, &str), UnitError> {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let whole = digits(end);
    end += whole;
    let mut fraction = 0;
    if bytes.get(end) == Some(&b'.') {
        fraction = digits(end + 1);
        end += 1 + fraction;
    }
    if whole + fraction == 0 {
        let word = text.trim_start_matches(['+', '-']).to_ascii_lowercase();
        let not_finite = word.starts_with("nan") || word.starts_with("inf");
        return Err(if not_finite { UnitError::NotFinite } else { UnitError::NoNumber });
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = digits((end + 1 + sign).min(bytes.len()));
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    let number: f64 = text[..end].parse().map_err(|_| UnitError::NoNumber)?;
    if number.is_finite() { Ok((number, &text[end..])) } else { Err(UnitError::NotFinite) }
}

/// The unit of this kind that was probably meant.
fn nearest_unit(quantity: Quantity, unit: &str) -> Option<&'static str> {
    let units = table::units(quantity);
    let lower = unit.to_lowercase();
    let said =
        table::SAID.iter().find(|(word, _)| lower.trim_end_matches('s') == *word).map(|(_, name)| *name);
    if let Some(name) = said.filter(|name| units.iter().any(|u| u.name == *name)) {
        return Some(name);
    }
    let distance = |u: &table::Unit| strsim::damerau_levenshtein(&u.name.to_lowercase(), &lower);
    let best = units.iter().min_by_key(|u| distance(u))?;
    (distance(best) <= best.name.len() / 2).then_some(best.name)
}

#[cfg(test)]
mod tests;
