//! What a wall leaves of the turbulence: the part across it fades towards it, tanh(gap/length).

use crate::lanes::Lanes;
use crate::surface::{Air, Vec3, Wall, along, dot};

/// A wall as it damps the turbulence of one step.
pub struct Damped<L: Lanes> {
    normal: Vec3<L>,
    /// Share of the turbulence across the wall that is left [-].
    left: L,
    /// 1 / damping length [1/m].
    inverse: L,
    /// The normal is (0, 0, -1): what is 0 is left out. Known when compiled.
    flat: bool,
}

impl<L: Lanes> Damped<L> {
    #[inline(always)]
    pub fn new(wall: &Wall<L>, flat: bool) -> Self {
        let one = wall.gap.lit(1.0);
        let inverse = one / wall.damping;
        let far = (wall.gap * (inverse * one.lit(2.0))).fade();
        Self { normal: wall.normal, left: (one - far) / (one + far), inverse, flat }
    }

    /// v . n
    #[inline(always)]
    fn across(&self, v: Vec3<L>) -> L {
        if self.flat { -v[2] } else { dot(v, self.normal) }
    }

    /// a + s n
    #[inline(always)]
    fn shift(&self, a: Vec3<L>, s: L) -> Vec3<L> {
        if self.flat { [a[0], a[1], a[2] - s] } else { along(a, self.normal, s) }
    }

    /// v with what the wall takes of its part across the wall taken off.
    #[inline(always)]
    pub fn free(&self, v: Vec3<L>) -> Vec3<L> {
        if self.flat {
            [v[0], v[1], v[2] * self.left]
        } else {
            self.shift(v, (self.left - self.left.lit(1.0)) * self.across(v))
        }
    }

    /// Drift of the well-mixed condition: divergence of sigma (1 - (1 - left) n n).
    #[inline(always)]
    pub fn drift(&self, air: &Air<L>) -> Vec3<L> {
        let one = self.left.lit(1.0);
        let slope = (one - self.left * self.left) * self.inverse;
        let across = self.across(air.sigma_slope);
        let bent = if self.flat { across } else { across + air.sigma * air.wall.bend };
        self.shift(air.sigma_slope, air.sigma * slope - (one - self.left) * bent)
    }
}
