//! The report of a run: figures with their uncertainty. What a run cannot say is left out.
//!
//! Keys and meaning: `docs/job-file.md`. Shares are of solids sprayed.

mod along;
mod build;
#[cfg(feature = "charts")]
pub mod chart;
mod figures;
mod film_csv;
mod finish;
mod flood;
mod landed;
mod members;
mod mix;
mod model_range;
mod naming;
mod paint_for;
mod pattern;
mod reading;
mod stroke;
mod supply;
mod words;

pub use crate::judge::wanted;
pub use along::{AlongFan, along_fan};
pub(crate) use build::FEWEST;
pub use figures::{
    Counted, Efficiency, Evenness, FateShares, FilmFigures, GunFigures, PaintFigures, PatternFigures, Report,
    SprayFigures, Spread,
};
pub use film_csv::film_csv;
pub use finish::{FinishFigures, MarkFigures, PlaceFigures, RunPlace};
pub use flood::{Curtain, CurtainKind, WATCHED, curtain_shape, flood_test};
pub(crate) use landed::{Landed, left_out};
pub use mix::{MixFigures, mix_plan};
pub use model_range::{REST_FAN, REST_FLAT, REST_TUBES, landed_ratio};
pub(crate) use model_range::{likely_factors, likely_over, likely_ratios, rest, together};
pub(crate) use naming::STARVED;
pub use naming::{Pattern, PatternKind};
pub use paint_for::{PaintFor, paint_for};
pub use pattern::{PatternSizes, pattern_sizes};
pub use reading::Reading;
pub use stroke::{Ends, StrokeFigures};
pub use supply::SupplyFigures;
pub use words::words;
