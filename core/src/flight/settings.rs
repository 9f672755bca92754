//! What a flight needs besides air and part.

use crate::lanes::Real;

/// Step length as a share of the distance over which the air changes [-]: the longest of the tables in `docs/decisions/step.md` whose mean
/// biases stay within 1 % or their error. Halving it moves transfer efficiency by less than 0.002 (tested).
pub const STEP: f64 = 0.16;

/// Longest time aloft [s]; then the droplet has drifted off.
pub const ALOFT: f64 = 0.5;

/// Gravity [m/s2].
pub const GRAVITY: f64 = 9.806_65;

/// Constants of one flight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlightSettings<T> {
    /// Step share [-].
    pub step: T,
    /// Density over 18 air viscosities [s/m2]: times d^2 the Stokes relaxation time.
    pub relaxation: T,
    /// 1 / kinematic viscosity of the air [s/m2].
    pub inverse_viscosity: T,
    /// Gravity in the gun's frame [m/s2].
    pub gravity: [T; 3],
    /// 0.3 Sc^(1/3) [-]: Sh/2 = 1 + this times sqrt(Re).
    pub ventilation: T,
    /// Diameter at exposure s: 1 - shrink s/(s + half).
    pub shrink: T,
    /// See `shrink` [s/m2].
    pub half_exposure: T,
    /// Density of what leaves over density of the paint [-].
    pub volatile_density: T,
    /// Longest time aloft [s].
    pub aloft: T,
}

impl FlightSettings<f64> {
    /// Air of `density` [kg/m3] and `viscosity` [Pa s], droplets of `paint_density` [kg/m3] that do not dry, no
    /// gravity.
    #[must_use]
    pub fn plain(density: f64, viscosity: f64, paint_density: f64) -> Self {
        Self {
            step: STEP,
            relaxation: paint_density / (18.0 * viscosity),
            inverse_viscosity: density / viscosity,
            gravity: [0.0; 3],
            ventilation: 0.0,
            shrink: 0.0,
            half_exposure: 1e9,
            volatile_density: 1.0,
            aloft: ALOFT,
        }
    }

    /// The same settings where gravity pulls along `down` [-].
    #[must_use]
    pub fn pulled(mut self, down: [f64; 3]) -> Self {
        self.gravity = down.map(|g| g * GRAVITY);
        self
    }

    /// The same settings in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> FlightSettings<T> {
        FlightSettings {
            step: T::from_f64(self.step),
            relaxation: T::from_f64(self.relaxation),
            inverse_viscosity: T::from_f64(self.inverse_viscosity),
            gravity: self.gravity.map(T::from_f64),
            ventilation: T::from_f64(self.ventilation),
            shrink: T::from_f64(self.shrink),
            half_exposure: T::from_f64(self.half_exposure),
            volatile_density: T::from_f64(self.volatile_density),
            aloft: T::from_f64(self.aloft),
        }
    }
}
