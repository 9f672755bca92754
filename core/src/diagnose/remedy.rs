//! What the trade turns for a complaint, most usual first; whether it helps is for the flights to say.
//!
//! Directions: defect guides of the trade (orange peel with too much distance, too little pressure, thick paint, fast thinner; runs
//! with too much fluid, too close, too slow: seen), fan and fluid against split and heavy patterns (common practice, no source).

use super::Lever;
use super::measure::Measure;

use Lever::{
    AirKnob, Axis, Coats, Distance, Fan, Faults, Fluid, Hand, Lead, Overlap, Pressure, Sides, Speed, Thinner,
    Thinning,
};

/// A lever and which way: true is more.
pub type Way = (Lever, bool);

/// What is turned for a complaint.
#[must_use]
pub fn remedies(measure: Measure) -> &'static [Way] {
    match measure {
        Measure::Thin => &[
            (Speed, false),
            (Fluid, true),
            (Overlap, true),
            (Lead, true),
            (Sides, true),
            (AirKnob, true),
            (Distance, false),
            (Fan, false),
            (Coats, true),
            (Faults, false),
            (Hand, false),
        ],
        Measure::Thick => &[
            (Speed, true),
            (Fluid, false),
            (Overlap, false),
            (Sides, false),
            (Distance, true),
            (Fan, true),
            (Coats, false),
            (Hand, false),
        ],
        Measure::Uneven => &[
            (Overlap, true),
            (Overlap, false),
            (Lead, true),
            (Sides, true),
            (Axis, true),
            (Distance, true),
            (Distance, false),
            (Fan, true),
            (Fan, false),
            (Fluid, true),
            (Fluid, false),
            (Pressure, false),
            (Faults, false),
            (Hand, false),
        ],
        Measure::Runs => &[
            (Speed, true),
            (Fluid, false),
            (Overlap, false),
            (Distance, true),
            (Fan, true),
            (Thinning, false),
            (Thinner, false),
            (Sides, false),
        ],
        Measure::Dry => &[
            (Distance, false),
            (Fluid, true),
            (Speed, false),
            (Pressure, false),
            (Overlap, true),
            (Thinner, true),
            (Thinning, true),
            (Sides, true),
        ],
        Measure::Bare => {
            &[(Overlap, true), (Sides, true), (Lead, true), (Speed, false), (Fan, true), (Axis, true)]
        }
        Measure::Paint => &[
            (Fan, false),
            (Axis, true),
            (Distance, false),
            (Pressure, false),
            (Lead, false),
            (Sides, true),
            (Fluid, false),
        ],
        Measure::Split => &[
            (Fluid, true),
            (Fan, false),
            (Pressure, false),
            (AirKnob, false),
            (Thinning, false),
            (Faults, false),
        ],
        Measure::HeavyCentre => &[
            (Fan, true),
            (Fluid, false),
            (Pressure, true),
            (AirKnob, true),
            (Thinning, true),
            (Faults, false),
        ],
        Measure::Starved => &[(Fluid, true), (Thinning, true), (Fan, false), (Faults, false)],
        Measure::HeavyEnd | Measure::Bent | Measure::Spat => &[(Faults, false)],
        Measure::Drops => &[
            (Pressure, true),
            (AirKnob, true),
            (Fluid, false),
            (Thinning, true),
            (Thinner, true),
            (Fan, false),
            (Faults, false),
        ],
        Measure::OverCap => &[(Pressure, false), (AirKnob, false)],
        Measure::AirShort => &[(Pressure, false), (Fan, false), (Speed, true)],
    }
}
