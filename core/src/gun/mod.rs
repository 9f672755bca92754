//! The gun: its geometry, how the user has set it, and what then flows through it.

mod air_network;
mod class;
mod cup;
mod delivered;
mod faults;
mod fluid;
mod matched;
mod spec;
mod state;
mod warning;

pub use air_network::GunAir;
pub use class::{Class, Feed, Usual};
pub use cup::{ClosedCup, underpressure};
pub use faults::{Fault, Faults};
pub use fluid::{Passage, drive, flow_under, needle_area, needle_lift, paint_flow, thin_flow, tip_suction};
pub use matched::Matched;
pub use spec::{GunSetting, HELD, Kit};
pub use state::{HVLP_LIMIT, State};
pub use warning::Warning;
