//! What a painter can turn, and by which steps.

use serde::{Deserialize, Serialize};

use super::HAND;
use crate::gun::Class;
use crate::job::{FanAxis, Job};
use crate::paint::ThinnerSpeed;
use crate::stroke::Hand;

/// One thing that can be turned, with its key in the job file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lever {
    /// Gun speed [m/s].
    Speed,
    /// Overlap of the passes [-].
    Overlap,
    /// Trigger on past each edge [m].
    Lead,
    /// Passes from so many sides of a tube.
    Sides,
    /// Fan across a tube (0) or along it (1).
    Axis,
    /// Gun to part [m].
    Distance,
    /// Fan knob [turns out].
    Fan,
    /// Fluid knob [turns out].
    Fluid,
    /// Air knob [turns out].
    AirKnob,
    /// Inlet pressure [Pa gauge].
    Pressure,
    /// Thinner [share of what the job counts it on].
    Thinning,
    /// Speed of the thinner, 0 fast to 2 slow.
    Thinner,
    /// Coats.
    Coats,
    /// Faults of the gun.
    Faults,
    /// The hand: 0 a machine's, 1 steady, 2 less steady than that.
    Hand,
}

/// Distances at which guns of a class are held [m]. 150 to 250 mm: common practice of full-size guns (TM 1-1500-344-23-2, 2009,
/// seen); the small ones: common practice, no source.
fn distances(class: Class) -> [f64; 2] {
    match class {
        Class::Airbrush => [0.05, 0.15],
        Class::Touchup => [0.10, 0.20],
        _ => [0.15, 0.25],
    }
}

/// Overlaps that are used [-]: less leaves stripes, more is a pass for nothing. Common practice.
pub const OVERLAPS: [f64; 2] = [0.1, 0.75];
/// How far past an edge the trigger is on [m]: nearer no hand is sure of it, farther is waste. Ours.
const LEADS: [f64; 2] = [0.03, 0.15];
/// Lowest inlet pressure over the rated one [-]. Ours, as in a comparison of kits.
const LOWEST: f64 = 0.5;
/// Most thinner that is tried [-]. Ours: more is outside every data sheet known to us.
const THINNEST: f64 = 0.5;
/// Steps of a distance [m].
const DISTANCES: [f64; 6] = [0.01, 0.02, 0.035, 0.05, 0.075, 0.1];
/// Steps of a knob [eighths of a turn].
const EIGHTHS: [f64; 9] = [1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 16.0, 22.0];
/// Steps of the pressure [Pa].
const PRESSURES: [f64; 6] = [0.1e5, 0.2e5, 0.35e5, 0.5e5, 0.8e5, 1.2e5];
/// Key and word of the steady hand.
const STEADY: (&str, &str) = ("stroke.hand", "steady");
/// Factors of the speed.
const SPEEDS: [f64; 9] = [1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.4, 3.0, 4.0];

impl Lever {
    /// All.
    pub const ALL: [Self; 15] = [
        Self::Speed,
        Self::Overlap,
        Self::Lead,
        Self::Sides,
        Self::Axis,
        Self::Distance,
        Self::Fan,
        Self::Fluid,
        Self::AirKnob,
        Self::Pressure,
        Self::Thinning,
        Self::Thinner,
        Self::Coats,
        Self::Faults,
        Self::Hand,
    ];

