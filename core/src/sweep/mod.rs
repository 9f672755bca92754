//! What if: any key of the job file, or two, over ranges or lists, each point flown with the same streams.
//!
//! A droplet's stream is told by the seed and its number, never by its point, so that two points differ by what was changed and
//! hardly by chance: [`Answer::difference`] has a smaller error than either figure. Points between which only the stroke or the
//! film wanted changes share one flight and are laid one after the other, with the digits of each flown alone. What cannot be
//! sprayed is told with its reason, and the rest goes on. Method, limits: `docs/methods/sweep.md`.
//!
//! [`Sweep`] does all of it; [`Plan::fly`] does one point, for workers and shards that take points.

mod answer;
mod axis;
mod column;
mod flight;
mod laid;
#[cfg(feature = "charts")]
mod picture;
mod plan;
mod replicates;
mod table;
mod under_way;
mod words;

pub use answer::{Answer, Difference, Figure, Impossible, Point, Step, Value};
pub use axis::{Axis, MOST_VALUES};
pub use column::{COLUMNS, Column, DEFAULT_COLUMNS};
#[cfg(feature = "charts")]
pub use picture::{curve_of, curve_points, map_of, picture};
pub use plan::{MOST_AXES, MOST_POINTS, Plan, Shard};
pub use table::{header, line, to_csv};
pub use under_way::Sweep;
pub use words::words;
