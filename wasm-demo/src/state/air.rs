//! The air supply of a job, as the Air view says it; and how its fields change the job's text.

use std::sync::Arc;

use super::GunFace;
use mistcoat::error::ParameterError;
use mistcoat::job::{Job, JobError, as_written, with_key, without_key};
use mistcoat::set_up::{Fix, Short, air_answer, air_fixes, air_range, one_minute, trigger_times};
use mistcoat::stroke::Strokes;
use mistcoat::supply::{Answer, Moment, Verdict};

/// The workshop's compressor: what "Will my air do?" opens.
pub const WORKSHOP: &str = include_str!("../../../core/examples/jobs/cafe-workshop-air.toml");
/// The compressor that is put in where a job has none.
const FIRST: &str = "workshop-2kW";
/// Fan height over distance until a card has been flown [-]: a full fan's, so that the passes are about right.
const FAN_OVER_DISTANCE: f64 = 1.0;

/// All that the Air view shows.
#[derive(Debug, Clone, PartialEq)]
pub struct AirState {
    /// The job, its pressure as asked for.
    pub job: Job,
    /// The answer.
    pub answer: Answer,
    /// For a gun that draws more, and for one that draws less.
    pub range: [Answer; 2],
    /// What is short, and what would help, best first.
    pub short: Short,
    /// The changes.
    pub fixes: Vec<Fix>,
    /// The air test of one minute.
    pub minute: Vec<Moment>,
}

/// The answers for a job; none where it has no supply. `fan_height` [m] as a flown card tells it.
///
/// # Errors
/// A figure of the supply out of range, by its key.
pub fn air_state(job: &Job, fan_height: Option<f64>) -> Result<Option<Arc<AirState>>, ParameterError> {
    let fan = fan_height.unwrap_or(FAN_OVER_DISTANCE * job.stroke.distance);
    let plan = trigger_times(&Strokes::plan(&job.stroke, &job.part, fan), &job.stroke);
    let (Some(answer), Some(range), Some((short, fixes)), Some(minute)) =
        (air_answer(job, &plan)?, air_range(job, &plan)?, air_fixes(job, &plan)?, one_minute(job)?)
    else {
        return Ok(None);
    };
    Ok(Some(Arc::new(AirState { job: job.clone(), answer, range, short, fixes, minute })))
}

/// Gun's gauge with the trigger pulled and at rest [bar]; none without a supply, or where that is refused.
pub fn gauge_of(job: &Job) -> Option<(f64, f64)> {
    let answer = air_answer(job, &[]).ok()??;
    Some((answer.gun_inlet * 1e-5, answer.rest * 1e-5))
}

/// A gun on a supply: its gauge falls from rest to what the line gives.
pub fn on_supply(face: GunFace, (pulled, rest): (f64, f64)) -> GunFace {
    let gauge_full_bar = face.gauge_full_bar.max((1.05 * rest).ceil());
    GunFace { pulled_bar: pulled, rest_bar: Some(rest), gauge_full_bar, ..face }
}

/// The one figure of an answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// Air over, or lacking [m3/s].
    Air(f64),
    /// Trigger held until the pressure is lost [s].
    Held(f64),
    /// Trigger-on time of the job until it is lost [s].
    On(f64),
    /// Pressure at the gun [Pa].
    Gun(f64),
}

/// The figure that goes with a verdict, of any of its answers; none where it is without end.
pub fn figure(verdict: Verdict, starved: bool, answer: &Answer) -> Option<Figure> {
    match verdict {
        Verdict::Never if starved => Some(Figure::Air(answer.margin)),
        Verdict::Never => Some(Figure::Gun(answer.gun_inlet)),
        Verdict::ForEver => Some(Figure::Air(answer.margin)),
        Verdict::ThisJob => answer.held_seconds.map(Figure::Held),
        Verdict::RunsDown => answer.on_seconds.map(Figure::On),
    }
}

impl AirState {
    /// Others take all the air.
    pub fn starved(&self) -> bool {
        self.short == Short::Air
    }

    /// The one figure and its likely range, lower end first; an end that is without end is none.
    pub fn figures(&self) -> (Option<Figure>, [Option<Figure>; 2]) {
        let of = |answer: &Answer| figure(self.answer.verdict, self.starved(), answer);
        (of(&self.answer), [of(&self.range[0]), of(&self.range[1])])
    }

    /// Gun gauge and tank [Pa] at a moment of the air test.
    pub fn at(&self, time: f64) -> (f64, f64) {
        let after = self.minute.iter().position(|m| m.time >= time).unwrap_or(self.minute.len() - 1);
        let (a, b) = (self.minute[after.saturating_sub(1)], self.minute[after]);
        let share = if b.time > a.time { ((time - a.time) / (b.time - a.time)).clamp(0.0, 1.0) } else { 1.0 };
        (a.gun + share * (b.gun - a.gun), a.tank + share * (b.tank - a.tank))
    }
}

