//! Free fan jet: a Gaussian jet, flattened, that carries its momentum unchanged.
//!
//! U_z = Uc exp(-(x/bx)^2 - (y/by)^2), Uc = sqrt(2 J / (pi rho bx by)),
//! b^4 = b0^4 + ((S^2 + T^2) z^2)^2 each way, b0 = sqrt(2 J / (pi rho U0^2)): Uc(0) = U0 and J exact at every z.
//! Spread S from the round free jet's half-width slope 0.094 (Hussein, Capp and George 1994, J. Fluid Mech. 258:31,
//! from memory); entrainment 0.32 x/D then follows (Ricou and Spalding 1961, a check, not a fit).
//! Turbulence: sigma = 0.23 Uc sqrt(k(q) / (1 + (q/6)^4)), T_L = 0.95 sqrt(ln 2) min(bx, by) / Uc.
//! Range: beyond about six nozzle diameters (20 mm); valid for T 0..=0.6.

use crate::error::{ParameterError, within};
use crate::lanes::{Lanes, Real, inverses};
use crate::surface::Vec3;

/// Growth of the 1/e half-width by turbulence alone [-]: 0.094 / sqrt(ln 2).
pub const SPREAD: f64 = 0.112_905;
/// Standard deviation of one velocity component on the axis, share of Uc [-]: u' 0.27, v' 0.21 measured.
pub const INTENSITY: f64 = 0.23;
/// T_L Uc / r12 [-]: from lateral spreading with a turbulent Schmidt number of 0.7.
pub const TIME_SCALE: f64 = 0.95;
/// sqrt(ln 2): half-width over 1/e half-width.
pub const HALF_WIDTH: f64 = 0.832_554_611_157_697_8;
/// sqrt(pi) / 2.
pub const HALF_ROOT_PI: f64 = 0.886_226_925_452_758;

/// What a free jet is made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JetSpec {
    /// Axial momentum flux over air density [m4/s2], above 0.
    pub momentum: f64,
    /// Speed at the origin [m/s], above 0.
    pub exit_speed: f64,
    /// Fan slope along x [-], 0..=0.6.
    pub slope_x: f64,
    /// Fan slope along y [-], 0..=0.6.
    pub slope_y: f64,
    /// 1/e half-width growth by turbulence [-]; [`SPREAD`] unless a test asks otherwise.
    pub spread: f64,
    /// Turbulence: 1 as modelled, 0 off.
    pub turbulence: f64,
}

/// The free jet, ready for the flight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FanJet<T> {
    /// sqrt(2 J / (pi rho)) [m2/s].
    pub strength: T,
    /// b0^4 [m4].
    pub core4: T,
    /// (S^2 + Tx^2)^2 [-].
    pub growth_x: T,
    /// (S^2 + Ty^2)^2 [-].
    pub growth_y: T,
    /// sigma / Uc on the axis [-].
    pub intensity: T,
    /// T_L Uc / min(bx, by) [-].
    pub time: T,
}

/// Widths at one distance.
#[derive(Clone, Copy)]
pub struct Section<L: Lanes> {
    /// 1/e half-width along x [m].
    pub bx: L,
    /// 1/e half-width along y [m].
    pub by: L,
    /// 1/bx [1/m].
    pub ix: L,
    /// 1/by [1/m].
    pub iy: L,
    /// bx'/bx [1/m].
    pub alpha: L,
    /// by'/by [1/m].
    pub beta: L,
    /// Speed on the axis [m/s].
    pub centre: L,
}

impl FanJet<f64> {
    /// Checks and prepares a jet.
    ///
    /// # Errors
    /// Momentum, speed, slopes, spread or turbulence out of range.
    pub fn new(spec: &JetSpec) -> Result<Self, ParameterError> {
        within("jet.momentum", spec.momentum, 1e-6, 1e9, "m4/s2")?;
        within("jet.exit_speed", spec.exit_speed, 0.1, 700.0, "m/s")?;
        within("jet.slope_x", spec.slope_x, 0.0, 0.6, "")?;
        within("jet.slope_y", spec.slope_y, 0.0, 0.6, "")?;
        within("jet.spread", spec.spread, 0.0, 0.3, "")?;
        within("jet.turbulence", spec.turbulence, 0.0, 2.0, "")?;
        let strength = (2.0 * spec.momentum / core::f64::consts::PI).sqrt();
        // b0 U0 = strength, so that Uc(0) = U0.
        let core = strength / spec.exit_speed;
        let grow = |t: f64| {
            let g = spec.spread * spec.spread + t * t;
            g * g
        };
        Ok(Self {
            strength,
            core4: core * core * core * core,
            growth_x: grow(spec.slope_x),
            growth_y: grow(spec.slope_y),
            intensity: INTENSITY * spec.turbulence,
            time: TIME_SCALE * HALF_WIDTH,
        })
    }

