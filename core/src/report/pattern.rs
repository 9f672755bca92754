//! Fan height and thickness as one measures them on a card.
//!
//! Profile: landed solids summed across the other axis, 1 mm bins, 5 mm smoothing; size between the outermost lines
//! where it is a tenth of its peak.

use crate::run::{CardTally, PROFILE_BIN};

/// Smoothing of a profile [bins].
pub(super) const SMOOTH: usize = 5;
/// Wide smoothing for the name of a pattern [bins]: a speckle is no lobe.
pub(super) const BROAD: usize = 15;

/// Measured size of a pattern [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatternSizes {
    /// The long way.
    pub length: f64,
    /// The short way.
    pub width: f64,
}

/// Length and width of the pattern on the card, without one replicate group where asked. 0 where nothing landed.
#[must_use]
pub fn pattern_sizes(card: &CardTally, without: Option<usize>) -> PatternSizes {
    let size = |along| tenth_size(&smooth(&card.profile(along, without), SMOOTH));
    PatternSizes { length: size(true), width: size(false) }
}

/// Running mean over `width` bins (odd).
pub(super) fn smooth(profile: &[f64], width: usize) -> Vec<f64> {
    let half = width / 2;
    (0..profile.len())
        .map(|i| {
            let (from, to) = (i.saturating_sub(half), (i + half + 1).min(profile.len()));
            profile[from..to].iter().sum::<f64>() / width as f64
        })
        .collect()
}

/// Outermost places of the profile at `level` of its peak [bins], interpolated.
pub(super) fn ends(profile: &[f64], level: f64) -> Option<(f64, f64)> {
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
