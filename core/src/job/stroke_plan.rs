//! How the gun is moved.

use crate::stroke::Hand;

/// The fan's long axis against the stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FanAxis {
    /// Across the stroke (usual).
    Across,
    /// Along the stroke.
    Along,
}

/// How the gun is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokePlan {
    /// Tip to the part's nearest face [m].
    pub distance: f64,
    /// Gun speed [m/s].
    pub speed: f64,
    /// Overlap of neighbouring passes, share of the fan height at this distance, 0..=0.95.
    pub overlap: f64,
    /// Trigger on past each edge [m].
    pub lead: f64,
    /// Coats, 1..=10.
    pub coats: u32,
    /// Fan's long axis.
    pub fan_axis: FanAxis,
    /// Tubes: passes from this many directions, evenly round it, 1..=12.
    pub sides: u32,
    /// Trigger off between two passes [s].
    pub turn: f64,
    /// Wait between two coats [s].
    pub flash: f64,
    /// Trigger on, gun held still at the middle [s]; then there are no passes.
    pub burst: Option<f64>,
    /// In what order the passes of a panel go.
    pub order: PassOrder,
    /// Who moves the gun.
    pub hand: Hand,
    /// Gun held tipped up all the way [rad], its aim on the line.
    pub heel: f64,
    /// Gun held swung along x all the way [rad].
    pub swing: f64,
    /// Way over which the trigger is eased open and shut at the ends of a pass [m].
    pub feather: f64,
}

impl StrokePlan {
    /// A machine's plain passes, square on: laid by the exact sweep.
    #[must_use]
    pub fn is_swept(&self) -> bool {
        let square = self.heel == 0.0 && self.swing == 0.0;
        square && self.hand.is_machine() && self.order == PassOrder::Raster && self.feather == 0.0
    }
}

/// In what order the passes of a panel go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PassOrder {
    /// Pass by pass from the top down, every coat alike.
    #[default]
    Raster,
    /// Every second coat across, the fan turned a quarter.
    Cross,
    /// First a pass up and down each end, then rows from end to end without lead.
    Banded,
}
