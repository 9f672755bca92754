//! A set-up as keys of the job file, and as a painter turns it.

use serde::{Deserialize, Serialize};

use super::lever::Lever;
use crate::error::ParameterError;
use crate::job::{Job, PartShape, with_key};

/// Levers that a search turns, in the order that they are told.
const TURNED: [Lever; 10] = [
    Lever::Fan,
    Lever::Fluid,
    Lever::Pressure,
    Lever::AirKnob,
    Lever::Distance,
    Lever::Overlap,
    Lever::Axis,
    Lever::Sides,
    Lever::Speed,
    Lever::Lead,
];

/// One thing to set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Change {
    /// What.
    pub lever: Lever,
    /// As it is, in the lever's own unit.
    pub from: f64,
    /// As it should be.
    pub to: f64,
    /// Its key in the job file.
    pub key: String,
    /// The value that is written there.
    pub value: String,
}

/// Levers of a search that the job's part has.
pub(super) fn turned(job: &Job) -> Vec<Lever> {
    let tube = matches!(job.part, PartShape::Tube { .. });
    let there = |lever: &Lever| match lever {
        Lever::Overlap => !tube,
        Lever::Axis | Lever::Sides => tube,
        Lever::Fan => job.kit.has_fan(),
        Lever::AirKnob => job.kit.air_turns > 0.0,
        Lever::Lead => false,
        _ => true,
    };
    TURNED.into_iter().filter(there).collect()
}

/// Speed as it is told: to 5 mm/s, never faster than found, so that the film stays inside its band.
fn told(lever: Lever, value: f64, job: &Job) -> f64 {
    if lever == Lever::Speed {
        ((value / 0.005 + 1e-6).floor() * 0.005).max(0.005)
    } else {
        lever.rounded(value, job)
    }
}

/// What is to be set to get from one job to another, as far as a search turns it.
#[must_use]
pub fn changes(from: &Job, to: &Job) -> Vec<Change> {
    let one = |lever: Lever| {
        let (now, then) = (lever.now(from), told(lever, lever.now(to), to));
        let value = lever.literal(then, to);
        // Twice the same words are no change.
        let same = (now - then).abs() < 1e-9 || lever.literal(now, from) == value;
        (!same).then(|| Change { lever, from: now, to: then, key: lever.key().into(), value })
    };
    turned(to).into_iter().filter_map(one).collect()
}

/// The same as keys and values, all of them, changed or not.
#[must_use]
pub fn keys(from: &Job, to: &Job) -> Vec<(String, String)> {
    let full = |lever: Lever| (lever.key().to_string(), lever.literal(told(lever, lever.now(to), to), to));
    let trigger = (from.gun.trigger < 1.0).then(|| ("gun.trigger".to_string(), "1".to_string()));
    // It holds for that hand only: a job that names none says so from then on.
    let named = from.given.iter().any(|key| key.starts_with("stroke.hand"));
    let word = to.stroke.hand.word().filter(|_| !named);
    let hand = word.map(|word| ("stroke.hand".to_string(), word.to_string()));
    turned(to).into_iter().map(full).chain(trigger).chain(hand).collect()
}

/// The job's text with some keys, read again; hand and run settings stay those of `job`.
///
/// # Errors
/// A text that does not take them.
pub fn with_keys(job: &Job, keys: &[(String, String)]) -> Result<Job, ParameterError> {
    let refused =
        |e: crate::job::JobError| ParameterError::new("search", e.to_string(), "keys that the job takes");
    let mut text = job.text.clone();
    for (key, value) in keys {
        text = with_key(&text, key, value).map_err(refused)?;
    }
    let mut set = Job::from_toml(&text).map_err(refused)?;
    set.run = job.run;
    set.stroke.hand = job.stroke.hand;
    Ok(set)
}

/// The job with what another sets, as it will be written.
///
/// # Errors
/// As [`with_keys`].
pub fn set(job: &Job, to: &Job) -> Result<Job, ParameterError> {
    with_keys(job, &keys(job, to))
}
