//! The values that pass between air flow, part and flight, so that these models never meet.

use crate::lanes::Lanes;

/// A point or a vector in the gun's frame: x across the fan (its narrow way), y along it, z away from the tip.
/// For a tube the frame is turned so that x runs along the tube.
pub type Vec3<L> = [L; 3];

/// Air at a point.
#[derive(Clone, Copy)]
pub struct Air<L: Lanes> {
    /// Mean velocity [m/s].
    pub velocity: Vec3<L>,
    /// One velocity component's standard deviation, away from walls [m/s].
    pub sigma: L,
    /// Gradient of `sigma` [1/s].
    pub sigma_slope: Vec3<L>,
    /// Lagrangian time scale [s].
    pub time_scale: L,
    /// The nearest wall.
    pub wall: Wall<L>,
}

/// The nearest wall as the air sees it.
#[derive(Clone, Copy)]
pub struct Wall<L: Lanes> {
    /// Distance to it [m], at least 0.
    pub gap: L,
    /// Unit normal out of the wall, into the air.
    pub normal: Vec3<L>,
    /// Divergence of the normal [1/m]: 0 flat, 1/r at radius r of a tube.
    pub bend: L,
    /// Length over which the wall takes the normal turbulence away [m].
    pub damping: L,
}

/// a . b
#[inline(always)]
pub fn dot<L: Lanes>(a: Vec3<L>, b: Vec3<L>) -> L {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// a + s b
#[inline(always)]
pub fn along<L: Lanes>(a: Vec3<L>, b: Vec3<L>, s: L) -> Vec3<L> {
    [a[0] + b[0] * s, a[1] + b[1] * s, a[2] + b[2] * s]
}

/// a - b
#[inline(always)]
pub fn minus<L: Lanes>(a: Vec3<L>, b: Vec3<L>) -> Vec3<L> {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/// s a
#[inline(always)]
pub fn scale<L: Lanes>(a: Vec3<L>, s: L) -> Vec3<L> {
    [a[0] * s, a[1] * s, a[2] * s]
}
