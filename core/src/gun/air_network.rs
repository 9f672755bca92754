//! Air through the gun: inlet -> plenum -> { annulus; fan valve -> horn holes } -> room.
//!
//! Isentropic orifices with effective areas (`air::orifice`), total temperature constant, the speed behind each lost; choked
//! above a pressure ratio of 1.893. Mass balance by a bracketed root in f64. Range: inlet 0-10 bar gauge.

use super::spec::Kit;
use crate::air::{Jet, ROOM_PRESSURE, free_density, orifice};

/// Steps at most: a third of them halve the interval, which brings it below 1e-13 of the pressure.
const STEPS: usize = 150;

/// Air flowing through a gun. All SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GunAir {
    /// Pressure in the air cap, behind the annulus [Pa gauge].
    pub cap_pressure: f64,
    /// Pressure behind the horn holes [Pa gauge].
    pub horn_pressure: f64,
    /// Air round the tip.
    pub annulus: Jet,
    /// Air of all horn holes together.
    pub horns: Jet,
}

impl GunAir {
    /// Air of a kit at an inlet pressure [Pa gauge], fan knob 0..=1, air valve 0..=1 (1 once the trigger's first stage is
    /// pulled) and total temperature [K].
    #[must_use]
    pub fn through(kit: &Kit, inlet_pressure: f64, fan: f64, valve: f64, temperature: f64) -> Self {
        let inlet = ROOM_PRESSURE + inlet_pressure;
        let fan_area = kit.fan_valve_area * fan;
        let horn_pressure = |cap: f64| {
            balance(ROOM_PRESSURE, cap, |p| {
                orifice(fan_area, cap, p, temperature) - orifice(kit.horn_area, p, ROOM_PRESSURE, temperature)
            })
        };
        let cap = balance(ROOM_PRESSURE, inlet, |cap| {
            let out = orifice(kit.annulus_area, cap, ROOM_PRESSURE, temperature)
                + orifice(kit.horn_area, horn_pressure(cap), ROOM_PRESSURE, temperature);
            orifice(kit.inlet_area * valve, inlet, cap, temperature) - out
        });
        let horn = horn_pressure(cap);
        Self {
            cap_pressure: cap - ROOM_PRESSURE,
            horn_pressure: horn - ROOM_PRESSURE,
            annulus: Jet::through(kit.annulus_area, cap, temperature, ROOM_PRESSURE),
            horns: Jet::through(kit.horn_area, horn, temperature, ROOM_PRESSURE),
        }
    }

    /// Free air, 20 C and 1.01325 bar [m3/s].
    #[must_use]
    pub fn free_air(&self) -> f64 {
        (self.annulus.mass_flow + self.horns.mass_flow) / free_density()
    }

    /// Axial momentum of annulus and horns [N], horn jets at `horn_angle` [rad].
    #[must_use]
    pub fn axial_momentum(&self, horn_angle: f64) -> f64 {
        self.annulus.momentum() + self.horns.momentum() * crate::math::cos(horn_angle)
    }
}

/// The pressure in `low..=high` at which `surplus`, falling with pressure, is zero.
///
/// False position (Illinois), every third step a halving so that the interval closes however bent the curve is.
fn balance(low: f64, high: f64, surplus: impl Fn(f64) -> f64) -> f64 {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (surplus(a), surplus(b));
    if fa <= 0.0 {
        return a;
    }
    if fb >= 0.0 {
        return b;
    }
    let mut last_side = 0;
    for i in 0..STEPS {
        if b - a < 1e-13 * b {
            break;
        }
        let halving = i % 3 == 2;
        let p = if halving { 0.5 * (a + b) } else { (a * fb - b * fa) / (fb - fa) };
        let f = surplus(p);
        let side = if f > 0.0 { 1 } else { -1 };
        if side > 0 {
            (a, fa) = (p, f);
            if last_side > 0 {
                fb *= 0.5;
            }
        } else {
            (b, fb) = (p, f);
            if last_side < 0 {
                fa *= 0.5;
            }
        }
        last_side = if halving { 0 } else { side };
    }
    0.5 * (a + b)
}
