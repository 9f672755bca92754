//! How wide the fan opens and how the paint is spread along it.
//!
//! Fan slope T = cT Jh sin(th) / (Ja + Jh cos(th)). Spreading power M = Jh sin(th) / ((m_air + m_paint) SMD): the lateral
//! speed that the horn air can give to core air and paint, times how readily a droplet of that size takes it up. The film's
//! exponent falls linearly with M / M_rated; past a threshold the fan splits. Ours, no published ratio was found:
//! `docs/methods/pattern.md` argues it.

use crate::air::Jet;
use crate::constants::Constants;
use crate::math::{cos, sin};
use crate::spray::Along;

/// Fan slope T [-] of annulus and horn jets; 0 without air. `answered`: share of the horn momentum that meets as much from the
/// other side, 1 for a sound cap: only that presses the fan flat.
#[must_use]
pub fn fan_slope(annulus: &Jet, horns: &Jet, horn_angle: f64, answered: f64, c: &Constants) -> f64 {
    let lateral = answered * horns.momentum() * sin(horn_angle);
    let axial = annulus.momentum() + horns.momentum() * cos(horn_angle);
    if axial <= 0.0 { 0.0 } else { (c.fan_slope * lateral / axial).clamp(0.0, c.fan_slope_limit) }
}

/// Standard deviation of the rays' slope [-]: a closed fan's round jet spreads more than one pressed flat.
#[must_use]
pub fn ray_spread(fan_slope: f64, c: &Constants) -> f64 {
    let flat = (fan_slope / c.ray_spread_slope).clamp(0.0, 1.0);
    c.ray_spread_closed + (c.ray_spread_open - c.ray_spread_closed) * flat
}

/// Spreading power M [1/s]; 0 where nothing flows. `sauter` [m], `paint_flow` [kg/s], `answered` as in [`fan_slope`].
#[must_use]
pub fn spreading_power(
    annulus: &Jet,
    horns: &Jet,
    horn_angle: f64,
    answered: f64,
    paint_flow: f64,
    sauter: f64,
) -> f64 {
    let core = annulus.mass_flow + paint_flow;
    if core <= 0.0 { 0.0 } else { answered * horns.momentum() * sin(horn_angle) / (core * sauter) }
}

/// Spread along the fan at a spreading power `ratio` = M / M_rated.
#[must_use]
pub fn along(ratio: f64, c: &Constants) -> Along {
    let slope = c.balanced_exponent / (c.split_threshold - 1.0);
    let n = slope * (c.split_threshold - ratio);
    if n >= 0.0 {
        return Along::Exponent(n.min(c.exponent_limit));
    }
    // Two lobes with c = g have the variance of the flat fan, 1/3, where they take over. Their reach stays with the fan's.
    let start = (1.0f64 / 6.0).sqrt();
    let reach = (1.0 - start) / start;
    let centre = (start + c.lobe_growth * (ratio - c.split_threshold)).min(c.lobe_limit);
    Along::Lobes { c: centre, g: (1.0 - centre) / reach }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::normal;

    const C: Constants = Constants::STANDARD;

    #[test]
    fn balanced_at_the_design_point_and_heavier_below() {
        match along(1.0, &C) {
            Along::Exponent(n) => assert!((n - C.balanced_exponent).abs() < 1e-12),
            lobes @ Along::Lobes { .. } => panic!("{lobes:?}"),
        }
        assert_eq!(along(0.0, &C), Along::Exponent(C.exponent_limit));
    }

    #[test]
    fn the_change_to_two_lobes_keeps_variance_and_nearly_the_shape() {
        let Along::Exponent(n) = along(C.split_threshold, &C) else { panic!() };
        assert!(n.abs() < 1e-12);
        let Along::Lobes { c, g } = along(C.split_threshold + 1e-9, &C) else { panic!() };
        assert!((c - g).abs() < 1e-8);
        assert!((c * c + g * g - 1.0 / (2.0 * n + 3.0)).abs() < 1e-8);
        // Largest gap between the two shares-below, flat against lobes: 0.04 of the paint.
        let mut gap: f64 = 0.0;
        for i in -100..=100 {
            let s = f64::from(i) / 100.0;
            let lobes = 0.5 * (normal::below((s - c) / g) + normal::below((s + c) / g));
            gap = gap.max((lobes - 0.5 * (s + 1.0)).abs());
        }
        assert!(gap < 0.042, "{gap}");
    }

    #[test]
    fn lobes_part_with_the_ratio_and_stay_inside() {
        let mut last = 0.0;
        for i in 0..100 {
            if let Along::Lobes { c, g } = along(1.3 + 0.02 * f64::from(i), &C) {
                assert!(c >= last && c <= C.lobe_limit && g > 0.1 && c >= g - 1e-12);
                last = c;
            }
        }
        assert!(last == C.lobe_limit);
    }

    #[test]
    fn no_air_no_fan_and_no_nan() {
        let none = Jet { mass_flow: 0.0, speed: 0.0, density: 1.2 };
        assert_eq!(fan_slope(&none, &none, 1.0, 1.0, &C), 0.0);
        assert_eq!(spreading_power(&none, &none, 1.0, 1.0, 0.0, 22e-6), 0.0);
        assert_eq!(ray_spread(0.0, &C), C.ray_spread_closed);
    }
}
