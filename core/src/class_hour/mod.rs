//! The class hour: exercises with an outcome that the model works out from the job alone.
//!
//! A job says which exercise it is (`practice.exercise`) and holds what was set, answered (`practice.answer`) or tried; [`Marking`]
//! flies what is needed and says how far off that is. So a result is a job, and a link to it can be marked again by anybody.

mod answered;
mod exercise;
mod marking;

pub use exercise::{Exercise, Mark, SPOILED, Spoiled, Unit};
pub use marking::Marking;

#[cfg(test)]
mod tests;
