//! One row of a comparison: a gun at one setting, and what it means beside your own. Units in the names.

use serde::Serialize;

use super::flown::Flown;
use super::paints::{Paints, tip_does};
use super::saving::{PayBack, Saving, Sure};
use crate::catalogue;
use crate::error::ParameterError;
use crate::gun::{Kit, Warning};
use crate::job::{FanAxis, Job, PartShape};
use crate::search::{AirFigures, sauter};
use crate::set_up::Neighbour;

/// A gun beside yours. What cannot be said is left out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// "as-set", "best", then "A", "B", ...
    pub label: String,
    /// Plain name.
    pub name: String,
    /// Catalogue id of the kit.
    pub kit: String,
    /// Class of gun, as in the job file.
    pub class: &'static str,
    /// Feed, as in the job file.
    pub feed: &'static str,
    /// Fluid tip bore [mm].
    pub tip_mm: f64,
    /// Price the user typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
    /// The kit is from what is printed on its box: its range is wider.
    pub from_box: bool,
    /// Why this gun cannot do the part with this paint.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cannot: Option<String>,
    /// Its setting keeps the limits, your air among them; row 1 is as it is.
    pub keeps: bool,
    /// At its setting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub figures: Option<Figures>,
    /// Paints it can do.
    pub paints: Paints,
    /// Paint that stays in cup and gun [mL].
    pub stays_ml: f64,
    /// Saved for each part against your gun as set.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub saved: Option<Saving>,
    /// Saved for each part against your gun at its best: what the price buys.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub saved_more: Option<Saving>,
    /// When its price is back, from `saved_more`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pays_back: Option<PayBack>,
    /// How sure the answer is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sure: Option<Sure>,
    /// What else the painter should be told.
    pub notes: Vec<String>,
}

/// A gun's figures at one setting, for one part at the middle of the film wanted.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figures {
    /// The knobs, and how the gun is moved.
    pub setting: Setting,
    /// The same as keys of the job file with their values.
    pub keys: Vec<(&'static str, String)>,
    /// Free air needed [L/min].
    pub air_l_min: f64,
    /// Your air against it, where the job names a supply.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub air: Option<AirFigures>,
    /// Cap pressure [bar].
    pub cap_bar: f64,
    /// Droplets, Sauter mean [um].
    pub sauter_um: f64,
    /// Paint flow [mL/min].
    pub fluid_ml_min: f64,
    /// Fan height on a flat card at this distance [mm].
    pub fan_mm: f64,
    /// The pattern's name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<&'static str>,
    /// Paint for a part [mL].
    pub ml: f64,
    /// Lower end of its likely range.
    pub ml_low: f64,
    /// Upper end.
    pub ml_high: f64,
    /// Standard error of the count.
    pub ml_standard_error: f64,
    /// Trigger on, for a part [s].
    pub seconds: f64,
    /// Standard deviation of the film over its mean [%].
    pub even_percent: f64,
    /// Standard error of it.
    pub even_standard_error: f64,
}

/// Knobs and stroke of a row.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Setting {
    /// Fan knob [turns out], of so many.
    pub fan_turns: (f64, f64),
    /// Fluid knob [turns out], of so many.
    pub fluid_turns: (f64, f64),
    /// Inlet pressure, trigger pulled [bar].
    pub inlet_bar: f64,
    /// The fan lies along the stroke.
    pub fan_along: bool,
    /// Tubes: passes from this many sides.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sides: Option<u32>,
    /// Speed that lays the film wanted [mm/s].
    pub speed_mm_s: f64,
}

impl Row {
    /// A gun that is not flown yet; `neighbours` as in `Candidate`.
    pub(super) fn new(
        label: &str,
        job: &Job,
        kit: &Kit,
        price: Option<f64>,
        neighbours: &[Neighbour],
    ) -> Self {
        Self {
            label: label.into(),
            name: kit.name.clone(),
            kit: kit.id.clone(),
            class: kit.class.id(),
            feed: kit.feed.id(),
            tip_mm: kit.tip_bore * 1e3,
            price,
            from_box: !neighbours.is_empty(),
            cannot: None,
            keeps: true,
            figures: None,
            paints: Paints::of(job, kit),
            stays_ml: kit.residue * 1e6,
            saved: None,
            saved_more: None,
            pays_back: None,
            sure: None,
            notes: Warning::overhead(kit, job.lean)
                .iter()
                .map(ToString::to_string)
                .chain(unusual_tip(job, kit))
                .collect(),
        }
    }
}

impl Figures {
    /// Figures of a flown job.
    ///
    /// # Errors
    /// A value out of a model's range, by its key.
    pub(super) fn new(job: &Job, flown: &Flown) -> Result<Self, ParameterError> {
        let (drops, state) = sauter(job, &job.kit, &job.gun)?;
        let (low, high) = flown.range();
        let round = matches!(job.part, PartShape::Tube { .. });
        let setting = Setting {
            fan_turns: (job.gun.fan * job.kit.fan_turns, job.kit.fan_turns),
            fluid_turns: (job.gun.fluid * job.kit.fluid_turns, job.kit.fluid_turns),
            inlet_bar: job.gun.inlet_pressure * 1e-5,
            fan_along: job.stroke.fan_axis == FanAxis::Along,
            sides: round.then_some(job.stroke.sides),
            speed_mm_s: flown.speed * 1e3,
        };
        Ok(Self {
            keys: keys(job, &setting),
            setting,
            air_l_min: flown.air * 60_000.0,
            air: flown.air_against,
            cap_bar: state.cap_bar(),
            sauter_um: drops * 1e6,
            fluid_ml_min: state.fluid_ml_min(),
            fan_mm: flown.fan * 1e3,
            pattern: flown.kind.map(|k| k.word()),
            ml: flown.volume * 1e6,
            ml_low: low * 1e6,
            ml_high: high * 1e6,
            ml_standard_error: flown.standard_error() * 1e6,
            seconds: flown.seconds,
            even_percent: flown.unevenness.0 * 100.0,
            even_standard_error: flown.unevenness.1 * 100.0,
        })
    }
}

/// A tip outside what data sheets of the paint's class usually ask for.
fn unusual_tip(job: &Job, kit: &Kit) -> Option<String> {
    let [low, high] = catalogue::recipe(&job.paint.id).ok()?.sheet.tip;
    (!tip_does(kit, [low, high])).then(|| {
        format!(
            "tip {:.1} mm is outside the {:.1} to {:.1} mm that data sheets of such paint usually ask for",
            kit.tip_bore * 1e3,
            low * 1e3,
            high * 1e3
        )
    })
}

/// What to write into a job file to have this setting; speed to 5 mm/s, as fine as a hand is told.
fn keys(job: &Job, setting: &Setting) -> Vec<(&'static str, String)> {
    let share = |x: f64| format!("{}", (x * 1e4).round() / 1e4);
    let mut keys = vec![
        ("gun.fan", share(job.gun.fan)),
        ("gun.inlet_pressure", format!("{:.2} bar", setting.inlet_bar)),
        ("gun.fluid", share(job.gun.fluid)),
        ("gun.trigger", share(job.gun.trigger)),
        ("gun.air_knob", share(job.gun.air_knob)),
        ("stroke.speed", format!("{:.0} mm/s", 5.0 * (setting.speed_mm_s / 5.0).round())),
    ];
    if let Some(sides) = setting.sides {
        keys.push(("stroke.fan_axis", if setting.fan_along { "along" } else { "across" }.into()));
        keys.push(("stroke.sides", sides.to_string()));
    }
    keys
}
