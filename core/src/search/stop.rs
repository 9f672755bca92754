//! What stops a set-up, and what keeps the best from being better.

use serde::{Deserialize, Serialize};

/// A limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum What {
    /// The film wanted: too uneven to lie inside it, or too thick.
    Band,
    /// The low end of the film wanted.
    Thin,
    /// The thinnest spot over the mean film.
    Thinnest,
    /// Runs.
    Runs,
    /// Dry spray.
    Dry,
    /// Slower than a hand keeps.
    Slow,
    /// Faster than a hand keeps.
    Fast,
    /// The compressor.
    Air,
    /// A pattern that is neither balanced nor round.
    Pattern,
    /// The gun: coarse, flooded, above its cap's limit, its knob's end.
    Gun,
    /// The data sheet's window.
    Sheet,
    /// The end of the usual distances.
    Reach,
    /// Nothing: more paint alone.
    Paint,
}

/// A limit that is not kept.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Stop {
    /// Which.
    pub what: What,
    /// By how much, over the limit [-].
    pub by: f64,
}
