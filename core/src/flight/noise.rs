//! The numbers of variance 1 that drive the turbulence of a step.

use crate::lanes::Lanes;
use crate::stream::LaneStream;
use crate::surface::Vec3;

/// Which numbers drive the turbulence of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Noise {
    /// Sums of three uniforms of 10 bits, variance 1: three words for three directions. One uniform alone would do for
    /// landed share but not for the film (0.3 % off, `docs/validation.md`).
    Sum3,
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

/// Three numbers, one a direction.
#[inline(always)]
pub fn draw<L: Lanes>(like: L, stream: &mut LaneStream<L>, noise: Noise) -> Vec3<L> {
    match noise {
        Noise::Sum3 => {
            let words = [stream.advance(), stream.advance(), stream.advance()];
            // The sum's variance is three times that of 0..1023, (1024^2 - 1)/12.
            let unit = like.lit(0.001_953_125_931_3);
            let field = |shift| {
                let [a, b, c] = words.map(|word| like.word_field(word, shift, 10));
                (a + b + c - like.lit(1534.5)) * unit
            };
            [field(2), field(12), field(22)]
        }
        Noise::Normal => {
            let ((a, b), (c, _)) = (normals(like, stream), normals(like, stream));
            [a, b, c]
        }
    }
}
