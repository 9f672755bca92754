//! The gun: its geometry, how the user has set it, and what then flows through it.

mod air_network;
mod fluid;
mod matched;
mod spec;
mod state;

pub use air_network::GunAir;
pub use fluid::{Passage, needle_area, needle_lift, paint_flow, tip_suction};
pub use matched::Matched;
pub use spec::{Class, Feed, GunSetting, Kit};
pub use state::{HVLP_LIMIT, State, Warning};
