//! The states that a volume of "free" or "normal" air is counted at. One litre is not one litre.
//!
//! A flow of air is a mass; a volume a minute means something only at a named pressure, temperature and humidity.
//! This crate counts free air at [`FREE_AIR`]; the others are for figures off data sheets.

use crate::air::{GAS_CONSTANT, water_saturation};

/// Gas constant of water vapour [J/(kg K)].
const VAPOUR_CONSTANT: f64 = 461.5;

/// A named state of air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReferenceState {
    /// Id in the job file.
    pub id: &'static str,
    /// Name with its figures.
    pub name: &'static str,
    /// Pressure [Pa, absolute].
    pub pressure: f64,
    /// Temperature [K].
    pub temperature: f64,
    /// Relative humidity, 0..=1.
    pub humidity: f64,
    /// Where the state is written down.
    pub origin: &'static str,
}

/// 20 C, 1.01325 bar, dry: what this crate counts free air at.
pub const FREE_AIR: ReferenceState = ReferenceState {
    id: "free-air",
    name: "free air, 20 C, 1.01325 bar, dry",
    pressure: 101_325.0,
    temperature: 293.15,
    humidity: 0.0,
    origin: "ours: the room the painter stands in",
};

/// All states, the one this crate counts with first.
pub const REFERENCE_STATES: [ReferenceState; 8] = [
    FREE_AIR,
    ReferenceState {
        id: "iso-1217",
        name: "ISO 1217, 20 C, 1 bar, dry",
        pressure: 1e5,
        temperature: 293.15,
        humidity: 0.0,
        origin: "ISO 1217 (compressors, acceptance tests): from memory",
    },
    ReferenceState {
        id: "iso-2787",
        name: "ISO 2787, 20 C, 1 bar",
        pressure: 1e5,
        temperature: 293.15,
        humidity: 0.0,
        origin: "ISO 2787 (air tools): seen in a secondary source",
    },
    ReferenceState {
        id: "iso-2533",
        name: "ISO 2533, 15 C, 1.01325 bar, dry",
        pressure: 101_325.0,
        temperature: 288.15,
        humidity: 0.0,
        origin: "ISO 2533 (standard atmosphere): seen in a secondary source",
    },
    ReferenceState {
        id: "din-1343",
        name: "DIN 1343 (normal litres), 0 C, 1.01325 bar, dry",
        pressure: 101_325.0,
        temperature: 273.15,
        humidity: 0.0,
        origin: "DIN 1343: seen in a secondary source",
    },
    ReferenceState {
        id: "anr",
        name: "ANR, 20 C, 1 bar, 65 % humidity",
        pressure: 1e5,
        temperature: 293.15,
        humidity: 0.65,
        origin: "ISO 8778: from memory",
    },
    ReferenceState {
        id: "us-scfm",
        name: "US scfm of air tools and compressors, 68 F, 14.5 psia",
        pressure: 14.5 * 6_894.757_293_168_361,
        temperature: 293.15,
        humidity: 0.0,
        origin: "trade association of US compressor makers: from memory",
    },
    ReferenceState {
        id: "us-scfm-gas",
        name: "US scfm of the gas trade, 60 F, 14.696 psia",
        pressure: 14.696 * 6_894.757_293_168_361,
        temperature: (60.0 + 459.67) / 1.8,
        humidity: 0.0,
        origin: "US gas trade: from memory",
    },
];

/// Density that ISO 6358 puts to ANR air [kg/m3] (ISO 8778, from memory); 0.3 % above that of the moist ideal gas.
pub const ANR_DENSITY: f64 = 1.185;

impl ReferenceState {
    /// The state of an id.
    #[must_use]
    pub fn find(id: &str) -> Option<&'static Self> {
        REFERENCE_STATES.iter().find(|s| s.id == id)
    }

    /// Pressure of the dry air alone [Pa].
    #[must_use]
    pub fn dry_pressure(&self) -> f64 {
        self.pressure - self.humidity * water_saturation(self.temperature)
    }

    /// Density of the moist air [kg/m3].
    #[must_use]
    pub fn density(&self) -> f64 {
        let vapour = self.pressure - self.dry_pressure();
        (self.dry_pressure() / GAS_CONSTANT + vapour / VAPOUR_CONSTANT) / self.temperature
    }

    /// Volume at `other` of the dry air that fills one volume at this state [-].
    #[must_use]
    pub fn factor_to(&self, other: &Self) -> f64 {
        self.dry_pressure() / other.dry_pressure() * (other.temperature / self.temperature)
    }
}
