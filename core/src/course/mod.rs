//! One gun in front of one part: scene, settings and emission from a job, flown batch by batch; each droplet's end
//! given as an [`Outcome`].

mod fly_all;
mod frame_course;
mod frame_scene;
mod frame_way;
mod held;
mod outcome;
mod set_scene;
mod snapshot;
mod stand;

pub use fly_all::{Flies, Tally, fly_all};
pub use frame_course::FrameCourse;
pub use held::in_cap_frame;
pub use outcome::Outcome;
pub use set_scene::{jet_of, panel_scene, round_scene, settings, tilted_scene, tube_scene};
pub use snapshot::Speck;
pub use stand::Visit;

use crate::emission::Emission;
use crate::flight::{Batch, FlightSettings, Noise, Scene, fly};
use crate::spray::Spray;
use crate::stream::Purpose;
use core::ops::Range;
use fearless_simd::Level;

/// Droplets of a batch: the unit of work of a thread.
pub const BATCH: u64 = 4096;

/// A gun in front of a part, ready to fly.
#[derive(Debug, Clone)]
pub struct Course {
    /// Air and part, f64.
    pub scene: Scene<f64>,
    /// Settings, f64.
    pub settings: FlightSettings<f64>,
    /// Emission.
    pub emission: Emission,
    /// What leaves the gun.
    pub spray: Spray,
    /// Seed of the run.
    pub seed: u64,
    /// Streams of emission, flight and wall.
    pub purposes: [Purpose; 3],
    held: held::Held,
    narrow: (Scene<f32>, FlightSettings<f32>),
}

impl Course {
    /// A course; `purposes` keep apart flights of the same run.
    #[must_use]
    pub fn new(
        scene: Scene<f64>,
        settings: FlightSettings<f64>,
        emission: Emission,
        spray: Spray,
        seed: u64,
        purposes: [Purpose; 3],
    ) -> Self {
        let narrow = (scene.narrow(), settings.cast());
        let held = held::Held::new(spray.askew, 0.0, emission.fan_along_x());
        Self { scene, settings, emission, spray, seed, purposes, held, narrow }
    }

    /// Fills a batch with the starts of droplets.
    fn fill(&self, level: Level, droplets: Range<u64>, batch: &mut Batch<f32>) {
        let [emission, flight, _] = self.purposes;
        self.emission.fill(level, self.seed, droplets, [emission, flight], batch);
    }

    /// Flies droplets `from..to` in the f32 lanes and gives each one's outcome, in order.
    pub fn fly(
        &self,
        level: Level,
        from: u64,
        to: u64,
        batch: &mut Batch<f32>,
        mut each: impl FnMut(&Outcome),
    ) {
        let mut first = from;
        while first < to {
            let next = to.min(first + BATCH);
            self.fill(level, first..next, batch);
            fly(level, &self.narrow.0, &self.narrow.1, Noise::Sum2, batch);
            for droplet in first..next {
                each(&self.outcome(batch, (droplet - first) as usize, droplet));
            }
            first = next;
        }
    }

    /// Flies one droplet in f64 and gives its outcome: the same streams, the reference arithmetic.
    #[must_use]
    pub fn replay(&self, droplet: u64) -> Outcome {
        let mut batch = Batch::default();
        let [emission, flight, _] = self.purposes;
        self.emission.fill_reference(self.seed, droplet..droplet + 1, [emission, flight], &mut batch);
        self.scene.fly_reference(&self.settings, Noise::Sum2, &mut batch);
        self.outcome(&batch, 0, droplet)
    }
}
