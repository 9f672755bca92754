//! Paint as it is in the cup.
//!
//! Viscosity: power law above the cup's shear rate down to a floor, mu = mu_cup (rate / 100)^(n - 1). With temperature: -4 % a
//! degree (cup oils change 3-8 %, seen; a fair default), range 5-40 C.

pub mod film_arithmetic;
mod plan;
mod recipe;
mod sheet;

pub use plan::{Measure, MixNeed, MixPlan};
pub use recipe::{Component, Mix, Recipe, ThinningOf};
pub use sheet::{Sheet, ThinnerSpeed};

use crate::error::{ParameterError, within};
use crate::math::pow;

/// Shear rate in a flow cup [1/s]: order of magnitude, common practice.
pub const CUP_SHEAR_RATE: f64 = 100.0;
/// Volatiles that a mixed paint may hold: three of the tins and those of another thinner.
pub const MOST_SOLVENTS: usize = 6;
/// Temperature at which tins are described [K].
const TWENTY_C: f64 = 293.15;
/// Viscosity left after warming by one degree [-].
pub const VISCOSITY_PER_DEGREE: f64 = 0.96;

/// One volatile of a paint.
#[derive(Debug, Clone, PartialEq)]
pub struct Solvent {
    /// Name ("n-butyl acetate", "water").
    pub name: String,
    /// Share of the sprayed paint's volume [-].
    pub volume_share: f64,
}

/// A paint, mixed and thinned, at its temperature. Typical values: replace by the data sheet's.
#[derive(Debug, Clone, PartialEq)]
pub struct Paint {
    /// Catalogue id.
    pub id: String,
    /// Plain name for the screen.
    pub name: String,
    /// Density in the cup [kg/m3].
    pub density: f64,
    /// Volume solids in the cup [-].
    pub volume_solids: f64,
    /// Viscosity at the cup's shear rate (about 100 1/s) [Pa s].
    pub viscosity: f64,
    /// Power-law index above the cup's shear rate [-], 1 Newtonian.
    pub flow_index: f64,
    /// Viscosity that shear-thinning does not go below [Pa s].
    pub viscosity_high_shear: f64,
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Viscosity of a film on landing, at rest, at 20 C [Pa s]: having lost a tenth of its solvents in flight.
    pub film_viscosity: f64,
    /// Time in which a film's viscosity rises e-fold as it dries [s]: 75 um as landed, class's usual thinner, 20 C, 0.3 m/s of air.
    pub setting_time: f64,
    /// Yield stress of a film on landing [Pa].
    pub yield_stress: f64,
    /// Volatiles, at most `MOST_SOLVENTS`; their shares sum to 1 - volume_solids.
    pub solvents: Vec<Solvent>,
    /// Two-pack with isocyanate hardener: its cautions are shown.
    pub isocyanate: bool,
    /// Usual dry film of one coat [m], lowest and highest.
    pub dry_film_per_coat: [f64; 2],
    /// Paint temperature [K].
    pub temperature: f64,
}

impl Paint {
    /// Viscosity [Pa s] at a shear rate [1/s]; the cup's below the cup's rate.
    #[must_use]
    pub fn viscosity_at(&self, shear_rate: f64) -> f64 {
        let rate = (shear_rate / CUP_SHEAR_RATE).max(1.0);
        (self.viscosity * pow(rate, self.flow_index - 1.0)).max(self.viscosity_high_shear)
    }

    /// Kinematic viscosity in the cup [m2/s].
    #[must_use]
    pub fn kinematic_viscosity(&self) -> f64 {
        self.viscosity / self.density
    }

    /// The same paint with a measured kinematic viscosity [m2/s], as at its present temperature; its high-shear viscosity
    /// and its film's go along in proportion.
    ///
    /// # Errors
    /// Outside 1..=2000 mm2/s.
    pub fn with_kinematic_viscosity(mut self, measured: f64) -> Result<Self, ParameterError> {
        within("paint.cup: kinematic viscosity", measured * 1e6, 1.0, 2000.0, "mm2/s")?;
        let factor = measured * self.density / self.viscosity;
        self.viscosity *= factor;
        self.viscosity_high_shear *= factor;
        self.film_viscosity *= factor;
        Ok(self)
    }

    /// The same paint warmed or cooled to a temperature [K]. Density and surface tension are left (0.1 % a degree).
    ///
    /// # Errors
    /// Outside 0..=50 C.
    pub fn at_temperature(mut self, temperature: f64) -> Result<Self, ParameterError> {
        within("paint.temperature", temperature - 273.15, 0.0, 50.0, "C")?;
        let factor = pow(VISCOSITY_PER_DEGREE, temperature - self.temperature);
        self.viscosity *= factor;
        self.viscosity_high_shear *= factor;
        self.temperature = temperature;
        Ok(self)
    }

    /// Checks every figure.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        within("paint.density", self.density, 600.0, 4000.0, "kg/m3")?;
        within("paint.volume_solids", self.volume_solids, 0.0, 1.0, "")?;
        within("paint.viscosity", self.viscosity * 1e3, 0.2, 10_000.0, "mPa s")?;
        within("paint.flow_index", self.flow_index, 0.2, 1.0, "")?;
        let top = self.viscosity * 1e3;
        within("paint.viscosity_high_shear", self.viscosity_high_shear * 1e3, 0.1, top, "mPa s")?;
        within("paint.surface_tension", self.surface_tension * 1e3, 10.0, 80.0, "mN/m")?;
        within("paint.film_viscosity", self.film_viscosity, 1e-3, 1e3, "Pa s")?;
        within("paint.setting_time", self.setting_time, 0.5, 36_000.0, "s")?;
        within("paint.yield_stress", self.yield_stress, 0.0, 50.0, "Pa")?;
        within("paint.temperature", self.temperature - 273.15, 0.0, 50.0, "C")?;
        if self.solvents.len() > MOST_SOLVENTS {
            let allowed = format!("at most {MOST_SOLVENTS}");
            return Err(ParameterError::new("paint.solvents", self.solvents.len(), allowed));
        }
        let mut volatile = 0.0;
        for s in &self.solvents {
            volatile += within("paint.solvents: volume_share", s.volume_share, 0.0, 1.0, "")?;
        }
        let wanted = 1.0 - self.volume_solids;
        if (volatile - wanted).abs() > 1e-6 {
            let allowed = format!("{wanted} (1 less the volume solids)");
            return Err(ParameterError::new("paint.solvents: sum of shares", volatile, allowed));
        }
        Ok(())
    }
}
