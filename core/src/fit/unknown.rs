//! The constants that a card may tell, with what is known of them before it.

use crate::gun::{Feed, Kit, Matched};

/// One constant of the model, as a factor on the catalogue's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unknown {
    /// Fan slope, cT.
    Fan,
    /// Spread of the rays, ex.
    Edge,
    /// Tip suction, cs: gravity and suction guns.
    Suction,
    /// Needle gain: pressure guns.
    Needle,
    /// Sauter mean diameter.
    Droplets,
}

impl Unknown {
    /// Those of a kit, in the order of all lists here. The third is what sets its flow.
    #[must_use]
    pub fn of(kit: &Kit) -> [Self; 4] {
        let flow = if kit.feed == Feed::Pressure { Self::Needle } else { Self::Suction };
        [Self::Fan, Self::Edge, flow, Self::Droplets]
    }

    /// Key of the job file that holds it.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Fan => "gun.matched.fan",
            Self::Edge => "gun.matched.edge",
            Self::Suction => "gun.matched.suction",
            Self::Needle => "gun.matched.needle",
            Self::Droplets => "gun.matched.droplets",
        }
    }

    /// What it is, in plain words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Fan => "fan",
            Self::Edge => "edge of the fan",
            Self::Suction => "suction at the tip",
            Self::Needle => "needle",
            Self::Droplets => "droplets",
        }
    }

    /// Standard deviation of its logarithm before the card [-]. Ours, from the ranges that practice and literature leave; reasons in
    /// `docs/methods/match.md`.
    #[must_use]
    pub fn prior(self) -> f64 {
        match self {
            // Full fans of one kind of gun: 190-240 mm at 200-230 mm, and makers' tolerances on top.
            Self::Fan => 0.20,
            // Closed fans of 25-50 mm at 150-200 mm stand for ex 0.06-0.10: a factor of 1.67, two deviations of 0.25.
            Self::Edge => 0.25,
            // cs 0.07-0.11 gives the flow of practice: a factor of 1.57, two deviations of 0.22.
            Self::Suction => 0.22,
            // A stop that stands an eighth of a turn off, a worn seat: the flow's own tolerance.
            Self::Needle => 0.15,
            // The published landed share leaves 18-32 um open: times or over 1.35.
            Self::Droplets => 0.30,
        }
    }

    /// The factor that a gun has of it.
    #[must_use]
    pub fn of_gun(self, matched: &Matched) -> f64 {
        match self {
            Self::Fan => matched.fan,
            Self::Edge => matched.edge,
            Self::Suction => matched.suction,
            Self::Needle => matched.needle,
            Self::Droplets => matched.droplets,
        }
    }

    /// Gives a gun a factor of it.
    pub fn set(self, matched: &mut Matched, factor: f64) {
        match self {
            Self::Fan => matched.fan = factor,
            Self::Edge => matched.edge = factor,
            Self::Suction => matched.suction = factor,
            Self::Needle => matched.needle = factor,
            Self::Droplets => matched.droplets = factor,
        }
    }
}

/// Factors of four logarithms, held inside what a job file takes.
#[must_use]
pub(super) fn matched(unknowns: [Unknown; 4], logs: [f64; 4]) -> Matched {
    let mut matched = Matched::default();
    for (unknown, log) in unknowns.into_iter().zip(logs) {
        unknown.set(&mut matched, crate::math::exp(log).clamp(0.3, 3.0));
    }
    matched
}
