//! A coupling, or a regulator's way through: ISO 6358.
//!
//! Mass flow m = rho_ANR C p1 sqrt(T0/T1) k, k = 1 where p2/p1 <= b (choked), else sqrt(1 - ((p2/p1 - b)/(1 - b))^2);
//! C in m3/(s Pa) of ANR air, pressures absolute, T0 = 293.15 K. Source: ISO 6358 (from memory, the widely used form).
//! Passages in a row are marched by pressure; the standard's rule of cubes is an approximation of that.

use super::reference::ANR_DENSITY;
use crate::air::TWENTY_C;

/// Sonic conductance and critical pressure ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passage {
    /// Sonic conductance C [m3/(s Pa), ANR]; 1 dm3/(s bar) = 1e-8.
    pub conductance: f64,
    /// Critical pressure ratio b, 0..1.
    pub critical: f64,
}

/// One dm3/(s bar) in SI.
pub const DM3_PER_S_BAR: f64 = 1e-8;

impl Passage {
    /// Most mass flow [kg/s] from a pressure [Pa, absolute] and temperature [K]: choked.
    #[must_use]
    pub fn choked(&self, upstream: f64, temperature: f64) -> f64 {
        ANR_DENSITY * self.conductance * upstream * (TWENTY_C / temperature).sqrt()
    }

    /// Mass flow [kg/s] between two pressures [Pa, absolute]; 0 when there is no drop.
    #[must_use]
    pub fn flow(&self, upstream: f64, downstream: f64, temperature: f64) -> f64 {
        if downstream >= upstream {
            return 0.0;
        }
        let over = ((downstream / upstream - self.critical) / (1.0 - self.critical)).max(0.0);
        self.choked(upstream, temperature) * (1.0 - over * over).sqrt()
    }

    /// Pressure behind [Pa, absolute] at a mass flow [kg/s]; none when it is more than passes.
    #[must_use]
    pub fn outlet(&self, upstream: f64, mass_flow: f64, temperature: f64) -> Option<f64> {
        let share = mass_flow / self.choked(upstream, temperature);
        (share <= 1.0).then(|| {
            let over = (1.0 - share * share).max(0.0).sqrt();
            upstream * (self.critical + (1.0 - self.critical) * over)
        })
    }

    /// Pressure that must be in front [Pa, absolute] for a mass flow [kg/s] at a pressure behind.
    ///
    /// ((p2/p1 - b)/(1 - b))^2 + (m/(c p1))^2 = 1 is a quadratic in 1/p1.
    #[must_use]
    pub fn inlet(&self, downstream: f64, mass_flow: f64, temperature: f64) -> f64 {
        let b = self.critical;
        // Pressure in front that just passes the flow, choked.
        let sonic = mass_flow / self.choked(1.0, temperature);
        if downstream <= b * sonic {
            return sonic;
        }
        // (a x - lost)^2 + (sonic x)^2 = 1 with x = 1/p1; the larger root is the pressure next above the one behind.
        let (a, lost) = (downstream / (1.0 - b), b / (1.0 - b));
        let (qa, qb, qc) = (a * a + sonic * sonic, a * lost, lost * lost - 1.0);
        qa / (qb + (qb * qb - qa * qc).max(0.0).sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        for (c, b) in [(2.0, 0.35), (6.0, 0.2), (0.5, 0.5)] {
            let p = Passage { conductance: c * DM3_PER_S_BAR, critical: b };
            for behind in [1.0e5, 3.0e5, 5.9e5, 6.4e5] {
                let flow = p.flow(6.5e5, behind, 290.0);
                let (outlet, inlet) = (p.outlet(6.5e5, flow, 290.0).unwrap(), p.inlet(behind, flow, 290.0));
                assert!((inlet / 6.5e5 - 1.0).abs() < 1e-9, "{c} {b} {behind}: {inlet}");
                // Choked, the pressure behind is the critical one at most.
                assert!((outlet / behind.max(6.5e5 * b) - 1.0).abs() < 1e-6, "{c} {b} {behind}: {outlet}");
            }
            assert_eq!(p.outlet(6.5e5, 1.001 * p.choked(6.5e5, 290.0), 290.0), None);
            assert!((p.inlet(3e5, 0.0, 290.0) - 3e5).abs() < 1e-6);
        }
    }
}
