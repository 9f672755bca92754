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
    /// By how much, over the limit [-]; of what is counted part by part, the share of the parts [-].
    pub by: f64,
    /// Parts that do not keep to it, and parts looked at, where it is told part by part.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub parts: Option<[u64; 2]>,
}

impl Stop {
    /// One that is not counted part by part.
    #[must_use]
    pub fn new(what: What, by: f64) -> Self {
        Self { what, by, parts: None }
    }
}

/// How good a set-up is by what stops it, what is not sure, and its paint: less is better.
pub(super) fn rank(stops: &[Stop], unsure: &[Stop], paint: f64) -> (u8, f64) {
    let by = |all: &[Stop]| all.iter().map(|s| s.by).sum::<f64>();
    match (stops.is_empty(), unsure.is_empty()) {
        (true, true) => (0, paint),
        (true, false) => (1, by(unsure)),
        _ => (2, by(stops)),
    }
}
