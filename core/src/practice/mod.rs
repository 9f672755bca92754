//! What a hand did, told in mm, s and mL, and what to do otherwise at the next try.
//!
//! Everything here follows from the track, the plan it was to follow and the film it left. A fault is only spoken of where
//! the same track, laid again with that one fault mended, leaves more of the panel with the film wanted.

mod advice;
mod aim;
mod coats;
mod elbow;
mod figures;
mod mend;
mod passes;
mod record;
mod shares;

pub use advice::{Advice, LEAST_GAIN, MOST_ADVICE, Trial, advise, trials};
pub use aim::Aim;
pub use coats::{Coat, Tried, tried};
pub use elbow::Elbow;
pub use figures::{Figures, figures};
pub use mend::Fault;
pub use passes::{Bit, HandPass, passes};
pub use record::{Recorder, rounded, rows};
pub use shares::{Shares, shares, spread};

#[cfg(test)]
mod tests;
