//! Drying: in flight one curve of volume against exposure serves droplets of every size; on the part, tables serve films of every thickness.

mod drying;
mod film_drying;
mod shrinking;
mod solvent;
mod voc;

pub use drying::{Drying, DryingAir};
pub use film_drying::{FilmAir, LOST_IN_FLIGHT, film_drying};
pub use solvent::Volatile;
pub use voc::Voc;

/// Volume of a droplet (share of its first) against exposure s = integral of (Sh/2) dt / d0^2 [s/m2].
///
/// With Sh = Nu the drying of a droplet, its cooling included, depends on size and time through this one number,
/// so the flight carries one scalar a droplet and the curve is worked out once in f64.
#[derive(Debug, Clone, PartialEq)]
pub struct EvaporationCurve {
    /// Exposure at the knots [s/m2], rising from 0.
    pub exposure: Vec<f64>,
    /// Volume share of the droplet's first volume at the knots, falling from 1 to the solids.
    pub volume: Vec<f64>,
}

impl EvaporationCurve {
    /// A paint that does not dry in flight.
    #[must_use]
    pub fn none() -> Self {
        Self { exposure: vec![0.0, 1.0], volume: vec![1.0, 1.0] }
    }

    /// Volume share at an exposure [s/m2]; linear between knots, constant past the last.
    #[must_use]
    pub fn volume_at(&self, exposure: f64) -> f64 {
        let i = self.exposure.partition_point(|&e| e <= exposure);
        match i {
            0 => self.volume[0],
            i if i == self.exposure.len() => self.volume[i - 1],
            i => {
                let (a, b) = (self.exposure[i - 1], self.exposure[i]);
                self.volume[i - 1] + (self.volume[i] - self.volume[i - 1]) * (exposure - a) / (b - a)
            }
        }
    }
}
