//! The texture that droplets leave: what has not levelled when the film sets.
//!
//! Engineering criteria, ours; no published figure was found for either.
//!
//! Orange peel: droplets land at random, so a fresh film h of droplets of mean volume V (weighted by volume) is white noise, of
//! variance pi V h / (sqrt 2 lambda^2) in a half octave about lambda. Each half octave from 0.5 to 11 mm levels by Orchard over the integral
//! of dt/viscosity; what is left, summed, times the solids, is the waviness of the dry film (root mean square).
//! Dry spray: share of a droplet mark of 1 mm that is left, exp(-integral dt/tau(1 mm)).

use super::Levelling;
use crate::math::pow;
use core::f64::consts::{FRAC_1_SQRT_2, PI, SQRT_2};

/// Shortest wavelength of orange peel [m].
const SHORTEST: f64 = 0.5e-3;
/// Half octaves of it.
const BANDS: i32 = 10;
/// Size of a droplet's mark [m]: 0.3-1 mm, the upper end.
pub const DROPLET_MARK: f64 = 1e-3;

/// Droplets as they landed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandedDroplets {
    /// Mean volume, weighted by volume [m3].
    pub volume: f64,
    /// Volume median diameter [m].
    pub diameter: f64,
}

impl LandedDroplets {
    /// Thickness of one droplet's splat [m]: d/6, spread to twice its diameter. Ours.
    #[must_use]
    pub fn splat(&self) -> f64 {
        self.diameter / 6.0
    }
}

/// How a film came to set: its ripples and their levelling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levelled {
    /// Film whose droplet marks levelled, as landed [m].
    pub ripple: f64,
    /// Mean film while it levelled [m].
    pub film: f64,
    /// Integral of dt over viscosity [1/Pa].
    pub thinness: f64,
}

/// Wavelengths of orange peel and the variance of a unit of volume times film in each half octave [1/m2].
#[must_use]
pub fn bands() -> [(f64, f64); BANDS as usize] {
    core::array::from_fn(|i| {
        let wavelength = SHORTEST * pow(SQRT_2, i as f64);
        (wavelength, PI * FRAC_1_SQRT_2 / (wavelength * wavelength))
    })
}

/// Waviness that is left of a wet film [m], root mean square; `solids` is what of it stays as the film dries [-].
#[must_use]
pub fn waviness(
    bands: &[(f64, f64)],
    droplets: &LandedDroplets,
    levelling: &Levelling,
    film: &Levelled,
    solids: f64,
) -> f64 {
    let white = droplets.volume * film.ripple;
    let left: f64 = bands
        .iter()
        .map(|&(wavelength, variance)| {
            // Ripples that grow overhead are runs, told elsewhere.
            let left = levelling.left(wavelength, film.film, film.thinness).min(1.0);
            variance * left * left
        })
        .sum();
    (white * left).sqrt() * solids
}

/// Share of a droplet's mark that is left [-].
#[must_use]
pub fn dry_spray(levelling: &Levelling, film: &Levelled) -> f64 {
    levelling.left(DROPLET_MARK, film.film, film.thinness).min(1.0)
}
