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

/// What pushes the spray out of its symmetry, in the cap's own frame (along the fan, and to the right with the fan upright).
/// All 0 for a sound gun.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Askew {
    /// Mean place of the paint along the fan [share of half fan], -0.6..=0.6: a heavy end.
    pub along: f64,
    /// Slope along the fan by which the whole spray leans [-].
    pub lean: f64,
    /// Sideways slope of the fan's middle over that of its ends [-]: a crescent, belly to that side.
    pub bow: f64,
    /// Sideways slope of the whole fan [-].
    pub across: f64,
    /// Slope along the fan at which the bow ends [-], above 0.
    pub reach: f64,
}

impl Askew {
    /// Nothing pushes.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.along == 0.0 && self.lean == 0.0 && self.bow == 0.0 && self.across == 0.0
    }

    /// Sideways slope of the fan [-] at a slope along it: the horn air hits the middle, the ends have left by then.
    #[must_use]
    pub fn sideways(&self, slope: f64) -> f64 {
        if self.bow == 0.0 {
            return self.across;
        }
        let s = slope / self.reach;
        self.across + self.bow * (1.0 - s * s).max(0.0)
    }

    /// The same with the cap and the gun turned half round.
    #[must_use]
    pub fn half_round(&self) -> Self {
        Self { along: -self.along, lean: -self.lean, bow: -self.bow, across: -self.across, reach: self.reach }
    }
}

/// Spits: plugs of paint between bubbles of air, broken up badly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slugs {
    /// Share of the paint that leaves in plugs [-], 0..1.
    pub share: f64,
    /// Droplet sizes of a plug.
    pub sizes: SizeDistribution,
    /// How a plug is spread along the fan.
    pub along: Along,
    /// Plugs a second [1/s]. Common practice, no source: a flutter one can count.
    pub rate: f64,
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
    /// What pushes it out of its symmetry.
    pub askew: Askew,
    /// Spits among it.
    pub slugs: Option<Slugs>,
    /// How a droplet of this paint dries in flight.
    pub evaporation: EvaporationCurve,
}
