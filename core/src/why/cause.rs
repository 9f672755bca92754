//! What two jobs may differ in, each a piece of what flies that can be swapped alone.

use serde::{Deserialize, Serialize};

use crate::error::ParameterError;
use crate::job::Job;
use crate::run::Prepared;
use crate::spray::Spray;

/// A cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// Droplet sizes.
    Size,
    /// Where the paint is aimed: the fan's shape and axis, distance, stroke, sides, overlap, lead-in, hand.
    Aim,
    /// The air that carries the droplets: the jet's momentum and speed.
    Carried,
    /// What dries in flight.
    Evaporation,
    /// The liquid: how it bounces, how heavy it is, how much of it is solids.
    Liquid,
    /// The film that is laid.
    Film,
}

impl Cause {
    /// All, in the order they are told and swapped.
    pub const ALL: [Self; 6] =
        [Self::Size, Self::Aim, Self::Carried, Self::Evaporation, Self::Liquid, Self::Film];

    /// Its place in the order.
    #[must_use]
    pub fn place(self) -> usize {
        Self::ALL.iter().position(|c| *c == self).unwrap_or(0)
    }
}

/// Whose piece each cause takes: false the first job's, true the second's.
pub type Mixed = [bool; Cause::ALL.len()];

/// Two jobs ready to fly, and what lies between them.
pub(super) struct Pair {
    /// The first and the second.
    pub both: [Prepared; 2],
}

impl Pair {
    /// A set-up that takes each piece from one of the two.
    ///
    /// # Errors
    /// A mixture that cannot be flown, by its key.
    pub fn mixed(&self, mixed: &Mixed) -> Result<Prepared, ParameterError> {
        let from = |cause: Cause| &self.both[usize::from(mixed[cause.place()])];
        let (size, aim, air) = (from(Cause::Size), from(Cause::Aim), from(Cause::Carried));
        let (dry, liquid) = (from(Cause::Evaporation), from(Cause::Liquid));
        let spray = Spray {
            axial_momentum: air.spray.axial_momentum,
            exit_speed: air.spray.exit_speed,
            fan_slope: aim.spray.fan_slope,
            ray_spread: aim.spray.ray_spread,
            along: aim.spray.along,
            askew: aim.spray.askew,
            sizes: size.spray.sizes,
            slugs: size.spray.slugs,
            evaporation: dry.spray.evaporation.clone(),
            volatile_density: dry.spray.volatile_density,
            schmidt: dry.spray.schmidt,
            volume_flow: liquid.spray.volume_flow,
            density: liquid.spray.density,
            viscosity: liquid.spray.viscosity,
            surface_tension: liquid.spray.surface_tension,
            volume_solids: liquid.spray.volume_solids,
        };
        let job = Job { booth: liquid.job.booth, ..aim.job.clone() };
        Prepared::with_spray(job, aim.wanted_pressure, aim.state.clone(), spray)
    }

    /// Whether a cause's piece is the same in both.
    pub fn same(&self, cause: Cause) -> bool {
        let mut other: Mixed = [false; Cause::ALL.len()];
        other[cause.place()] = true;
        match (self.mixed(&[false; Cause::ALL.len()]), self.mixed(&other)) {
            (Ok(a), Ok(b)) => {
                a.spray == b.spray && a.job.stroke == b.job.stroke && a.job.booth == b.job.booth
            }
            _ => false,
        }
    }
}
