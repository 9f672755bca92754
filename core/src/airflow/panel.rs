//! The fan jet facing a flat panel.
//!
//! The free jet's field with u_z -> h u_z and the lateral part fed by G = Uc (h' - a h), h = tanh(d / delta), d the
//! distance to the panel: no flow through the wall, divergence 0, the wall jet comes out by itself.
//! delta = Uc(H) / (total wall-normal strain), strain (0.65 + 0.52 r)(1 + r^2) Uc / r12x at H, r = bx/by: between
//! Beltaos and Rajaratnam 1974 (round, 2.34) and plane-jet data (0.62-0.77), from memory; uncertain by 15-20 %.
//! m = (1 - r^2)/(1 + r^2): a round jet draws air in from all round, a flat one through its flat sides.

use super::AirFlow;
use super::fan_jet::{FanJet, HALF_ROOT_PI, HALF_WIDTH, fill};
use crate::error::{ParameterError, within};
use crate::lanes::{Lanes, Real};
use crate::surface::{Air, Vec3, Wall};

/// A fan jet square on to a flat panel at z = H. The jet's narrow way must be x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanelFlow<T> {
    /// The free jet.
    pub jet: FanJet<T>,
    /// Tip to panel, H [m].
    pub distance: T,
    /// 1 / delta [1/m].
    pub inverse_layer: T,
    /// m [-].
    pub sided: T,
    /// Wall damping length 0.5 r12 [m].
    pub damping: T,
}

/// Where the jet's two widths differ by less than this it counts as round (m = 0).
const ROUND: f64 = 0.95;

/// Wall-normal strain of the jet's narrow way times r12 / Uc [-], from narrow over wide half-width (0 plane, 1 round).
#[must_use]
pub(super) fn narrow_strain(ratio: f64) -> f64 {
    0.65 + 0.52 * ratio
}

impl PanelFlow<f64> {
    /// A panel at `distance` [m], 0.02..=5.
    ///
    /// # Errors
    /// Distance out of range, or a jet whose long way is x.
    pub fn new(jet: FanJet<f64>, distance: f64) -> Result<Self, ParameterError> {
        within("stroke.distance", distance, 0.02, 5.0, "m")?;
        if jet.growth_x > jet.growth_y {
            return Err(ParameterError::new("jet.slope_x", jet.growth_x.sqrt(), "at most the slope along y"));
        }
        let s = jet.section(distance);
        let ratio = s.bx / s.by;
        let half = HALF_WIDTH * s.bx;
        let total = narrow_strain(ratio) * (1.0 + ratio * ratio) / half;
        let sided = if ratio > ROUND { 0.0 } else { (1.0 - ratio * ratio) / (1.0 + ratio * ratio) };
        Ok(Self { jet, distance, inverse_layer: total, sided, damping: 0.5 * half })
    }

    /// The same flow with the wall-normal strain multiplied (it is uncertain by 15-20 %).
    #[must_use]
    pub fn with_strain(mut self, factor: f64) -> Self {
        self.inverse_layer *= factor;
        self
    }

    /// The same flow in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> PanelFlow<T> {
        PanelFlow {
            jet: self.jet.cast(),
            distance: T::from_f64(self.distance),
            inverse_layer: T::from_f64(self.inverse_layer),
            sided: T::from_f64(self.sided),
            damping: T::from_f64(self.damping),
        }
    }
}

impl<L: Lanes> AirFlow<L> for PanelFlow<L::Scalar> {
    const FLAT: bool = true;

    #[inline(always)]
    fn at(&self, [x, y, z]: Vec3<L>) -> Air<L> {
        let one = x.lit(1.0);
        let zero = x.lit(0.0);
        let s = self.jet.section(z.max(x.lit(1e-3)));
        let (xi, eta) = (x * s.ix, y * s.iy);
        let (xi2, eta2) = (xi * xi, eta * eta);
        let e2 = eta2.fade();
        let eq = xi2.fade() * e2;
        let fill = fill(xi2 + eta2, eq);
        let inverse_layer = x.splat(self.inverse_layer);
        let gap = (x.splat(self.distance) - z).max(zero);
        // tanh by one exponential
        let far = (gap * inverse_layer * x.lit(2.0)).fade();
        let h = (one - far) / (one + far);
        let h_slope = (one - h * h) * inverse_layer;
        let a = (s.alpha + s.beta) * x.lit(0.5);
        let feed = s.centre * (h_slope - a * h);
        let m = x.splat(self.sided);
        let uz = s.centre * h * eq;
        let round = (one - m) * x.lit(0.5) * fill.k;
        let flat = m * x.lit(HALF_ROOT_PI) * s.bx * xi.erf() * e2;
        let ux = uz * x * s.alpha + feed * (x * round + flat);
        let uy = uz * y * s.beta + feed * y * round;
        let (sigma, sigma_slope, time_scale) = self.jet.turbulence(&s, xi, eta, &fill);
        Air {
            velocity: [ux, uy, uz],
            sigma,
            sigma_slope,
            time_scale,
            wall: Wall { gap, normal: [zero, zero, -one], bend: zero, damping: x.splat(self.damping) },
        }
    }
}
