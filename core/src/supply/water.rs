//! Water in the air line.
//!
//! Air keeps its vapour as it is pressed and lets go of what is above saturation once it has cooled. Per kg of dry air
//! 0.622 e/(p - e) kg of water, e the vapour's pressure; saturation by Magnus (`air::water_saturation`, 0.3 %). Ideal
//! mixture: at 10 bar real air holds 3 % more (from memory).

use crate::air::{GAS_CONSTANT, ROOM_PRESSURE, water_saturation};

/// Molar mass of water over that of air [-].
const MASS_RATIO: f64 = 0.622;
/// Density of water [kg/m3].
const WATER: f64 = 998.0;

/// Places that the air passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterPath {
    /// Room the compressor draws from [K].
    pub intake_temperature: f64,
    /// Its relative humidity, 0..=1.
    pub intake_humidity: f64,
    /// Air in the tank [K].
    pub tank_temperature: f64,
    /// Tank [Pa absolute].
    pub tank_pressure: f64,
    /// Air in the hose [K].
    pub line_temperature: f64,
    /// Behind the wall regulator [Pa absolute].
    pub line_pressure: f64,
}

/// Liquid water that falls out [m3/s].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Water {
    /// In the tank: comes out of its drain.
    pub tank: f64,
    /// Behind the tank: into separator, hose and gun.
    pub line: f64,
}

/// Water per kg of dry air [kg/kg] at saturation, and none more than that.
fn saturated(pressure: f64, temperature: f64) -> f64 {
    let e = water_saturation(temperature);
    // Boiling: everything stays vapour.
    if e >= pressure { f64::MAX } else { MASS_RATIO * e / (pressure - e) }
}

impl WaterPath {
    /// Water that falls out of a flow [m3/s of free air].
    #[must_use]
    pub fn water(&self, free_air: f64) -> Water {
        let e = (self.intake_humidity * water_saturation(self.intake_temperature)).min(0.5 * ROOM_PRESSURE);
        let taken_in = MASS_RATIO * e / (ROOM_PRESSURE - e);
        let after_tank = taken_in.min(saturated(self.tank_pressure, self.tank_temperature));
        let after_line = after_tank.min(saturated(self.line_pressure, self.line_temperature));
        let dry_air = free_air * ROOM_PRESSURE / (GAS_CONSTANT * crate::air::TWENTY_C);
        Water {
            tank: dry_air * (taken_in - after_tank) / WATER,
            line: dry_air * (after_tank - after_line) / WATER,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path() -> WaterPath {
        WaterPath {
            intake_temperature: 293.15,
            intake_humidity: 0.6,
            tank_temperature: 308.15,
            tank_pressure: 8e5,
            line_temperature: 293.15,
            line_pressure: 5e5,
        }
    }

    #[test]
    fn by_hand() {
        // 20 C, 60 %: 1404 Pa, so 0.622 x 1404 / 99921 = 8.74 g/kg. Tank 8 bar, 35 C: 5620 Pa, 4.40 g/kg. Line 5 bar,
        // 20 C: 2339 Pa, 2.92 g/kg. 300 L/min are 21.67 kg/h: 94 mL/h in the tank, 32 mL/h behind it.
        let water = path().water(0.3 / 60.0);
        assert!((water.tank * 3.6e9 - 94.0).abs() < 1.0, "{}", water.tank * 3.6e9);
        assert!((water.line * 3.6e9 - 32.0).abs() < 1.0, "{}", water.line * 3.6e9);
    }

    #[test]
    fn dry_or_warm_air_leaves_none() {
        assert_eq!(WaterPath { intake_humidity: 0.0, ..path() }.water(0.01), Water::default());
        let warm = WaterPath { line_temperature: 330.0, ..path() };
        assert_eq!(warm.water(0.01).line, 0.0);
        let boiling = WaterPath { tank_temperature: 450.0, line_temperature: 450.0, ..path() };
        assert_eq!(boiling.water(0.01), Water::default());
    }
}
