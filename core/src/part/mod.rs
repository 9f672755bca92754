//! What is painted, as the flight meets it: how far a point is from the face, and when a droplet has passed by.

mod among;
mod curved;
mod frame;
mod panel;
mod tilted;
mod tube;

pub use among::AmongPart;
pub use curved::CurvedPart;
pub use frame::{Frame, MOST_MEMBERS, Member};
pub use panel::{CARD_HALF, PanelPart};
pub use tilted::TiltedPart;
pub use tube::TubePart;

use crate::lanes::Lanes;
use crate::surface::Vec3;

/// Share of the speed that counts as speed towards a flat face whichever way a droplet goes [-]: gusts carry the finest ones to and fro where
/// the air turns aside, and with 0.1 a step could take them through the layer that they cannot cross (`docs/decisions/step.md`).
const ANY_WAY: f64 = 0.3;

/// A part in the gun's frame.
pub trait Part<L: Lanes> {
    /// Distance to the part's face [m], negative inside.
    fn gap(&self, point: Vec3<L>) -> L;
    /// The droplet has left the part's outline for good.
    fn passed(&self, point: Vec3<L>) -> L::Mask;
    /// How fast a droplet meets other air [1/s]: its speed over the length on which the air changes, along its way and
    /// towards the face. The step is a share of its inverse.
    fn change(&self, point: Vec3<L>, velocity: Vec3<L>, speed: L, gap: L) -> L;
}
