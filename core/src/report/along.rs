//! How the film lies along the fan, with a replicate group left out where asked: for differences between two settings.

use super::pattern::{BROAD, SMOOTH, ends, pattern_sizes, smooth};
use super::reading::{cumulants, dip, exponent, finer};
use crate::math;
use crate::run::CardTally;

/// Film along the fan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AlongFan {
    /// Film at the middle over that of the lower of the two halves' peaks [-]; 1 or more is no split.
    pub dip: f64,
    /// Film of the fan alone, the rays' spread taken out, half way between middle and ends over that at the middle [-]:
    /// (1 - 1/4)^n of [`super::Reading::exponent`]; a balanced fan has about 0.65.
    pub half_way: f64,
    /// Skewness [-]; 0 where both ends hold the same.
    pub skew: f64,
    /// Fan height between the tenths of the peak [bins of a profile].
    pub height: f64,
}

/// The film along the fan on a card; none where nothing landed.
#[must_use]
pub fn along_fan(card: &CardTally, without: Option<usize>) -> Option<AlongFan> {
    let profile = card.profile(true, without);
    let (low, high) = ends(&smooth(&profile, SMOOTH), 0.1)?;
    let broad = smooth(&profile, BROAD);
    let [variance, third, fourth] = cumulants(&profile)?;
    let [across, _, fourth_across] = cumulants(&card.profile(false, without))?;
    let own = (variance - across).max(0.05 * variance);
    let dip = dip(&broad, low, high);
    let sizes = pattern_sizes(card, without);
    let excess = (fourth - fourth_across) / (own * own);
    let n = exponent(excess, sizes.width / sizes.length.max(1e-3), dip, finer(&card.landed, 0.5));
    Some(AlongFan {
        dip,
        half_way: math::pow(0.75, n.clamp(0.0, 20.0)),
        skew: third / (own * own.sqrt()),
        height: high - low,
    })
}
