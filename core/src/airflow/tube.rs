//! The fan jet round a tube that runs along x.
//!
//! Own derivation: the free field times h = 1 - (R/rad)^p, with the missing air led round the tube (share th) and
//! along it (1 - th). In a uniform stream p = 2, th = 1: exactly potential flow, so that Langmuir and Blodgett 1946
//! tests it; for R -> infinity the panel's strain. Divergence 0 for a tube on the gun's axis; off it at
//! most w a Uc erf(eta_c) by p/R. How th blends is the least certain part.

use super::AirFlow;
use super::fan_jet::{FanJet, HALF_ROOT_PI, HALF_WIDTH, fill};
use super::panel::narrow_strain;
use crate::error::{ParameterError, within};
use crate::lanes::{Lanes, Real};
use crate::surface::{Air, Vec3, Wall};

/// A fan jet on a tube along x whose axis is at (y, z) = (offset, distance + radius).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeFlow<T> {
    /// The free jet; its long way may be x (fan along the tube) or y (across).
    pub jet: FanJet<T>,
    /// Tube radius R [m].
    pub radius: T,
    /// Axis, y [m].
    pub axis_y: T,
    /// Axis, z [m].
    pub axis_z: T,
    /// p [-].
    pub power: T,
    /// th [-]: share of the air that goes round, not along.
    pub round: T,
    /// S(eta_c) [-].
    pub shift: T,
    /// Wall damping length min(0.5 r12, R) [m].
    pub damping: T,
}

impl TubeFlow<f64> {
    /// A tube of `radius` [m] whose nearest face is `distance` [m] from the tip and whose axis passes `offset` [m]
    /// beside the gun's.
    ///
    /// # Errors
    /// Radius, distance or offset out of range.
    pub fn new(jet: FanJet<f64>, distance: f64, radius: f64, offset: f64) -> Result<Self, ParameterError> {
        within("stroke.distance", distance, 0.02, 1e4, "m")?;
        within("part.tube.diameter", 2.0 * radius, 0.001, 1e4, "m")?;
        within("stroke.offset", offset, -1.0, 1.0, "m")?;
        let front = jet.section(distance);
        let x_narrow = front.bx <= front.by;
        let (narrow, wide) = if x_narrow { (front.bx, front.by) } else { (front.by, front.bx) };
        let ratio = narrow / wide;
        let narrow_rate = narrow_strain(ratio) * front.centre / (HALF_WIDTH * narrow);
        let wide_rate = narrow_rate * ratio * ratio;
        let (along, across) = if x_narrow { (narrow_rate, wide_rate) } else { (wide_rate, narrow_rate) };
        // Added plainly: in a uniform stream and for a very wide tube either part stands alone, and both are then exact.
        let round = 2.0 * front.centre / radius + across;
        let all = round + along;
        let axis_z = distance + radius;
        Ok(Self {
            jet,
            radius,
            axis_y: offset,
            axis_z,
            power: radius * all / front.centre,
            round: round / all,
            shift: HALF_ROOT_PI * crate::math::erf(offset / jet.section(axis_z).by),
            damping: (0.5 * HALF_WIDTH * narrow).min(radius),
        })
    }

    /// The same flow in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> TubeFlow<T> {
        TubeFlow {
            jet: self.jet.cast(),
            radius: T::from_f64(self.radius),
            axis_y: T::from_f64(self.axis_y),
            axis_z: T::from_f64(self.axis_z),
            power: T::from_f64(self.power),
            round: T::from_f64(self.round),
            shift: T::from_f64(self.shift),
            damping: T::from_f64(self.damping),
        }
    }
}

impl<L: Lanes> AirFlow<L> for TubeFlow<L::Scalar> {
    #[inline(always)]
    fn at(&self, [x, y, z]: Vec3<L>) -> Air<L> {
        let one = x.lit(1.0);
        let s = self.jet.section(z.max(x.lit(1e-3)));
        let (xi, eta) = (x * s.ix, y * s.iy);
        let (xi2, eta2) = (xi * xi, eta * eta);
        let (e1, e2) = (xi2.fade(), eta2.fade());
        let eq = e1 * e2;
        let fill = fill(xi2 + eta2, eq);
        let half_root_pi = x.lit(HALF_ROOT_PI);
        let (sx, sy) = (half_root_pi * xi.erf(), half_root_pi * eta.erf());
        let (bx2, by2) = (s.bx * s.bx, s.by * s.by);
        let w = bx2 / (bx2 + by2);
        let a = (s.alpha + s.beta) * x.lit(0.5);
        let uc = s.centre;

        let (dy, dz) = (y - x.splat(self.axis_y), z - x.splat(self.axis_z));
        let radius = x.splat(self.radius);
        let distance = (dy * dy + dz * dz).sqrt().max(x.lit(1e-6));
        let inverse = one / distance;
        let normal = [x.lit(0.0), dy * inverse, dz * inverse];
        // Inside the tube (a midpoint may be) the wall's own values hold.
        let outer = distance.max(radius);
        let p = x.splat(self.power);
        let bend = one / outer;
        let shade = (p * (radius * bend).ln()).exp();
        let h = one - shade;
        let rate = p * shade * bend;
        let (h_y, h_z) = (rate * normal[1], rate * normal[2]);

        let draw = a * uc;
        let uz = uc * eq;
        let ux = uz * x * s.alpha - (one - w) * draw * s.bx * sx * e2;
        let uy = uz * y * s.beta - w * draw * s.by * sy * e1;
        let i = s.by * (sy - x.splat(self.shift));
        let psi = uc * e1 * i;
        let f = i * uc * (x * s.alpha * e1 - (one - w) * a * s.bx * sx);
        let jx = uc * s.bx * sx;
        let led = h_z * jx * e2 + h_y * (y * s.beta * jx * e2 - w * a * s.by * sy * jx);
        let th = x.splat(self.round);
        let (sigma, sigma_slope, time_scale) = self.jet.turbulence(&s, xi, eta, &fill);
        Air {
            velocity: [
                h * ux + th * h_y * f - (one - th) * led,
                h * uy - th * h_z * psi,
                h * uz + th * h_y * psi,
            ],
            sigma,
            sigma_slope,
            time_scale,
            wall: Wall {
                gap: (distance - radius).max(x.lit(0.0)),
                normal,
                bend,
                damping: x.splat(self.damping),
            },
        }
    }
}
