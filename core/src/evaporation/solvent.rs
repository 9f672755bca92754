//! Properties of the volatiles of paints.
//!
//! Vapour pressure at 20 and 25 C, diffusivity in air at 20 C (Fuller, Ensley & Giddings 1969), density and heat of evaporation at
//! 20 C: computed with the open property library `thermo` 0.6. At other temperatures: Clausius-Clapeyron through the two
//! vapour pressures, with the heat of evaporation changing by the difference of the specific heats (Kirchhoff); D ~ T^1.75.
//! Specific heats: handbook values from memory, two figures. Range -20..40 C. n-decane stands for white spirit.
//! Relative rate of evaporation (ASTM D3539, n-butyl acetate 1; above 3 fast, 0.8-3 medium, below 0.8 slow: seen): seen in
//! secondary sources for acetone, MEK, ethyl acetate, xylene and water, from memory for the rest. It is shown, never computed with.

use crate::error::ParameterError;
use crate::math::{exp, ln, pow};

/// A volatile. SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Volatile {
    /// Name, as in `Solvent::name`.
    pub name: &'static str,
    /// Molar mass [kg/mol].
    pub molar_mass: f64,
    /// Vapour pressure at 20 C [Pa].
    pub pressure_20: f64,
    /// Vapour pressure at 25 C [Pa].
    pub pressure_25: f64,
    /// Diffusivity in air at 20 C [m2/s].
    pub diffusivity_20: f64,
    /// Liquid density at 20 C [kg/m3].
    pub density: f64,
    /// Heat of evaporation at 20 C [J/kg].
    pub heat: f64,
    /// Specific heat of the liquid [J/(kg K)].
    pub liquid_specific_heat: f64,
    /// Specific heat of the vapour [J/(kg K)].
    pub vapour_specific_heat: f64,
    /// Relative rate of evaporation, n-butyl acetate 1 [-].
    pub relative_rate: f64,
}

