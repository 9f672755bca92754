//! What the benches share: the task, who does it, and how what landed is counted.

#[path = "../peers/scalar.rs"]
pub mod scalar;

#[path = "../peers/plain.rs"]
pub mod plain;

pub mod cases;
pub mod clock;
pub mod kernel;
pub mod scene;
pub mod tally;
pub mod task;

/// Columns of a sweep that is laid: the film as it lies, paint and time.
pub const LAID: [&str; 7] = [
    "transfer_efficiency.value",
    "film.dry_um.mean",
    "film.thinnest_over_mean",
    "film.cv_percent.value",
    "film.in_band_percent",
    "paint.sprayed_ml",
    "paint.seconds",
];
