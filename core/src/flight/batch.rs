//! A batch of droplets: how they start and how they end, an array a quantity.

use crate::lanes::{Lanes, Real};
use crate::stream::LaneStream;
use crate::surface::Vec3;

/// Not ended yet.
pub const END_ALOFT: u8 = 0;
/// Met the part.
pub const END_HIT: u8 = 1;
/// Left the part's outline.
pub const END_PASSED: u8 = 2;
/// Too long aloft.
pub const END_DRIFTED: u8 = 3;

/// One droplet at its start, gun frame, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Position [m].
    pub position: [f64; 3],
    /// Velocity [m/s].
    pub velocity: [f64; 3],
    /// u'/sigma [-].
    pub omega: [f64; 3],
    /// Diameter [m].
    pub diameter: f64,
    /// State of its flight stream.
    pub stream: [u32; 4],
}

/// Droplets `0..len` of a batch. Ends are written at the droplet's own place, so their order is fixed.
#[derive(Debug, Clone, Default)]
pub struct Batch<T> {
    /// Start position [m].
    pub position: [Vec<T>; 3],
    /// Start velocity [m/s].
    pub velocity: [Vec<T>; 3],
    /// Start omega [-].
    pub omega: [Vec<T>; 3],
    /// Start diameter [m].
    pub diameter: Vec<T>,
    /// Streams.
    pub stream: [Vec<u32>; 4],
    /// Square of the air's pace at the start [m2/s2].
    pub(super) pace2: Vec<T>,
    /// Drag over Stokes drag at the start [-].
    pub(super) drag: Vec<T>,
    /// Distance to the face at the start [m].
    pub(super) gap: Vec<T>,
    /// How each ended.
    pub end: Vec<u8>,
    /// Where [m].
    pub end_position: [Vec<T>; 3],
    /// With which velocity [m/s].
    pub end_velocity: [Vec<T>; 3],
    /// With which exposure [s/m2].
    pub end_exposure: Vec<T>,
    /// When after its start [s].
    pub end_time: Vec<T>,
    /// Steps taken by all lanes together, for the benches.
    pub steps: u64,
}

impl<T: Real> Batch<T> {
    /// Empties the batch, keeping its memory.
    pub fn clear(&mut self) {
        for axis in 0..3 {
            self.position[axis].clear();
            self.velocity[axis].clear();
            self.omega[axis].clear();
        }
        self.diameter.clear();
        self.stream.iter_mut().for_each(Vec::clear);
    }

    /// Adds a droplet.
    pub fn push(&mut self, start: &Start) {
        for axis in 0..3 {
            self.position[axis].push(T::from_f64(start.position[axis]));
            self.velocity[axis].push(T::from_f64(start.velocity[axis]));
            self.omega[axis].push(T::from_f64(start.omega[axis]));
        }
        self.diameter.push(T::from_f64(start.diameter));
        for (words, word) in self.stream.iter_mut().zip(start.stream) {
            words.push(word);
        }
    }

    /// The start of droplet `k` of the batch.
    #[must_use]
    pub fn start(&self, k: usize) -> Start {
        let three = |of: &[Vec<T>; 3]| [0, 1, 2].map(|axis| of[axis][k].to_f64());
        Start {
            position: three(&self.position),
            velocity: three(&self.velocity),
            omega: three(&self.omega),
            diameter: self.diameter[k].to_f64(),
            stream: [0, 1, 2, 3].map(|i| self.stream[i][k]),
        }
    }

    /// Makes it a batch of `count` droplets, whose starts are then to be written.
    pub fn reset(&mut self, count: usize) {
        let zero = T::from_f64(0.0);
        for axis in 0..3 {
            self.position[axis].resize(count, zero);
            self.velocity[axis].resize(count, zero);
            self.omega[axis].resize(count, zero);
        }
        self.diameter.resize(count, zero);
        self.stream.iter_mut().for_each(|words| words.resize(count, 0));
    }

    /// Writes the starts of a vector of droplets from place `first` on, as far as the batch reaches.
    #[inline(always)]
    pub fn write<L: Lanes<Scalar = T>>(
        &mut self,
        first: usize,
        position: Vec3<L>,
        velocity: Vec3<L>,
        omega: Vec3<L>,
        diameter: L,
        stream: &LaneStream<L>,
    ) {
        for axis in 0..3 {
            position[axis].store(&mut self.position[axis], first);
            velocity[axis].store(&mut self.velocity[axis], first);
            omega[axis].store(&mut self.omega[axis], first);
        }
        diameter.store(&mut self.diameter, first);
        for (words, word) in self.stream.iter_mut().zip(stream.0) {
            L::store_word(word, words, first);
        }
    }

    /// Number of droplets.
    #[must_use]
    pub fn len(&self) -> usize {
        self.diameter.len()
    }

    /// No droplets.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.diameter.is_empty()
    }

    /// Makes room for the ends.
    pub(super) fn open(&mut self) {
        let n = self.len();
        let zero = T::from_f64(0.0);
        self.end.clear();
        self.end.resize(n, END_ALOFT);
        for axis in 0..3 {
            self.end_position[axis].resize(n, zero);
            self.end_velocity[axis].resize(n, zero);
        }
        self.pace2.resize(n, zero);
        self.drag.resize(n, zero);
        self.gap.resize(n, zero);
        self.end_exposure.resize(n, zero);
        self.end_time.resize(n, zero);
        self.steps = 0;
    }
}