    /// The same jet in another precision.
    #[must_use]
    pub fn cast<T: Real>(&self) -> FanJet<T> {
        FanJet {
            strength: T::from_f64(self.strength),
            core4: T::from_f64(self.core4),
            growth_x: T::from_f64(self.growth_x),
            growth_y: T::from_f64(self.growth_y),
            intensity: T::from_f64(self.intensity),
            time: T::from_f64(self.time),
        }
    }
}

impl<T: Real> FanJet<T> {
    /// Widths and axis speed at a distance [m].
    #[inline(always)]
    pub fn section<L: Lanes<Scalar = T>>(&self, z: L) -> Section<L> {
        let z2 = z * z;
        let z4 = z2 * z2;
        let core = z.splat(self.core4);
        let gx = z.splat(self.growth_x);
        let gy = z.splat(self.growth_y);
        let bx4 = core + gx * z4;
        let by4 = core + gy * z4;
        let bx = bx4.sqrt().sqrt();
        let by = by4.sqrt().sqrt();
        let (ix, iy) = inverses(bx, by);
        let (ix2, iy2) = (ix * ix, iy * iy);
        let z3 = z2 * z;
        Section {
            bx,
            by,
            ix,
            iy,
            alpha: gx * z3 * (ix2 * ix2),
            beta: gy * z3 * (iy2 * iy2),
            centre: z.splat(self.strength) * (ix * iy).sqrt(),
        }
    }

    /// Velocity of the free jet at a point [m/s]: as round a tube far away.
    #[inline(always)]
    pub fn free<L: Lanes<Scalar = T>>(&self, [x, y, z]: Vec3<L>) -> Vec3<L> {
        let one = x.lit(1.0);
        let s = self.section(z.max(x.lit(1e-3)));
        let (xi, eta) = (x * s.ix, y * s.iy);
        let (e1, e2) = ((xi * xi).fade(), (eta * eta).fade());
        let (bx2, by2) = (s.bx * s.bx, s.by * s.by);
        let w = bx2 / (bx2 + by2);
        let draw = (s.alpha + s.beta) * x.lit(0.5 * HALF_ROOT_PI) * s.centre;
        let uz = s.centre * e1 * e2;
        [
            uz * x * s.alpha - (one - w) * draw * s.bx * xi.erf() * e2,
            uz * y * s.beta - w * draw * s.by * eta.erf() * e1,
            uz,
        ]
    }

    /// Turbulence at a point of a section: sigma [m/s], its gradient [1/s], time scale [s].
    #[inline(always)]
    pub fn turbulence<L: Lanes<Scalar = T>>(
        &self,
        s: &Section<L>,
        xi: L,
        eta: L,
        fill: &Fill<L>,
    ) -> (L, [L; 3], L) {
        let (q, k) = (fill.q, fill.k);
        let sixth = q * q.lit(1.0 / 6.0);
        let sixth2 = sixth * sixth;
        let tail = q.lit(1.0) + sixth2 * sixth2;
        // 1/tail and 1/k by one division, sqrt(k/tail) as k sqrt(1/(k tail)).
        let both = q.lit(1.0) / (k * tail);
        let sigma = q.splat(self.intensity) * s.centre * (k * both.sqrt());
        // 2 d(ln sigma)/dq = k'/k - 4/6 (q/6)^3 / tail
        let g = (fill.slope * tail - sixth2 * sixth * q.lit(4.0 / 6.0) * k) * both * sigma;
        let slope = [
            g * xi * s.ix,
            g * eta * s.iy,
            -(g * (s.alpha * xi * xi + s.beta * eta * eta)) - sigma * (s.alpha + s.beta) * q.lit(0.5),
        ];
        let time = q.splat(self.time) * s.bx.min(s.by) / s.centre;
        (sigma, slope, time)
    }
}

/// Below this q the series serves: the closed forms lose digits there.
const NEAR: f64 = 0.05;

/// Mean of the Gaussian within a radius, and what goes with it.
#[derive(Clone, Copy)]
pub struct Fill<L: Lanes> {
    /// q = (x/bx)^2 + (y/by)^2 [-].
    pub q: L,
    /// k = (1 - exp(-q)) / q [-].
    pub k: L,
    /// dk/dq = (exp(-q) - k) / q [-].
    pub slope: L,
}

/// k(q) and its slope, by their series near 0; `eq` = exp(-q).
#[inline(always)]
pub fn fill<L: Lanes>(q: L, eq: L) -> Fill<L> {
    let one = q.lit(1.0);
    let near = q.lt(q.lit(NEAR));
    let inverse = one / q.max(q.lit(NEAR));
    let series =
        one - q * (q.lit(0.5) - q * (q.lit(1.0 / 6.0) - q * (q.lit(1.0 / 24.0) - q * q.lit(1.0 / 120.0))));
    let k = L::select(near, series, (one - eq) * inverse);
    let series = q.lit(-0.5) + q * (q.lit(1.0 / 3.0) - q * (q.lit(0.125) - q * q.lit(1.0 / 30.0)));
    Fill { q, k, slope: L::select(near, series, (eq - k) * inverse) }
}
