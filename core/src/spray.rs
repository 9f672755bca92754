//! What leaves the gun: the values that pass from gun and atomizer to air flow and flight, so that these
//! models never meet.

use crate::evaporation::EvaporationCurve;

/// How the paint is spread along the fan (the long way).
///
/// Source: `docs/methods/pattern.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Along {
    /// Film along the fan after one stroke is (1 - s^2)^n on s in -1..1; emission is Beta(n+1, n+1).
    /// 0 flat, 1 parabola, 1.5 balanced, above 2 heavy centre. Valid 0..=8.
    Exponent(f64),
    /// Split: two Gaussian lobes at s = -c and +c of width g each (two-peaked where c > g).
    Lobes {
        /// Lobe centre [share of the half fan].
        c: f64,
        /// Lobe width, one standard deviation [share of the half fan].
        g: f64,
    },
}

/// Log-normal by volume, cut to `[smallest, largest]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeDistribution {
    /// Volume median before the cut [m].
    pub volume_median: f64,
    /// Geometric standard deviation [-], 1.2..=3.
    pub sigma_g: f64,
    /// Smallest droplet [m].
    pub smallest: f64,
    /// Largest droplet [m].
    pub largest: f64,
}

/// A gun's spray as the flight needs it. All SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Spray {
    /// Axial momentum flux of annulus and horn air, before the droplets take their share [N].
    pub axial_momentum: f64,
    /// Air speed at the annulus exit [m/s].
    pub exit_speed: f64,
    /// Fan slope T: half fan height per distance of the air jet's 1/e width beyond turbulent spread [-], 0..=0.6.
    pub fan_slope: f64,
    /// Standard deviation of the rays' slope about the fan, both ways [-].
    pub ray_spread: f64,
    /// How the paint is spread along the fan.
    pub along: Along,
    /// Droplet sizes.
    pub sizes: SizeDistribution,
    /// Paint flow at the tip [m3/s].
    pub volume_flow: f64,
    /// Density of the paint as it leaves the tip [kg/m3].
    pub density: f64,
    /// Viscosity of the paint at low shear, as landing [Pa s].
    pub viscosity: f64,
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Volume solids as it leaves the tip [-].
    pub volume_solids: f64,
    /// Density of the volatiles, by volume [kg/m3].
    pub volatile_density: f64,
    /// Schmidt number of their vapour in the booth's air, by volume [-].
    pub schmidt: f64,
    /// How a droplet of this paint dries in flight.
    pub evaporation: EvaporationCurve,
}
