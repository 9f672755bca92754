//! The f64 lane: one droplet at a time, libm's functions.

use super::Lanes;
use crate::math;

impl Lanes for f64 {
    const LEN: usize = 1;
    type Scalar = f64;
    type Mask = bool;
    type Word = u32;

    #[inline(always)]
    fn lit(self, value: f64) -> Self {
        value
    }
    #[inline(always)]
    fn splat(self, value: f64) -> Self {
        value
    }
    #[inline(always)]
    fn load(self, from: &[f64], first: usize) -> Self {
        from[first]
    }
    #[inline(always)]
    fn store(self, to: &mut [f64], first: usize) {
        to[first] = self;
    }
    #[inline(always)]
    fn look_up(self, table: &[[f32; 2]]) -> f64 {
        let cell = (self as usize).min(table.len() - 1);
        f64::from(table[cell][0]) + f64::from(table[cell][1]) * (self - cell as f64)
    }
    #[inline(always)]
    fn lane(self, _index: usize) -> f64 {
        self
    }
    #[inline(always)]
    fn put(&mut self, _index: usize, value: f64) {
        *self = value;
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        f64::sqrt(self)
    }
    #[inline(always)]
    fn abs(self) -> Self {
        f64::abs(self)
    }
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        if self < other { self } else { other }
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        if self > other { self } else { other }
    }
    #[inline(always)]
    fn lt(self, other: Self) -> bool {
        self < other
    }
    #[inline(always)]
    fn select(mask: bool, yes: Self, no: Self) -> Self {
        if mask { yes } else { no }
    }
    #[inline(always)]
    fn or(a: bool, b: bool) -> bool {
        a | b
    }
    #[inline(always)]
    fn and(a: bool, b: bool) -> bool {
        a & b
    }
    #[inline(always)]
    fn bits(mask: bool) -> u32 {
        u32::from(mask)
    }
    #[inline(always)]
    fn exp(self) -> Self {
        math::exp(self)
    }
    #[inline(always)]
    fn fade(self) -> Self {
        math::exp(-self)
    }
    #[inline(always)]
    fn pow(self, y: f64) -> Self {
        math::exp(y * math::ln(self))
    }
    #[inline(always)]
    fn ln(self) -> Self {
        math::ln(self)
    }
    #[inline(always)]
    fn erf(self) -> Self {
        math::erf(self)
    }
    #[inline(always)]
    fn turn(self) -> (Self, Self) {
        let angle = core::f64::consts::TAU * self;
        (math::cos(angle), math::sin(angle))
    }

    #[inline(always)]
    fn word(self, value: u32) -> u32 {
        value
    }
    #[inline(always)]
    fn word_lane(word: u32, _index: usize) -> u32 {
        word
    }
    #[inline(always)]
    fn store_word(word: u32, to: &mut [u32], first: usize) {
        to[first] = word;
    }
    #[inline(always)]
    fn put_word(word: &mut u32, _index: usize, value: u32) {
        *word = value;
    }
    #[inline(always)]
    fn word_add(a: u32, b: u32) -> u32 {
        a.wrapping_add(b)
    }
    #[inline(always)]
    fn word_xor(a: u32, b: u32) -> u32 {
        a ^ b
    }
    #[inline(always)]
    fn word_shl(a: u32, n: u32) -> u32 {
        a << n
    }
    #[inline(always)]
    fn word_rotl(a: u32, n: u32) -> u32 {
        a.rotate_left(n)
    }
    #[inline(always)]
    fn word_fields(self, words: [u32; 2], shift: u32, count: u32) -> f64 {
        let mask = (1 << count) - 1;
        f64::from((words[0] >> shift) & mask) + f64::from((words[1] >> shift) & mask) - f64::from(mask)
    }
    #[inline(always)]
    fn word_field(self, a: u32, shift: u32, count: u32) -> f64 {
        f64::from((a >> shift) & ((1 << count) - 1))
    }
}
