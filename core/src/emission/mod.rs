//! Where, how fast and how large droplets start.
//!
//! At z0 = 20 mm, on rays from the tip: slope along the fan 1.25 T s + e1, across it e2, e normal; s by the pattern
//! ([`Along`](crate::spray::Along)); speed along the ray 0.35 Uc(z0)/sqrt(1 + d/40 um). Transfer efficiency hardly feels that speed
//! (0.893, 0.897, 0.906 for 0.1, 0.35, 0.7 in a prototype of this model): fixed, not fitted. Sizes by volume: parcels carry equal solids.

mod draw;
mod places;
mod sizes;

use crate::airflow::FanJet;
use crate::flight::{Batch, Start};
use crate::lanes::Wide;
use crate::spray::Spray;
use crate::stream::Purpose;
use core::ops::Range;
use fearless_simd::{Level, dispatch};
use places::Places;
use sizes::Sizes;

/// Distance of the start from the tip [m].
pub const START: f64 = 0.020;
/// Fan edge over the air jet's 1/e slope [-].
pub const EDGE: f64 = 1.25;
/// Droplet speed over air speed at the start, small droplets [-].
pub const PICK_UP: f64 = 0.35;
/// Size at which the start speed has fallen by sqrt 2 [m].
pub const PICK_UP_SIZE: f64 = 40e-6;

/// The emission of one gun, ready to draw from.
#[derive(Debug, Clone, PartialEq)]
pub struct Emission {
    slope: f64,
    spread: f64,
    lean: f64,
    place: Places,
    sizes: Sizes,
    /// Plugs: their share, places and sizes.
    slugs: Option<(f64, Places, Sizes)>,
    speed: f64,
    fan_along_x: bool,
}

impl Emission {
    /// Emission of a spray into its jet; `fan_along_x` where the fan's long way is x (a tube sprayed along).
    #[must_use]
    pub fn new(spray: &Spray, jet: &FanJet<f64>, fan_along_x: bool) -> Self {
        let mean = spray.askew.along;
        Self {
            slope: EDGE * spray.fan_slope,
            spread: spray.ray_spread,
            lean: spray.askew.lean,
            place: Places::new(spray.along, mean),
            sizes: Sizes::new(&spray.sizes),
            slugs: spray.slugs.map(|s| (s.share, Places::new(s.along, mean), Sizes::new(&s.sizes))),
            speed: PICK_UP * jet.section(START).centre,
            fan_along_x,
        }
    }

    /// The fan's long way is x.
    #[must_use]
    pub fn fan_along_x(&self) -> bool {
        self.fan_along_x
    }

    /// Fills a batch with the starts of `droplets` in the f32 lanes of a SIMD level: each droplet's own streams, fixed places of the draws. Every
    /// level gives the same bits. `purposes`: those of emission and of flight.
    pub fn fill(
        &self,
        level: Level,
        seed: u64,
        droplets: Range<u64>,
        purposes: [Purpose; 2],
        batch: &mut Batch<f32>,
    ) {
        dispatch!(level, simd => draw::fill(self, Wide::zero(simd), seed, droplets, purposes, batch));
    }

    /// The same in f64, one droplet at a time: the reference.
    pub fn fill_reference(
        &self,
        seed: u64,
        droplets: Range<u64>,
        purposes: [Purpose; 2],
        batch: &mut Batch<f64>,
    ) {
        draw::fill(self, 0.0f64, seed, droplets, purposes, batch);
    }

    /// The start of one droplet, in f64.
    #[must_use]
    pub fn start(&self, seed: u64, droplet: u64, emission: Purpose, flight: Purpose) -> Start {
        let mut batch = Batch::default();
        self.fill_reference(seed, droplet..droplet + 1, [emission, flight], &mut batch);
        batch.start(0)
    }
}
