//! Air through the gun: inlet -> plenum -> { annulus; fan valve -> horn holes } -> room.
//!
//! Isentropic orifices with effective areas (`air::orifice`), total temperature constant, the speed behind each lost; choked
//! above a pressure ratio of 1.893. Mass balance by a bracketed root in f64. Range: inlet 0-10 bar gauge.

use super::spec::Kit;
use crate::air::{Jet, ROOM_PRESSURE, free_density, orifice};
use crate::root::falling as balance;

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
