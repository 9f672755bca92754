//! The spray as it hangs in the air at one moment: where droplets of all ages are, for drawing.

use super::Course;
use crate::flight::{Batch, END_DRIFTED, Noise, fly};
use crate::tally::Fate;
use fearless_simd::Level;
use glam::DVec3;
use std::ops::Range;

/// A droplet in the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Speck {
    /// Where it hangs at the picture's moment, gun frame [m]; none when it has passed by before.
    pub position: Option<DVec3>,
    /// Where it ends [m].
    pub end: DVec3,
    /// It lands on the part (or has).
    pub lands: bool,
}

/// Droplets of one age: few, so that ages show as no bands.
const ALIKE: u64 = 12;
/// Oldest age, as the way to the part over this slow a speed [m/s].
const SLOW: f64 = 8.0;

impl Course {
    /// The first `droplets` droplets, at ages even over the time to the part `distance` [m] away; those that have landed
    /// stand where they landed.
    #[must_use]
    pub fn snapshot(&self, level: Level, droplets: u64, distance: f64) -> Vec<Speck> {
        self.snapshot_piece(level, 0..droplets, droplets, distance)
    }

    /// Droplets `range` of a snapshot of `droplets`, so that a page can take it in pieces.
    #[must_use]
    pub fn snapshot_piece(
        &self,
        level: Level,
        range: Range<u64>,
        droplets: u64,
        distance: f64,
    ) -> Vec<Speck> {
        let mut specks = Vec::with_capacity((range.end - range.start.min(range.end)) as usize);
        let mut batch = Batch::default();
        self.fly(level, range.start, range.end, &mut batch, |o| {
            let lands = o.fate == Fate::Landed;
            specks.push(Speck { position: lands.then_some(o.position), end: o.position, lands });
        });
        let mut settings = self.narrow.1;
        for (age, alike) in specks.chunks_mut(ALIKE as usize).enumerate() {
            let first = range.start + age as u64 * ALIKE;
            let share = (first as f64 + 0.5 * ALIKE as f64) / droplets.max(1) as f64;
            settings.aloft = (share * distance / SLOW) as f32;
            self.fill(level, first..first + alike.len() as u64, &mut batch);
            fly(level, &self.narrow.0, &settings, Noise::Sum2, &mut batch);
            for (i, speck) in alike.iter_mut().enumerate() {
                if batch.end[i] == END_DRIFTED {
                    let at = core::array::from_fn(|axis| f64::from(batch.end_position[axis][i]));
                    speck.position = Some(self.held.place(&self.scene, DVec3::from_array(at)));
                }
            }
        }
        specks
    }
}
