//! Volatile organic compounds in a litre of paint as sprayed.
//!
//! "Actual" divides by the paint's whole volume; "less water and exempt" by what is left without water and exempt solvents, as
//! 40 CFR 59.104(a)(1) writes it: (Wv - Ww - We)/(V - Vw - Ve) (seen).

use super::Volatile;
use crate::error::ParameterError;
use crate::paint::Paint;

/// Solvents that US rules do not count: acetone (40 CFR 51.100(s), from memory; local rules differ).
const EXEMPT: &str = "acetone";

/// Volatile organic compounds [kg/m3, which is g/L].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Voc {
    /// In the paint as it is.
    pub actual: f64,
    /// In the paint less its water and exempt solvents.
    pub less_water: f64,
}

impl Voc {
    /// From the volatiles' mass [kg], water's and exempt solvents' with it, and the volumes [m3].
    ///
    /// # Errors
    /// Nothing is left of the volume, or of the mass.
    pub fn of_masses(
        volatile: f64,
        water: f64,
        exempt: f64,
        volume: f64,
        water_volume: f64,
        exempt_volume: f64,
    ) -> Result<Self, ParameterError> {
        let (mass, rest) = (volatile - water - exempt, volume - water_volume - exempt_volume);
        if !(mass.is_finite() && rest.is_finite()) || mass < -1e-9 || rest <= 0.0 || volume <= 0.0 {
            let allowed =
                "volatiles of at least the water and the exempt in them, in a volume larger than theirs";
            return Err(ParameterError::new("volatiles", format!("{mass} kg in {rest} m3"), allowed));
        }
        let mass = mass.max(0.0);
        Ok(Self { actual: mass / volume, less_water: mass / rest })
    }

    /// Of a paint as sprayed.
    ///
    /// # Errors
    /// An unknown solvent, or a paint of water alone.
    pub fn of(paint: &Paint) -> Result<Self, ParameterError> {
        let (mut all, mut water, mut exempt) = ([0.0; 2], [0.0; 2], [0.0; 2]);
        for solvent in &paint.solvents {
            let v = Volatile::named(&solvent.name)?;
            let (mass, volume) = (v.density * solvent.volume_share, solvent.volume_share);
            for (sum, counts) in
                [(&mut all, true), (&mut water, v.name == "water"), (&mut exempt, v.name == EXEMPT)]
            {
                if counts {
                    sum[0] += mass;
                    sum[1] += volume;
                }
            }
        }
        Self::of_masses(all[0], water[0], exempt[0], 1.0, water[1], exempt[1])
    }

    /// Of several paints mixed: (volume [m3], g/L) each.
    #[must_use]
    pub fn blended(parts: &[(f64, f64)]) -> f64 {
        let volume: f64 = parts.iter().map(|(v, _)| v).sum();
        parts.iter().map(|(v, c)| v * c).sum::<f64>() / volume
    }
}
