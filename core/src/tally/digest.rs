//! One number that tells whether two runs are the same to the bit: FNV-1a over counts and figures.

/// FNV-1a, 64 bits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Digest(u64);

impl Default for Digest {
    fn default() -> Self {
        Self(0xCBF2_9CE4_8422_2325)
    }
}

impl Digest {
    /// Takes in a count, little-endian.
    pub fn count(&mut self, value: u64) {
        for byte in value.to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01B3);
        }
    }

    /// Takes in a figure by its bits.
    pub fn figure(&mut self, value: f64) {
        self.count(value.to_bits());
    }

    /// The digest so far.
    #[must_use]
    pub fn value(&self) -> u64 {
        self.0
    }
}
