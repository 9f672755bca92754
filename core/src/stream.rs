//! Random streams: one for each (run seed, droplet number, purpose), so that no order of work changes a draw.
//!
//! xoshiro128++ (Blackman and Vigna 2021, ACM Trans. Math. Softw. 47:36), its state filled by SplitMix64; the words
//! are those of `rand_xoshiro` (tested). The n-th draw of a stream has a fixed meaning.

use crate::lanes::Lanes;
use rand::Rng;
use rand::SeedableRng;
use rand_xoshiro::Xoshiro128PlusPlus;

/// What a stream is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u64)]
pub enum Purpose {
    /// Size, ray and first turbulence of a droplet.
    Emission = 1,
    /// Turbulence along the flight.
    Flight = 2,
    /// What happens at the wall.
    Wall = 3,
    /// Emission of the pattern on the large card.
    CardEmission = 4,
    /// Flight to the large card.
    CardFlight = 5,
    /// What happens at the large card.
    CardWall = 6,
    /// Whether a droplet is of a plug, and its size then.
    Slug = 7,
    /// The same on the large card.
    CardSlug = 8,
    /// Errors of a hand.
    Hand = 9,
    /// Where the film gauge is set down.
    Gauge = 20,
}

impl Purpose {
    /// The stream that tells plugs, beside this stream of emission.
    #[must_use]
    pub fn slugs(self) -> Self {
        if self == Self::CardEmission { Self::CardSlug } else { Self::Slug }
    }
}

#[inline(always)]
fn split_mix(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// What a seed gives every stream.
#[inline(always)]
fn mix_seed(seed: u64) -> u64 {
    let mut mix = seed;
    split_mix(&mut mix).rotate_left(17)
}

/// The four words a stream starts from, of a seed that went through [`mix_seed`].
#[inline(always)]
fn start_of(mixed: u64, droplet: u64, purpose: Purpose) -> [u32; 4] {
    let mut mix = droplet ^ mixed;
    let b = split_mix(&mut mix);
    let mut mix = b ^ (purpose as u64).wrapping_mul(0xD6E8_FEB8_6659_FD93);
    let (p, q) = (split_mix(&mut mix), split_mix(&mut mix));
    // All-zero is the one state the generator cannot leave.
    [p as u32, (p >> 32) as u32, q as u32, (q >> 32) as u32 | 1]
}

/// The four words a stream starts from.
#[must_use]
pub fn start(seed: u64, droplet: u64, purpose: Purpose) -> [u32; 4] {
    start_of(mix_seed(seed), droplet, purpose)
}

/// One stream, drawn from one number at a time.
#[derive(Debug, Clone)]
pub struct Stream(Xoshiro128PlusPlus);

impl Stream {
    /// The stream of a droplet for a purpose.
    #[must_use]
    pub fn new(seed: u64, droplet: u64, purpose: Purpose) -> Self {
        let words = start(seed, droplet, purpose);
        let mut bytes = [0u8; 16];
        for (chunk, word) in bytes.chunks_exact_mut(4).zip(words) {
            chunk.copy_from_slice(&word.to_le_bytes());
        }
        Self(Xoshiro128PlusPlus::from_seed(bytes))
    }

    /// 32 bits.
    pub fn word(&mut self) -> u32 {
        self.0.next_u32()
    }

    /// Uniform on the open interval 0..1 [-]: 2^-33 to 1 - 2^-33.
    pub fn open01(&mut self) -> f64 {
        (f64::from(self.word()) + 0.5) / 4_294_967_296.0
    }
}

/// The same generator in lanes: four words of state a lane.
#[derive(Clone, Copy)]
pub struct LaneStream<L: Lanes>(pub [L::Word; 4]);

impl<L: Lanes> LaneStream<L> {
    /// Streams of the droplets from `droplet` on, a lane each, for two purposes.
    #[inline(always)]
    pub fn start(like: L, seed: u64, droplet: u64, purposes: [Purpose; 2]) -> [Self; 2] {
        let (mixed, word) = (mix_seed(seed), like.word(0));
        let mut both = [Self([word; 4]), Self([word; 4])];
        for (streams, purpose) in both.iter_mut().zip(purposes) {
            for lane in 0..L::LEN {
                let words = start_of(mixed, droplet + lane as u64, purpose);
                for (word, value) in streams.0.iter_mut().zip(words) {
                    L::put_word(word, lane, value);
                }
            }
        }
        both
    }

    /// Uniform on the open interval 0..1, and 1 less it, both exact [-]: 2^-24 to 1 - 2^-24.
    #[inline(always)]
    pub fn open01(&mut self, like: L) -> (L, L) {
        let (most, unit) = (like.lit(8_388_608.0), like.lit(1.0 / 8_388_608.0));
        let p = like.word_field(self.advance(), 9, 23) + like.lit(0.5);
        (p * unit, (most - p) * unit)
    }

    /// The next word of every lane.
    #[inline(always)]
    pub fn advance(&mut self) -> L::Word {
        let [a, b, c, d] = self.0;
        let out = L::word_add(L::word_rotl(L::word_add(a, d), 7), a);
        let t = L::word_shl(b, 9);
        let c = L::word_xor(c, a);
        let d = L::word_xor(d, b);
        let b = L::word_xor(b, c);
        let a = L::word_xor(a, d);
        let c = L::word_xor(c, t);
        self.0 = [a, b, c, L::word_rotl(d, 11)];
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lanes_give_the_words_of_rand_xoshiro() {
        let mut lanes = LaneStream::<f64>(start(7, 1234, Purpose::Flight));
        let mut one = Stream::new(7, 1234, Purpose::Flight);
        for _ in 0..1000 {
            assert_eq!(lanes.advance(), one.word());
        }
    }

    #[test]
    fn streams_differ_by_seed_droplet_and_purpose() {
        let first = start(1, 1, Purpose::Emission);
        assert_ne!(first, start(2, 1, Purpose::Emission));
        assert_ne!(first, start(1, 2, Purpose::Emission));
        assert_ne!(first, start(1, 1, Purpose::Flight));
    }
}
