//! What a complaint is measured by. Every figure is turned so that less is better.

use serde::{Deserialize, Serialize};

/// A figure that an advice may promise to bring down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// Area below the film wanted [% of the area].
    Thin,
    /// Area above the film wanted [% of the area].
    Thick,
    /// Standard deviation over mean of the film [%].
    Uneven,
    /// Area that ran [% of the area].
    Runs,
    /// Area of dry spray [% of the area].
    Dry,
    /// Area without film to speak of [% of the area].
    Bare,
    /// Paint for one part whose mean film is that wanted [mL].
    Paint,
    /// What the middle of the fan lacks to its ends [% of the ends]: a split pattern.
    Split,
    /// What the fan's own film half way to its ends lacks to its middle [% of the middle]: a heavy centre.
    HeavyCentre,
    /// Skewness of the film along the fan [%]: a heavy end.
    HeavyEnd,
    /// What the film of a second lacks to the least that is no starved fan [% of that].
    Starved,
    /// How far the fan is bent [% of its thickness]: a crescent.
    Bent,
    /// Paint in drops far coarser than the rest [% of what landed]: spitting.
    Spat,
    /// Sauter mean diameter [um].
    Drops,
    /// Cap pressure above the limit of an HVLP gun [bar].
    OverCap,
    /// Air that is lacking with the trigger held [L/min].
    AirShort,
}

impl Measure {
    /// All, in the order in which they are told where equally bad.
    pub const ALL: [Self; 16] = [
        Self::Thin,
        Self::Thick,
        Self::Uneven,
        Self::Runs,
        Self::Dry,
        Self::Bare,
        Self::Paint,
        Self::Split,
        Self::HeavyCentre,
        Self::HeavyEnd,
        Self::Starved,
        Self::Bent,
        Self::Spat,
        Self::Drops,
        Self::OverCap,
        Self::AirShort,
    ];

    /// Its word in an answer.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Thin => "thin",
            Self::Thick => "thick",
            Self::Uneven => "uneven",
            Self::Runs => "runs",
            Self::Dry => "dry",
            Self::Bare => "bare",
            Self::Paint => "paint",
            Self::Split => "split",
            Self::HeavyCentre => "heavy-centre",
            Self::HeavyEnd => "heavy-end",
            Self::Starved => "starved",
            Self::Bent => "bent",
            Self::Spat => "spat",
            Self::Drops => "drops",
            Self::OverCap => "over-cap",
            Self::AirShort => "air-short",
        }
    }

    /// Unit of its figure.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::Paint => "mL",
            Self::Drops => "um",
            Self::OverCap => "bar",
            Self::AirShort => "L/min",
            _ => "of 100",
        }
    }

    /// Figure above which it is a complaint, apart from what a pattern's name or a warning says. Ours.
    #[must_use]
    pub fn bearable(self) -> f64 {
        match self {
            Self::Thin | Self::Thick | Self::Dry | Self::Spat => 2.0,
            Self::Runs | Self::Bare => 0.2,
            Self::Uneven => 15.0,
            Self::Paint => 0.0,
            Self::Split => 12.0,
            Self::HeavyCentre => 47.0,
            Self::HeavyEnd => 13.0,
            Self::Bent => 40.0,
            Self::Drops => 30.0,
            Self::Starved | Self::OverCap | Self::AirShort => 0.0,
        }
    }

    /// Figure from which on it counts at all, where settings are held against each other. Ours.
    #[must_use]
    pub fn free(self) -> f64 {
        match self {
            Self::Uneven => 8.0,
            Self::Split => 8.0,
            Self::HeavyCentre => 43.0,
            Self::HeavyEnd => 10.0,
            Self::Bent => 30.0,
            Self::Spat => 0.5,
            Self::Drops => 27.0,
            _ => 0.0,
        }
    }

    /// One step of how bad it is: figures of different kinds are held against each other by it. Ours.
    #[must_use]
    pub fn grade(self) -> f64 {
        match self {
            Self::Thin | Self::Thick | Self::Dry => 5.0,
            Self::Runs | Self::Bare => 1.0,
            Self::Uneven => 10.0,
            Self::Paint => 1.0,
            Self::Split | Self::HeavyCentre | Self::HeavyEnd | Self::Starved => 10.0,
            Self::Bent => 20.0,
            Self::Spat => 2.0,
            Self::Drops => 10.0,
            Self::OverCap => 0.05,
            Self::AirShort => 20.0,
        }
    }

    /// By how much an advice for another complaint may make it worse; paint and time have shares of their own. Ours.
    #[must_use]
    pub fn tolerance(self) -> f64 {
        match self {
            Self::Thin | Self::Thick | Self::Dry => 1.0,
            Self::Runs | Self::Bare => 0.2,
            Self::Uneven => 2.0,
            Self::Paint => f64::INFINITY,
            Self::Split | Self::HeavyCentre | Self::HeavyEnd | Self::Starved => 8.0,
            Self::Bent => 10.0,
            Self::Spat => 0.5,
            Self::Drops => 2.0,
            Self::OverCap => 0.0,
            Self::AirShort => 0.0,
        }
    }

    /// It is read from the spray on a card, not from the part.
    #[must_use]
    pub fn of_the_spray(self) -> bool {
        !matches!(self, Self::Thin | Self::Thick | Self::Uneven | Self::Paint) && !self.of_the_finish()
    }

    /// It is a share of the part's area.
    #[must_use]
    pub fn is_area(self) -> bool {
        matches!(self, Self::Thin | Self::Thick) || self.of_the_finish()
    }

    /// It is known only once the film has set.
    #[must_use]
    pub fn of_the_finish(self) -> bool {
        matches!(self, Self::Runs | Self::Dry | Self::Bare)
    }
}