/// The text with a compressor of the catalogue, its own figures thrown away.
///
/// # Errors
/// `JobError` when the text is no job or the id unknown.
pub fn with_compressor(text: &str, id: &str) -> Result<String, JobError> {
    with_key(&without_key(text, "supply.compressor")?, "supply.compressor", id)
}

/// The text with a supply to begin with.
///
/// # Errors
/// As [`with_compressor`].
pub fn with_supply(text: &str) -> Result<String, JobError> {
    with_compressor(text, FIRST)
}

/// The text with one figure of the compressor changed; the rest stays that of the catalogue's.
///
/// # Errors
/// `JobError` when the value is refused.
pub fn with_own(text: &str, key: &str, value: &str) -> Result<String, JobError> {
    let text = match as_written(text, "supply.compressor")? {
        // A whole table is written out as text, too: that one is no id.
        Some(id) if !id.trim_start().starts_with('{') && !id.contains('=') => {
            with_key(text, "supply.compressor.like", &id)?
        }
        _ => text.to_string(),
    };
    with_key(&text, key, value)
}

/// The text with one other user of the air, or none.
///
/// # Errors
/// `JobError` when the value is refused.
pub fn with_other(text: &str, name: &str, air: &str) -> Result<String, JobError> {
    let air = air.trim();
    let nothing =
        air.is_empty() || mistcoat::units::parse_number(air.split(' ').next().unwrap_or("")) == Ok(0.0);
    if nothing {
        return without_key(text, "supply.also");
    }
    let quoted = air.replace(['"', '\\'], "");
    with_key(text, "supply.also", &format!("[{{ name = \"{name}\", air = \"{quoted}\" }}]"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn state(keys: &[(&str, &str)]) -> Arc<AirState> {
        let text = keys.iter().fold(WORKSHOP.to_string(), |t, (k, v)| with_key(&t, k, v).unwrap());
        air_state(&Job::from_toml(&text).unwrap(), None).unwrap().unwrap()
    }

    #[test]
    fn the_figure_lies_in_its_range() {
        for (keys, verdict) in [
            (vec![], Verdict::ThisJob),
            (vec![("supply.compressor", "screw-7.5kW")], Verdict::ForEver),
            (vec![("supply.hose.bore", "4 mm")], Verdict::Never),
        ] {
            let state = state(&keys);
            assert_eq!(state.answer.verdict, verdict);
            let value = |f: Option<Figure>| match f.unwrap() {
                Figure::Air(v) | Figure::Held(v) | Figure::On(v) | Figure::Gun(v) => v,
            };
            let (mid, [low, high]) = state.figures();
            assert!(value(low) < value(mid) && value(mid) < value(high));
            assert_eq!(state.at(0.0).0, state.answer.gun_inlet);
            assert!(state.at(60.0).0 <= state.answer.gun_inlet);
        }
    }

    #[test]
    fn a_figure_of_ones_own_keeps_the_rest() {
        let text = with_own(WORKSHOP, "supply.compressor.tank", "100 L").unwrap();
        let own = Job::from_toml(&text).unwrap().supply.unwrap().compressor;
        assert!((own.tank - 0.1).abs() < 1e-12 && (own.delivered_air * 60_000.0 - 160.0).abs() < 1e-9);
        let text = with_own(&text, "supply.compressor.delivered_air", "200 L/min").unwrap();
        let own = Job::from_toml(&text).unwrap().supply.unwrap().compressor;
        assert!((own.tank - 0.1).abs() < 1e-12 && (own.delivered_air * 60_000.0 - 200.0).abs() < 1e-9);
        let back = with_compressor(&text, "screw-7.5kW").unwrap();
        assert!((Job::from_toml(&back).unwrap().supply.unwrap().compressor.tank - 0.5).abs() < 1e-12);
        let from_none = with_supply(crate::state::TABLE_TOP).unwrap();
        assert!(Job::from_toml(&from_none).unwrap().supply.is_some());
    }

    #[test]
    fn a_mask_comes_and_goes() {
        let text = with_other(WORKSHOP, "air-fed mask", "170 L/min").unwrap();
        assert_eq!(Job::from_toml(&text).unwrap().supply.unwrap().also.len(), 1);
        for none in ["", "0", "0 L/min"] {
            let gone = with_other(&text, "air-fed mask", none).unwrap();
            assert!(Job::from_toml(&gone).unwrap().supply.unwrap().also.is_empty());
        }
        assert!(with_other(WORKSHOP, "mask", "much").is_err());
    }
}
