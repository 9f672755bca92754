//! The model's likely range of an efficiency, and of the film that follows from it, without flying again: droplets do not meet, so
//! parcels are weighed anew for other droplet sizes. What the other uncertain constants leave open was flown once, one constant at a
//! time ("Which answers are safe" in `docs/validation.md`), and is a share of the figure. Independent errors add by the squares of
//! their logarithms.

use crate::job::Job;
use crate::math;
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

/// Share of a flat part's landed share that all constants but the sizes leave open [-].
pub const REST_FLAT: f64 = 0.06;
/// The same for tubes under a near-round spot and under a full fan [-]: there height and evenness of the fan weigh most.
pub const REST_TUBES: [f64; 2] = [0.09, 0.15];

/// Share that all constants, the size's among them, leave open in a fan's height and thickness on a card [-].
pub const REST_FAN: [f64; 2] = [0.11, 0.23];

/// Share of a job's landed share that all constants but the sizes leave open [-].
#[must_use]
pub fn rest(job: &Job) -> f64 {
    let [spot, full] = REST_TUBES;
    if job.part.is_of_tubes() { spot + (full - spot) * job.gun.fan.clamp(0.0, 1.0) } else { REST_FLAT }
}

/// Lowest and highest factor of independent errors together [-]; each pair is at most 1 and at least 1.
#[must_use]
pub fn together(ranges: &[(f64, f64)]) -> (f64, f64) {
    let sum = |of: fn(&(f64, f64)) -> f64| {
        let square = |range| {
            let log = math::ln(of(range).max(LEAST));
            log * log
        };
        ranges.iter().map(square).sum::<f64>().sqrt()
    };
    (math::exp(-sum(|range| range.0)), math::exp(sum(|range| range.1)))
}

/// A factor below this counts as this [-].
const LEAST: f64 = 1e-3;

/// Lowest and highest landed share over its figure [-]: by such ratios, and by the share that the rest leaves open.
#[must_use]
pub fn likely_factors(ratios: &[f64], rest: f64) -> (f64, f64) {
    let sizes = ratios.iter().fold((1.0f64, 1.0f64), |(low, high), r| (low.min(*r), high.max(*r)));
    together(&[sizes, (math::exp(-rest), math::exp(rest))])
}

/// Lowest and highest of the share `value` by such ratios and the rest, itself included.
#[must_use]
pub fn likely_over(value: f64, ratios: &[f64], rest: f64) -> (f64, f64) {
    let (low, high) = likely_factors(ratios, rest);
    (value * low, (value * high).min(1.0).max(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_add_by_squares() {
        let (low, high) = together(&[(math::exp(-0.3), math::exp(0.03)), (math::exp(-0.4), math::exp(0.04))]);
        assert!((low - math::exp(-0.5)).abs() < 1e-12 && (high - math::exp(0.05)).abs() < 1e-12);
        assert_eq!(together(&[]), (1.0, 1.0));
        assert!(together(&[(0.0, 1.0)]).0 >= LEAST * 0.999);
    }

    #[test]
    fn a_range_holds_its_figure_and_no_more_than_all() {
        let (low, high) = likely_over(0.97, &[0.8, 1.1], REST_FLAT);
        assert!(low < 0.78 && low > 0.7 && high == 1.0, "{low} {high}");
        assert_eq!(likely_over(0.0, &[0.8, 1.1], REST_FLAT), (0.0, 0.0));
        // Without another size the rest still stands.
        let (low, high) = likely_over(0.5, &[], 0.06);
        assert!((low - 0.5 * math::exp(-0.06)).abs() < 1e-12 && (high - 0.5 * math::exp(0.06)).abs() < 1e-12);
    }
}
