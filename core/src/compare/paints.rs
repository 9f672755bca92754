//! Which paints a kit can do: the viscosities at which some setting of it flows and atomises.

use serde::Serialize;

use super::limits;
use crate::catalogue;
use crate::flow_cup::Cup;
use crate::gun::{GunSetting, Kit};
use crate::job::Job;

/// Cup that the page and the example speak of.
const CUP: &str = "din-4";
/// Seconds out of that cup that stand for thin, medium and thick paint. Common practice, no source: bases and stains,
/// clears and enamels, filler primers.
pub const CLASSES: [(&str, f64); 3] = [("thin", 14.0), ("medium", 20.0), ("thick", 40.0)];
/// Flow that counts as flowing: this share of what your gun gives as set, or of what the kit gives as rated where that is
/// less [-]. Ours.
const FLOWS: f64 = 0.6;
/// Fluid knobs tried.
const FLUIDS: [f64; 6] = [0.15, 0.25, 0.35, 0.5, 0.7, 1.0];
/// Pressures tried, over the rated one; never above the highest.
const PRESSURES: [f64; 5] = [0.5, 0.75, 1.0, 1.25, 1.5];
/// Longest time looked for [s].
const LONGEST: f64 = 150.0;

/// Paints that a kit can do, with the job's paint thinned or left thick.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Paints {
    /// Thin, medium and thick paint, as in [`CLASSES`].
    pub classes: [bool; 3],
    /// Longest seconds out of a DIN 4 mm cup that it still sprays; none when it sprays not even the thinnest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub up_to_din4_s: Option<f64>,
    /// It sprays everything that was tried: the true limit is higher.
    pub and_more: bool,
}

impl Paints {
    /// Paints of a kit; `rest` gives what no knob sets.
    #[must_use]
    pub fn of(job: &Job, kit: &Kit, rest: &GunSetting) -> Self {
        let own = limits::sauter(job, &job.kit, &job.gun).map_or(0.0, |(_, state)| state.paint_flow);
        let rated = catalogue::paint(&kit.rated_paint)
            .and_then(|paint| limits::sauter(&Job { paint, ..job.clone() }, kit, &kit.rated()))
            .map_or(0.0, |(_, state)| state.paint_flow);
        // A small gun is not asked for a large one's flow, nor the other way round.
        let flow = FLOWS * own.min(rated);
        let can = |seconds: f64| sprays(job, kit, rest, flow, seconds);
        let classes = CLASSES.map(|(_, seconds)| can(seconds));
        let and_more = can(LONGEST);
        // Below 11 s a cup says little; the thinnest class is the start.
        let start = CLASSES.iter().zip(classes).rev().find(|(_, can)| *can).map(|(c, _)| c.1);
        let up_to = start.map(|start| {
            let (mut low, mut high) = (start, LONGEST);
            if and_more {
                return LONGEST;
            }
            while high - low > 1.0 {
                let middle = 0.5 * (low + high);
                if can(middle) { low = middle } else { high = middle }
            }
            low
        });
        Self { classes, up_to_din4_s: up_to, and_more }
    }
}

fn sprays(job: &Job, kit: &Kit, rest: &GunSetting, flow: f64, seconds: f64) -> bool {
    let viscosity = Cup::from_id(CUP).and_then(|cup| cup.viscosity(seconds));
    let Ok(viscosity) = viscosity else { return false };
    let mut job = job.clone();
    let Ok(paint) = job.paint.clone().with_kinematic_viscosity(viscosity.value) else { return false };
    job.paint = paint;
    PRESSURES.iter().any(|share| {
        let inlet_pressure = (share * kit.rated_pressure).min(kit.highest_pressure);
        FLUIDS.iter().any(|&fluid| {
            let setting =
                GunSetting { inlet_pressure, fan: 1.0, fluid, trigger: 1.0, air_knob: 1.0, ..rest.clone() };
            limits::sauter(&job, kit, &setting)
                .is_ok_and(|(_, state)| limits::fault(&state).is_none() && state.paint_flow >= flow)
        })
    })
}
