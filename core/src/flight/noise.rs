//! The numbers of variance 1 that drive the turbulence of a step.

use crate::lanes::Lanes;
use crate::stream::LaneStream;
use crate::surface::Vec3;

/// Which numbers drive the turbulence of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Noise {
    /// Sums of two uniforms of 10 bits, variance 1: two words for three directions. One uniform alone would do for landed share but
    /// not for the film (0.3 % off, `docs/validation.md`).
    Sum2,
    /// True normals (Box and Muller), to test the former against.
    Normal,
}

/// Two normal numbers from two words (Box and Muller).
#[inline(always)]
fn normals<L: Lanes>(like: L, stream: &mut LaneStream<L>) -> (L, L) {
    let unit = like.lit(1.0 / 8_388_608.0);
    let u = (like.word_field(stream.advance(), 9, 23) + like.lit(0.5)) * unit;
    let v = like.word_field(stream.advance(), 9, 23) * unit;
    let r = (like.lit(-2.0) * u.ln()).sqrt();
    let (c, s) = v.turn();
    (r * c, r * s)
}

/// Sum of two words' fields of 10 bits from `shift` on, variance 1. A function, not a closure: that would not inherit
/// the kernel's target features.
#[inline(always)]
fn sum<L: Lanes>(like: L, words: [L::Word; 2], shift: u32) -> L {
    // The sum's variance is twice that of 0..1023, (1024^2 - 1)/12.
    like.word_fields(words, shift, 10) * like.lit(0.002_392_080_967_6)
}

/// Three numbers, one a direction.
#[inline(always)]
pub fn draw<L: Lanes>(like: L, stream: &mut LaneStream<L>, noise: Noise) -> Vec3<L> {
    match noise {
        Noise::Sum2 => {
            let words = [stream.advance(), stream.advance()];
            [sum(like, words, 2), sum(like, words, 12), sum(like, words, 22)]
        }
        Noise::Normal => {
            let ((a, b), (c, _)) = (normals(like, stream), normals(like, stream));
            [a, b, c]
        }
    }
}
