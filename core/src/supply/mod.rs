//! From the compressor to the gun's inlet: will the air do?
//!
//! Compressor and tank, wall regulator, couplings, hose, and others on the same tank. Equations: each file's head;
//! `docs/methods/supply.md`. Pressures in fields are gauge, flows are free air (20 C, 1.01325 bar, dry) unless said.

mod answer;
mod compressor;
mod hose;
mod line;
mod passage;
mod plan;
mod reference;
mod warning;
mod water;

pub use answer::{Answer, Verdict, Wall};
pub use compressor::Compressor;
pub use hose::{Hose, ROUGHNESS, friction_factor};
pub use line::{Coupling, Demand, Line, Pressures, REGULATOR, REGULATOR_DROOP};
pub use passage::{DM3_PER_S_BAR, Passage};
pub use plan::{Draw, Moment, Span, TankRun};
pub use reference::{ANR_DENSITY, FREE_AIR, REFERENCE_STATES, ReferenceState};
pub use warning::Warning;
pub use water::{Water, WaterPath};

use crate::error::{ParameterError, within};

/// Somebody else who draws air from the same tank, all the time.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherUser {
    /// Name.
    pub name: String,
    /// Air [m3/s free air].
    pub air: f64,
}

/// The whole supply of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Compressor and tank.
    pub compressor: Compressor,
    /// Regulator, couplings, hose.
    pub line: Line,
    /// Others on the same tank; they come first, a mask above all.
    pub also: Vec<OtherUser>,
    /// Room the compressor draws from [K].
    pub intake_temperature: f64,
    /// Its relative humidity, 0..=1.
    pub intake_humidity: f64,
    /// Air in the tank [K].
    pub tank_temperature: f64,
}

impl Supply {
    /// Checks every figure.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        self.compressor.check()?;
        self.line.check()?;
        for user in &self.also {
            within("supply.also", user.air * 60_000.0, 0.1, 20_000.0, "L/min")?;
        }
        within("supply.intake_temperature", self.intake_temperature - 273.15, -10.0, 60.0, "C")?;
        within("supply.intake_humidity", self.intake_humidity, 0.0, 1.0, "")?;
        within("supply.tank_temperature", self.tank_temperature - 273.15, -10.0, 120.0, "C")?;
        Ok(())
    }

    /// Air of all others [m3/s free air].
    #[must_use]
    pub fn also_air(&self) -> f64 {
        self.also.iter().fold(0.0, |sum, user| sum + user.air)
    }
}