/// name, M [g/mol], p 20 and 25 C [Pa], D [1e-6 m2/s], rho [kg/m3], h [kJ/kg], cp liquid and vapour [kJ/(kg K)],
/// relative rate.
type Row = (&'static str, f64, f64, f64, f64, f64, f64, f64, f64, f64);
const TABLE: [Row; 17] = [
    ("water", 18.015, 2339.3, 3169.9, 24.42, 998.2, 2453.5, 4.18, 1.87, 0.3),
    ("n-butyl acetate", 116.16, 1218.5, 1618.8, 7.03, 881.0, 380.4, 1.94, 1.31, 1.0),
    ("o-xylene", 106.17, 663.6, 896.0, 7.15, 880.3, 411.7, 1.75, 1.25, 0.65),
    ("m-xylene", 106.17, 831.7, 1117.3, 7.15, 864.3, 404.9, 1.72, 1.20, 0.75),
    ("p-xylene", 106.17, 878.5, 1177.7, 7.15, 861.2, 401.9, 1.71, 1.19, 0.75),
    ("MEK", 72.11, 9495.8, 12090.9, 8.92, 805.0, 483.8, 2.20, 1.43, 3.8),
    ("acetone", 58.08, 24661.6, 30727.1, 10.28, 790.3, 539.2, 2.16, 1.29, 5.6),
    ("toluene", 92.14, 2918.9, 3799.3, 7.81, 867.0, 415.8, 1.70, 1.13, 1.9),
    ("ethyl acetate", 88.11, 9844.4, 12614.2, 8.47, 899.6, 408.2, 1.94, 1.29, 2.8),
    ("2-propanol", 60.10, 4207.2, 5779.9, 9.99, 786.7, 769.3, 2.60, 1.49, 1.7),
    ("1-butanol", 74.12, 632.5, 909.5, 8.73, 808.3, 729.1, 2.39, 1.46, 0.45),
    ("2-heptanone", 114.19, 376.6, 521.4, 6.72, 816.1, 414.8, 2.04, 1.45, 0.4),
    ("PM acetate", 132.16, 373.5, 523.0, 6.82, 922.5, 364.6, 1.73, 1.30, 0.4),
    ("2-butoxyethanol", 118.17, 103.2, 146.0, 6.93, 854.2, 457.2, 2.29, 1.43, 0.07),
    ("n-decane", 142.28, 127.8, 182.3, 5.66, 730.5, 363.8, 2.17, 1.62, 0.15),
    ("ethanol", 46.07, 5875.7, 7885.4, 11.98, 789.5, 926.0, 2.40, 1.40, 1.7),
    ("1-methoxy-2-propanol", 90.12, 1226.0, 1646.4, 8.30, 883.6, 492.5, 1.86, 1.37, 0.7),
];

const T20: f64 = 293.15;
const T25: f64 = 298.15;
/// Molar gas constant [J/(mol K)].
pub(super) const MOLAR_GAS_CONSTANT: f64 = 8.314_463;

impl Volatile {
    /// All known volatiles.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(|&(name, m, p20, p25, d, rho, h, liquid, vapour, rate)| Self {
            name,
            molar_mass: m * 1e-3,
            pressure_20: p20,
            pressure_25: p25,
            diffusivity_20: d * 1e-6,
            density: rho,
            heat: h * 1e3,
            liquid_specific_heat: liquid * 1e3,
            vapour_specific_heat: vapour * 1e3,
            relative_rate: rate,
        })
    }

    /// The volatile of a name.
    ///
    /// # Errors
    /// Unknown name: the error lists the known ones.
    pub fn named(name: &str) -> Result<Self, ParameterError> {
        Self::all().find(|v| v.name == name).ok_or_else(|| {
            let known: Vec<_> = TABLE.iter().map(|row| row.0).collect();
            ParameterError::new("paint.solvents: name", format!("\"{name}\""), known.join(", "))
        })
    }

    /// Vapour pressure [Pa] at a temperature [K].
    #[must_use]
    pub fn pressure(&self, temperature: f64) -> f64 {
        let inverse = 1.0 / T20 - 1.0 / temperature;
        let slope = ln(self.pressure_25 / self.pressure_20) / (1.0 / T20 - 1.0 / T25);
        let change =
            (self.vapour_specific_heat - self.liquid_specific_heat) * self.molar_mass / MOLAR_GAS_CONSTANT;
        let curve = change * (ln(temperature / T20) - 0.5 * (T20 + T25) * inverse);
        self.pressure_20 * exp(slope * inverse + curve)
    }

    /// Heat of evaporation [J/kg] at a temperature [K].
    #[must_use]
    pub fn heat_at(&self, temperature: f64) -> f64 {
        self.heat + (self.vapour_specific_heat - self.liquid_specific_heat) * (temperature - T20)
    }

    /// Diffusivity in air [m2/s] at a temperature [K], 1 atm.
    #[must_use]
    pub fn diffusivity(&self, temperature: f64) -> f64 {
        self.diffusivity_20 * pow(temperature / T20, 1.75)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn vapour_pressures_hold_away_from_the_two_points() {
        // Water 0, 5, 10, 30 C from steam tables; acetone -10 C from Antoine's equation (both from memory).
        let water = Volatile::named("water").unwrap();
        for (c, p) in [(0.0, 611.2), (5.0, 872.6), (10.0, 1228.0), (30.0, 4247.0)] {
            assert!(
                (water.pressure(273.15 + c) / p - 1.0).abs() < 4e-3,
                "{c} C {}",
                water.pressure(273.15 + c)
            );
        }
        let acetone = Volatile::named("acetone").unwrap();
        assert!((acetone.pressure(263.8) / 5586.0 - 1.0).abs() < 0.02);
        for v in Volatile::all() {
            assert!((v.pressure(T20) / v.pressure_20 - 1.0).abs() < 1e-12);
            assert!((v.pressure(T25) / v.pressure_25 - 1.0).abs() < 1e-4, "{}", v.name);
        }
    }

    #[test]
    fn an_unknown_name_lists_the_known_ones() {
        assert!(Volatile::named("turpentine").unwrap_err().to_string().contains("n-butyl acetate"));
    }
}
