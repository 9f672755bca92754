//! The model's likely range of an efficiency, without flying again: droplets do not meet, so parcels are weighed anew
//! for other droplet sizes.

use crate::set_up::SizeVariant;
use crate::spray::SizeDistribution;
use crate::tally::Sizes;

/// Landed share under another size distribution over that under the flown one [-].
#[must_use]
pub fn landed_ratio(
    own: &SizeDistribution,
    other: &SizeDistribution,
    sprayed: &Sizes,
    landed: &Sizes,
) -> Option<f64> {
    let (mut all, mut on, mut all_own, mut on_own) = (0.0, 0.0, 0.0, 0.0);
    for (class, (&s, &l)) in sprayed.counts().iter().zip(landed.counts()).enumerate() {
        let (low, high) = Sizes::bounds(class);
        // Class by class: share of the other distribution over that of the flown one.
        let flown = own.share_below(high) - own.share_below(low);
        if s == 0 || flown <= 0.0 {
            continue;
        }
        let weight = (other.share_below(high) - other.share_below(low)) / flown;
        all += weight * s as f64;
        on += weight * l as f64;
        all_own += s as f64;
        on_own += l as f64;
    }
    (all > 0.0 && on_own > 0.0).then(|| on / all * (all_own / on_own))
}

/// Landed share under each of the variants over that under the flown one [-], where it can be said.
#[must_use]
pub fn likely_ratios(
    own: &SizeDistribution,
    variants: &[SizeVariant],
    sprayed: &Sizes,
    landed: &Sizes,
) -> Vec<f64> {
    variants.iter().filter_map(|v| landed_ratio(own, &v.sizes, sprayed, landed)).collect()
}

/// Lowest and highest of `value` by such ratios, itself included.
#[must_use]
pub fn likely_over(value: f64, ratios: &[f64]) -> (f64, f64) {
    ratios.iter().fold((value, value), |(low, high), r| {
        let other = (value * r).clamp(0.0, 1.0);
        (low.min(other), high.max(other))
    })
}

/// Lowest and highest of `value` over the variants, itself included.
#[must_use]
pub fn model_range(
    value: f64,
    own: &SizeDistribution,
    variants: &[SizeVariant],
    sprayed: &Sizes,
    landed: &Sizes,
) -> (f64, f64) {
    likely_over(value, &likely_ratios(own, variants, sprayed, landed))
}
