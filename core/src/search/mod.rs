//! What should I set? Least paint for a part with the film inside the band: over fan, fluid, pressure, distance, speed and overlap, on
//! tubes over the fan's axis and the sides. `docs/methods/search.md`.
//!
//! Comparison and diagnosis stand on the same levers, limits and net.

mod air;
mod answer;
mod asked;
mod flat;
mod flight;
mod front;
mod hunt;
mod lever;
mod limits;
mod marks;
mod net;
mod paced;
mod pool;
mod setup;
mod stop;
mod trial;
mod verify;
mod words;

pub use air::{AirFigures, air_of};
pub use answer::{Answer, Found, FrontPoint};
pub use asked::Asked;
pub use flat::{End, Flat, SAME};
pub use flight::{Films, Flight, Look, SIDES, FULL, FULL_PARTS, Way, ways};
pub use front::front;
pub use hunt::{Search, searched};
pub use lever::{Lever, OVERLAPS};
pub use limits::{EVEN_ENOUGH, FINE_ENOUGH, Fault, HAND, LONGEST, Limits, fault, sauter};
pub(crate) use net::{Ask, Net, NetSpec, Point, Rank};
pub use paced::Paced;
pub use setup::{Change, changes, keys, with_keys};
pub use stop::{Stop, What};
pub use trial::{Choice, Trial, Tried};
pub use words::{bounds, exact, film, for_whom, name, reason, sentence, stop, turn, value, words};
