//! The flight of droplets: one kernel over [`Lanes`](crate::lanes::Lanes), for every air flow and part.
//!
//! Reads as: look up the air, push the droplet, did it land. Equations: `docs/methods/flight.md`.

mod batch;
mod damping;
mod drag;
mod fly;
mod kernel;
mod noise;
mod settings;
mod step;
mod turbulence;

pub use batch::{Batch, END_DRIFTED, END_HIT, END_PASSED, Start};
pub use drag::{drag_factor, drag_factor_of_square, relaxation_time};
pub use fly::{Scene, fly, levels};
pub use kernel::fly_lanes;
pub use noise::Noise;
pub use settings::{ALOFT, FlightSettings, GRAVITY, STEP};
pub use turbulence::{Crossing, Response, Turn};
