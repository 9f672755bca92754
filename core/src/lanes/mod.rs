//! Lanes: the few operations that the flight is written over, once.
//!
//! Implemented for `f64` (one lane: published checks, reference runs, replay) and for vectors of `f32`
//! ([`Wide`], what runs). Only + - * / sqrt, comparisons, select, integer and bit operations: these give the same
//! bits on every machine. exp, ln and erf are our own polynomials in the f32 lanes and libm in f64.

mod pair;
mod scalar;
mod wide;

use core::ops::{Add, Div, Mul, Neg, Sub};
pub use pair::Pair;
pub use wide::Wide;

/// One vector of numbers, a lane a droplet.
pub trait Lanes:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self> + Neg<Output = Self>
{
    /// Number of lanes.
    const LEN: usize;
    /// One lane's number.
    type Scalar: Real;
    /// Truth, a lane each.
    type Mask: Copy;
    /// 32 random bits, a lane each.
    type Word: Copy;

    /// A constant in every lane; `self` only says which kind of vector.
    fn lit(self, value: f64) -> Self;
    /// One number in every lane.
    fn splat(self, value: Self::Scalar) -> Self;
    /// `LEN` numbers from the place `first` on, which is in the slice; beyond its end the last one again.
    fn load(self, from: &[Self::Scalar], first: usize) -> Self;
    /// Writes the lanes from the place `first` on, as far as the slice reaches.
    fn store(self, to: &mut [Self::Scalar], first: usize);
    /// Between the starts of cells, each with its start and what the cell adds: at `self` cells from the first, which is at least 0.
    fn look_up(self, table: &[[f32; 2]]) -> Self;
    /// The lane's number.
    fn lane(self, index: usize) -> Self::Scalar;
    /// Replaces one lane.
    fn put(&mut self, index: usize, value: Self::Scalar);
    /// Square root, correctly rounded.
    fn sqrt(self) -> Self;
    /// Absolute value.
    fn abs(self) -> Self;
    /// Smaller of two finite numbers; not of two zeros of unlike sign.
    fn min(self, other: Self) -> Self;
    /// Larger of two finite numbers; not of two zeros of unlike sign.
    fn max(self, other: Self) -> Self;
    /// self < other.
    fn lt(self, other: Self) -> Self::Mask;
    /// Lane by lane: `yes` where the mask is set, else `no`.
    fn select(mask: Self::Mask, yes: Self, no: Self) -> Self;
    /// Either.
    fn or(a: Self::Mask, b: Self::Mask) -> Self::Mask;
    /// Both.
    fn and(a: Self::Mask, b: Self::Mask) -> Self::Mask;
    /// The mask as bits, lane 0 lowest.
    fn bits(mask: Self::Mask) -> u32;
    /// e^x; x below about -87 gives 0 or nearly 0.
    fn exp(self) -> Self;
    /// e^-x of x at least 0; x above about 87 gives 0 or nearly 0.
    fn fade(self) -> Self;
    /// x^y of a positive normal x, where |y ln x| is below 87.
    fn pow(self, y: f64) -> Self;
    /// Natural logarithm of a positive normal number.
    fn ln(self) -> Self;
    /// Error function.
    fn erf(self) -> Self;
    /// (cos, sin) of 2 pi x, x in 0..1.
    fn turn(self) -> (Self, Self);

    /// A word in every lane.
    fn word(self, value: u32) -> Self::Word;
    /// One lane's word.
    fn word_lane(word: Self::Word, index: usize) -> u32;
    /// Writes the words from the place `first` on, as far as the slice reaches.
    fn store_word(word: Self::Word, to: &mut [u32], first: usize);
    /// Replaces one lane's word.
    fn put_word(word: &mut Self::Word, index: usize, value: u32);
    /// a + b, wrapping.
    fn word_add(a: Self::Word, b: Self::Word) -> Self::Word;
    /// a xor b.
    fn word_xor(a: Self::Word, b: Self::Word) -> Self::Word;
    /// a << n.
    fn word_shl(a: Self::Word, n: u32) -> Self::Word;
    /// a rotated left by n.
    fn word_rotl(a: Self::Word, n: u32) -> Self::Word;
    /// Sum of the `count` bits of two words from `shift` on, less its mean 2^count - 1; count at most 22.
    fn word_fields(self, words: [Self::Word; 2], shift: u32, count: u32) -> Self;
    /// The `count` bits of a word from `shift` on, as a number 0..2^count; count at most 23.
    fn word_field(self, a: Self::Word, shift: u32, count: u32) -> Self;
}

/// 1/a and 1/b by one division: the divider is what the flight waits for. a b must neither overflow nor vanish.
#[inline(always)]
pub fn inverses<L: Lanes>(a: L, b: L) -> (L, L) {
    let both = a.lit(1.0) / (a * b);
    (b * both, a * both)
}

/// A lane's number at the edge of the flight.
pub trait Real: Copy + PartialOrd + core::fmt::Debug + Send + Sync + 'static {
    /// From f64, rounded once.
    fn from_f64(value: f64) -> Self;
    /// To f64, exact.
    fn to_f64(self) -> f64;
}

impl Real for f64 {
    #[inline(always)]
    fn from_f64(value: f64) -> Self {
        value
    }
    #[inline(always)]
    fn to_f64(self) -> f64 {
        self
    }
}

impl Real for f32 {
    #[inline(always)]
    fn from_f64(value: f64) -> Self {
        value as f32
    }
    #[inline(always)]
    fn to_f64(self) -> f64 {
        f64::from(self)
    }
}
