//! The gun as it is drawn.

/// The three knobs, in the order in which they are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Knob {
    /// 1: air to the horns.
    Fan,
    /// 2: throttle at the foot of the handle, behind the gauge.
    Air,
    /// 3: the stop for the trigger.
    Fluid,
}

impl Knob {
    /// All three, in the order of setting.
    pub const ALL: [Knob; 3] = [Knob::Fan, Knob::Air, Knob::Fluid];

    /// Its number in the order of setting, 1..=3.
    pub fn number(self) -> u8 {
        self as u8 + 1
    }
}

/// How the paint reaches the gun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feed {
    /// Cup on top.
    Gravity,
    /// Cup below.
    Suction,
    /// Pot under pressure, by a second hose.
    Pressure,
}

/// The trigger's stages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Let go.
    Rest,
    /// Air only.
    Air,
    /// Pulled on, paint runs.
    Paint,
}

/// One gun as set, for the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GunFace {
    /// Fan knob, 0 shut ..= 1 open.
    pub fan: f64,
    /// Fan knob: turns from shut to open; 0 where the gun has none.
    pub fan_turns: f64,
    /// Fluid knob (the trigger's stop), 0 shut ..= 1 open.
    pub fluid: f64,
    /// Fluid knob: turns from shut to open.
    pub fluid_turns: f64,
    /// Air knob, 0 shut ..= 1 open.
    pub air: f64,
    /// Air knob: turns from shut to open; 0 where the gun has none.
    pub air_turns: f64,
    /// Trigger's stage.
    pub stage: Stage,
    /// Trigger pull in the paint stage, 0..=1 of the needle's whole travel.
    pub pull: f64,
    /// Paint in the cup, share of its volume, 0..=1.
    pub cup_level: f64,
    /// Gauge pressure at the inlet with the trigger pulled [bar].
    pub pulled_bar: f64,
    /// The same at rest [bar], where the supply is known.
    pub rest_bar: Option<f64>,
    /// End of the gauge's scale [bar].
    pub gauge_full_bar: f64,
    /// Air cap: eighths of a turn from the upright fan (horns left and right).
    pub cap_eighths: u8,
    /// How the paint reaches the gun.
    pub feed: Feed,
    /// Drawn for the left hand.
    pub mirror: bool,
    /// The knob in hand.
    pub in_hand: Option<Knob>,
}

impl GunFace {
    /// Opening of a knob, 0..=1.
    pub fn open(&self, knob: Knob) -> f64 {
        match knob {
            Knob::Fan => self.fan,
            Knob::Air => self.air,
            Knob::Fluid => self.fluid,
        }
    }

    /// Turns of a knob from shut to open.
    pub fn turns(&self, knob: Knob) -> f64 {
        match knob {
            Knob::Fan => self.fan_turns,
            Knob::Air => self.air_turns,
            Knob::Fluid => self.fluid_turns,
        }
    }
}

impl Default for GunFace {
    /// A gravity gun with everything shut, an empty cup and the trigger let go.
    fn default() -> Self {
        Self {
            fan: 0.0,
            fan_turns: 3.0,
            fluid: 0.0,
            fluid_turns: 2.25,
            air: 0.0,
            air_turns: 3.0,
            stage: Stage::Rest,
            pull: 1.0,
            cup_level: 0.0,
            pulled_bar: 0.0,
            rest_bar: None,
            gauge_full_bar: 6.0,
            cap_eighths: 0,
            feed: Feed::Gravity,
            mirror: false,
            in_hand: None,
        }
    }
}
