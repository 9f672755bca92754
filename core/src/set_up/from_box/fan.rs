//! From the fan height on a box to the horns' share of the air.
//!
//! The report measures a fan where the profile is a tenth of its peak. For a balanced pattern that is 20 mm + 1.9 T D at a fan slope T
//! and a distance D (fitted to 20 cards of three kits, T 0.15-0.6, D 150-250 mm: within 9 %). A box states what the eye sees,
//! where the speckle starts: a hundredth of the peak (ours), wider by the ratio of the two in the emitted profile. The share then
//! follows in closed form from T = cT Jh sin(th) / (Ja + Jh cos(th)).

use crate::constants::Constants;
use crate::error::ParameterError;
use crate::math::{cos, sin};

/// Fitted: height of no fan at all [m], and growth with T D [-].
const SPOT: f64 = 0.020;
const GROWTH: f64 = 1.9;
/// Horns' share of the air, least and most [-]: what makes no fan, and above what was inferred (0.3-0.6).
const LEAST: f64 = 0.02;
const MOST: f64 = 0.65;
/// Where a balanced emission is a hundredth of its middle over where it is a tenth, at T 0, 0.1 .. 0.6 [-]: computed, tested.
const SEEN: [f64; 7] = [1.414, 1.401, 1.324, 1.243, 1.184, 1.164, 1.150];

/// Fan height that the eye sees [m] at a slope 0..=0.6 and a distance [m].
pub fn seen_height(slope: f64, distance: f64) -> f64 {
    let place = (slope * 10.0).clamp(0.0, 6.0);
    let i = (place as usize).min(5);
    let ratio = SEEN[i] + (SEEN[i + 1] - SEEN[i]) * (place - i as f64);
    (SPOT + GROWTH * slope * distance) * ratio
}

/// The horns' share of the air at which the fan is seen `height` [m] high at `distance` [m]; speeds of annulus and horn jets [m/s],
/// horn angle [rad].
///
/// # Errors
/// A height that no share between 0.02 and 0.65 and no fan of the model opens to.
pub fn share_for(
    height: f64,
    distance: f64,
    [annulus, horns]: [f64; 2],
    angle: f64,
    c: &Constants,
) -> Result<f64, ParameterError> {
    let side = c.fan_slope * horns * sin(angle);
    let share = |slope: f64| slope * annulus / (side + slope * (annulus - horns * cos(angle)));
    let slope = |share: f64| share * side / ((1.0 - share) * annulus + share * horns * cos(angle));
    let (least, most) = (slope(LEAST), slope(MOST).min(c.fan_slope_limit));
    let (narrow, wide) = (seen_height(least, distance), seen_height(most, distance));
    if !(narrow..=wide).contains(&height) {
        let mm = |x: f64| x * 1e3;
        return Err(ParameterError::new(
            "gun.box.fan",
            format!("{:.0} mm at {:.0} mm", mm(height), mm(distance)),
            format!(
                "{:.0} to {:.0} mm at that distance: what such air can open",
                mm(narrow).ceil(),
                mm(wide).floor()
            ),
        ));
    }
    let (mut low, mut high) = (least, most);
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if seen_height(middle, distance) < height { low = middle } else { high = middle }
    }
    Ok(share(0.5 * (low + high)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::Jet;
    use crate::atomizer::{fan_slope, ray_spread};
    use crate::emission::EDGE;
    use crate::math::{exp, pow};

    /// Place along the fan, as a slope, where a balanced film has fallen to a share of its middle.
    fn edge(slope: f64, share: f64, c: &Constants) -> f64 {
        let (reach, spread, n) = (EDGE * slope, ray_spread(slope, c), 400);
        let film = |y: f64| -> f64 {
            let at = |i: i32| 2.0 * (f64::from(i) + 0.5) / f64::from(n) - 1.0;
            let part = |s: f64| {
                pow(1.0 - s * s, c.balanced_exponent)
                    * exp(-0.5 * (y - reach * s) * (y - reach * s) / (spread * spread))
            };
            (0..n).map(|i| part(at(i))).sum()
        };
        let (mut low, mut high) = (0.0, reach + 6.0 * spread);
        for _ in 0..40 {
            let y = 0.5 * (low + high);
            if film(y) > share * film(0.0) { low = y } else { high = y }
        }
        low
    }

    #[test]
    fn the_eye_sees_more_than_a_tenth_of_the_peak() {
        let c = Constants::STANDARD;
        for (i, wanted) in SEEN.into_iter().enumerate() {
            let slope = 0.1 * i as f64;
            let ratio = edge(slope, 0.01, &c) / edge(slope, 0.1, &c);
            assert!((ratio - wanted).abs() < 2e-3, "T {slope}: {ratio}, table {wanted}");
        }
    }

    #[test]
    fn the_share_gives_the_slope_back() {
        let c = Constants::STANDARD;
        let angle = core::f64::consts::FRAC_PI_3;
        for height in [0.1, 0.2, 0.28] {
            let share = share_for(height, 0.2, [310.0, 280.0], angle, &c).unwrap();
            let jet = |mass_flow, speed| Jet { mass_flow, speed, density: 1.3 };
            let slope = fan_slope(&jet(1.0 - share, 310.0), &jet(share, 280.0), angle, 1.0, &c);
            assert!((seen_height(slope, 0.2) / height - 1.0).abs() < 1e-9, "{height} {share} {slope}");
        }
        let e = share_for(0.4, 0.2, [310.0, 280.0], angle, &c).unwrap_err().to_string();
        assert!(e.contains("gun.box.fan") && e.contains("400 mm at 200 mm"), "{e}");
    }
}
