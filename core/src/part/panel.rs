//! A flat face square to the gun.

use super::Part;
use crate::lanes::{Lanes, Real};
use crate::surface::Vec3;

/// Half width of the large card [m]; a droplet further out from the gun's axis has missed.
pub const CARD_HALF: f64 = 0.6;

/// A face at z = distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanelPart<T> {
    /// Tip to face [m].
    pub distance: T,
    /// Half the face [m]: a droplet further from the axis along x or y has missed.
    pub half: T,
    /// Wall layer of the air [m].
    pub layer: T,
}

impl PanelPart<f64> {
    /// The same part in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> PanelPart<T> {
        PanelPart {
            distance: T::from_f64(self.distance),
            half: T::from_f64(self.half),
            layer: T::from_f64(self.layer),
        }
    }
}

impl<L: Lanes> Part<L> for PanelPart<L::Scalar> {
    #[inline(always)]
    fn gap(&self, [x, _, z]: Vec3<L>) -> L {
        x.splat(self.distance) - z
    }
    #[inline(always)]
    fn passed(&self, [x, y, _]: Vec3<L>) -> L::Mask {
        let half = x.splat(self.half);
        L::or(half.lt(x.abs()), half.lt(y.abs()))
    }
    #[inline(always)]
    fn change(&self, [x, _, z]: Vec3<L>, velocity: Vec3<L>, speed: L, gap: L) -> L {
        // The wall layer asks for a step by the way towards it, the free jet for one by the way from the tip.
        let towards = velocity[2].abs() + speed * x.lit(super::ANY_WAY);
        let layer = gap + x.splat(self.layer) * x.lit(0.1);
        (speed / z.max(x.lit(1e-3)) * x.lit(0.5)).max(towards / layer)
    }
}
