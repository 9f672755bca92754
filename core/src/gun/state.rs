//! What a gun does as set: pressures, flows, and what a painter should be told.

use std::fmt;

use super::air_network::GunAir;
use super::fluid::{needle_lift, paint_flow};
use super::spec::{Class, GunSetting, Kit};
use crate::air::Jet;
use crate::constants::Constants;
use crate::error::ParameterError;
use crate::paint::Paint;

/// Highest cap pressure of an HVLP gun, 10 psi [Pa gauge] (40 CFR 63.801, Maine 06-096 ch. 153: seen).
pub const HVLP_LIMIT: f64 = 68_947.6;
/// Lowest cap pressure of the HVLP definition, 0.1 psi [Pa gauge].
const HVLP_LOWEST: f64 = 689.476;

/// Something the painter should be told about a set-up. `Display` gives the sentence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Warning {
    /// The cap is above 10 psi on a gun sold as HVLP or LVLP. Cap pressure [Pa gauge].
    OverHvlpLimit(f64),
    /// Too little air for this much paint. Annulus air over paint by mass [-].
    Flooded(f64),
    /// Droplets coarser than an air spray's. Sauter mean diameter [m].
    Coarse(f64),
    /// Trigger not pulled: neither air nor paint.
    TriggerReleased,
    /// Trigger in its first stage, or fluid knob shut: air only.
    NeedleShut,
    /// Needle open, but nothing drives the paint out.
    NoPaint,
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OverHvlpLimit(p) => {
                write!(
                    f,
                    "cap pressure {:.2} bar is above the 0.69 bar (10 psi) of HVLP: lower the inlet pressure",
                    p * 1e-5
                )
            }
            Self::Flooded(r) => write!(
                f,
                "flooded: {r:.2} kg of atomising air for 1 kg of paint is too little: raise the pressure or cut the fluid"
            ),
            Self::Coarse(d) => write!(
                f,
                "coarse: droplets of {:.0} um (Sauter mean) are larger than a gun should give: raise the pressure, thin the paint or \
                 cut the fluid",
                d * 1e6
            ),
            Self::TriggerReleased => write!(f, "trigger released: no air, no paint"),
            Self::NeedleShut => write!(f, "needle shut: air only, no paint"),
            Self::NoPaint => write!(f, "no paint flows: the air draws too little to lift it to the tip"),
        }
    }
}

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
        let valve = (setting.trigger / c.air_stage).min(1.0);
        let air = GunAir::through(kit, setting.inlet_pressure, setting.fan, valve, air_temperature);
        let flow = paint_flow(kit, setting, paint, &air.annulus, c);
        let mut state = Self {
            inlet_pressure: setting.inlet_pressure,
            axial_momentum: air.axial_momentum(kit.horn_angle),
            paint_flow: flow,
            paint_mass_flow: flow * paint.density,
            hvlp: (HVLP_LOWEST..=HVLP_LIMIT).contains(&air.cap_pressure),
            warnings: Vec::new(),
            air,
        };
        state.warn(kit, setting, c);
        Ok(state)
    }

    fn warn(&mut self, kit: &Kit, setting: &GunSetting, c: &Constants) {
        let low_pressure = matches!(kit.class, Class::Hvlp | Class::Lvlp);
        if low_pressure && self.air.cap_pressure > HVLP_LIMIT {
            self.warnings.push(Warning::OverHvlpLimit(self.air.cap_pressure));
        }
        if setting.trigger <= 0.0 {
            self.warnings.push(Warning::TriggerReleased);
        } else if needle_lift(kit, setting, c) <= 0.0 {
            self.warnings.push(Warning::NeedleShut);
        } else if self.paint_flow <= 0.0 {
            self.warnings.push(Warning::NoPaint);
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
