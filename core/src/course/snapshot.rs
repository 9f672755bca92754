//! The spray as it hangs in the air at one moment: where droplets of all ages are, for drawing.

use super::Course;
use crate::flight::{Batch, END_DRIFTED, Noise, fly};
use crate::tally::Fate;
use fearless_simd::Level;
use glam::DVec3;

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

/// Ages in a snapshot.
const AGES: u64 = 24;
/// Oldest age, as the way to the part over this slow a speed [m/s].
const SLOW: f64 = 8.0;

impl Course {
    /// The first `droplets` droplets, each at an age of its own, even over the time to the part; those that have landed
    /// stand where they landed.
    #[must_use]
    pub fn snapshot(&self, level: Level, droplets: u64, distance: f64) -> Vec<Speck> {
        let mut specks = Vec::with_capacity(droplets as usize);
        let mut batch = Batch::default();
        let each = droplets.div_ceil(AGES);
        for age in 0..AGES {
            let (from, to) = ((age * each).min(droplets), ((age + 1) * each).min(droplets));
            let mut settings = self.narrow.1;
            settings.aloft = ((age as f64 + 0.5) / AGES as f64 * distance / SLOW) as f32;
            batch.clear();
            for k in from..to {
                batch.push(&self.emission.start(self.seed, k, self.purposes[0], self.purposes[1]));
            }
            fly(level, &self.narrow.0, &settings, Noise::Sum2, &mut batch);
            let aloft: Vec<Option<DVec3>> = (0..batch.len())
                .map(|i| {
                    (batch.end[i] == END_DRIFTED).then(|| {
                        DVec3::from_array(core::array::from_fn(|a| f64::from(batch.end_position[a][i])))
                    })
                })
                .collect();
            self.fly(level, from, to, &mut batch, |o| {
                let lands = o.fate == Fate::Landed;
                let position = aloft[(o.droplet - from) as usize].or(lands.then_some(o.position));
                specks.push(Speck { position, end: o.position, lands });
            });
        }
        specks
    }
}
