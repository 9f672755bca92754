//! How the gun is moved over the part, and what a footprint leaves when it is swept along.

mod deposits;
mod pass;
mod sweep;

pub use deposits::Deposits;
pub use pass::{Pass, Strokes};
pub use sweep::{Lay, SWEEP_STEPS, Swept};
