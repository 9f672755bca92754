//! Integer counts of what became of the parcels. Equal-solids parcels: a count is an amount of solids, and counts of
//! any slices and threads add up to the same digits.

mod digest;
mod fate_mix;
mod fates;
mod footprint;
mod members;
mod sizes;

pub use digest::Digest;
pub use fate_mix::FateMix;
pub use fates::{FATES, Fate, Fates};
pub use footprint::{Footprint, Grid, WET_UNIT};
pub use members::Members;
pub use sizes::{SIZE_CLASSES, Sizes};

/// Replicate groups: a parcel belongs to group (its number mod 16).
pub const GROUPS: usize = 16;

/// Standard error of a mean from its values in the groups.
#[must_use]
pub fn standard_error(values: &[f64; GROUPS]) -> f64 {
    let n = GROUPS as f64;
    let mean = values.iter().sum::<f64>() / n;
    let spread = values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>();
    (spread / (n * (n - 1.0))).sqrt()
}

/// Standard error of a figure from the changes that leaving out one group makes.
#[must_use]
pub fn jackknife(changes: [f64; GROUPS]) -> f64 {
    let n = GROUPS as f64;
    (changes.iter().map(|c| c * c).sum::<f64>() * (n - 1.0) / n).sqrt()
}
