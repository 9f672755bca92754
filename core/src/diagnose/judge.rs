//! One setting against another: how bad all in all, and what an advice may not spoil.

use serde::{Deserialize, Serialize};

use super::measure::Measure;
use super::readout::Readout;
use crate::compare::LONGEST;

/// An advice may not take more paint for a part with the film wanted than this, over what it takes now [-]. Ours.
pub const MORE_PAINT: f64 = 1.25;
/// Weight of the paint for a part, over what it is now [grades].
const PAINT: f64 = 1.0;
/// Weight of the time for a part, likewise.
const TIME: f64 = 0.2;
/// Weight of a mean film at an end of the film wanted.
const OFF_MIDDLE: f64 = 0.3;
/// Weight of a fan's height that is not as it was, where it spaces the passes [per logarithm].
const FAN: f64 = 1.0;
/// Least height of a fan that spaces the passes, over what it is now [-]. Ours: a narrower one wants many more passes, and mends
/// any pattern by making it a spot.
pub const NARROWER: f64 = 0.7;
/// Weight of what speaks against the gun as set.
const FAULT: f64 = 3.0;

/// How the film lies along the fan: before a tube, which sees but a piece of it, it does not matter.
fn of_the_fan(measure: Measure) -> bool {
    matches!(measure, Measure::Split | Measure::HeavyCentre)
}

/// How bad a setting is all in all [grades]; `band` is the film wanted [m].
#[must_use]
pub fn badness(now: &Readout, first: &Readout, band: Option<(f64, f64)>) -> f64 {
    let mut sum = 0.0;
    for (&measure, figure) in &now.figures {
        if !first.by_the_fan && of_the_fan(measure) {
            continue;
        }
        sum += match measure {
            // Much waste weighs more.
            Measure::Paint => {
                PAINT * (1.0 + 3.0 * first.lost * first.lost) * figure.value
                    / first.value(measure).unwrap_or(figure.value).max(1e-9)
            }
            Measure::Thin | Measure::Thick => figure.sober() / measure.grade(),
            _ => (figure.value - measure.free()).max(0.0) / measure.grade(),
        };
    }
    if first.by_the_fan && first.fan > 0.0 && now.fan > 0.0 {
        sum += FAN * crate::math::ln(now.fan / first.fan).abs();
    }
    let passes = now.figures.contains_key(&Measure::Paint);
    if passes {
        sum += TIME * now.seconds / first.seconds.max(1e-9);
        if let Some((low, high)) = band {
            let off = (now.mean - 0.5 * (low + high)) / (0.5 * (high - low)).max(1e-9);
            sum += OFF_MIDDLE * off * off;
        }
    }
    sum + if now.fault.is_some() { FAULT } else { 0.0 }
}

/// What else an advice changes, in the measure's unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Side {
    /// The measure.
    pub measure: Measure,
    /// Before.
    pub before: f64,
    /// After.
    pub after: f64,
    /// Unit of both.
    pub unit: String,
}

/// What a change made for `promised` does besides; none where it spoils something beyond its tolerance (made larger by `slack`
/// counting errors).
#[must_use]
pub fn sides(before: &Readout, after: &Readout, promised: Measure, slack: f64) -> Option<Vec<Side>> {
    let mut sides = Vec::new();
    for (&measure, figure) in &before.figures {
        let Some(now) = after.figures.get(&measure).filter(|_| measure != promised) else { continue };
        if !before.by_the_fan && of_the_fan(measure) {
            continue;
        }
        let gain = figure.to(now);
        // Up to where it counts at all it may move.
        let worse = now.value - figure.value.max(measure.free());
        if measure == Measure::Paint {
            if now.value > MORE_PAINT * figure.value {
                return None;
            }
            continue;
        }
        let limit = measure.tolerance() + slack * gain.standard_error;
        if worse > limit {
            return None;
        }
        let told = 0.2 * measure.grade();
        if gain.value.abs() > (3.0 * gain.standard_error).max(told)
            && figure.value.max(now.value) > measure.free() + told
        {
            let unit = measure.unit().into();
            sides.push(Side { measure, before: figure.value, after: now.value, unit });
        }
    }
    if before.by_the_fan && after.fan < NARROWER * before.fan {
        return None;
    }
    if after.fault.is_some() && before.fault.is_none() {
        return None;
    }
    (after.seconds <= LONGEST * before.seconds).then_some(sides)
}
