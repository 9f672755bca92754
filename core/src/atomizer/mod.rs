//! From air and paint at the tip to droplets: their sizes and how they are spread over the fan.

mod correlation;
mod distribution;
mod pattern;
mod pushed;

pub use correlation::{Breakup, Correlation};
pub use distribution::RosinRammler;
pub use pattern::{along, fan_slope, ray_spread, spreading_power};
pub use pushed::{Push, askew, slugs};
