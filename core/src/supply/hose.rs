//! Air through a hose: isothermal flow of an ideal gas with friction.
//!
//! ```text
//! m^2 = A^2 (p1^2 - p2^2) / (R T (f L/D + 2 ln(p1/p2)))          chokes where d m / d p2 = 0
//! ```
//!
//! Reynolds number 4 m/(pi D mu) and so the friction factor f are the same all along. f: 64/Re to Re 2040; Colebrook's
//! equation from 4000 on; between the two a straight line in Re (ours: the standard jump there is no law of nature).
//! Wall: 1.5 um, drawn smooth (an aged or woven lining of 10 um costs a fifth more, computed). Sources: textbook gas
//! dynamics; Colebrook 1939. Bends and curl are not counted; sockets and tails are, as couplings.

use crate::air::{GAS_CONSTANT, viscosity};
use crate::error::{ParameterError, within};
use crate::math::ln;
use crate::root;
use core::f64::consts::PI;

/// Roughness of the wall [m].
pub const ROUGHNESS: f64 = 1.5e-6;
/// Reynolds number up to which the flow is laminar.
const LAMINAR: f64 = 2040.0;
/// Reynolds number from which it is turbulent.
const TURBULENT: f64 = 4000.0;

/// A hose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hose {
    /// Inner diameter [m].
    pub bore: f64,
    /// Length [m].
    pub length: f64,
}

/// Darcy's friction factor of a smooth-drawn pipe at a Reynolds number and a relative roughness.
#[must_use]
pub fn friction_factor(reynolds: f64, roughness: f64) -> f64 {
    let laminar = |re: f64| 64.0 / re.max(1e-9);
    if reynolds <= LAMINAR {
        laminar(reynolds)
    } else if reynolds >= TURBULENT {
        colebrook(reynolds, roughness)
    } else {
        let share = (reynolds - LAMINAR) / (TURBULENT - LAMINAR);
        laminar(LAMINAR) + share * (colebrook(TURBULENT, roughness) - laminar(LAMINAR))
    }
}

/// Colebrook: 1/sqrt f = -2 log10(e/3.7 + 2.51/(Re sqrt f)), by Newton's steps in 1/sqrt f.
fn colebrook(reynolds: f64, roughness: f64) -> f64 {
    let log10 = |x: f64| ln(x) / core::f64::consts::LN_10;
    let (a, b) = (roughness / 3.7, 2.51 / reynolds);
    let mut x = 6.0;
    for _ in 0..30 {
        let inside = a + b * x;
        let step = (x + 2.0 * log10(inside)) / (1.0 + 2.0 * b / (inside * core::f64::consts::LN_10));
        x -= step;
        if step.abs() < 1e-14 * x {
            break;
        }
    }
    1.0 / (x * x)
}

impl Hose {
    /// Checks bore and length.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        within("supply.hose.bore", self.bore * 1e3, 2.0, 50.0, "mm")?;
        within("supply.hose.length", self.length, 0.1, 200.0, "m")?;
        Ok(())
    }

    /// f L/D at a mass flow [kg/s].
    fn friction(&self, mass_flow: f64, temperature: f64) -> f64 {
        let reynolds = 4.0 * mass_flow / (PI * self.bore * viscosity(temperature));
        friction_factor(reynolds, ROUGHNESS / self.bore) * self.length / self.bore
    }

    /// R T (m/A)^2 [Pa2].
    fn flux_squared(&self, mass_flow: f64, temperature: f64) -> f64 {
        let flux = mass_flow / (0.25 * PI * self.bore * self.bore);
        GAS_CONSTANT * temperature * flux * flux
    }

    /// Pressure at the far end [Pa, absolute] for a mass flow [kg/s]; none when the hose chokes before.
    ///
    /// The far end cannot fall below G sqrt(R T), where the isothermal flow reaches its largest.
    #[must_use]
    pub fn outlet(&self, upstream: f64, mass_flow: f64, temperature: f64) -> Option<f64> {
        if mass_flow <= 0.0 {
            return Some(upstream);
        }
        let flux = self.flux_squared(mass_flow, temperature);
        let friction = self.friction(mass_flow, temperature);
        // In z = (p2/p1)^2: what pressure gives less what friction and speed take, falling in z above the choke.
        let scale = flux / (upstream * upstream);
        let spare = |z: f64| (1.0 - z) / scale - friction + ln(z);
        if scale >= 1.0 || spare(scale) < 0.0 {
            return None;
        }
        Some(upstream * root::falling(scale, 1.0, spare).sqrt())
    }

    /// Pressure that must be at the near end [Pa, absolute] for a mass flow [kg/s] and a pressure at the far end. Where
    /// the far end is below the choke's pressure, the near end is that of the choked hose.
    #[must_use]
    pub fn inlet(&self, downstream: f64, mass_flow: f64, temperature: f64) -> f64 {
        if mass_flow <= 0.0 {
            return downstream;
        }
        let flux = self.flux_squared(mass_flow, temperature);
        let friction = self.friction(mass_flow, temperature);
        let end = (downstream * downstream).max(flux);
        // In y = (p1/p2)^2 the sum needed rises: y - 1 = scale (friction + ln y); ln y <= y - 1 bounds it.
        let scale = flux / end;
        let lacking = |y: f64| scale * (friction + ln(y)) - (y - 1.0);
        let mut high = 1.0 + 2.0 * scale * friction + 1e-9;
        while lacking(high) > 0.0 {
            high *= 2.0;
        }
        (end * root::falling(1.0, high, lacking)).sqrt()
    }

    /// Mass flow [kg/s] at which the hose chokes at a pressure at its near end [Pa, absolute].
    #[must_use]
    pub fn choke(&self, upstream: f64, temperature: f64) -> f64 {
        // No hose passes more than the flux whose own pressure is the whole.
        let most = 0.25 * PI * self.bore * self.bore * upstream / (GAS_CONSTANT * temperature).sqrt();
        root::falling(1e-9 * most, most, |m| {
            let z = self.flux_squared(m, temperature) / (upstream * upstream);
            1.0 / z - 1.0 + ln(z) - self.friction(m, temperature)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::{TWENTY_C, free_density};

    #[test]
    fn there_and_back_and_up_to_the_choke() {
        for (bore, length) in [(0.004, 20.0), (0.008, 10.0), (0.013, 3.0)] {
            let hose = Hose { bore, length };
            let choke = hose.choke(6e5, TWENTY_C);
            for share in [0.001, 0.02, 0.3, 0.8, 0.999] {
                let out = hose.outlet(6e5, share * choke, TWENTY_C).expect("below the choke");
                let back = hose.inlet(out, share * choke, TWENTY_C);
                assert!((back / 6e5 - 1.0).abs() < 1e-9, "{bore} {length} {share}: {out} {back}");
            }
            assert_eq!(hose.outlet(6e5, 1.001 * choke, TWENTY_C), None);
        }
    }

    #[test]
    fn friction_is_continuous_and_flow_always_costs_more() {
        let hose = Hose { bore: 0.008, length: 10.0 };
        let mut last = 6e5;
        for l_min in 1..400 {
            let out = hose.outlet(6e5, f64::from(l_min) / 60_000.0 * free_density(), TWENTY_C).unwrap();
            assert!(out < last, "{l_min}");
            last = out;
        }
        for re in [LAMINAR, TURBULENT] {
            let (a, b) = (friction_factor(re * (1.0 - 1e-9), 1e-4), friction_factor(re * (1.0 + 1e-9), 1e-4));
            assert!((a / b - 1.0).abs() < 1e-6);
        }
    }
}
