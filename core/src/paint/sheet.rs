//! What a data sheet says besides the paint itself: tip, cup seconds, coats, flash, pot life, thinner.

use crate::flow_cup::Cup;

/// How fast a thinner leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ThinnerSpeed {
    /// For a cold booth and small parts.
    Fast,
    /// The class's usual thinner.
    #[default]
    Medium,
    /// For a warm booth and large parts.
    Slow,
}

impl ThinnerSpeed {
    /// All, fastest first.
    pub const ALL: [Self; 3] = [Self::Fast, Self::Medium, Self::Slow];

    /// Its word in the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Fast => "fast",
            Self::Medium => "medium",
            Self::Slow => "slow",
        }
    }

    /// The speed of a word; `None` for any other.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.word() == word)
    }
}

/// The data sheet's window and times. What a product's own sheet does not say is typical for its class.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Fluid tip of a gravity gun, smallest and largest [m].
    pub tip: [f64; 2],
    /// Inlet pressure, lowest and highest [Pa gauge]; none where the kit's own rating is all there is.
    pub pressure: Option<[f64; 2]>,
    /// Cup that the seconds are of.
    pub cup: Cup,
    /// Seconds ready to spray, shortest and longest [s].
    pub cup_seconds: [f64; 2],
    /// Coats.
    pub coats: u32,
    /// Time between coats [s].
    pub flash: f64,
    /// Temperature that `flash` is of [K].
    pub temperature: f64,
    /// Latest time for the next coat without sanding [s]; none where the sheet does not say.
    pub recoat_within: Option<f64>,
    /// Time in which the mixed paint must be sprayed [s]; none for one-pack paints.
    pub pot_life: Option<f64>,
    /// Dry film of all coats together, lowest and highest [m].
    pub dry_film_total: [f64; 2],
}
