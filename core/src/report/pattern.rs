//! Fan height and thickness as one measures them on a card, and the pattern's name from its film alone.
//!
//! Profile: landed solids summed across the other axis, 1 mm bins, 5 mm smoothing; size between the outermost lines
//! where it is a tenth of its peak.

use crate::part::CARD_HALF;
use crate::run::{CardTally, PROFILE_BIN};

/// Smoothing of a profile [bins].
const SMOOTH: usize = 5;
/// Wide smoothing for the name of a pattern [bins]: a speckle is no lobe.
const BROAD: usize = 15;

/// Measured size of a pattern [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatternSizes {
    /// The long way.
    pub length: f64,
    /// The short way.
    pub width: f64,
}

/// What a pattern is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PatternKind {
    /// Even along the fan.
    Balanced,
    /// Too much in the middle.
    HeavyCentre,
    /// Two heavy ends and a thin middle.
    Split,
    /// A round spot: the fan is shut.
    Round,
}

impl PatternKind {
    /// The word in the report.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Balanced => "balanced",
            Self::HeavyCentre => "heavy-centre",
            Self::Split => "split",
            Self::Round => "round",
        }
    }
}

/// Length and width of the pattern on the card, without one replicate group where asked. 0 where nothing landed.
#[must_use]
pub fn pattern_sizes(card: &CardTally, without: Option<usize>) -> PatternSizes {
    let size = |along| tenth_size(&smooth(&card.profile(along, without), SMOOTH));
    PatternSizes { length: size(true), width: size(false) }
}

/// Running mean over `width` bins (odd).
fn smooth(profile: &[f64], width: usize) -> Vec<f64> {
    let half = width / 2;
    (0..profile.len())
        .map(|i| {
            let (from, to) = (i.saturating_sub(half), (i + half + 1).min(profile.len()));
            profile[from..to].iter().sum::<f64>() / width as f64
        })
        .collect()
}

/// Outermost places of the profile at `level` of its peak [bins], interpolated.
fn ends(profile: &[f64], level: f64) -> Option<(f64, f64)> {
    let peak = profile.iter().copied().fold(0.0, f64::max);
    let line = level * peak;
    if peak <= 0.0 {
        return None;
    }
    let first = profile.iter().position(|&v| v >= line)?;
    let last = profile.iter().rposition(|&v| v >= line)?;
    let cross =
        |inside: usize, outside: Option<usize>| match outside.and_then(|o| profile.get(o).map(|&v| (o, v))) {
            Some((o, v)) => {
                inside as f64 + (o as f64 - inside as f64) * (profile[inside] - line) / (profile[inside] - v)
            }
            None => inside as f64,
        };
    Some((cross(first, first.checked_sub(1)), cross(last, Some(last + 1))))
}

fn tenth_size(profile: &[f64]) -> f64 {
    ends(profile, 0.1).map_or(0.0, |(a, b)| (b - a) * PROFILE_BIN)
}

/// Shape figures the name rests on: middle over the higher of the two ends' peaks, and height between the halves of
/// the peak over that between the tenths.
#[must_use]
pub fn shape(card: &CardTally) -> Option<(f64, f64)> {
    let profile = smooth(&card.profile(true, None), BROAD);
    let (low, high) = ends(&profile, 0.1)?;
    let (half_low, half_high) = ends(&profile, 0.5)?;
    let middle = CARD_HALF / PROFILE_BIN;
    let at = |place: f64| profile[(place.max(0.0) as usize).min(profile.len() - 1)];
    let side = |from: f64, to: f64| {
        let (from, to) = (from.max(0.0) as usize, (to.max(0.0) as usize).min(profile.len()));
        profile[from.min(to)..to].iter().copied().fold(0.0, f64::max)
    };
    let reach = 0.12 * (high - low);
    let lower = side(low, middle - reach);
    let upper = side(middle + reach, high);
    let lobes = lower.min(upper);
    (lobes > 0.0).then(|| (at(middle) / lobes, (half_high - half_low) / (high - low)))
}

/// Middle over lobes below which a pattern is split [-]: a dip one sees on a card. Ours.
const SPLIT_DIP: f64 = 0.85;
/// Half height over tenth height below which the centre is heavy [-]. Ours. HVLP 1.3 kit at 190 mm gives 0.649 as rated,
/// 0.619 with paint twice as thick (n = 3.0: still called balanced) and 0.542 with the fan at 0.4 (n = 4).
const HEAVY_RATIO: f64 = 0.58;
/// Length over width below which the spot is round [-]. Ours.
const ROUND_ASPECT: f64 = 1.6;

/// The pattern's name from its film; none where nothing landed.
#[must_use]
pub fn pattern_kind(card: &CardTally) -> Option<PatternKind> {
    let sizes = pattern_sizes(card, None);
    let (dip, ratio) = shape(card)?;
    Some(if dip < SPLIT_DIP {
        PatternKind::Split
    } else if sizes.length < ROUND_ASPECT * sizes.width {
        PatternKind::Round
    } else if ratio < HEAVY_RATIO {
        PatternKind::HeavyCentre
    } else {
        PatternKind::Balanced
    })
}
