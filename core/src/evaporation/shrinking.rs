//! The drying curve as the flight can carry it: diameter 1 - shrink s/(s + half).
//!
//! Serves the drag on the way only; what lands is taken from the curve itself. Fitted over the
//! exposures of 10-80 um droplets.

use super::EvaporationCurve;
use crate::math;

/// Exposures over which the form is fitted [s/m2]: of 10-80 um droplets on their way to the part.
const LOWEST: f64 = 1e6;
const STEPS: usize = 42;
const RATIO: f64 = 1.1;

impl EvaporationCurve {
    /// (shrink [-], half [s/m2]) of the diameter's fall, by least squares over the exposures of a flight.
    #[must_use]
    pub fn shrinking(&self) -> (f64, f64) {
        let mut fall = [(0.0, 0.0); STEPS];
        let mut exposure = LOWEST;
        for point in &mut fall {
            *point = (exposure, 1.0 - math::cbrt(self.volume_at(exposure).max(1e-6)));
            exposure *= RATIO;
        }
        let mut best = (f64::INFINITY, 0.0, LOWEST);
        let mut half = LOWEST;
        for _ in 0..80 {
            let shape = |s: f64| s / (s + half);
            let (top, bottom) =
                fall.iter().fold((0.0, 0.0), |(t, b), &(s, f)| (t + f * shape(s), b + shape(s) * shape(s)));
            let shrink = (top / bottom).clamp(0.0, 0.9);
            let error: f64 =
                fall.iter().map(|&(s, f)| (f - shrink * shape(s)) * (f - shrink * shape(s))).sum();
            if error < best.0 {
                best = (error, shrink, half);
            }
            half *= RATIO;
        }
        (best.1, best.2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{catalogue, evaporation::Drying, evaporation::DryingAir};

    #[test]
    fn the_form_follows_the_curve_within_two_hundredths_of_the_diameter() {
        for id in ["two-pack-clear", "solvent-basecoat"] {
            let paint = catalogue::paint(id).expect("a paint of the catalogue");
            let air = DryingAir { temperature: 293.15, humidity: 0.5 };
            let curve = Drying::new(&paint, air).expect("a paint that dries").curve();
            let (shrink, half) = curve.shrinking();
            let mut worst = 0.0f64;
            for i in 0..100 {
                let s = 1e6 * math::exp(f64::from(i) * 0.040);
                let exact = math::cbrt(curve.volume_at(s));
                worst = worst.max((1.0 - shrink * s / (s + half) - exact).abs());
            }
            assert!(worst < 0.02, "{id}: {worst}");
        }
    }
}
