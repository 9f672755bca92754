//! How much to mix for the job, out of what the run sprayed.

use super::figures::{Efficiency, Report};
use crate::error::ParameterError;
use crate::evaporation::Voc;
use crate::job::Job;
use crate::paint::{MixNeed, MixPlan};
use serde::Serialize;

const ML: f64 = 1e-6;

/// How much to mix, and where it goes. Volumes are of mixed paint; base, hardener and thinner are those of one lot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MixFigures {
    /// Parts it is for.
    pub parts: u32,
    /// On the parts [mL].
    pub on_parts_ml: f64,
    /// Sprayed past them [mL].
    pub overspray_ml: f64,
    /// On test cards [mL].
    pub test_card_ml: f64,
    /// Left in cup and gun [mL].
    pub left_ml: f64,
    /// Reserve [mL].
    pub reserve_ml: f64,
    /// Added by rounding up [mL].
    pub rounding_ml: f64,
    /// To be mixed, all lots [mL].
    pub mixed_ml: f64,
    /// The same film at the higher end of the model's likely range of efficiency [mL].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mixed_low_ml: Option<f64>,
    /// At its lower end [mL].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mixed_high_ml: Option<f64>,
    /// Lots, each inside the pot life.
    pub lots: u32,
    /// One lot [mL].
    pub lot_ml: f64,
    /// Base [mL].
    pub base_ml: f64,
    /// Base [g].
    pub base_g: f64,
    /// Hardener [mL]; 0 for one-pack paints.
    pub hardener_ml: f64,
    /// Hardener [g].
    pub hardener_g: f64,
    /// Thinner [mL].
    pub thinner_ml: f64,
    /// Thinner [g].
    pub thinner_g: f64,
    /// Times the cup is filled.
    pub cup_fills: u32,
    /// First pull of the trigger to the last [min].
    pub minutes: f64,
    /// Volatile organic compounds as sprayed [g/L].
    pub voc_g_l: f64,
    /// The same, less water and exempt solvents [g/L].
    pub voc_less_water_g_l: f64,
}

/// The plan of a job of which one part took `sprayed` [m3] in `seconds` of trigger time, at a paint flow [m3/s].
///
/// # Errors
/// The first figure out of range: nothing sprayed, say.
pub fn mix_plan(
    job: &Job,
    sprayed: f64,
    seconds: f64,
    flow: f64,
    landed: &Efficiency,
) -> Result<MixPlan, ParameterError> {
    let need = MixNeed {
        parts: job.mixing.parts,
        sprayed,
        landed: [landed.value, landed.model_low, landed.model_high],
        test_card: flow * job.mixing.test_card,
        residue: job.kit.residue,
        cup: job.kit.cup_volume,
        reserve: job.mixing.reserve,
        trigger: seconds,
        duty: job.mixing.duty,
        coats: job.stroke.coats,
        flash: job.sheet.flash,
        pot_life: job.sheet.pot_life,
    };
    MixPlan::new(&need, &job.recipe, &job.mix)
}

impl Report {
    /// How much to mix for this report's job.
    ///
    /// # Errors
    /// As `mix_plan`.
    pub fn mix_plan(&self, job: &Job) -> Result<MixPlan, ParameterError> {
        let (paint, flow) = (&self.paint, self.gun.fluid_ml_min * ML / 60.0);
        mix_plan(job, paint.sprayed_ml * ML, paint.seconds, flow, &self.transfer_efficiency)
    }
}

impl MixFigures {
    /// The figures of a plan.
    ///
    /// # Errors
    /// A solvent that is not known.
    pub fn new(job: &Job, plan: &MixPlan) -> Result<Self, ParameterError> {
        let voc = Voc::of(&job.paint)?;
        Ok(Self {
            parts: job.mixing.parts,
            on_parts_ml: plan.on_parts / ML,
            overspray_ml: plan.overspray / ML,
            test_card_ml: plan.test_card / ML,
            left_ml: plan.left / ML,
            reserve_ml: plan.reserve / ML,
            rounding_ml: plan.rounding / ML,
            mixed_ml: plan.mixed / ML,
            mixed_low_ml: plan.range.map(|r| r[0] / ML),
            mixed_high_ml: plan.range.map(|r| r[1] / ML),
            lots: plan.lots,
            lot_ml: plan.lot / ML,
            base_ml: plan.base.volume / ML,
            base_g: plan.base.mass * 1e3,
            hardener_ml: plan.hardener.volume / ML,
            hardener_g: plan.hardener.mass * 1e3,
            thinner_ml: plan.thinner.volume / ML,
            thinner_g: plan.thinner.mass * 1e3,
            cup_fills: plan.cup_fills,
            minutes: plan.seconds / 60.0,
            voc_g_l: voc.actual,
            voc_less_water_g_l: voc.less_water,
        })
    }
}
