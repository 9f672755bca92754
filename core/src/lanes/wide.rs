//! Vectors of f32 at the machine's own width, through fearless_simd.
//!
//! Polynomials: exp and ln after Cody-Waite reduction (coefficients of the Cephes single-precision library, S. Moshier,
//! public domain), erf a rational minimax form. Worst errors are measured by the tests below against libm.

use super::Lanes;
#[cfg(target_arch = "wasm32")]
use core::arch::wasm32::{f32x4, f32x4_extract_lane, f32x4_pmax, f32x4_pmin, v128};
use core::ops::{Add, Div, Mul, Neg, Sub};
use fearless_simd::prelude::*;

/// A native-width vector of f32.
#[derive(Clone, Copy)]
pub struct Wide<S: Simd>(pub S::f32s);

macro_rules! operator {
    ($($trait:ident $name:ident),*) => {$(
        impl<S: Simd> $trait for Wide<S> {
            type Output = Self;
            #[inline(always)]
            fn $name(self, other: Self) -> Self {
                Wide($trait::$name(self.0, other.0))
            }
        }
    )*};
}
operator!(Add add, Sub sub, Mul mul, Div div);

impl<S: Simd> Neg for Wide<S> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Wide(-self.0)
    }
}

impl<S: Simd> Wide<S> {
    /// Zero in every lane.
    #[inline(always)]
    pub fn zero(simd: S) -> Self {
        Wide(0.0f32.simd_into(simd))
    }

    #[inline(always)]
    fn to_bits(self) -> S::u32s {
        self.0.bitcast()
    }

    #[inline(always)]
    fn of_bits(bits: S::u32s) -> Self {
        Wide(bits.bitcast())
    }

    /// Through the browser's own vectors: of its two kinds of min and max, the one that minds NaN takes a processor seven
    /// instructions, this one.
    #[cfg(target_arch = "wasm32")]
    #[inline(always)]
    fn through(self, other: Self, of: impl Fn(v128, v128) -> v128) -> Self {
        let four = |v: Self| f32x4(v.0[0], v.0[1], v.0[2], v.0[3]);
        let out = of(four(self), four(other));
        let lanes = [
            f32x4_extract_lane::<0>(out),
            f32x4_extract_lane::<1>(out),
            f32x4_extract_lane::<2>(out),
            f32x4_extract_lane::<3>(out),
        ];
        Wide(S::f32s::from_slice(self.0.token(), &lanes))
    }

    /// e^r 2^n of |r| up to about (ln 2)/2; t = n + SHIFT, whose low bits are n + 127.
    #[inline(always)]
    fn exp_near(r: S::f32s, t: Self) -> Self {
        let r2 = r * r;
        // Estrin: short chains.
        let p01 = r * 0.166_666_65 + 0.5;
        let p23 = r * 8.333_452e-3 + 4.166_579_6e-2;
        let p45 = r * 1.987_569_1e-4 + 1.398_199_9e-3;
        let p = p01 + r2 * (p23 + r2 * p45);
        let e = p * r2 + r + 1.0;
        Wide(e * Self::of_bits(t.to_bits() << 23).0)
    }

    /// A word below 2^23 as a number: as the low bits of 2^23, which is then taken off. Exact, and faster than the
    /// conversion, which most levels have to build.
    #[inline(always)]
    fn small(word: S::u32s) -> Self {
        Wide(Self::of_bits(word | 0x4B00_0000u32).0 - 8_388_608.0)
    }

    /// e and m in [sqrt(1/2), sqrt 2) with x = m 2^e; x positive and normal.
    #[inline(always)]
    fn split(self) -> (S::f32s, S::f32s) {
        let offset: S::u32s = (0x3F80_0000u32 - 0x3F35_04F3).simd_into(self.0.token());
        let biased = self.to_bits() + offset;
        (Self::small(biased >> 23).0 - 127.0, Self::of_bits((biased & 0x007F_FFFF) + 0x3F35_04F3u32).0)
    }
}

/// 1.5 * 2^23 + 127: a number added to it is rounded to a whole one, which with 127 fills the sum's low bits.
const SHIFT: f32 = 12_583_039.0;
/// ln 2 in two parts: the first times a whole number below 2^15 is exact.
const LN2_HIGH: f32 = 0.693_359_4;
const LN2_LOW: f32 = -2.121_944_4e-4;

impl<S: Simd> Lanes for Wide<S> {
    const LEN: usize = <S::f32s as SimdBase<S>>::LEN;
    type Scalar = f32;
    type Mask = S::mask32s;
    type Word = S::u32s;

