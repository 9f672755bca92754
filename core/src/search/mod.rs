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
mod look;
mod marks;
mod net;
mod paced;
mod point;
mod pool;
mod setup;
mod side;
mod span;
mod stop;
mod told;
mod trial;
mod under_way;
mod verify;
mod way;
mod words;

pub use air::{AirFigures, air_of};
pub use answer::{Answer, Found, FrontPoint};
pub use asked::Asked;
pub use flat::{End, Flat, SAME};
pub use flight::{Films, Flight};
pub use front::front;
pub use lever::{Lever, OVERLAPS};
pub use limits::{EVEN_ENOUGH, FINE_ENOUGH, Fault, HAND, LONGEST, Limits, fault, sauter};
pub use look::{FULL, FULL_PARTS, Look};
pub(crate) use net::Net;
pub use paced::Paced;
pub(crate) use point::{Ask, NetSpec, Point, Rank};
pub use setup::{Change, changes, keys, with_keys};
pub use stop::{Stop, What};
pub use told::{exact, name, turn, value};
pub use trial::{Choice, Trial, Tried};
pub use under_way::{Search, searched};
pub use way::{SIDES, Way, ways};
pub use words::{bounds, film, for_whom, reason, sentence, stop, words};
