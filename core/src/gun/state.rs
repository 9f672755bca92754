//! What a gun does as set: pressures, flows, and what a painter should be told.

use super::air_network::GunAir;
use super::class::Class;
use super::delivered::delivered;
use super::fluid::{drive, flow_under, needle_lift, thin_flow};
use super::spec::{GunSetting, Kit};
use super::warning::Warning;
use crate::air::Jet;
use crate::constants::Constants;
use crate::error::ParameterError;
use crate::paint::Paint;

/// Highest cap pressure of an HVLP gun, 10 psi [Pa gauge] (40 CFR 63.801, Maine 06-096 ch. 153: seen).
pub const HVLP_LIMIT: f64 = 68_947.6;
/// Lowest cap pressure of the HVLP definition, 0.1 psi [Pa gauge].
const HVLP_LOWEST: f64 = 689.476;

/// Share of what thin liquid would flow through the bore below which a paint counts as too thick for it, needle open. Ours: 1.3 mm
/// and two-pack clear have 0.9, an airbrush of 0.2 mm with it 0.3.
const THICK_SHARE: f64 = 0.1;

/// A gun as set, with its paint. All SI; the methods give the units of the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// Inlet pressure, trigger open [Pa gauge].
    pub inlet_pressure: f64,
    /// Air flows and cap pressures.
    pub air: GunAir,
    /// Axial momentum flux of all air [N].
    pub axial_momentum: f64,
    /// Paint flow [m3/s].
    pub paint_flow: f64,
    /// Paint flow [kg/s].
    pub paint_mass_flow: f64,
    /// Cap pressure is inside the HVLP definition, 0.1-10 psi.
    pub hvlp: bool,
    /// Share of the time that air fills the bore [-]: 0 but for a fault of passage or packing.
    pub air_in_paint: f64,
    /// What to tell the painter.
    pub warnings: Vec<Warning>,
}

impl State {
    /// A kit as set, with this paint, in air of a temperature [K].
    ///
    /// # Errors
    /// A kit, setting or paint with a value out of range: the first one found.
    pub fn new(
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        air_temperature: f64,
        c: &Constants,
    ) -> Result<Self, ParameterError> {
        kit.check()?;
        setting.check(kit)?;
        paint.check()?;
        crate::error::within("booth.temperature", air_temperature - 273.15, -10.0, 60.0, "C")?;
        let opening = setting.inlet_opening(c.air_stage);
        let kit = &setting.faults.leave(kit);
        let air = GunAir::through(kit, setting.inlet_pressure, setting.fan, opening, air_temperature);
        let paint_out = delivered(kit, setting, paint, &air.annulus, c);
        let flow = paint_out.flow;
        let mut state = Self {
            inlet_pressure: setting.inlet_pressure,
            axial_momentum: air.axial_momentum(kit.horn_angle),
            paint_flow: flow,
            paint_mass_flow: flow * paint.density,
            hvlp: (HVLP_LOWEST..=HVLP_LIMIT).contains(&air.cap_pressure),
            air_in_paint: paint_out.air,
            warnings: Vec::new(),
            air,
        };
        state.warn(kit, setting, paint, c);
        state.warnings.extend(paint_out.told);
        Ok(state)
    }

    fn warn(&mut self, kit: &Kit, setting: &GunSetting, paint: &Paint, c: &Constants) {
        let low_pressure = matches!(kit.class, Class::Hvlp | Class::Lvlp);
        if low_pressure && self.air.cap_pressure > HVLP_LIMIT {
            self.warnings.push(Warning::OverHvlpLimit(self.air.cap_pressure));
        }
        if setting.trigger <= 0.0 {
            self.warnings.push(Warning::TriggerReleased);
            return;
        }
        if setting.air_knob <= 0.0 {
            self.warnings.push(Warning::AirShut);
        }
        if needle_lift(kit, setting, c) <= 0.0 {
            self.warnings.push(Warning::NeedleShut);
        } else if kit.usable(setting.cup_level) <= 0.0 {
            self.warnings.push(Warning::CupDry);
        } else if self.paint_flow <= 0.0 {
            self.warnings.push(Warning::NoPaint);
        } else {
            let drive = drive(kit, setting, paint, &self.air.annulus, c);
            let open = GunSetting { fluid: 1.0, trigger: 1.0, ..setting.clone() };
            if flow_under(drive, kit, &open, paint, c) < THICK_SHARE * thin_flow(drive, kit, paint, c) {
                self.warnings.push(Warning::TooThick(self.paint_flow));
            }
        }
        if let Some(ratio) = self.air_liquid_ratio()
            && ratio < c.flooded_ratio
        {
            self.warnings.push(Warning::Flooded(ratio));
        }
    }

    /// Air round the tip.
    #[must_use]
    pub fn annulus(&self) -> &Jet {
        &self.air.annulus
    }

    /// Inlet pressure [bar gauge].
    #[must_use]
    pub fn inlet_bar(&self) -> f64 {
        self.inlet_pressure * 1e-5
    }

    /// Cap pressure [bar gauge].
    #[must_use]
    pub fn cap_bar(&self) -> f64 {
        self.air.cap_pressure * 1e-5
    }

    /// Free air, 20 C and 1.01325 bar [L/min].
    #[must_use]
    pub fn free_air_l_min(&self) -> f64 {
        self.air.free_air() * 60_000.0
    }

    /// Paint flow [mL/min].
    #[must_use]
    pub fn fluid_ml_min(&self) -> f64 {
        self.paint_flow * 6e7
    }

    /// Annulus air over paint, by mass [-]; none when no paint flows.
    #[must_use]
    pub fn air_liquid_ratio(&self) -> Option<f64> {
        (self.paint_mass_flow > 0.0).then(|| self.air.annulus.mass_flow / self.paint_mass_flow)
    }
}
