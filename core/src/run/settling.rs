//! The film in time, after all has been flown: deposits land one after the other, and between them the film dries and runs.

use super::{PartTally, Prepared};
use crate::catalogue;
use crate::error::ParameterError;
use crate::evaporation::{FilmAir, film_drying};
use crate::film::{Deposit, Face, FilmMap, LandedDroplets, SetFilm, SetReading, WetFilm, WetLaws};
use crate::job::{AirFrom, Booth, Job};
use crate::judge::bare_below;
use crate::math::{cbrt, pow};
use crate::paint::VISCOSITY_PER_DEGREE;
use crate::tally::Sizes;
use core::f64::consts::PI;
use glam::DVec3;

/// Length along the air that the drying laws are tabled for [m].
const LENGTH: f64 = 0.4;
/// Landings of one deposit in a setting time, at least.
const LANDINGS: f64 = 8.0;
/// The most of them.
const MOST_LANDINGS: f64 = 64.0;
/// Cells worked on in a call, about.
const CALL: usize = 32_768;
/// Cells whose texture is read in a call.
const READ: usize = 2_048;

/// A deposit that is landing.
struct Landing {
    deposit: Deposit,
    landings: f64,
    done: f64,
}

/// A film under way from its first deposit to having set.
pub struct Settling {
    wet: WetFilm,
    set: SetFilm,
    reading: SetReading,
    /// Deposits that have landed.
    landed: usize,
    landing: Option<Landing>,
    all_landed: bool,
}

impl Settling {
    /// Of a film as laid.
    ///
    /// # Errors
    /// A volatile that is not known.
    pub fn new(prepared: &Prepared, part: &PartTally, film: &FilmMap) -> Result<Self, ParameterError> {
        let (dry, wet) = (film.mean_dry().0, film.mean_wet());
        let solids = if wet > 0.0 { (dry / wet).clamp(0.0, 1.0) } else { prepared.spray.volume_solids };
        let shrunk = if solids > 0.0 { (prepared.spray.volume_solids / solids).min(1.0) } else { 1.0 };
        Ok(Self {
            wet: WetFilm::new(film.faces(), wet_laws(&prepared.job, film.faces())?),
            set: SetFilm::unread((0..film.len()).map(|cell| film.is_hidden(cell)).collect()),
            reading: SetReading {
                droplets: droplets(&part.landed, shrunk),
                bare: bare_below(&prepared.job),
                solids,
            },
            landed: 0,
            landing: None,
            all_landed: false,
        })
    }

    /// A short piece of the way; true when the film has set and is read. `deposit` gives the job's deposits by number, in order of
    /// time, none past the last.
    pub fn advance(&mut self, deposit: &dyn Fn(usize) -> Option<Deposit>) -> bool {
        let pieces = (CALL / self.wet.cells().len().max(1)).clamp(1, 64);
        (0..pieces).any(|_| self.piece(deposit))
    }

    fn piece(&mut self, deposit: &dyn Fn(usize) -> Option<Deposit>) -> bool {
        if let Some(landing) = &mut self.landing {
            let [from, to] = [landing.deposit.from, landing.deposit.to];
            let now = from + (to - from) * (landing.done + 0.5) / landing.landings;
            if self.wet.step(now) {
                self.wet.land(&landing.deposit.dry, &landing.deposit.wet, 1.0 / landing.landings);
                landing.done += 1.0;
                if landing.done >= landing.landings {
                    self.landing = None;
                    self.landed += 1;
                }
            }
            return false;
        }
        if !self.all_landed {
            match deposit(self.landed) {
                Some(deposit) => {
                    let longest = self.wet.laws().setting_time / LANDINGS;
                    let landings = ((deposit.to - deposit.from) / longest).ceil().clamp(1.0, MOST_LANDINGS);
                    self.landing = Some(Landing { deposit, landings, done: 0.0 });
                }
                None => {
                    self.all_landed = true;
                    self.set.note_fresh(&self.wet);
                }
            }
            return false;
        }
        self.wet.step(f64::INFINITY) && self.set.read(&self.wet, &self.reading, READ)
    }

    /// The wet film as it is by now.
    #[must_use]
    pub fn wet(&self) -> &WetFilm {
        &self.wet
    }

    /// The set film, once `advance` said that it is read.
    #[must_use]
    pub fn into_set(self) -> SetFilm {
        self.set
    }
}

/// The laws of a job's film over these faces.
///
/// # Errors
/// A volatile that is not known.
pub fn wet_laws(job: &Job, faces: &[Face]) -> Result<WetLaws, ParameterError> {
    let (paint, booth) = (&job.paint, &job.booth);
    let air = FilmAir {
        temperature: booth.temperature,
        humidity: booth.humidity,
        speed: booth.air,
        length: LENGTH,
    };
    let usual = match catalogue::recipe(&paint.id) {
        Ok(recipe) => recipe.mixed(&recipe.usual)?.solvents,
        // A paint out of no catalogue is its own measure.
        Err(_) => paint.solvents.clone(),
    };
    Ok(WetLaws {
        drying: film_drying(paint, &usual, &air)?,
        density: paint.density,
        surface_tension: paint.surface_tension,
        viscosity: paint.film_viscosity * pow(VISCOSITY_PER_DEGREE, booth.temperature - 293.15),
        yield_stress: paint.yield_stress,
        setting_time: paint.setting_time,
        tears: true,
        airs: faces.iter().map(|face| (LENGTH / along_the_air(face, booth)).sqrt()).collect(),
    })
}

/// Length of a face along the booth's air [m]: by its directions, half its shorter side where the air meets it square-on.
fn along_the_air(face: &Face, booth: &Booth) -> f64 {
    let air = match booth.from {
        AirFrom::Above => DVec3::NEG_Y,
        AirFrom::Behind => DVec3::NEG_Z,
        AirFrom::Left => DVec3::X,
        AirFrom::Right => DVec3::NEG_X,
    };
    let (width, height) = face.size();
    let x = air.dot(face.place.along);
    let length = if face.closed {
        width * x * x + 0.5 * height * (1.0 - x * x)
    } else {
        let (y, into) = (air.dot(face.place.up()), air.dot(face.place.front));
        width * x * x + height * y * y + 0.5 * width.min(height) * into * into
    };
    length.max(5e-3)
}

/// Droplets that landed, each of its first volume times `shrunk`.
fn droplets(landed: &Sizes, shrunk: f64) -> LandedDroplets {
    let (mut sum, mut volume) = (0.0, 0.0);
    for (class, &count) in landed.counts().iter().enumerate() {
        let (low, high) = Sizes::bounds(class);
        let middle = (low * high).sqrt();
        sum += count as f64;
        volume += count as f64 * PI / 6.0 * middle * middle * middle;
    }
    let volume = if sum > 0.0 { volume / sum * shrunk } else { 0.0 };
    let mean = cbrt(6.0 / PI * volume);
    LandedDroplets { volume, diameter: landed.median().map_or(mean, |d| d * cbrt(shrunk)) }
}
