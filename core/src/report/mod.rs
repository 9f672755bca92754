//! The report of a run: figures with their uncertainty. What a run cannot say is left out.
//!
//! Keys and meaning: `docs/job-file.md`. Shares are of solids sprayed.

mod build;
mod figures;
mod model_range;
mod pattern;
mod shares;

pub use figures::{
    Counted, Efficiency, Evenness, FateShares, FilmFigures, GunFigures, PaintFigures, PatternFigures, Report,
    SprayFigures, Spread,
};
pub use pattern::{PatternKind, PatternSizes, pattern_kind, pattern_sizes, shape};
