//! How ripples of a wet film level out: Orchard, Appl. Sci. Res. A11 (1962) 451 (from memory; thin limit checked by computation).
//!
//! A ripple of wavelength lambda falls as exp(-t/tau), k = 2 pi/lambda, x = k h:
//! 1/tau = (sigma k^2 + rho g_n)/(2 mu k) (sinh x cosh x - x)/(cosh^2 x + x^2). Where the viscosity rises, t/mu is the integral of dt/mu.
//! Thin film, x much below 1: tau = 3 mu lambda^4/(16 pi^4 sigma h^3).

use crate::math::{cosh, exp, sinh};
use core::f64::consts::TAU;

/// What drives levelling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levelling {
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Density times gravity into the face [N/m3]: above 0 on a face that looks up, 0 upright, below 0 overhead.
    pub press: f64,
}

/// (sinh x cosh x - x)/(cosh^2 x + x^2), x at least 0.
#[must_use]
pub fn thickness_factor(x: f64) -> f64 {
    if x > 18.0 {
        return 1.0;
    }
    if x < 0.03 {
        // Next terms of both series: below 1e-6.
        return x * x * x * (2.0 / 3.0 + 2.0 / 15.0 * x * x) / (1.0 + 2.0 * x * x);
    }
    let c = cosh(x);
    (sinh(x) * c - x) / (c * c + x * x)
}

impl Levelling {
    /// Viscosity over time constant, mu/tau [Pa], of a wavelength [m] on a film [m]; below 0 where the ripple grows.
    #[must_use]
    pub fn stress(&self, wavelength: f64, film: f64) -> f64 {
        let k = TAU / wavelength;
        (self.surface_tension * k * k + self.press) / (2.0 * k) * thickness_factor(k * film)
    }

    /// Time constant [s] at a viscosity [Pa s]; below 0 where the ripple grows.
    #[must_use]
    pub fn time(&self, wavelength: f64, film: f64, viscosity: f64) -> f64 {
        viscosity / self.stress(wavelength, film)
    }

    /// Share of an amplitude that is left after `thinness` = integral of dt/mu [1/Pa]; above 1 where the ripple grows.
    #[must_use]
    pub fn left(&self, wavelength: f64, film: f64, thinness: f64) -> f64 {
        exp((-self.stress(wavelength, film) * thinness).min(40.0))
    }

    /// Growth [-] of the ripple that grows fastest on the underside of a film, as the exponent of e, after `thinness` [1/Pa]: thin
    /// film, rate press^2 h^3/(12 mu sigma); 0 where gravity presses the film on.
    #[must_use]
    pub fn hanging(&self, film: f64, thinness: f64) -> f64 {
        if self.press >= 0.0 {
            return 0.0;
        }
        self.press * self.press * film * film * film / (12.0 * self.surface_tension) * thinness
    }
}
