//! Where, how fast and how large droplets start.
//!
//! At z0 = 20 mm, on rays from the tip: slope along the fan 1.25 T s + e1, across it e2, e normal; s by the pattern
//! ([`Along`]); speed along the ray 0.35 Uc(z0)/sqrt(1 + d/40 um). Transfer efficiency hardly feels that speed
//! (0.893, 0.897, 0.906 for 0.1, 0.35, 0.7 in a prototype of this model): fixed, not fitted. Sizes by volume: parcels carry equal solids.

use crate::airflow::FanJet;
use crate::bump::Bump;
use crate::flight::Start;
use crate::math;
use crate::normal;
use crate::spray::{Along, SizeDistribution, Spray};
use crate::stream::{Purpose, Stream, start};

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
    sizes: Quantiles,
    /// Plugs: their share, places and sizes.
    slugs: Option<(f64, Places, Quantiles)>,
    speed: f64,
    fan_along_x: bool,
}

/// Places along the fan, ready to draw from.
#[derive(Debug, Clone, PartialEq)]
enum Places {
    Bump(Bump),
    /// Centre and width of the lobes, and the share of the lower one.
    Lobes(f64, f64, f64),
}

impl Places {
    /// `mean`: where askew paint has its middle [share of half fan].
    fn new(along: Along, mean: f64) -> Self {
        match along {
            Along::Exponent(n) => Self::Bump(Bump::tilted(n, mean)),
            Along::Lobes { c, g } => Self::Lobes(c, g, 0.5 * (1.0 - (mean / c).clamp(-0.9, 0.9))),
        }
    }

    fn at(&self, place: f64) -> f64 {
        match self {
            Self::Bump(bump) => bump.at(place),
            // Which lobe, and where in it, from the one draw.
            Self::Lobes(c, g, low) if place < *low => -c + g * normal::quantile((place / low).max(1e-12)),
            Self::Lobes(c, g, low) => {
                let share = (place - low) / (1.0 - low);
                c + g * normal::quantile(share.max(1e-12))
            }
        }
    }
}

/// Droplet sizes by volume, ready to draw from.
#[derive(Debug, Clone, PartialEq)]
struct Quantiles {
    median: f64,
    log_sigma: f64,
    low: f64,
    high: f64,
}

impl Quantiles {
    fn new(sizes: &SizeDistribution) -> Self {
        let log_sigma = math::ln(sizes.sigma_g);
        let share = |d: f64| normal::below(math::ln(d / sizes.volume_median) / log_sigma);
        Self {
            median: sizes.volume_median,
            log_sigma,
            low: share(sizes.smallest),
            high: share(sizes.largest),
        }
    }

    fn at(&self, u: f64) -> f64 {
        let share = self.low + (self.high - self.low) * u;
        self.median * math::exp(self.log_sigma * normal::quantile(share))
    }
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
            sizes: Quantiles::new(&spray.sizes),
            slugs: spray.slugs.map(|s| (s.share, Places::new(s.along, mean), Quantiles::new(&s.sizes))),
            speed: PICK_UP * jet.section(START).centre,
            fan_along_x,
        }
    }

    /// The fan's long way is x.
    #[must_use]
    pub fn fan_along_x(&self) -> bool {
        self.fan_along_x
    }

    /// The start of a droplet: its own stream, fixed places of the draws.
    #[must_use]
    pub fn start(&self, seed: u64, droplet: u64, emission: Purpose, flight: Purpose) -> Start {
        let mut draw = Stream::new(seed, droplet, emission);
        let mut diameter = self.sizes.at(draw.open01());
        let place = draw.open01();
        let mut next = || normal::quantile(draw.open01());
        let (e1, e2) = (next(), next());
        let omega = [next(), next(), next()];
        let mut places = &self.place;
        if let Some((share, of_plugs, sizes)) = &self.slugs {
            let mut plug = Stream::new(seed, droplet, emission.slugs());
            if plug.open01() < *share {
                places = of_plugs;
                diameter = sizes.at(plug.open01());
            }
        }
        let along = self.slope * places.at(place) + self.spread * e1 + self.lean;
        let across = self.spread * e2;
        let (tx, ty) = if self.fan_along_x { (along, across) } else { (across, along) };
        let speed = self.speed / (1.0 + diameter / PICK_UP_SIZE).sqrt();
        let axial = speed / (1.0 + tx * tx + ty * ty).sqrt();
        Start {
            position: [tx * START, ty * START, START],
            velocity: [tx * axial, ty * axial, axial],
            omega,
            diameter,
            stream: start(seed, droplet, flight),
        }
    }
}
