//! Kits side by side on one job: your gun as set, your gun at its best, then other kits, each at its own best.
//!
//! Every gun is searched for its own least paint for a part with the mean film at the middle of the film wanted, inside
//! the same limits (`search::Limits`), then flown again in full with fresh streams that all rows share. No winner is named:
//! a saving has its range, and inside the model's error two guns are the same. `docs/methods/compare.md`.

mod answer;
mod candidate;
mod comparison;
mod contender;
mod flown;
mod paints;
mod row;
mod saving;
mod trial;
mod words;

pub use crate::search::{AirFigures, EVEN_ENOUGH, FINE_ENOUGH, Fault, HAND, LONGEST, Limits, fault, sauter};
pub use crate::tally::jackknife;
pub use answer::{Answer, LimitFigures};
pub use candidate::Candidate;
pub use comparison::{Comparison, MOST_KITS};
pub use flown::Flown;
pub use paints::{Paints, USES};
pub use row::{Figures, Row, Setting};
pub use saving::{Money, PayBack, Saving, Sure, sure};
pub use words::words;
