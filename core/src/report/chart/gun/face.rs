//! What is drawn of a gun: its knobs as they are set, trigger, cup and gauge.

use crate::gun::{Feed, Kit};
use crate::job::Job;

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

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Knob::Fan => "fan knob",
            Knob::Air => "air knob",
            Knob::Fluid => "fluid knob",
        }
    }

    /// Its number in the order of setting, 1..=3.
    #[must_use]
    pub fn number(self) -> u8 {
        self as u8 + 1
    }
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
    #[must_use]
    pub fn open(&self, knob: Knob) -> f64 {
        match knob {
            Knob::Fan => self.fan,
            Knob::Air => self.air,
            Knob::Fluid => self.fluid,
        }
    }

    /// Turns of a knob from shut to open.
    #[must_use]
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

/// What the gauge at the gun must be able to show [Pa]: 1.6 times the rated pressure, never above the highest.
fn gauge_span(kit: &Kit) -> f64 {
    kit.highest_pressure.min(1.6 * kit.rated_pressure)
}

/// The gun of a job as it is drawn. A knob that the gun does not have has no turns.
#[must_use]
pub fn face_of(job: &Job) -> GunFace {
    GunFace {
        fan: job.gun.fan,
        fan_turns: if job.kit.has_fan() { job.kit.fan_turns } else { 0.0 },
        fluid: job.gun.fluid,
        fluid_turns: job.kit.fluid_turns,
        air: job.gun.air_knob,
        air_turns: job.kit.air_turns,
        stage: Stage::Paint,
        pull: job.gun.trigger,
        cup_level: job.gun.cup_level,
        pulled_bar: job.gun.inlet_pressure / 1e5,
        rest_bar: None,
        gauge_full_bar: (job.gun.inlet_pressure.max(gauge_span(&job.kit)) / 1e5).ceil().max(4.0),
        feed: job.kit.feed,
        ..GunFace::default()
    }
}
