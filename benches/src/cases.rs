//! What the bias table is made on: the task's free jet, a panel and a tube under the rated gun; with turbulence and without.

use crate::kernel::Task;
use crate::plain::{self, End};
use crate::scene::{Target, with_turbulence};
use mistcoat::error::ParameterError;
use mistcoat::flight::{FlightSettings, STEP, Scene, Start};
use std::path::Path;

/// Longest step of the reference as a share of T_L, where that is longer than its least step [-].
pub const EASED: f64 = 0.01;
/// Least step of the reference [s].
pub const LEAST: f64 = 1e-6;
/// Half the face before which droplets are followed [m].
const HALF: f64 = 0.2;
/// Rings or strips of a film profile.
pub const STRIPS: usize = 30;

/// Where droplets are flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// The free jet of the task, a plane across it; profile in 2 mm rings, landed within 20 mm.
    Jet,
    /// The large card; profile along the fan, 4 mm.
    Panel,
    /// A tube of 22 mm; profile along it, 2 mm.
    Tube,
}

/// One case.
pub struct Case {
    /// Where.
    pub place: Place,
    /// With turbulence.
    pub turbulent: bool,
    /// Air and part.
    pub scene: Scene<f64>,
    /// Settings but for the step.
    pub set: FlightSettings<f64>,
    start: Box<dyn Fn(u64) -> Start + Sync>,
}

impl Case {
    /// The case.
    ///
    /// # Errors
    /// None while the catalogue is sound.
    pub fn new(place: Place, turbulent: bool) -> Result<Self, ParameterError> {
        let by = if turbulent { 1.0 } else { 0.0 };
        let target = match place {
            Place::Jet => {
                let task = Task::with_turbulence(STEP, by);
                let (scene, set) = task.wide();
                let scene = bounded(scene, 0.15);
                return Ok(Self { place, turbulent, scene, set, start: Box::new(move |k| task.start(1, k)) });
            }
            Place::Panel => Target::Panel,
            Place::Tube => Target::Tube,
        };
        let booked = with_turbulence(target, by)?;
        let (scene, set) = (bounded(booked.scene, HALF), booked.set);
        Ok(Self { place, turbulent, scene, set, start: Box::new(move |k| booked.start(k)) })
    }

    /// Its name in the table.
    #[must_use]
    pub fn name(&self) -> String {
        let place = match self.place {
            Place::Jet => "task",
            Place::Panel => "panel",
            Place::Tube => "tube",
        };
        format!("{place}-{}", if self.turbulent { "on" } else { "off" })
    }

    /// The start of a droplet.
    #[must_use]
    pub fn start(&self, droplet: u64) -> Start {
        (self.start)(droplet)
    }

    /// The ring or strip of the profile.
    #[must_use]
    pub fn strip(&self, [x, y, _]: [f64; 3]) -> usize {
        let at = match self.place {
            Place::Jet => (x * x + y * y).sqrt() / 0.002,
            Place::Panel => y.abs() / 0.004,
            Place::Tube => x.abs() / 0.002,
        };
        (at as usize).min(STRIPS - 1)
    }

    /// What met the part there counts as landed: in the free jet, where all meet the plane, near the axis only.
    #[must_use]
    pub fn counts(&self, [x, y, _]: [f64; 3]) -> bool {
        self.place != Place::Jet || x * x + y * y < 4e-4
    }

    fn reference_of(&self, droplets: std::ops::Range<u64>) -> Vec<End> {
        let step = (LEAST, EASED);
        droplets
            .map(|k| match &self.scene {
                Scene::Panel(flow, part) => plain::fly(flow, part, &self.set, &self.start(k), step, SEED + k),
                Scene::Tube(flow, part) => plain::fly(flow, part, &self.set, &self.start(k), step, SEED + k),
                _ => unreachable!("a case is of one of these"),
            })
            .collect()
    }

    /// How droplets `0..n` end in the reference; read from `keep` if it was flown before, else flown and kept there.
    ///
    /// # Errors
    /// The folder cannot be written.
    pub fn reference(&self, n: u64, keep: &Path) -> std::io::Result<Vec<End>> {
        std::fs::create_dir_all(keep)?;
        let path = keep.join(format!("{}-{n}-{LEAST:e}-{EASED}.bin", self.name()));
        if let Ok(bytes) = std::fs::read(&path) {
            return Ok(bytes.chunks_exact(48).map(read).collect());
        }
        let middle = n / 2;
        let ends = std::thread::scope(|scope| {
            let first = scope.spawn(|| self.reference_of(0..middle));
            let last = self.reference_of(middle..n);
            let mut ends = first.join().unwrap_or_default();
            ends.extend(last);
            ends
        });
        std::fs::write(&path, ends.iter().flat_map(written).collect::<Vec<u8>>())?;
        Ok(ends)
    }
}

/// Seeds of the reference's streams start here.
const SEED: u64 = 77;

fn bounded(mut scene: Scene<f64>, half: f64) -> Scene<f64> {
    match &mut scene {
        Scene::Panel(_, part) => part.half = half,
        Scene::Tube(_, part) => part.half = half,
        _ => {}
    }
    scene
}

fn written(end: &End) -> Vec<u8> {
    let [x, y, z] = end.position;
    [f64::from(u8::from(end.landed)), x, y, z, end.speed, end.time].map(f64::to_le_bytes).concat()
}

fn read(bytes: &[u8]) -> End {
    let at = |i: usize| {
        let mut eight = [0; 8];
        eight.copy_from_slice(&bytes[8 * i..8 * i + 8]);
        f64::from_le_bytes(eight)
    };
    End { landed: at(0) > 0.5, position: [at(1), at(2), at(3)], speed: at(4), time: at(5) }
}
