//! The air supply's figures, as the report writes them.

use crate::supply::Answer;
use serde::Serialize;

/// The air supply over the job. Pressures gauge, flows free air.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SupplyFigures {
    /// "for-ever", "this-job", "runs-down" or "never".
    pub verdict: &'static str,
    /// Asked for at the gun, trigger open [bar].
    pub wanted_bar: f64,
    /// What the run is sprayed at [bar].
    pub gun_inlet_bar: f64,
    /// Gun's gauge at rest [bar].
    pub rest_bar: f64,
    /// Lost in the hose [bar].
    pub hose_drop_bar: f64,
    /// Lost in all couplings [bar].
    pub coupling_drop_bar: f64,
    /// What the wall gauge must show for the wanted pressure, trigger pulled [bar].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall_gauge_bar: Option<f64>,
    /// The same at rest [bar].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall_rest_bar: Option<f64>,
    /// Tank pressure down to which the gun's pressure holds [bar].
    pub tank_needed_bar: f64,
    /// Air of the gun [L/min].
    pub gun_l_min: f64,
    /// Air of all others [L/min].
    pub also_l_min: f64,
    /// What the compressor has over with the trigger held [L/min]; negative: lacks.
    pub margin_l_min: f64,
    /// Trigger held from a full tank [s].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub held_s: Option<f64>,
    /// Trigger-on time of the job until the pressure is lost [s].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_s: Option<f64>,
    /// Wait after that until the tank is full [s].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wait_s: Option<f64>,
    /// Water in separator and hose, an hour of trigger [mL].
    pub water_ml_h: f64,
    /// Water in the tank, an hour of trigger [mL].
    pub tank_water_ml_h: f64,
}

impl SupplyFigures {
    /// The figures of an answer.
    #[must_use]
    pub fn new(answer: &Answer) -> Self {
        let (bar, l_min, ml_h) = (1e-5, 60_000.0, 3.6e9);
        Self {
            verdict: answer.verdict.word(),
            wanted_bar: answer.wanted * bar,
            gun_inlet_bar: answer.gun_inlet * bar,
            rest_bar: answer.rest * bar,
            hose_drop_bar: answer.pressures.hose_drop() * bar,
            coupling_drop_bar: answer.pressures.coupling_drop() * bar,
            wall_gauge_bar: answer.wall.map(|wall| wall.pulled * bar),
            wall_rest_bar: answer.wall.map(|wall| wall.rest * bar),
            tank_needed_bar: answer.tank_needed * bar,
            gun_l_min: answer.gun_air * l_min,
            also_l_min: answer.also_air * l_min,
            margin_l_min: answer.margin * l_min,
            held_s: answer.held_seconds,
            on_s: answer.on_seconds,
            wait_s: answer.wait_seconds,
            water_ml_h: answer.water.line * ml_h,
            tank_water_ml_h: answer.water.tank * ml_h,
        }
    }
}
