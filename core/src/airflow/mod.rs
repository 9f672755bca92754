//! Air between gun and part: closed forms, exactly divergence-free, with no flow through walls.
//!
//! Equations and checks: `docs/methods/air-flow.md`.

mod among;
mod curved;
mod fan_jet;
mod panel;
#[cfg(test)]
mod tests;
mod tilted;
mod tube;

pub use among::AmongFlow;
pub use curved::CurvedFlow;
pub use fan_jet::{FanJet, INTENSITY, JetSpec, SPREAD, Section, TIME_SCALE};
pub use panel::PanelFlow;
pub use tilted::TiltedFlow;
pub use tube::TubeFlow;

use crate::lanes::Lanes;
use crate::surface::{Air, Vec3};

/// A steady air field in the gun's frame.
pub trait AirFlow<L: Lanes> {
    /// The wall's normal is (0, 0, -1) everywhere: the kernel then leaves out what is 0.
    const FLAT: bool = false;
    /// Air at a point [m].
    fn at(&self, point: Vec3<L>) -> Air<L>;
}
