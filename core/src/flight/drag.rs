//! Drag of a sphere: Schiller and Naumann 1933, Cd = (24/Re)(1 + 0.15 Re^0.687), Re below 800 (from memory; within
//! 5 % of Clift, Grace and Weber 1978 up to Re 300).

use crate::lanes::Lanes;

/// 1 + 0.15 Re^0.687: drag over Stokes drag [-].
#[inline(always)]
pub fn drag_factor<L: Lanes>(reynolds: L) -> L {
    drag_factor_of_square(reynolds * reynolds)
}

/// The same from Re^2: the flight has squares, and saves the root.
#[inline(always)]
pub fn drag_factor_of_square<L: Lanes>(reynolds2: L) -> L {
    let re2 = reynolds2.max(reynolds2.lit(1e-12));
    re2.lit(1.0) + re2.lit(0.15) * re2.pow(0.5 * 0.687)
}

/// Stokes relaxation time rho d^2 / (18 mu) [s]; density [kg/m3], diameter [m], air viscosity [Pa s].
#[must_use]
pub fn relaxation_time(density: f64, diameter: f64, air_viscosity: f64) -> f64 {
    density * diameter * diameter / (18.0 * air_viscosity)
}
