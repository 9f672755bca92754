//! Does your compressor hold a gun over the part? Verdict and figures of the supply, for a row.

use serde::Serialize;

use crate::run::Prepared;
use crate::stroke::Strokes;
use crate::supply::Verdict;

/// A gun's air against yours.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AirFigures {
    /// "for-ever", "this-job", "runs-down" or "never".
    pub verdict: &'static str,
    /// Delivered air that is left for the gun [L/min].
    pub yours_l_min: f64,
    /// What it has over with the trigger held [L/min]; negative: lacks.
    pub margin_l_min: f64,
    /// Pressure that the line gives at the gun [bar].
    pub gun_inlet_bar: f64,
    /// Trigger-on time until the pressure is lost [s].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_s: Option<f64>,
    /// Wait after that [s].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wait_s: Option<f64>,
}

impl AirFigures {
    /// Whether the part can be painted without waiting for air.
    #[must_use]
    pub fn holds(&self) -> bool {
        [Verdict::ForEver.word(), Verdict::ThisJob.word()].contains(&self.verdict)
    }
}

/// Your air before a job's gun, over these strokes at another speed [m/s]; none where the job names no supply.
#[must_use]
pub fn air_of(prepared: &Prepared, strokes: &Strokes, speed: f64) -> Option<AirFigures> {
    let supply = prepared.job.supply.as_ref()?;
    let plan = match strokes.clone() {
        Strokes::Passes { passes, coats, .. } => Strokes::Passes { passes, speed, coats },
        other => other,
    };
    let answer = prepared.air_answer(&plan).ok()??;
    let l_min = 60_000.0;
    Some(AirFigures {
        verdict: answer.verdict.word(),
        yours_l_min: (supply.compressor.delivered_air - answer.also_air) * l_min,
        margin_l_min: answer.margin * l_min,
        gun_inlet_bar: answer.gun_inlet * 1e-5,
        on_s: answer.on_seconds,
        wait_s: answer.wait_seconds,
    })
}
