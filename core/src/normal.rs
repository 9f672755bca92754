//! The normal distribution: share below, and its inverse.
//!
//! Inverse: Wichura 1988, algorithm AS 241 (PPND16), relative error about 1e-16; checked against an independent
//! implementation in the tests below.

use crate::lanes::Lanes;
use crate::math::{erf, ln};

/// Share of a standard normal below `z`.
#[must_use]
pub fn below(z: f64) -> f64 {
    0.5 * (1.0 + erf(z * std::f64::consts::FRAC_1_SQRT_2))
}

/// Height of the standard normal density at `z`.
#[must_use]
pub fn height(z: f64) -> f64 {
    crate::math::exp(-0.5 * z * z) * 0.398_942_280_401_432_7
}

/// The z below which a share `p` lies. `p` is held inside 1e-300..1 - 1e-16.
#[must_use]
pub fn quantile(p: f64) -> f64 {
    let p = p.clamp(1e-300, 1.0 - 1e-16);
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        let r = 0.180625 - q * q;
        return q * ratio(r, &CENTRE_TOP, &CENTRE_BOTTOM);
    }
    let tail = if q < 0.0 { p } else { 1.0 - p };
    let r = (-ln(tail)).sqrt();
    let z = if r <= 5.0 {
        ratio(r - 1.6, &MIDDLE_TOP, &MIDDLE_BOTTOM)
    } else {
        ratio(r - 5.0, &FAR_TOP, &FAR_BOTTOM)
    };
    if q < 0.0 { -z } else { z }
}

/// The z below which a share `p` lies, `up` = 1 - p, both 1e-10 or more: Wichura's PPND7, about 1e-7 of z (tested). For draws.
#[inline(always)]
pub fn deviate<L: Lanes>(p: L, up: L) -> L {
    let one = p.lit(1.0);
    let q = (p - up) * p.lit(0.5);
    let r = p.lit(0.180_625) - q * q;
    let top = ((p.lit(59.109_374_720) * r + p.lit(159.291_132_02)) * r + p.lit(50.434_271_938)) * r
        + p.lit(3.387_132_717_9);
    let bottom = ((p.lit(67.187_563_600) * r + p.lit(78.757_757_664)) * r + p.lit(17.895_169_469)) * r + one;
    let t = (-p.min(up).ln()).sqrt() - p.lit(1.6);
    let far_top = ((p.lit(0.170_238_211_03) * t + p.lit(1.306_728_481_6)) * t + p.lit(2.756_815_390_0)) * t
        + p.lit(1.423_437_277_7);
    let far_bottom = (p.lit(0.120_211_329_75) * t + p.lit(0.737_001_642_50)) * t + one;
    let near = q.abs().lt(p.lit(0.425));
    let far_top = L::select(q.lt(p.lit(0.0)), -far_top, far_top);
    L::select(near, q * top, far_top) / L::select(near, bottom, far_bottom)
}

fn ratio(r: f64, top: &[f64; 8], bottom: &[f64; 8]) -> f64 {
    let sum = |c: &[f64; 8]| c.iter().fold(0.0, |s, &k| s * r + k);
    sum(top) / sum(bottom)
}

// Highest power first.

const CENTRE_TOP: [f64; 8] = [
    2509.0809287301227,
    33430.57558358813,
    67265.7709270087,
    45921.95393154987,
    13731.69376550946,
    1971.5909503065513,
    133.14166789178438,
    3.3871328727963665,
];
const CENTRE_BOTTOM: [f64; 8] = [
    5226.495278852854,
    28729.085735721943,
    39307.89580009271,
    21213.794301586597,
    5394.196021424751,
    687.1870074920579,
    42.31333070160091,
    1.0,
];
const MIDDLE_TOP: [f64; 8] = [
    0.0007745450142783414,
    0.022723844989269184,
    0.2417807251774506,
    1.2704582524523684,
    3.6478483247632045,
    5.769497221460691,
    4.630337846156546,
    1.4234371107496835,
];
const MIDDLE_BOTTOM: [f64; 8] = [
    1.0507500716444169e-09,
    0.0005475938084995345,
    0.015198666563616457,
    0.14810397642748008,
    0.6897673349851,
    1.6763848301838038,
    2.053191626637759,
    1.0,
];
const FAR_TOP: [f64; 8] = [
    2.0103343992922881e-07,
    2.7115555687434876e-05,
    0.0012426609473880784,
    0.026532189526576124,
    0.29656057182850487,
    1.7848265399172913,
    5.463784911164114,
    6.657904643501103,
];
const FAR_BOTTOM: [f64; 8] = [
    2.0442631033899397e-15,
    1.421511758316446e-07,
    1.8463183175100548e-05,
    0.0007868691311456133,
    0.014875361290850615,
    0.1369298809227358,
    0.599832206555888,
    1.0,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_have_the_deviates_of_their_shares() {
        let mut worst = 0.0f64;
        for k in 0..100_000 {
            let p = (f64::from(k) + 0.5) / 100_000.0;
            worst = worst.max((deviate(p, 1.0 - p) - quantile(p)).abs());
        }
        for k in 1..34 {
            let p = 1.0 / (1u64 << k) as f64;
            worst = worst.max((deviate(p, 1.0 - p) - quantile(p)).abs());
            worst = worst.max((deviate(1.0 - p, p) + quantile(p)).abs());
        }
        assert!(worst < 1e-6, "{worst}");
    }

    #[test]
    fn the_inverse_agrees_with_an_independent_one() {
        // Python 3 statistics.NormalDist().inv_cdf (computed).
        for (p, z) in [
            (1e-12, -7.034483825301132),
            (0.0001, -3.71901648545568),
            (0.01, -2.3263478740408408),
            (0.1, -1.2815515655446008),
            (0.3, -0.5244005127080407),
            (0.5, 0.0),
            (0.8, 0.8416212335729144),
            (0.975, 1.9599639845400536),
            (0.9999, 3.7190164854557084),
        ] {
            assert!((quantile(p) - z).abs() < 1e-11 * (1.0 + f64::abs(z)), "{p}");
        }
    }

    #[test]
    fn the_inverse_inverts() {
        for i in 1..400 {
            let p = f64::from(i) / 400.0;
            assert!((below(quantile(p)) - p).abs() < 1e-14);
        }
    }
}
