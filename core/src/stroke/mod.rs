//! How the gun is moved over the part, and what a footprint leaves when it is swept along.

mod pass;
mod sweep;

pub use pass::{Pass, Strokes};
pub use sweep::{Lay, SWEEP_STEPS, Swept};
