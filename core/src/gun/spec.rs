//! A kit (gun and nozzle set) as geometry, and the knobs as set.

/// Class of gun, as the trade names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// High volume, low pressure: at most 10 psi at the cap.
    Hvlp,
    /// Reduced pressure ("compliant").
    Compliant,
    /// Low volume, low pressure.
    Lvlp,
    /// Conventional.
    Conventional,
    /// Touch-up gun.
    Touchup,
    /// Airbrush.
    Airbrush,
}

/// How the paint reaches the gun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feed {
    /// Cup on top.
    Gravity,
    /// Cup below.
    Suction,
    /// Pot with pressure.
    Pressure,
}

/// A gun with its nozzle set. Areas are effective (discharge coefficient times area).
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    /// Catalogue id, "class-feed-tip".
    pub id: String,
    /// Plain name for the screen.
    pub name: String,
    /// Class.
    pub class: Class,
    /// Feed.
    pub feed: Feed,
    /// Fluid tip bore [m], 0.2e-3..=3e-3.
    pub tip_bore: f64,
    /// Length of the bore's straight land [m].
    pub tip_land: f64,
    /// Needle cone's half angle [rad].
    pub needle_half_angle: f64,
    /// Needle travel at full opening [m].
    pub needle_travel: f64,
    /// Gun body between gauge and plenum, air knob open: effective area [m2].
    pub inlet_area: f64,
    /// Annulus round the tip: effective area [m2].
    pub annulus_area: f64,
    /// Fan valve fully open: effective area [m2].
    pub fan_valve_area: f64,
    /// All horn holes together: effective area [m2].
    pub horn_area: f64,
    /// Angle of the horn jets to the gun's axis [rad].
    pub horn_angle: f64,
    /// Height of the paint's surface over the tip, cup half full [m]; negative for suction.
    pub cup_head: f64,
    /// Cup volume [m3].
    pub cup_volume: f64,
    /// Paint that stays in the gun and cup after the last drop is sprayed [m3].
    pub residue: f64,
    /// Inlet pressure it is rated at, trigger open [Pa gauge].
    pub rated_pressure: f64,
    /// Fluid knob it is rated at, 0..=1.
    pub rated_fluid: f64,
    /// Highest inlet pressure [Pa gauge].
    pub highest_pressure: f64,
    /// Fan knob: turns from shut to open.
    pub fan_turns: f64,
    /// Fluid knob: turns from shut to open.
    pub fluid_turns: f64,
}

/// The knobs and the air as set.
#[derive(Debug, Clone, PartialEq)]
pub struct GunSetting {
    /// Pressure at the gun's inlet, trigger open [Pa gauge].
    pub inlet_pressure: f64,
    /// Fan knob, 0 shut..=1 open.
    pub fan: f64,
    /// Fluid knob (the trigger's stop), 0 shut..=1 open.
    pub fluid: f64,
    /// Trigger pull, 0..=1.
    pub trigger: f64,
}