    #[inline(always)]
    fn lit(self, value: f64) -> Self {
        Wide((value as f32).simd_into(self.0.token()))
    }
    #[inline(always)]
    fn splat(self, value: f32) -> Self {
        Wide(value.simd_into(self.0.token()))
    }
    #[inline(always)]
    fn load(self, from: &[f32], first: usize) -> Self {
        if let Some(whole) = from.get(first..first + Self::LEN) {
            return Wide(S::f32s::from_slice(self.0.token(), whole));
        }
        let mut out = self;
        for lane in 0..Self::LEN {
            out.0[lane] = from[(first + lane).min(from.len() - 1)];
        }
        out
    }
    #[inline(always)]
    fn store(self, to: &mut [f32], first: usize) {
        if let Some(whole) = to.get_mut(first..first + Self::LEN) {
            self.0.store_slice(whole);
            return;
        }
        for (lane, to) in to.iter_mut().skip(first).enumerate() {
            *to = self.0[lane];
        }
    }
    #[inline(always)]
    fn look_up(self, table: &[[f32; 2]]) -> Self {
        let (mut start, mut more) = (self, self);
        for lane in 0..Self::LEN {
            let at = self.0[lane];
            let cell = (at as usize).min(table.len() - 1);
            start.0[lane] = table[cell][0];
            more.0[lane] = table[cell][1] * (at - cell as f32);
        }
        start + more
    }
    #[inline(always)]
    fn lane(self, index: usize) -> f32 {
        self.0[index]
    }
    #[inline(always)]
    fn put(&mut self, index: usize, value: f32) {
        self.0[index] = value;
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Wide(self.0.sqrt())
    }
    #[inline(always)]
    fn abs(self) -> Self {
        Self::of_bits(self.to_bits() & 0x7FFF_FFFF)
    }
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        #[cfg(target_arch = "wasm32")]
        return self.through(other, |a, b| f32x4_pmin(a, b));
        #[cfg(not(target_arch = "wasm32"))]
        Wide(self.0.min(other.0))
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        #[cfg(target_arch = "wasm32")]
        return self.through(other, |a, b| f32x4_pmax(a, b));
        #[cfg(not(target_arch = "wasm32"))]
        Wide(self.0.max(other.0))
    }
    #[inline(always)]
    fn lt(self, other: Self) -> S::mask32s {
        self.0.simd_lt(other.0)
    }
    #[inline(always)]
    fn select(mask: S::mask32s, yes: Self, no: Self) -> Self {
        Wide(mask.select(yes.0, no.0))
    }
    #[inline(always)]
    fn or(a: S::mask32s, b: S::mask32s) -> S::mask32s {
        a | b
    }
    #[inline(always)]
    fn and(a: S::mask32s, b: S::mask32s) -> S::mask32s {
        a & b
    }
    #[inline(always)]
    fn bits(mask: S::mask32s) -> u32 {
        mask.to_bitmask() as u32
    }

    #[inline(always)]
    fn exp(self) -> Self {
        let x = self.min(self.lit(88.0)).max(self.lit(-87.0));
        let t = Wide::<S>(x.0 * core::f32::consts::LOG2_E + SHIFT);
        let n = t.0 - SHIFT;
        Self::exp_near(x.0 - n * LN2_HIGH - n * LN2_LOW, t)
    }
    #[inline(always)]
    fn fade(self) -> Self {
        let x = self.min(self.lit(87.0));
        let t = Wide::<S>(x.0 * -core::f32::consts::LOG2_E + SHIFT);
        let n = t.0 - SHIFT;
        Self::exp_near(n * -LN2_HIGH - x.0 - n * LN2_LOW, t)
    }
    #[inline(always)]
    fn pow(self, y: f64) -> Self {
        // x = m 2^e; log2 m = 2 artanh(s) / ln 2 with s = (m - 1)/(m + 1), |s| < 0.172
        let (e, m) = self.split();
        let s = (m - 1.0) / (m + 1.0);
        let s2 = s * s;
        let log2 = s * ((s2 * 0.961_796_7 + 2.885_39) + s2 * s2 * (s2 * 0.412_198_58 + 0.577_078_04)) + e;
        let power = log2 * (y as f32);
        let t = Wide::<S>(power + SHIFT);
        Self::exp_near((power - (t.0 - SHIFT)) * core::f32::consts::LN_2, t)
    }

    #[inline(always)]
    fn ln(self) -> Self {
        let (e, m) = self.split();
        let f = m - 1.0;
        let z = f * f;
        // Estrin: short chains.
        let p01 = f * -2.499_999_4e-1 + 3.333_333e-1;
        let p23 = f * -1.666_805_8e-1 + 2.000_071_4e-1;
        let p45 = f * -1.242_014_1e-1 + 1.424_932_3e-1;
        let p67 = f * -1.151_461e-1 + 1.167_699_9e-1;
        let z2 = z * z;
        let q = (p01 + z * p23) + z2 * ((p45 + z * p67) + z2 * 7.037_683_6e-2);
        let y = q * f * z + e * LN2_LOW - z * 0.5;
        Wide(f + y + e * LN2_HIGH)
    }

    #[inline(always)]
    fn erf(self) -> Self {
        let x = self.min(self.lit(4.0)).max(self.lit(-4.0)).0;
        let x2 = x * x;
        let (x4, x8) = (x2 * x2, x2 * x2 * (x2 * x2));
        let a01 = x2 * -2.954_6e-3 + -1.609_603_3e-2;
        let a23 = x2 * -5.692_506_4e-5 + -7.349_906_4e-4;
        let a45 = x2 * 2.770_681_5e-8 + -2.101_024e-6;
        let a = (a01 + x4 * a23) + x8 * (a45 + x4 * -2.726_142_3e-10);
        let b01 = x2 * -7.373_329_4e-3 + -1.426_473_9e-2;
        let b23 = x2 * -2.133_740_6e-4 + -1.682_827e-3;
        let b = (b01 + x4 * b23) + x8 * -1.456_607_2e-5;
        Wide(x * a / b)
    }

    #[inline(always)]
    fn turn(self) -> (Self, Self) {
        // Quarter turns: x = (k + f) / 4 with |f| <= 1/2, then Taylor in f pi/2.
        const SHIFT: f32 = 12_582_912.0;
        let t = Wide::<S>(self.0 * 4.0 + SHIFT);
        let k = t.to_bits();
        let f = self.0 * 4.0 - (t.0 - SHIFT);
        let a = f * core::f32::consts::FRAC_PI_2;
        let a2 = a * a;
        let s = a * ((a2 * -1.951_529_6e-4 + 8.332_161e-3) * a2 * a2 + a2 * -0.166_666_55 + 1.0);
        let c = (a2 * 2.443_315_7e-5 + -1.388_731_6e-3) * a2 * a2 * a2 + a2 * a2 * 4.166_664_6e-2 - a2 * 0.5
            + 1.0;
        let token = self.0.token();
        let one: S::u32s = 1u32.simd_into(token);
        let odd = (k & 1).simd_eq(one);
        let (cos, sin) = (odd.select(s, c), odd.select(c, s));
        let sin_sign = (k & 2) << 30;
        let cos_sign = ((k + one) & 2) << 30;
        (
            Wide::<S>::of_bits(Wide::<S>(cos).to_bits() ^ cos_sign),
            Wide::<S>::of_bits(Wide::<S>(sin).to_bits() ^ sin_sign),
        )
    }

    #[inline(always)]
    fn word(self, value: u32) -> S::u32s {
        value.simd_into(self.0.token())
    }
    #[inline(always)]
    fn word_lane(word: S::u32s, index: usize) -> u32 {
        word[index]
    }
    #[inline(always)]
    fn store_word(word: S::u32s, to: &mut [u32], first: usize) {
        if let Some(whole) = to.get_mut(first..first + Self::LEN) {
            word.store_slice(whole);
            return;
        }
        for (lane, to) in to.iter_mut().skip(first).enumerate() {
            *to = word[lane];
        }
    }
    #[inline(always)]
    fn put_word(word: &mut S::u32s, index: usize, value: u32) {
        word[index] = value;
    }
    #[inline(always)]
    fn word_add(a: S::u32s, b: S::u32s) -> S::u32s {
        a + b
    }
    #[inline(always)]
    fn word_xor(a: S::u32s, b: S::u32s) -> S::u32s {
        a ^ b
    }
    #[inline(always)]
    fn word_shl(a: S::u32s, n: u32) -> S::u32s {
        a << n
    }
    #[inline(always)]
    fn word_rotl(a: S::u32s, n: u32) -> S::u32s {
        (a << n) | (a >> (32 - n))
    }
    #[inline(always)]
    fn word_fields(self, words: [S::u32s; 2], shift: u32, count: u32) -> Self {
        let mask = (1u32 << count) - 1;
        // As `small`, the mean taken off with the first word's 2^23: all whole numbers, exact.
        let first =
            Self::of_bits(((words[0] >> shift) & mask) | 0x4B00_0000u32).0 - (8_388_608.0 + mask as f32);
        Wide(first + Self::small((words[1] >> shift) & mask).0)
    }
    #[inline(always)]
    fn word_field(self, a: S::u32s, shift: u32, count: u32) -> Self {
        Self::small((a >> shift) & ((1u32 << count) - 1))
    }
}

#[cfg(test)]
mod tests;
