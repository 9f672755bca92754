//! Gun meets air supply: what a job's line gives at the gun, over the job's trigger times.

use crate::constants::Constants;
use crate::error::ParameterError;
use crate::gun::GunAir;
use crate::job::{Job, StrokePlan};
use crate::stroke::{Pass, Piece, Strokes};
use crate::supply::{Answer, Moment, Span, Supply};

/// Lowest pressure at the gun that is worth a run [Pa gauge].
const LEAST: f64 = 0.2e5;

/// Air the job's gun draws, trigger as set [m3/s free air], at a pressure at its inlet [Pa gauge].
#[must_use]
pub fn gun_air(job: &Job, inlet: f64) -> f64 {
    let opening = job.gun.inlet_opening(Constants::STANDARD.air_stage);
    GunAir::through(&job.kit, inlet, job.gun.fan, opening, job.booth.temperature).free_air()
}

/// When the trigger is on: the passes of all coats, the turn after each, the flash after each coat but the last.
#[must_use]
pub fn trigger_times(strokes: &Strokes, plan: &StrokePlan) -> Vec<Span> {
    match strokes {
        Strokes::Burst(seconds) => vec![Span { on: *seconds, off: 0.0 }],
        Strokes::Track(track) => {
            let pieces = track.pieces();
            let next = pieces.iter().skip(1).map(|piece| Some(piece.from)).chain([None]);
            let span = |(piece, next): (&Piece, Option<f64>)| Span {
                on: piece.to - piece.from,
                off: next.map_or(0.0, |next| next - piece.to),
            };
            pieces.iter().zip(next).map(span).collect()
        }
        Strokes::Passes { passes, speed, coats } => {
            let coat: Vec<f64> = passes.iter().map(Pass::length).map(|way| way / speed).collect();
            let last = coat.len().saturating_sub(1);
            (1..=*coats)
                .flat_map(|number| {
                    coat.iter().enumerate().map(move |(i, &on)| {
                        let off = match (i == last, number == *coats) {
                            (false, _) => plan.turn,
                            (true, false) => plan.flash,
                            (true, true) => 0.0,
                        };
                        Span { on, off }
                    })
                })
                .collect()
        }
    }
}

/// Will the air do? None where the job has no supply.
///
/// # Errors
/// A figure of the supply out of range, by its key.
pub fn air_answer(job: &Job, plan: &[Span]) -> Result<Option<Answer>, ParameterError> {
    job.supply.as_ref().map(|supply| air_answer_of(supply, job, plan)).transpose()
}

/// The same for another supply before the job's gun.
///
/// # Errors
/// As [`air_answer`].
pub fn air_answer_of(supply: &Supply, job: &Job, plan: &[Span]) -> Result<Answer, ParameterError> {
    supply.answer(job.gun.inlet_pressure, &|p| gun_air(job, p), plan)
}

/// Guns of one class and size differ by about this share in the air they draw [-]. Ours: HVLP guns take 280-430 L/min.
pub const AIR_SPREAD: f64 = 0.15;

/// The same for a gun of this class that draws more, and for one that draws less, by [`AIR_SPREAD`].
///
/// # Errors
/// As [`air_answer`].
pub fn air_range(job: &Job, plan: &[Span]) -> Result<Option<[Answer; 2]>, ParameterError> {
    let Some(supply) = &job.supply else {
        return Ok(None);
    };
    let of = |share: f64| supply.answer(job.gun.inlet_pressure, &|p| share * gun_air(job, p), plan);
    Ok(Some([of(1.0 + AIR_SPREAD)?, of(1.0 - AIR_SPREAD)?]))
}

/// The air test of one minute, as [`Supply::one_minute`]; none where the job has no supply.
///
/// # Errors
/// As [`air_answer`].
pub fn one_minute(job: &Job) -> Result<Option<Vec<Moment>>, ParameterError> {
    // Fluid knob shut, trigger to the stop: the air valve is as open as when spraying.
    let full = Job { gun: crate::gun::GunSetting { trigger: 1.0, ..job.gun.clone() }, ..job.clone() };
    let demand = |p: f64| gun_air(&full, p);
    job.supply.as_ref().map(|supply| supply.one_minute(job.gun.inlet_pressure, &demand)).transpose()
}

/// The job with the pressure at the gun that its supply gives: the one it asks for, or less. Without a supply, as it is.
///
/// # Errors
/// A supply that gives next to nothing at the gun; a figure of it out of range, by its key.
pub fn supplied(mut job: Job) -> Result<Job, ParameterError> {
    if let Some(answer) = air_answer(&job, &[])? {
        if answer.gun_inlet < LEAST.min(job.gun.inlet_pressure) {
            let why: Vec<_> = answer.warnings.iter().map(ToString::to_string).collect();
            return Err(ParameterError::new(
                "supply",
                format!("{:.2} bar at the gun ({})", answer.gun_inlet * 1e-5, why.join("; ")),
                format!("a supply that gives at least {:.1} bar at the gun", LEAST * 1e-5),
            ));
        }
        job.gun.inlet_pressure = answer.gun_inlet;
    }
    Ok(job)
}
