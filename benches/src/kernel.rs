//! The task done by mistcoat: the library's own kernel, droplets drawn by volume.

use crate::tally::Tally;
use crate::task;
use fearless_simd::{Level, dispatch};
use mistcoat::airflow::{FanJet, JetSpec, PanelFlow, SPREAD};
use mistcoat::flight::{Batch, END_HIT, FlightSettings, Noise, STEP, Scene, Start, fly};
use mistcoat::lanes::{Lanes, Wide};
use mistcoat::math;
use mistcoat::normal::deviate;
use mistcoat::part::PanelPart;
use mistcoat::stream::{LaneStream, Purpose};
use mistcoat::surface::{dot, scale};

/// Droplets flown at once.
pub const BATCH: u64 = 4096;

/// A normal number a lane.
#[inline(always)]
fn normal<L: Lanes>(like: L, draw: &mut LaneStream<L>) -> L {
    let (p, up) = draw.open01(like);
    deviate(p, up)
}

/// The task, ready to fly.
#[derive(Debug, Clone)]
pub struct Task {
    scene: Scene<f64>,
    set: FlightSettings<f64>,
    axis: f64,
    median: f64,
    log_sigma: f64,
}

impl Default for Task {
    fn default() -> Self {
        Self::new(STEP)
    }
}

impl Task {
    /// With steps that are a share `step` of the distance over which the air changes [-].
    #[must_use]
    pub fn new(step: f64) -> Self {
        Self::with_turbulence(step, 1.0)
    }

    /// The same with its turbulence multiplied [-].
    #[must_use]
    pub fn with_turbulence(step: f64, turbulence: f64) -> Self {
        let spec = JetSpec {
            momentum: task::MOMENTUM,
            exit_speed: task::EXIT_SPEED,
            slope_x: 0.0,
            slope_y: 0.0,
            spread: SPREAD,
            turbulence,
        };
        let Ok(jet) = FanJet::new(&spec) else { unreachable!("constants are in range") };
        // A free jet: the wall stands far behind the plane on which droplets are caught, and is thin.
        let flow = PanelFlow { jet, distance: 10.0, inverse_layer: 1e3, sided: 0.0, damping: 1e-3 };
        let part = PanelPart { distance: task::TO, half: 10.0, layer: 1e3 };
        let mut set = FlightSettings::plain(task::AIR_DENSITY, task::AIR_VISCOSITY, task::DENSITY);
        set.aloft = task::ALOFT;
        set.step = step;
        let log_sigma = math::ln(task::SIGMA_G);
        Self {
            scene: Scene::Panel(flow, part),
            set,
            axis: task::PICK_UP * jet.section(task::FROM).centre,
            median: task::NUMBER_MEDIAN * math::exp(3.0 * log_sigma * log_sigma),
            log_sigma,
        }
    }

    /// The start of a droplet.
    #[must_use]
    pub fn start(&self, seed: u64, droplet: u64) -> Start {
        let mut batch = Batch::default();
        self.draw(0.0f64, seed, droplet, 1, &mut batch);
        batch.start(0)
    }

    /// Air, plane and settings in f64.
    #[must_use]
    pub fn wide(&self) -> (Scene<f64>, FlightSettings<f64>) {
        (self.scene, self.set)
    }

    /// Fills a batch with droplets `first..first + count`.
    pub fn fill(&self, level: Level, seed: u64, first: u64, count: u64, batch: &mut Batch<f32>) {
        dispatch!(level, simd => self.draw(Wide::zero(simd), seed, first, count, batch));
    }

    /// The same a vector at a time.
    #[inline(always)]
    fn draw<L: Lanes>(&self, like: L, seed: u64, first: u64, count: u64, batch: &mut Batch<L::Scalar>) {
        batch.reset(count as usize);
        let one = like.lit(1.0);
        for place in (0..count).step_by(L::LEN) {
            let [mut draw, flight] =
                LaneStream::start(like, seed, first + place, [Purpose::Emission, Purpose::Flight]);
            let normals: [L; 6] = [
                normal(like, &mut draw),
                normal(like, &mut draw),
                normal(like, &mut draw),
                normal(like, &mut draw),
                normal(like, &mut draw),
                normal(like, &mut draw),
            ];
            let [size, tx, ty, ox, oy, oz] = normals;
            let diameter = like.lit(self.median) * (like.lit(self.log_sigma) * size).exp();
            let ray = scale([tx, ty, like.lit(1.0 / task::RAY)], like.lit(task::RAY));
            let slow = one + diameter * like.lit(1.0 / task::PICK_UP_SIZE);
            let axial = like.lit(self.axis) / (slow * dot(ray, ray)).sqrt();
            let position = scale(ray, like.lit(task::FROM));
            batch.write(place as usize, position, scale(ray, axial), [ox, oy, oz], diameter, &flight);
        }
    }

    /// Scene and settings for the f32 lanes.
    #[must_use]
    pub fn narrow(&self) -> (Scene<f32>, FlightSettings<f32>) {
        (self.scene.narrow(), self.set.cast())
    }

    /// Flies droplets `first..first + droplets` at a SIMD level.
    #[must_use]
    pub fn run(&self, level: Level, noise: Noise, seed: u64, first: u64, droplets: u64) -> Tally {
        let (scene, set) = self.narrow();
        let mut batch = Batch::<f32>::default();
        let mut tally = Tally::default();
        let mut done = 0;
        while done < droplets {
            let count = BATCH.min(droplets - done);
            self.fill(level, seed, first + done, count, &mut batch);
            fly(level, &scene, &set, noise, &mut batch);
            for k in 0..batch.len() {
                if batch.end[k] == END_HIT {
                    let velocity: [f64; 3] = core::array::from_fn(|i| f64::from(batch.end_velocity[i][k]));
                    let speed = velocity.iter().map(|v| v * v).sum::<f64>().sqrt();
                    let [x, y] = [0, 1].map(|i| f64::from(batch.end_position[i][k]));
                    tally.land(1.0, x, y, speed, f64::from(batch.end_time[k]));
                } else {
                    tally.miss(1.0);
                }
            }
            tally.steps += batch.steps;
            done += count;
        }
        tally
    }
}
