//! The fan jet on a face that is curved outwards about an axis along x.
//!
//! The slanting face's field with the normal of the nearest place: u = h u_free - h' n x A, h = tanh(d / delta), d = rad - R, n = -grad d:
//! u = curl(h A), so divergence 0 and no flow through the face wherever the gun's axis meets it. 1/delta is the flat
//! panel's plus 2/R, what a cylinder's front adds to the strain of a stream: for R -> infinity the field is the panel's. Own derivation.
//! A tube's field has the same strain at the wall there, but its h = 1 - (R/rad)^p slows the air further out than tanh does.
//! Range: faces wider than the jet's narrow way, R from about 60 mm.

use super::fan_jet::FanJet;
use super::tilted::led;
use super::{AirFlow, PanelFlow};
use crate::error::{ParameterError, within};
use crate::lanes::{Lanes, Real};
use crate::surface::{Air, Vec3, Wall};

/// A fan jet on a curved face whose axis is at (y, z) = (offset, distance + radius).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurvedFlow<T> {
    /// The free jet, its narrow way x; where that is y in the gun's frame, x and y are swapped.
    pub jet: FanJet<T>,
    /// x and y are swapped.
    pub swapped: bool,
    /// Radius of the face [m].
    pub radius: T,
    /// Axis, y [m].
    pub axis_y: T,
    /// Axis, z [m].
    pub axis_z: T,
    /// 1 / delta [1/m].
    pub inverse_layer: T,
    /// m [-].
    pub sided: T,
    /// Wall damping length min(0.5 r12, R) [m].
    pub damping: T,
}

impl CurvedFlow<f64> {
    /// A face of `radius` [m] whose nearest place is `distance` [m] from the tip, its axis `offset` [m] beside the gun's.
    ///
    /// # Errors
    /// Radius, distance or offset out of range.
    pub fn new(jet: FanJet<f64>, distance: f64, radius: f64, offset: f64) -> Result<Self, ParameterError> {
        within("part.curved.radius", radius, 0.01, 1e4, "m")?;
        within("stroke.offset", offset, -1.0, 1.0, "m")?;
        let swapped = jet.growth_x > jet.growth_y;
        let jet =
            if swapped { FanJet { growth_x: jet.growth_y, growth_y: jet.growth_x, ..jet } } else { jet };
        let panel = PanelFlow::new(jet, distance)?;
        Ok(Self {
            jet,
            swapped,
            radius,
            axis_y: offset,
            axis_z: distance + radius,
            inverse_layer: panel.inverse_layer + 2.0 / radius,
            sided: panel.sided,
            damping: panel.damping.min(radius),
        })
    }

    /// The same flow in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> CurvedFlow<T> {
        CurvedFlow {
            jet: self.jet.cast(),
            swapped: self.swapped,
            radius: T::from_f64(self.radius),
            axis_y: T::from_f64(self.axis_y),
            axis_z: T::from_f64(self.axis_z),
            inverse_layer: T::from_f64(self.inverse_layer),
            sided: T::from_f64(self.sided),
            damping: T::from_f64(self.damping),
        }
    }
}

impl<L: Lanes> AirFlow<L> for CurvedFlow<L::Scalar> {
    #[inline(always)]
    fn at(&self, [x, y, z]: Vec3<L>) -> Air<L> {
        let zero = x.lit(0.0);
        let (dy, dz) = (y - x.splat(self.axis_y), z - x.splat(self.axis_z));
        let radius = x.splat(self.radius);
        let distance = (dy * dy + dz * dz).sqrt().max(x.lit(1e-6));
        let inverse = x.lit(1.0) / distance;
        let (out_y, out_z) = (dy * inverse, dz * inverse);
        let gap = (distance - radius).max(zero);
        let (inverse_layer, m) = (x.splat(self.inverse_layer), x.splat(self.sided));
        let (velocity, (sigma, sigma_slope, time_scale)) = if self.swapped {
            // The mirrored field of the mirrored face.
            let (v, (sigma, slope, time)) =
                led(&self.jet, [y, x, z], [-out_y, zero, -out_z], gap, inverse_layer, m);
            ([v[1], v[0], v[2]], (sigma, [slope[1], slope[0], slope[2]], time))
        } else {
            led(&self.jet, [x, y, z], [zero, -out_y, -out_z], gap, inverse_layer, m)
        };
        let bend = x.lit(1.0) / distance.max(radius);
        let normal = [zero, out_y, out_z];
        let wall = Wall { gap, normal, bend, damping: x.splat(self.damping) };
        Air { velocity, sigma, sigma_slope, time_scale, wall }
    }
}
