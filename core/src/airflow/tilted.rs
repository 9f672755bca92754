//! The fan jet meeting a flat face aslant.
//!
//! u = h u_free - h' n x A, with curl A = u_free, h = tanh(d / delta), d the distance to the face and n its normal into the
//! face: u = curl(h A), so divergence 0 and no flow through the face at any tilt; n = z gives the panel's field.
//! A = (-Py, Px, chi): Px = Uc ((1 - m) x k/2 + m bx E), Py = Uc (1 - m) y k/2,
//! chi = Uc y ((1 - m) x (alpha - beta) k/2 - m beta bx E), E = (sqrt(pi)/2) erf(x/bx) exp(-(y/by)^2), m constant.
//! delta and m are the panel's, at the distance along the gun's axis. Own derivation; range: tilts to 60 degrees.

use super::fan_jet::{FanJet, HALF_ROOT_PI, fill};
use super::{AirFlow, PanelFlow};
use crate::error::{ParameterError, within};
use crate::lanes::{Lanes, Real};
use crate::surface::{Air, Vec3, Wall, dot, minus, scale};

/// A fan jet on a flat face n . p = H. The jet's narrow way must be x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltedFlow<T> {
    /// The free jet.
    pub jet: FanJet<T>,
    /// Unit normal into the face.
    pub normal: [T; 3],
    /// Tip to face, square on, H [m].
    pub distance: T,
    /// 1 / delta [1/m].
    pub inverse_layer: T,
    /// m [-].
    pub sided: T,
    /// Wall damping length [m].
    pub damping: T,
}

impl TiltedFlow<f64> {
    /// A face `distance` [m] square from the tip, its unit `normal` into the face.
    ///
    /// # Errors
    /// A normal that is not of length 1 or more than 60 degrees off the gun's axis; as [`PanelFlow::new`].
    pub fn new(jet: FanJet<f64>, distance: f64, normal: [f64; 3]) -> Result<Self, ParameterError> {
        let length2: f64 = normal.iter().map(|n| n * n).sum();
        within("tilt.normal", length2, 1.0 - 1e-9, 1.0 + 1e-9, "")?;
        within("tilt.cosine", normal[2], 0.5, 1.0 + 1e-9, "")?;
        let panel = PanelFlow::new(jet, distance / normal[2])?;
        Ok(Self {
            jet,
            normal,
            distance,
            inverse_layer: panel.inverse_layer,
            sided: panel.sided,
            damping: panel.damping,
        })
    }

    /// The same flow in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> TiltedFlow<T> {
        TiltedFlow {
            jet: self.jet.cast(),
            normal: self.normal.map(T::from_f64),
            distance: T::from_f64(self.distance),
            inverse_layer: T::from_f64(self.inverse_layer),
            sided: T::from_f64(self.sided),
            damping: T::from_f64(self.damping),
        }
    }
}

/// The field at a point `gap` from a face whose normal into it is `n` there: u = h u_free - h' n x A, and the free jet's turbulence.
#[inline(always)]
pub(super) fn led<L: Lanes>(
    jet: &FanJet<L::Scalar>,
    [x, y, z]: Vec3<L>,
    n: Vec3<L>,
    gap: L,
    inverse_layer: L,
    m: L,
) -> (Vec3<L>, (L, Vec3<L>, L)) {
    let one = x.lit(1.0);
    let s = jet.section(z.max(x.lit(1e-3)));
    let (xi, eta) = (x * s.ix, y * s.iy);
    let (xi2, eta2) = (xi * xi, eta * eta);
    let e2 = eta2.fade();
    let eq = xi2.fade() * e2;
    let fill = fill(xi2 + eta2, eq);
    let far = (gap * inverse_layer * x.lit(2.0)).fade();
    let h = (one - far) / (one + far);
    let h_slope = (one - h * h) * inverse_layer;
    let a = (s.alpha + s.beta) * x.lit(0.5);
    let round = (one - m) * x.lit(0.5) * fill.k;
    let flat = m * s.bx * x.lit(HALF_ROOT_PI) * xi.erf() * e2;
    // The free jet, and what it is the curl of.
    let uz = s.centre * eq;
    let (px, py) = (s.centre * (x * round + flat), s.centre * y * round);
    let free = [uz * x * s.alpha - a * px, uz * y * s.beta - a * py, uz];
    let chi = s.centre * y * (x * (s.alpha - s.beta) * round - s.beta * flat);
    let led = [n[1] * chi - n[2] * px, -(n[2] * py) - n[0] * chi, n[0] * px + n[1] * py];
    (minus(scale(free, h), scale(led, h_slope)), jet.turbulence(&s, xi, eta, &fill))
}

impl<L: Lanes> AirFlow<L> for TiltedFlow<L::Scalar> {
    #[inline(always)]
    fn at(&self, point: Vec3<L>) -> Air<L> {
        let x = point[0];
        let zero = x.lit(0.0);
        let n = [x.splat(self.normal[0]), x.splat(self.normal[1]), x.splat(self.normal[2])];
        let gap = (x.splat(self.distance) - dot(point, n)).max(zero);
        let (velocity, (sigma, sigma_slope, time_scale)) =
            led(&self.jet, point, n, gap, x.splat(self.inverse_layer), x.splat(self.sided));
        Air {
            velocity,
            sigma,
            sigma_slope,
            time_scale,
            wall: Wall { gap, normal: [-n[0], -n[1], -n[2]], bend: zero, damping: x.splat(self.damping) },
        }
    }
}
