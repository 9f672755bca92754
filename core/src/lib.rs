//! mistcoat: what an air-spray gun, set up this way, puts on this part.

pub mod catalogue;
pub mod error;
pub mod evaporation;
pub mod gun;
pub mod job;
pub mod math;
pub mod paint;
pub mod spray;
pub mod units;
