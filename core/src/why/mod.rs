//! Why does one job take less paint than another? One cause swapped at a time, in one order and the other way round, each mixture flown on the
//! same streams. `docs/methods/why.md`.

mod answer;
mod cause;
mod under_way;
mod words;

pub use answer::{Answer, Part, Side};
pub use cause::{Cause, Mixed};
pub use under_way::Why;
pub use words::{name, reason, sentence, words};
