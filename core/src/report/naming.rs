//! The pattern's name from its film alone: no setting is read. Bounds, and how often the name is right: `docs/methods/pattern-names.md`.

use super::reading::Reading;
use crate::run::CardTally;

/// Length over width below which the spot is round [-]. Ours.
const ROUND_ASPECT: f64 = 1.6;
/// Share of splatter from which a card is spat on [-]. Sound guns stay below 0.004 (computed).
const SPAT: f64 = 0.02;
/// Bow from which the pattern is a crescent [thicknesses]: one sees it. Counting noise is 0.05 (computed).
const BENT: f64 = 0.4;
/// Skewness from which one end is heavy [-]; noise is 0.07 (computed).
const UNEVEN: f64 = 0.13;
/// Standard errors from which a skewness is more than counting.
const SURE: f64 = 3.5;
/// Length over width below which no end can be told.
const END_ASPECT: f64 = 2.0;
/// Wet film a second below which the gun is starved [m/s]: a usual pass (0.45 m/s, 35 mm thick) then lays 2.3 um.
pub(crate) const STARVED: f64 = 30e-6;
/// Landed volume median above which the paint is not broken up: coarse drops one can count [m].
const COARSE: f64 = 60e-6;
/// Middle over lobes below which a pattern is split [-]: a dip one sees on a card.
const SPLIT_DIP: f64 = 0.88;
/// Exponent above which the centre is heavy [-]: above 2 in the trade's terms of this model, 1.5 balanced.
const HEAVY: f64 = 2.05;

/// What a pattern is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PatternKind {
    /// Even along the fan.
    Balanced,
    /// Too much in the middle.
    HeavyCentre,
    /// Two heavy ends and a thin middle.
    Split,
    /// Bent to one side.
    Crescent,
    /// More paint towards one end.
    HeavyEnd,
    /// Too little paint: thin, and dry.
    Starved,
    /// Too much paint for the air: coarse, heavy, wet in the middle.
    Flooded,
    /// Coarse splatter among the spray.
    Spitting,
    /// A round spot: the fan is shut.
    Round,
}

impl PatternKind {
    /// All, in the order of the page.
    pub const ALL: [Self; 9] = [
        Self::Balanced,
        Self::HeavyCentre,
        Self::Split,
        Self::Crescent,
        Self::HeavyEnd,
        Self::Starved,
        Self::Flooded,
        Self::Spitting,
        Self::Round,
    ];

    /// The word in the report.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Balanced => "balanced",
            Self::HeavyCentre => "heavy-centre",
            Self::Split => "split",
            Self::Crescent => "crescent",
            Self::HeavyEnd => "heavy-end",
            Self::Starved => "starved",
            Self::Flooded => "flooded",
            Self::Spitting => "spitting",
            Self::Round => "round",
        }
    }
}

/// A pattern with its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pattern {
    /// Its name.
    pub kind: PatternKind,
    /// Where a crescent's belly or the heavy end lies, with the fan upright: to the right and up [-], one of them 1 or -1.
    pub toward: Option<[f64; 2]>,
    /// What the name was read from.
    pub reading: Reading,
}

/// The name of a reading. What makes all else unreadable comes first: splatter, then a bent or uneven fan, then too little or too
/// coarse paint, and only then how the film lies along the fan.
fn name(r: &Reading) -> (PatternKind, Option<[f64; 2]>) {
    let round = r.length < ROUND_ASPECT * r.width;
    let heavy = r.exponent() > HEAVY;
    if r.splatter > SPAT {
        (PatternKind::Spitting, None)
    } else if r.bow.abs() > BENT {
        (PatternKind::Crescent, Some([r.bow.signum(), 0.0]))
    } else if r.skew.abs() > UNEVEN.max(SURE * r.skew_error) && r.length > END_ASPECT * r.width {
        (PatternKind::HeavyEnd, Some([0.0, -r.skew.signum()]))
    } else if r.build < STARVED {
        (PatternKind::Starved, None)
    } else if r.median > COARSE && (heavy || round) {
        (PatternKind::Flooded, None)
    } else if round {
        (PatternKind::Round, None)
    } else if r.dip < SPLIT_DIP {
        (PatternKind::Split, None)
    } else if heavy {
        (PatternKind::HeavyCentre, None)
    } else {
        (PatternKind::Balanced, None)
    }
}

impl Pattern {
    /// The pattern on a card that `flow` [m3/s] of paint was sprayed on (for the film's thickness a second); none where too little
    /// landed to be read.
    #[must_use]
    pub fn on(card: &CardTally, flow: f64) -> Option<Self> {
        let reading = Reading::new(card, flow)?;
        let (kind, toward) = name(&reading);
        Some(Self { kind, toward, reading })
    }

    /// The same in a word: the nearest of left, right, up, down.
    #[must_use]
    pub fn side_on_card(&self, cap_turn: f64) -> Option<&'static str> {
        self.toward_on_card(cap_turn).map(|[x, y]| match (x.abs() >= y.abs(), x > 0.0, y > 0.0) {
            (true, true, _) => "right",
            (true, false, _) => "left",
            (false, _, true) => "up",
            (false, _, false) => "down",
        })
    }

    /// `toward` as it lies on the card with the cap turned clockwise by `cap_turn` [rad].
    #[must_use]
    pub fn toward_on_card(&self, cap_turn: f64) -> Option<[f64; 2]> {
        let (c, s) = (crate::math::cos(cap_turn), crate::math::sin(cap_turn));
        self.toward.map(|[x, y]| [x * c + y * s, y * c - x * s])
    }
}
