//! What should I set? Least paint for a part with the film inside the band: over fan, fluid, pressure, distance, speed and overlap, on
//! tubes over the fan's axis and the sides. `docs/methods/search.md`.
//!
//! Comparison and diagnosis stand on the same levers, limits and net.

mod air;
mod lever;
mod limits;
mod net;

pub use air::{AirFigures, air_of};
pub use lever::Lever;
pub use limits::{EVEN_ENOUGH, FINE_ENOUGH, Fault, HAND, LONGEST, Limits, fault, sauter};
pub(crate) use net::{Ask, Net, NetSpec, Point, Rank};
