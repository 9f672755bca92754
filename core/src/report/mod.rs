//! The report of a run: figures with their uncertainty. What a run cannot say is left out.
//!
//! Keys and meaning: `docs/job-file.md`. Shares are of solids sprayed.

mod build;
#[cfg(feature = "charts")]
pub mod chart;
mod figures;
mod film_csv;
mod mix;
mod model_range;
mod pattern;
mod shares;
mod supply;
mod words;

pub use figures::{
    Counted, Efficiency, Evenness, FateShares, FilmFigures, GunFigures, PaintFigures, PatternFigures, Report,
    SprayFigures, Spread,
};
pub use film_csv::film_csv;
pub use mix::{MixFigures, mix_plan};
pub use model_range::landed_ratio;
pub use pattern::{PatternKind, PatternSizes, pattern_kind, pattern_sizes, shape};
pub use shares::wanted;
pub use supply::SupplyFigures;
pub use words::words;
