//! Quantiles: a uniform number in, a number of the wanted distribution out. One draw a number, no rejection, so that
//! the n-th draw of a stream keeps its meaning.

use crate::math;

/// Quantile of the standard normal; u in the open interval 0..1.
///
/// Wichura 1988, Appl. Statist. 37:477, algorithm AS 241 (PPND16), relative accuracy about 1e-16.
#[must_use]
pub fn normal(u: f64) -> f64 {
    let q = u - 0.5;
    if q.abs() <= 0.425 {
        let r = 0.180_625 - q * q;
        return q * rational(r, &CENTRE_TOP, &CENTRE_BOTTOM);
    }
    let tail = if q < 0.0 { u } else { 1.0 - u };
    let r = (-math::ln(tail.max(1e-300))).sqrt();
    let value = if r <= 5.0 {
        rational(r - 1.6, &TAIL_TOP, &TAIL_BOTTOM)
    } else {
        rational(r - 5.0, &FAR_TOP, &FAR_BOTTOM)
    };
    if q < 0.0 { -value } else { value }
}

/// Standard normal distribution function.
#[must_use]
pub fn normal_cdf(x: f64) -> f64 {
    0.5 * libm::erfc(-x / core::f64::consts::SQRT_2)
}

fn rational(r: f64, top: &[f64; 8], bottom: &[f64; 8]) -> f64 {
    let horner = |c: &[f64; 8]| c.iter().rev().fold(0.0, |sum, &k| sum * r + k);
    horner(top) / horner(bottom)
}

const CENTRE_TOP: [f64; 8] = [
    3.387_132_872_796_366_5,
    133.141_667_891_784_38,
    1_971.590_950_306_551_3,
    13_731.693_765_509_46,
    45_921.953_931_549_87,
    67_265.770_927_008_7,
    33_430.575_583_588_13,
    2_509.080_928_730_122_7,
];
const CENTRE_BOTTOM: [f64; 8] = [
    1.0,
    42.313_330_701_600_91,
    687.187_007_492_057_9,
    5_394.196_021_424_751,
    21_213.794_301_586_597,
    39_307.895_800_092_71,
    28_729.085_735_721_943,
    5_226.495_278_852_545,
];
const TAIL_TOP: [f64; 8] = [
    1.423_437_110_749_683_5,
    4.630_337_846_156_546,
    5.769_497_221_460_691,
    3.647_848_324_763_204_5,
    1.270_458_252_452_368_4,
    0.241_780_725_177_450_6,
    0.022_723_844_989_269_184,
    7.745_450_142_783_414e-4,
];
const TAIL_BOTTOM: [f64; 8] = [
    1.0,
    2.053_191_626_637_759,
    1.676_384_830_183_803_8,
    0.689_767_334_985_1,
    0.148_103_976_427_480_08,
    0.015_198_666_563_616_457,
    5.475_938_084_995_345e-4,
    1.050_750_071_644_416_9e-9,
];
const FAR_TOP: [f64; 8] = [
    6.657_904_643_501_103,
    5.463_784_911_164_114,
    1.784_826_539_917_291_3,
    0.296_560_571_828_504_87,
    0.026_532_189_526_576_124,
    0.001_242_660_947_388_078_4,
    2.711_555_568_743_487_6e-5,
    2.010_334_399_292_288_1e-7,
];
const FAR_BOTTOM: [f64; 8] = [
    1.0,
    0.599_832_206_555_888,
    0.136_929_880_922_735_8,
    0.014_875_361_290_850_615,
    7.868_691_311_456_133e-4,
    1.846_318_317_510_054_8e-5,
    1.421_511_758_316_446e-7,
    2.044_263_103_389_939_8e-15,
];

/// Quantiles of the density (1 - s^2)^n on -1..1, the symmetric beta.
#[derive(Debug, Clone, PartialEq)]
pub struct Bump {
    cumulative: Vec<f64>,
    place: Vec<f64>,
}

impl Bump {
    /// Exponent n, 0..=20.
    #[must_use]
    pub fn new(n: f64) -> Self {
        const KNOTS: usize = 2048;
        // s = sin(a): the density in a is cos(a)^(2n+1), smooth at the ends; Simpson between knots.
        let angle = |i: f64| (i / KNOTS as f64 - 0.5) * core::f64::consts::PI;
        let density = |i: f64| {
            let c = math::cos(angle(i)).max(0.0);
            if c > 0.0 { math::pow(c, 2.0 * n + 1.0) } else { 0.0 }
        };
        let mut cumulative = vec![0.0];
        let mut place = vec![-1.0];
        let mut sum = 0.0;
        for i in 0..KNOTS {
            let at = i as f64;
            sum += density(at) + 4.0 * density(at + 0.5) + density(at + 1.0);
            cumulative.push(sum);
            place.push(math::sin(angle(at + 1.0)));
        }
        for c in &mut cumulative {
            *c /= sum;
        }
        Self { cumulative, place }
    }

    /// The quantile; u in 0..=1.
    #[must_use]
    pub fn at(&self, u: f64) -> f64 {
        let last = self.cumulative.len() - 1;
        let i = self.cumulative.partition_point(|&c| c <= u).clamp(1, last);
        let (a, b) = (self.cumulative[i - 1], self.cumulative[i]);
        let share = if b > a { ((u - a) / (b - a)).clamp(0.0, 1.0) } else { 0.5 };
        self.place[i - 1] + (self.place[i] - self.place[i - 1]) * share
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_quantile_inverts_the_distribution() {
        for i in 1..2000 {
            let u = f64::from(i) / 2000.0;
            assert!((normal_cdf(normal(u)) - u).abs() < 1e-14, "{u}");
        }
        for u in [1e-9, 1e-6, 1.0 - 1e-9] {
            assert!((normal_cdf(normal(u)) / u - 1.0).abs() < 1e-9, "{u}");
        }
        // Handbook value: 97.5 % point.
        assert!((normal(0.975) - 1.959_963_984_540_054).abs() < 1e-14);
    }

    #[test]
    fn bump_has_the_variance_of_the_beta() {
        for n in [0.0, 0.5, 1.0, 1.5, 4.0] {
            let bump = Bump::new(n);
            let count = 200_000;
            let variance = (0..count)
                .map(|i| bump.at((f64::from(i) + 0.5) / f64::from(count)))
                .map(|s| s * s)
                .sum::<f64>()
                / f64::from(count);
            // Beta(n+1, n+1) on -1..1 has variance 1/(2n + 3).
            assert!((variance * (2.0 * n + 3.0) - 1.0).abs() < 1e-5, "n {n}: {variance}");
        }
    }
}
