//! What is wrong with a run, where, and what to turn by how much: found by flying the neighbours on common streams, promised only
//! from full flights on fresh ones. `docs/methods/diagnosis.md`.

mod advice;
mod change;
mod climb;
mod complaint;
mod confirm;
mod diagnosis;
mod figure;
mod judge;
mod measure;
mod place;
mod readout;
mod remedy;
mod search;
mod tried;
mod words;

pub use crate::search::Lever;
pub use advice::{Advice, SURE, Step};
pub use change::{Move, changed, keys};
pub use complaint::{Complaint, complaints};
pub use diagnosis::{Answer, Diagnosis};
pub use figure::{Figure, Gain};
pub use judge::{MORE_PAINT, NARROWER, Side};
pub use measure::Measure;
pub use place::{Spot, spot};
pub use readout::{Readout, target_of};
pub use remedy::{Way, remedies};
pub use words::{amount, cause, complaint_words, sentence, words};
