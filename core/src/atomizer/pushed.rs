//! Unequal jets push the spray: a crescent, a heavy end, spits. All of it ours, from the balance of momentum; no published
//! rule was found (`docs/methods/pattern.md`).
//!
//! What of the horn momentum no hole opposite answers, dJ, turns the whole by dJ sin(th)/(Ja + Jh cos(th)) to the side. It hits the
//! fan's middle; the ends have left by then: bow (1 - (t/reach)^2) over the slope t along the fan, its mean being that turn. Air
//! missing on one side of the ring pushes the core likewise; the horns then spread a core that is off their middle, so the
//! paint's mean place moves along the fan, its ends stay.

use crate::air::Jet;
use crate::math::{cos, sin};
use crate::spray::{Along, Askew, SizeDistribution, Slugs};

/// Largest mean place of the paint [share of half fan]. Ours: beyond, the fan has one end only.
const FARTHEST: f64 = 0.6;
/// Median drop of a plug over the bore [-], its spread and largest drop: ours. A plug leaves as the bore's ligament and
/// tears without its share of the air.
const PLUG: f64 = 0.3;
const PLUG_SIGMA: f64 = 1.5;
const PLUG_LARGEST: f64 = 2.5;
/// Plugs a second [1/s]; see [`Slugs::rate`].
const FLUTTER: f64 = 5.0;

/// The fan that is pushed, and what pushes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Push {
    /// Slope of the fan's edge from its middle [-]: 1.25 T.
    pub edge: f64,
    /// Standard deviation of the rays' slope [-].
    pub spread: f64,
    /// How the paint is spread along the fan.
    pub along: Along,
    /// Angle of the horn jets [rad].
    pub horn_angle: f64,
    /// Horn momentum without an answer, over all of it [-]; positive pushes to the right.
    pub unanswered: f64,
    /// Sideways over axial momentum of the ring's air [-], up the fan.
    pub ring: f64,
    /// Mean place of the paint off the core's middle [share of its radius], up in the room.
    pub off_middle: f64,
    /// How far the cap is turned, clockwise from behind the gun [rad].
    pub cap_turn: f64,
}

/// The pushed spray in the cap's frame.
#[must_use]
pub fn askew(push: &Push, annulus: &Jet, horns: &Jet) -> Askew {
    let axial = annulus.momentum() + horns.momentum() * cos(push.horn_angle);
    let reach = (push.edge * push.edge + 4.0 * push.spread * push.spread).sqrt();
    let none = Askew { reach: reach.max(1e-6), ..Askew::default() };
    if axial <= 0.0 || (push.unanswered == 0.0 && push.ring == 0.0 && push.off_middle == 0.0) {
        return none;
    }
    let turn = push.unanswered * horns.momentum() * sin(push.horn_angle) / axial;
    let variance = match push.along {
        Along::Exponent(n) => 1.0 / (2.0 * n + 3.0),
        Along::Lobes { c, g } => c * c + g * g,
    };
    let slope2 = push.edge * push.edge * variance + push.spread * push.spread;
    let bow = turn / (1.0 - slope2 / (reach * reach));
    // The core's sideways slope moves the paint along the fan as far as the fan is open, the rest leans it.
    let ring = push.ring * annulus.momentum() / axial;
    let (up, right) = (cos(push.cap_turn), -sin(push.cap_turn));
    let place = (ring / reach + push.off_middle * up).clamp(-FARTHEST, FARTHEST);
    Askew {
        along: place,
        lean: ring * (1.0 - push.edge / reach),
        bow,
        across: push.off_middle * right * push.spread,
        reach: none.reach,
    }
}

/// Spits of a bore [m] that air fills for a share of the time: as long, as much of the paint comes in plugs.
#[must_use]
pub fn slugs(air_share: f64, bore: f64, along: Along) -> Option<Slugs> {
    (air_share > 0.0).then(|| {
        let volume_median = PLUG * bore;
        let sizes = SizeDistribution {
            volume_median,
            sigma_g: PLUG_SIGMA,
            smallest: volume_median / 10.0,
            largest: PLUG_LARGEST * volume_median,
        };
        Slugs { share: air_share, sizes, along, rate: FLUTTER }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn push() -> Push {
        Push {
            edge: 0.5,
            spread: 0.05,
            along: Along::Exponent(1.5),
            horn_angle: 1.0,
            unanswered: 0.0,
            ring: 0.0,
            off_middle: 0.0,
            cap_turn: 0.0,
        }
    }

    const JET: Jet = Jet { mass_flow: 4e-3, speed: 300.0, density: 1.3 };

    #[test]
    fn the_bow_holds_the_momentum_that_no_hole_answers() {
        let one = askew(&Push { unanswered: -0.4, ..push() }, &JET, &JET);
        assert!(one.bow < 0.0 && one.along == 0.0 && one.across == 0.0);
        // Mean over the fan's film, by sums over the exponent's density and the rays' spread (Gauss-Hermite, 3 points).
        let (mut sum, mut weight) = (0.0, 0.0);
        for i in 0..4000 {
            let s: f64 = (f64::from(i) + 0.5) / 2000.0 - 1.0;
            let w = (1.0 - s * s) * (1.0 - s * s).sqrt();
            for (z, share) in [(-3f64.sqrt(), 1.0 / 6.0), (0.0, 2.0 / 3.0), (3f64.sqrt(), 1.0 / 6.0)] {
                sum += w * share * one.sideways(0.5 * s + 0.05 * z);
                weight += w * share;
            }
        }
        let wanted = -0.4 * sin(1.0) / (1.0 + cos(1.0));
        assert!((sum / weight / wanted - 1.0).abs() < 0.01, "{} {wanted}", sum / weight);
    }

    #[test]
    fn cap_faults_keep_to_the_cap_and_tip_faults_to_the_gun() {
        let half = core::f64::consts::PI;
        let dirt = |cap_turn| askew(&Push { ring: 0.2, cap_turn, ..push() }, &JET, &JET).along;
        assert_eq!(dirt(0.0), dirt(half));
        let nick = |cap_turn| askew(&Push { off_middle: 0.3, cap_turn, ..push() }, &JET, &JET);
        assert!((nick(0.0).along + nick(half).along).abs() < 1e-12 && nick(0.0).along > 0.2);
        let quarter = nick(0.5 * half);
        assert!(quarter.along.abs() < 1e-12 && (quarter.across + 0.015).abs() < 1e-12);
    }

    #[test]
    fn a_sound_gun_is_not_pushed_and_nothing_is_not_a_number() {
        assert!(askew(&push(), &JET, &JET).is_none() && slugs(0.0, 1e-3, Along::Exponent(1.0)).is_none());
        let none = Jet { mass_flow: 0.0, speed: 0.0, density: 1.2 };
        let shut = Push { edge: 0.0, unanswered: 0.5, ring: 0.2, off_middle: 0.3, ..push() };
        assert!(askew(&shut, &none, &none).is_none());
        let closed = askew(&shut, &JET, &none);
        assert!(closed.lean > 0.0 && closed.bow == 0.0 && closed.reach > 0.0);
    }
}