    /// Its key in the job file.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Speed => "stroke.speed",
            Self::Overlap => "stroke.overlap",
            Self::Lead => "stroke.lead",
            Self::Sides => "stroke.sides",
            Self::Axis => "stroke.fan_axis",
            Self::Distance => "stroke.distance",
            Self::Fan => "gun.fan",
            Self::Fluid => "gun.fluid",
            Self::AirKnob => "gun.air_knob",
            Self::Pressure => "gun.inlet_pressure",
            Self::Thinning => "paint.thinning",
            Self::Thinner => "paint.thinner",
            Self::Coats => "stroke.coats",
            Self::Faults => "gun.faults",
            Self::Hand => STEADY.0,
        }
    }

    /// It is a habit of the hand: gun and paint stay as they are.
    #[must_use]
    pub fn of_the_stroke(self) -> bool {
        matches!(self, Self::Speed | Self::Overlap | Self::Lead | Self::Sides | Self::Coats)
    }

    /// How it stands in a job, in the lever's own unit.
    #[must_use]
    pub fn now(self, job: &Job) -> f64 {
        let (gun, stroke) = (&job.gun, &job.stroke);
        match self {
            Self::Speed => stroke.speed,
            Self::Overlap => stroke.overlap,
            Self::Lead => stroke.lead,
            Self::Sides => f64::from(stroke.sides.max(1)),
            Self::Axis => f64::from(u8::from(stroke.fan_axis == FanAxis::Along)),
            Self::Distance => stroke.distance,
            Self::Fan => gun.fan * job.kit.fan_turns,
            Self::Fluid => gun.fluid * job.kit.fluid_turns,
            Self::AirKnob => gun.air_knob * job.kit.air_turns,
            Self::Pressure => gun.inlet_pressure,
            Self::Thinning => job.mix.thinning,
            Self::Thinner => {
                let word = crate::job::as_written(&job.text, self.key()).ok().flatten();
                let speed = word.and_then(|w| ThinnerSpeed::of(&w)).unwrap_or_default();
                ThinnerSpeed::ALL.iter().position(|s| *s == speed).unwrap_or(1) as f64
            }
            Self::Coats => f64::from(stroke.coats),
            Self::Faults => gun.faults.iter().count() as f64,
            Self::Hand if stroke.hand == Hand::default() => 0.0,
            Self::Hand if Hand::named(STEADY.1) == Some(stroke.hand) => 1.0,
            Self::Hand => 2.0,
        }
    }

    /// Whether a job has it at all.
    fn is_there(self, job: &Job) -> bool {
        let tube = job.part.is_of_tubes();
        // A hand's recorded track goes where it went.
        let passes = job.stroke.burst.is_none() && job.track.is_none();
        // Seconds or a viscosity that were measured hold whatever the tins say.
        let measured = ["paint.cup.seconds", "paint.kinematic_viscosity", "paint.viscosity", "paint.density"];
        match self {
            Self::Speed | Self::Coats | Self::Lead | Self::Hand => passes,
            Self::Overlap => passes && !tube,
            Self::Sides | Self::Axis => passes && tube,
            Self::Fan => job.kit.has_fan(),
            Self::AirKnob => job.kit.air_turns > 0.0,
            Self::Thinning | Self::Thinner => !job.given.iter().any(|key| measured.contains(key)),
            Self::Distance | Self::Fluid | Self::Pressure | Self::Faults => true,
        }
    }

    /// Lowest and highest value that is advised.
    #[must_use]
    pub fn limits(self, job: &Job) -> [f64; 2] {
        let kit = &job.kit;
        match self {
            Self::Speed => HAND,
            Self::Overlap => OVERLAPS,
            Self::Lead => LEADS,
            Self::Sides => [1.0, 6.0],
            Self::Axis => [0.0, 1.0],
            Self::Distance => distances(kit.class),
            Self::Fan => [0.0, kit.fan_turns],
            Self::Fluid => [0.125, kit.fluid_turns],
            Self::AirKnob => [0.25 * kit.air_turns, kit.air_turns],
            Self::Pressure => {
                let [low, high] =
                    job.sheet.pressure.unwrap_or([LOWEST * kit.rated_pressure, kit.highest_pressure]);
                [low, high.min(kit.highest_pressure)]
            }
            Self::Thinning => [0.0, THINNEST],
            Self::Thinner => [0.0, 2.0],
            Self::Coats => [1.0, f64::from(job.sheet.coats.max(1))],
            Self::Faults => [0.0, 0.0],
            Self::Hand => [1.0, 2.0],
        }
    }

    /// Values to try one way from where it stands, nearest first; none where there is nothing to turn.
    #[must_use]
    pub fn ladder(self, job: &Job, up: bool) -> Vec<f64> {
        if !self.is_there(job) {
            return Vec::new();
        }
        let now = self.now(job);
        let [low, high] = self.limits(job);
        let signed = |step: f64| if up { now + step } else { now - step };
        let mut values: Vec<f64> = match self {
            Self::Speed => SPEEDS.iter().map(|f| if up { now * f } else { now / f }).collect(),
            Self::Overlap => (1..=13).map(|i| signed(0.05 * f64::from(i))).collect(),
            Self::Lead => (1..=7).map(|i| signed(0.02 * f64::from(i))).collect(),
            Self::Sides | Self::Coats => (1..=5).map(|i| signed(f64::from(i))).collect(),
            Self::Axis => vec![1.0 - now],
            Self::Distance => DISTANCES.iter().map(|d| signed(*d)).collect(),
            Self::Fan | Self::Fluid | Self::AirKnob => EIGHTHS.iter().map(|e| signed(e / 8.0)).collect(),
            Self::Pressure => PRESSURES.iter().map(|p| signed(*p)).collect(),
            Self::Thinning => (1..=4).map(|i| signed(0.05 * f64::from(i))).collect(),
            Self::Thinner => (1..=2).map(|i| signed(f64::from(i))).collect(),
            Self::Faults => vec![0.0],
            Self::Hand => vec![1.0],
        };
        // The last step ends at the limit.
        let end = if up { high } else { low };
        let before = values.len();
        values.retain(|v| *v > low - 1e-12 && *v < high + 1e-12);
        let past = values.last().copied().unwrap_or(now);
        if values.len() < before && (if up { past < end } else { past > end }) && (now >= low && now <= high)
        {
            values.push(end);
        }
        // From outside the usual window the first step is back to its end.
        if (up && now < low) || (!up && now > high) {
            values.insert(0, if up { low } else { high });
        }
        let mut kept: Vec<f64> = Vec::new();
        for value in values {
            let value = self.rounded(value, job).clamp(low.min(value), high.max(value));
            let step = if up { value - now } else { now - value };
            let moved = step > self.least() || self == Self::Axis;
            if moved && kept.iter().all(|k| (k - value).abs() > 1e-9) {
                kept.push(value);
            }
        }
        kept
    }

    /// A change that is no change.
    fn least(self) -> f64 {
        match self {
            Self::Fan | Self::Fluid | Self::AirKnob => 0.09,
            Self::Pressure => 0.04e5,
            _ => 1e-9,
        }
    }

    /// As fine as it is told: speed to 5 mm/s, knobs to an eighth of a turn.
    #[must_use]
    pub fn rounded(self, value: f64, job: &Job) -> f64 {
        let to = |step: f64| (value / step).round() * step;
        match self {
            Self::Speed | Self::Distance | Self::Lead => to(0.005),
            Self::Overlap | Self::Thinning => to(0.01),
            Self::Fan | Self::Fluid | Self::AirKnob => to(0.125).min(self.limits(job)[1]),
            Self::Pressure => to(0.05e5),
            _ => value.round(),
        }
    }

    /// Whether there are values between two that were tried.
    #[must_use]
    pub fn between(self, a: f64, b: f64, job: &Job) -> Option<f64> {
        let middle = self.rounded(0.5 * (a + b), job);
        let apart = |x: f64| (middle - x).abs() > self.least();
        let whole = matches!(self, Self::Axis | Self::Thinner | Self::Faults | Self::Hand);
        (!whole && apart(a) && apart(b)).then_some(middle)
    }

    /// A value as the job file takes it.
    #[must_use]
    pub fn literal(self, value: f64, job: &Job) -> String {
        let share = |v: f64| format!("{}", (v.clamp(0.0, 1.0) * 1e4).round() / 1e4);
        let per = |turns: f64| share(value / turns.max(f64::MIN_POSITIVE));
        match self {
            Self::Speed => format!("{:.0} mm/s", value * 1e3),
            Self::Lead | Self::Distance => format!("{:.0} mm", value * 1e3),
            Self::Overlap | Self::Thinning => share(value),
            Self::Fan => per(job.kit.fan_turns),
            Self::Fluid => per(job.kit.fluid_turns),
            Self::AirKnob => per(job.kit.air_turns),
            Self::Pressure => format!("{:.2} bar", value * 1e-5),
            Self::Axis => if value > 0.5 { "along" } else { "across" }.into(),
            Self::Thinner => {
                let at = (value.max(0.0) as usize).min(ThinnerSpeed::ALL.len() - 1);
                ThinnerSpeed::ALL[at].word().into()
            }
            Self::Sides | Self::Coats => format!("{value:.0}"),
            Self::Faults => "[]".into(),
            Self::Hand => STEADY.1.into(),
        }
    }
}
