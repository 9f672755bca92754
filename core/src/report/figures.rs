//! The report's figures, in the order they are written.

use super::finish::FinishFigures;
use super::members::MemberFigures;
use super::mix::MixFigures;
use super::stroke::StrokeFigures;
use super::supply::SupplyFigures;
use crate::error::ParameterError;
use crate::judge::Judgement;
use serde::Serialize;
use std::collections::BTreeMap;

/// Figures of a run (units in the names).
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// The job's name.
    pub name: String,
    /// Seed.
    pub seed: u64,
    /// Droplets flown to the part.
    pub droplets: u64,
    /// Share of the solids sprayed that is on the part: this job, leads, edges and gaps included.
    pub transfer_efficiency: Efficiency,
    /// The same gun and distance, held still before a card of 1.2 m.
    pub large_panel_efficiency: Efficiency,
    /// What became of the solids sprayed; sums to 1.
    pub fates: FateShares,
    /// The gun as set.
    pub gun: GunFigures,
    /// Air supply, where the job has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub supply: Option<SupplyFigures>,
    /// Droplets.
    pub spray: SprayFigures,
    /// Pattern on the large card.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<PatternFigures>,
    /// Film over the area meant to be painted.
    pub film: FilmFigures,
    /// The film tube by tube; of a frame.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub members: Option<Vec<MemberFigures>>,
    /// How it set; where a cell is counted well enough.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub finish: Option<FinishFigures>,
    /// Is the film what was wanted, and when may the next coat go on.
    pub judgement: Judgement,
    /// Paint and time.
    pub paint: PaintFigures,
    /// What the hand did; where the gun is not a machine's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stroke: Option<StrokeFigures>,
    /// How much to mix; where the job asks by a key of [mix].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mix: Option<MixFigures>,
    /// Standard error of every figure that comes from droplets, by its dotted path.
    pub standard_errors: BTreeMap<String, f64>,
    /// What the painter should be told.
    pub warnings: Vec<String>,
}

/// An efficiency with its counting error and the model's likely range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Efficiency {
    /// Share, 0..1.
    pub value: f64,
    /// Standard error of the count.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub standard_error: Option<f64>,
    /// Lower end of the model's likely range.
    pub model_low: f64,
    /// Upper end.
    pub model_high: f64,
}

/// Shares of the fates.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FateShares {
    /// On the part.
    pub landed: f64,
    /// Passed it by.
    pub missed: f64,
    /// Bounced back.
    pub bounced: f64,
    /// Fog to the filters.
    pub drifted: f64,
    /// Met the part dry.
    pub dried: f64,
    /// Lost by the program.
    pub lost: f64,
}

/// The gun as set.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GunFigures {
    /// Inlet pressure, trigger open [bar gauge].
    pub inlet_bar: f64,
    /// Cap pressure [bar gauge].
    pub cap_bar: f64,
    /// Free air at 20 C, 1.01325 bar [L/min].
    pub free_air_l_min: f64,
    /// Paint flow [mL/min].
    pub fluid_ml_min: f64,
    /// Annulus air over paint, by mass [-].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub air_liquid_ratio: Option<f64>,
    /// Inside the HVLP definition at the cap.
    pub hvlp: bool,
}

/// Droplets.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SprayFigures {
    /// Sauter mean diameter [um].
    pub sauter_um: f64,
    /// Volume median [um].
    pub volume_median_um: f64,
    /// Volume median of what misses a large card, at the end of its flight [um].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub overspray_volume_median_um: Option<f64>,
    /// The same as aerodynamic diameter [um].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub overspray_aerodynamic_median_um: Option<f64>,
}

/// Pattern on a flat card at the job's distance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PatternFigures {
    /// Fan height: the long way, between the tenths of the peak [mm].
    pub length_mm: f64,
    /// Fan thickness: the short way [mm].
    pub width_mm: f64,
    /// Its name in the trade.
    pub kind: &'static str,
    /// Where a crescent's belly or a heavy end lies on the card, as the painter sees it: "left", "right", "up", "down".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub toward: Option<&'static str>,
}

/// A mean with its ends where they can be said.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread {
    /// Mean.
    pub mean: f64,
    /// Lower end of the mean's likely range, the job as it stands.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub model_low: Option<f64>,
    /// Upper end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub model_high: Option<f64>,
    /// Thinnest cell.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub min: Option<f64>,
    /// Thickest cell.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max: Option<f64>,
}

impl Spread {
    /// A mean with the lowest and highest factor of its likely range; ends not known yet.
    #[must_use]
    pub(super) fn likely(mean: f64, (low, high): (f64, f64)) -> Self {
        let [model_low, model_high] = [low, high].map(|factor| Some(mean * factor));
        Self { mean, model_low, model_high, min: None, max: None }
    }
}

/// A figure from counting, with its standard error.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Counted {
    /// The figure.
    pub value: f64,
    /// Its standard error.
    pub standard_error: f64,
}

/// Unevenness in percent.
pub type Evenness = Counted;

/// Film on the part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FilmFigures {
    /// Wet film as landed [um].
    pub wet_um: Spread,
    /// Dry film as landed, before it ran [um].
    pub dry_um: Spread,
    /// Thinnest cell over mean.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thinnest_over_mean: Option<f64>,
    /// Standard deviation over mean, counting noise taken out [%].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cv_percent: Option<Evenness>,
    /// Area inside the film wanted [%].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_band_percent: Option<f64>,
}

/// Paint and time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PaintFigures {
    /// Sprayed, as it is in the cup [mL].
    pub sprayed_ml: f64,
    /// Lower end of its likely range, the job as it stands [mL]: what the tip's suction and passages leave open.
    pub sprayed_low_ml: f64,
    /// Upper end [mL].
    pub sprayed_high_ml: f64,
    /// On the part, counted as it was in the cup [mL].
    pub on_part_ml: f64,
    /// The rest [mL].
    pub lost_ml: f64,
    /// Trigger on [s].
    pub seconds: f64,
    /// Kinematic viscosity in the cup [mm2/s].
    pub kinematic_mm2_s: f64,
    /// Volume solids in the cup, 0..1.
    pub volume_solids: f64,
}

impl Report {
    /// The report as JSON, keys in a fixed order.
    #[must_use]
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
    }

    /// Refuses a figure that is not finite: serde_json would write it as null.
    ///
    /// # Errors
    /// The figure's dotted path.
    pub(super) fn checked(self) -> Result<Self, ParameterError> {
        let value =
            serde_json::to_value(&self).map_err(|e| ParameterError::new("report", e, "plain figures"))?;
        match find_null(&value, String::new()) {
            None => Ok(self),
            Some(path) => Err(ParameterError::new(path, "not a number", "a finite figure")),
        }
    }
}

fn find_null(value: &serde_json::Value, path: String) -> Option<String> {
    use serde_json::Value;
    match value {
        Value::Null => Some(path),
        Value::Object(map) => map.iter().find_map(|(key, v)| {
            let deeper = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
            find_null(v, deeper)
        }),
        Value::Array(list) => list.iter().enumerate().find_map(|(i, v)| find_null(v, format!("{path}[{i}]"))),
        _ => None,
    }
}
