//! What an exercise's job says of what was done, read and checked.

use super::exercise::{Exercise, Mark, Unit};
use crate::error::ParameterError;
use crate::job::Job;
use crate::practice::spread;
use crate::units::{self, Quantity};

/// Tries that count.
pub(super) const TRIES: usize = 5;

/// An answer that cannot be read.
pub(super) fn refuse(value: &str, allowed: &str) -> ParameterError {
    ParameterError::new("practice.answer", format!("\"{value}\""), allowed)
}

/// The answer of a job whose exercise asks.
pub(super) fn answer(job: &Job) -> Result<&str, ParameterError> {
    job.practice.answer.as_deref().map(str::trim).filter(|a| !a.is_empty()).ok_or_else(|| {
        ParameterError::new("practice.answer", "nothing", "an answer: this exercise asks for one")
    })
}

/// The answer as a quantity [SI].
pub(super) fn quantity(job: &Job, quantity: Quantity, allowed: &str) -> Result<f64, ParameterError> {
    let answer = answer(job)?;
    units::parse(quantity, answer).ok().filter(|value| *value >= 0.0).ok_or_else(|| refuse(answer, allowed))
}

/// Five tries: the last one's film right, and how far the five lie apart.
pub(super) fn five_tries(job: &Job) -> Result<Mark, ParameterError> {
    let tries = &job.practice.tries;
    let five = tries.len().checked_sub(TRIES).map(|first| &tries[first..]);
    let (Some(five), Some(last)) = (five, tries.last()) else {
        return Err(ParameterError::new(
            "practice.tries",
            format!("{} tries", tries.len()),
            format!("at least {TRIES} tries"),
        ));
    };
    let off = spread(five).unwrap_or(0.0);
    Ok(Mark {
        exercise: Exercise::FiveTries.word().into(),
        figure: *last,
        wanted: Some(job.practice.goal),
        unit: Unit::Share,
        off,
        goal: job.practice.spread,
        said: None,
        reached: *last >= job.practice.goal && off < job.practice.spread,
    })
}
