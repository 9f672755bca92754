//! Air and parts so plain that their droplets' ways are known in closed form.

use mistcoat::airflow::AirFlow;
use mistcoat::lanes::Lanes;
use mistcoat::part::Part;
use mistcoat::surface::{Air, Vec3, Wall};

/// Air far from any wall.
fn open<L: Lanes>(velocity: Vec3<L>, sigma: L, sigma_slope: Vec3<L>, time_scale: L) -> Air<L> {
    let (zero, one) = (sigma.lit(0.0), sigma.lit(1.0));
    let wall = Wall { gap: one, normal: [zero, zero, one], bend: zero, damping: sigma.lit(0.01) };
    Air { velocity, sigma, sigma_slope, time_scale, wall }
}

/// Still air without turbulence.
#[derive(Debug, Clone, Copy)]
pub struct Still;

impl<L: Lanes> AirFlow<L> for Still {
    #[inline(always)]
    fn at(&self, [x, _, _]: Vec3<L>) -> Air<L> {
        let zero = x.lit(0.0);
        open([zero; 3], zero, [zero; 3], x.lit(1.0))
    }
}

/// The same turbulence everywhere, no mean flow.
#[derive(Debug, Clone, Copy)]
pub struct Eddies {
    /// One component's standard deviation [m/s].
    pub sigma: f64,
    /// Lagrangian time scale [s].
    pub time: f64,
}

impl<L: Lanes> AirFlow<L> for Eddies {
    #[inline(always)]
    fn at(&self, [x, _, _]: Vec3<L>) -> Air<L> {
        let zero = x.lit(0.0);
        open([zero; 3], x.lit(self.sigma), [zero; 3], x.lit(self.time))
    }
}

/// Turbulence that grows from `low` at z = 0 to `high` at z = 1 and is mirrored there, again and again: a box with
/// reflecting walls, unfolded.
#[derive(Debug, Clone, Copy)]
pub struct Folded {
    /// sigma at z = 0 [m/s].
    pub low: f64,
    /// sigma at z = 1 [m/s].
    pub high: f64,
    /// Lagrangian time scale [s].
    pub time: f64,
    /// 1 tells the droplet the gradient of sigma, 0 hides it: a planted fault.
    pub told: f64,
}

/// Where z of the unfolded box lies in 0..1, and 1 or -1 as it runs up or down; |z| below 128.
pub fn unfold<L: Lanes>(z: L) -> (L, L) {
    let (one, zero) = (z.lit(1.0), z.lit(0.0));
    let mut w = z.abs();
    for size in [64.0, 32.0, 16.0, 8.0, 4.0, 2.0] {
        w = L::select(w.lt(w.lit(size)), w, w - w.lit(size));
    }
    let sign = L::select(z.lt(zero), -one, one);
    let up = w.lt(one);
    (L::select(up, w, w.lit(2.0) - w), L::select(up, sign, -sign))
}

impl<L: Lanes> AirFlow<L> for Folded {
    #[inline(always)]
    fn at(&self, [_, _, z]: Vec3<L>) -> Air<L> {
        let zero = z.lit(0.0);
        let (place, way) = unfold(z);
        let grow = z.lit(self.high - self.low);
        let slope = grow * way * z.lit(self.told);
        open([zero; 3], z.lit(self.low) + grow * place, [zero, zero, slope], z.lit(self.time))
    }
}

/// Air against a wall at z = 0: a stream of `speed` towards it that slows down as `strain` z, without turbulence.
#[derive(Debug, Clone, Copy)]
pub struct Against {
    /// Speed far from the wall [m/s].
    pub speed: f64,
    /// Wall-normal strain [1/s].
    pub strain: f64,
}

impl<L: Lanes> AirFlow<L> for Against {
    #[inline(always)]
    fn at(&self, [x, y, z]: Vec3<L>) -> Air<L> {
        let zero = x.lit(0.0);
        let strain = x.lit(self.strain);
        let inside = (z * strain).lt(x.lit(self.speed));
        let side = L::select(inside, strain * x.lit(0.5), zero);
        let down = (z * strain).min(x.lit(self.speed));
        open([x * side, y * side, -down], zero, [zero; 3], x.lit(1.0))
    }
}

/// No part at all; steps of one length.
#[derive(Debug, Clone, Copy)]
pub struct Space {
    /// Step length over the settings' step share, inverted [1/s].
    pub rate: f64,
}

impl<L: Lanes> Part<L> for Space {
    #[inline(always)]
    fn gap(&self, [x, _, _]: Vec3<L>) -> L {
        x.lit(1.0)
    }
    #[inline(always)]
    fn passed(&self, [x, _, _]: Vec3<L>) -> L::Mask {
        x.lt(x)
    }
    #[inline(always)]
    fn change(&self, [x, _, _]: Vec3<L>, _velocity: Vec3<L>, _speed: L, _gap: L) -> L {
        x.lit(self.rate)
    }
}

/// No part at all; steps as in a free jet.
#[derive(Debug, Clone, Copy)]
pub struct FreeJet;

impl<L: Lanes> Part<L> for FreeJet {
    #[inline(always)]
    fn gap(&self, [x, _, _]: Vec3<L>) -> L {
        x.lit(1.0)
    }
    #[inline(always)]
    fn passed(&self, [x, _, _]: Vec3<L>) -> L::Mask {
        x.lt(x)
    }
    #[inline(always)]
    fn change(&self, [x, _, z]: Vec3<L>, _velocity: Vec3<L>, speed: L, _gap: L) -> L {
        speed / z.max(x.lit(1e-3)) * x.lit(0.5)
    }
}

/// A wall at z = 0; steps of one length.
#[derive(Debug, Clone, Copy)]
pub struct Floor {
    /// Step length over the settings' step share, inverted [1/s].
    pub rate: f64,
}

impl<L: Lanes> Part<L> for Floor {
    #[inline(always)]
    fn gap(&self, [_, _, z]: Vec3<L>) -> L {
        z
    }
    #[inline(always)]
    fn passed(&self, [x, _, _]: Vec3<L>) -> L::Mask {
        x.lt(x)
    }
    #[inline(always)]
    fn change(&self, [x, _, _]: Vec3<L>, _velocity: Vec3<L>, _speed: L, _gap: L) -> L {
        x.lit(self.rate)
    }
}
