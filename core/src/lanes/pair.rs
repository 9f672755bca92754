//! Two vectors side by side: their chains of operations overlap, where one alone waits for its own.

use super::Lanes;
use core::ops::{Add, Div, Mul, Neg, Sub};

/// Two vectors as one of twice the lanes, the first one's lanes first.
#[derive(Clone, Copy)]
pub struct Pair<L>(pub L, pub L);

macro_rules! operator {
    ($($trait:ident $name:ident),*) => {$(
        impl<L: Lanes> $trait for Pair<L> {
            type Output = Self;
            #[inline(always)]
            fn $name(self, other: Self) -> Self {
                Pair($trait::$name(self.0, other.0), $trait::$name(self.1, other.1))
            }
        }
    )*};
}
operator!(Add add, Sub sub, Mul mul, Div div);

impl<L: Lanes> Neg for Pair<L> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Pair(-self.0, -self.1)
    }
}

macro_rules! one {
    ($($name:ident),*) => {$(
        #[inline(always)]
        fn $name(self) -> Self {
            Pair(self.0.$name(), self.1.$name())
        }
    )*};
}

macro_rules! two {
    ($($name:ident -> $out:ty),*) => {$(
        #[inline(always)]
        fn $name(self, other: Self) -> $out {
            pair(self.0.$name(other.0), self.1.$name(other.1))
        }
    )*};
}

/// Either a pair of vectors or a pair of what goes with them.
trait Twin<T> {
    fn twin(a: T, b: T) -> Self;
}

impl<L> Twin<L> for Pair<L> {
    #[inline(always)]
    fn twin(a: L, b: L) -> Self {
        Pair(a, b)
    }
}

impl<M> Twin<M> for (M, M) {
    #[inline(always)]
    fn twin(a: M, b: M) -> Self {
        (a, b)
    }
}

#[inline(always)]
fn pair<T, P: Twin<T>>(a: T, b: T) -> P {
    P::twin(a, b)
}

impl<L: Lanes> Lanes for Pair<L> {
    const LEN: usize = 2 * L::LEN;
    type Scalar = L::Scalar;
    type Mask = (L::Mask, L::Mask);
    type Word = (L::Word, L::Word);

    one!(sqrt, abs, exp, fade, ln, erf);
    two!(min -> Self, max -> Self, lt -> Self::Mask);

    #[inline(always)]
    fn lit(self, value: f64) -> Self {
        let v = self.0.lit(value);
        Pair(v, v)
    }
    #[inline(always)]
    fn splat(self, value: L::Scalar) -> Self {
        let v = self.0.splat(value);
        Pair(v, v)
    }
    #[inline(always)]
    fn load(self, from: &[L::Scalar], first: usize) -> Self {
        let second = (first + L::LEN).min(from.len() - 1);
        Pair(self.0.load(from, first), self.1.load(from, second))
    }
    #[inline(always)]
    fn store(self, to: &mut [L::Scalar], first: usize) {
        self.0.store(to, first);
        if first + L::LEN < to.len() {
            self.1.store(to, first + L::LEN);
        }
    }
    #[inline(always)]
    fn look_up(self, table: &[[f32; 2]]) -> Self {
        Pair(self.0.look_up(table), self.1.look_up(table))
    }
    #[inline(always)]
    fn lane(self, index: usize) -> L::Scalar {
        if index < L::LEN { self.0.lane(index) } else { self.1.lane(index - L::LEN) }
    }
    #[inline(always)]
    fn put(&mut self, index: usize, value: L::Scalar) {
        if index < L::LEN {
            self.0.put(index, value);
        } else {
            self.1.put(index - L::LEN, value);
        }
    }
    #[inline(always)]
    fn select(mask: Self::Mask, yes: Self, no: Self) -> Self {
        Pair(L::select(mask.0, yes.0, no.0), L::select(mask.1, yes.1, no.1))
    }
    #[inline(always)]
    fn or(a: Self::Mask, b: Self::Mask) -> Self::Mask {
        (L::or(a.0, b.0), L::or(a.1, b.1))
    }
    #[inline(always)]
    fn and(a: Self::Mask, b: Self::Mask) -> Self::Mask {
        (L::and(a.0, b.0), L::and(a.1, b.1))
    }
    #[inline(always)]
    fn bits(mask: Self::Mask) -> u32 {
        L::bits(mask.0) | L::bits(mask.1) << L::LEN
    }
    #[inline(always)]
    fn pow(self, y: f64) -> Self {
        Pair(self.0.pow(y), self.1.pow(y))
    }
    #[inline(always)]
    fn turn(self) -> (Self, Self) {
        let (a, b) = (self.0.turn(), self.1.turn());
        (Pair(a.0, b.0), Pair(a.1, b.1))
    }

    #[inline(always)]
    fn word(self, value: u32) -> Self::Word {
        let w = self.0.word(value);
        (w, w)
    }
    #[inline(always)]
    fn word_lane(word: Self::Word, index: usize) -> u32 {
        if index < L::LEN { L::word_lane(word.0, index) } else { L::word_lane(word.1, index - L::LEN) }
    }
    #[inline(always)]
    fn store_word(word: Self::Word, to: &mut [u32], first: usize) {
        L::store_word(word.0, to, first);
        if first + L::LEN < to.len() {
            L::store_word(word.1, to, first + L::LEN);
        }
    }
    #[inline(always)]
    fn put_word(word: &mut Self::Word, index: usize, value: u32) {
        if index < L::LEN {
            L::put_word(&mut word.0, index, value);
        } else {
            L::put_word(&mut word.1, index - L::LEN, value);
        }
    }
    #[inline(always)]
    fn word_add(a: Self::Word, b: Self::Word) -> Self::Word {
        (L::word_add(a.0, b.0), L::word_add(a.1, b.1))
    }
    #[inline(always)]
    fn word_xor(a: Self::Word, b: Self::Word) -> Self::Word {
        (L::word_xor(a.0, b.0), L::word_xor(a.1, b.1))
    }
    #[inline(always)]
    fn word_shl(a: Self::Word, n: u32) -> Self::Word {
        (L::word_shl(a.0, n), L::word_shl(a.1, n))
    }
    #[inline(always)]
    fn word_rotl(a: Self::Word, n: u32) -> Self::Word {
        (L::word_rotl(a.0, n), L::word_rotl(a.1, n))
    }
    #[inline(always)]
    fn word_fields(self, [a, b]: [Self::Word; 2], shift: u32, count: u32) -> Self {
        Pair(self.0.word_fields([a.0, b.0], shift, count), self.1.word_fields([a.1, b.1], shift, count))
    }
    #[inline(always)]
    fn word_field(self, a: Self::Word, shift: u32, count: u32) -> Self {
        Pair(self.0.word_field(a.0, shift, count), self.1.word_field(a.1, shift, count))
    }
}
