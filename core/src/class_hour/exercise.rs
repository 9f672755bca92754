//! The exercises, and how one came out.

use serde::{Deserialize, Serialize};

/// An exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exercise {
    /// Five tries by hand on a panel.
    FiveTries,
    /// A spoiled pattern is to be balanced in a few turns of the knobs.
    Balance,
    /// The fan that takes least paint on a tube.
    FanForTube,
    /// What the wall gauge must show.
    WallPressure,
    /// How much to mix.
    MixForSix,
    /// Which of two guns for one compressor.
    TwoBoxes,
}

impl Exercise {
    /// All, in the order of the key's words.
    pub const ALL: [Self; 6] = [
        Self::FiveTries,
        Self::Balance,
        Self::FanForTube,
        Self::WallPressure,
        Self::MixForSix,
        Self::TwoBoxes,
    ];

    /// Its word in the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::FiveTries => "five-tries",
            Self::Balance => "balance",
            Self::FanForTube => "fan-for-tube",
            Self::WallPressure => "wall-pressure",
            Self::MixForSix => "mix-for-six",
            Self::TwoBoxes => "two-boxes",
        }
    }

    /// The exercise of a word.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|exercise| exercise.word() == word)
    }

    /// It asks, and the job holds what was answered.
    #[must_use]
    pub fn asks(self) -> bool {
        matches!(self, Self::WallPressure | Self::MixForSix | Self::TwoBoxes)
    }
}

/// Unit of a mark's figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// A share, 0..=1.
    Share,
    /// Turns of a knob, counted.
    Turns,
    /// Pressure [Pa gauge].
    Pressure,
    /// Paint [m3].
    Volume,
}

/// How an exercise came out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// Its word.
    pub exercise: String,
    /// What was reached or answered, in `unit`.
    pub figure: f64,
    /// What is true, or the best there is, in `unit`; none where only a goal counts.
    pub wanted: Option<f64>,
    /// Unit of `figure` and `wanted`.
    pub unit: Unit,
    /// How far off: what is held against `goal`. Five tries: their spread, a share. Balance: turns. A pressure: [Pa]. Else a share of
    /// `wanted`.
    pub off: f64,
    /// The most it may be off.
    pub goal: f64,
    /// A pattern's name, a kit's letter.
    pub said: Option<String>,
    /// What is asked for is there.
    pub reached: bool,
}

/// A pattern that was spoiled by the knobs of the table top's gun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spoiled {
    /// Keys of the job file and their values.
    pub knobs: &'static [(&'static str, &'static str)],
    /// The pattern's name, as the report has it.
    pub pattern: &'static str,
}

/// Patterns to balance: too little paint for a wide fan, next to none, a fan half shut, an air knob nearly shut.
pub const SPOILED: [Spoiled; 4] = [
    Spoiled { knobs: &[("gun.fluid", "0.3")], pattern: "split" },
    Spoiled { knobs: &[("gun.fluid", "0.1")], pattern: "starved" },
    Spoiled { knobs: &[("gun.fan", "0.5")], pattern: "heavy-centre" },
    Spoiled { knobs: &[("gun.air_knob", "0.3"), ("gun.fluid", "1.0")], pattern: "heavy-centre" },
];
