//! What is asked of a film and of a set-up.

use super::limits::{FINE_ENOUGH, Limits, sauter};
use crate::error::ParameterError;
use crate::film::{RUN, Slide, WetFilm};
use crate::job::{Job, PartShape, SpecBand};
use crate::judge::wanted;
use crate::normal::quantile;
use crate::run::{faces, wet_laws};

/// Largest number of standard deviations that a film must keep from the ends of its band.
const MOST_DEVIATIONS: f64 = 3.0;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// Dry film, lowest and highest, of all coats [m].
    pub band: (f64, f64),
    /// The band is the job's own; else the paint's usual coat.
    pub own_band: bool,
    /// Share of the area that must lie inside it [-].
    pub right_on: f64,
    /// Thinnest spot over the mean film [-].
    pub thinnest: f64,
    /// Wet film of one coat that runs on the part's steepest place [m]; infinite where nothing pulls.
    pub runs_at: f64,
    /// Coats.
    pub coats: f64,
    /// Coarsest spray, Sauter mean diameter [m].
    pub sauter: f64,
}

impl Asked {
    /// Of a job.
    ///
    /// # Errors
    /// A job without passes over a panel or one tube, a value out of a model's range, by its key.
    pub fn of(job: &Job) -> Result<Self, ParameterError> {
        if let Some(burst) = job.stroke.burst {
            let allowed = "passes over the part (stroke.speed instead)";
            return Err(ParameterError::new("stroke.burst", format!("{burst} s"), allowed));
        }
        if job.track.is_some() {
            let allowed = "passes over the part: a recorded hand goes where it went";
            return Err(ParameterError::new("stroke.track", "a recorded hand", allowed));
        }
        if let PartShape::Frame(_) = job.part {
            let allowed = "a panel, a curved panel or one tube: on a frame nothing is searched yet; take one of its tubes";
            return Err(ParameterError::new("part.frame", "a frame", allowed));
        }
        let coats = f64::from(job.stroke.coats.max(1));
        let usual = job.paint.dry_film_per_coat;
        let spec = Some(SpecBand { low: usual[0], high: usual[1], per_coat: true });
        let band = wanted(job).or_else(|| wanted(&Job { spec, ..job.clone() }));
        let band = band.unwrap_or((usual[0] * coats, usual[1] * coats));
        let drops = sauter(job, &job.kit, &job.gun).map_or(FINE_ENOUGH, |(drops, _)| drops);
        Ok(Self {
            band,
            own_band: job.spec.is_some(),
            right_on: job.judging.right_on,
            thinnest: job.judging.thinnest,
            runs_at: runs_at(job)?,
            coats,
            sauter: drops.max(FINE_ENOUGH),
        })
    }

    /// Standard deviations of the film that must fit between its mean and either end of the band, so that a film spread as chance
    /// spreads lies inside it on the share asked for.
    #[must_use]
    pub fn deviations(&self) -> f64 {
        quantile((0.5 + 0.5 * self.right_on).min(1.0 - 1e-9)).min(MOST_DEVIATIONS)
    }

    /// What a gun must keep to before it is flown.
    #[must_use]
    pub fn limits(&self) -> Limits {
        Limits { sauter: self.sauter, unevenness: f64::INFINITY, seconds: f64::INFINITY }
    }
}

/// Wet film that slides so far that one sees it, on the steepest place of a part [m].
fn runs_at(job: &Job) -> Result<f64, ParameterError> {
    let faces = faces(job);
    let laws = wet_laws(job, &faces)?;
    let (viscosity, setting, stress) = (laws.viscosity, laws.setting_time, laws.yield_stress);
    let pull = WetFilm::new(&faces, laws).steepest();
    if pull <= 0.0 {
        return Ok(f64::INFINITY);
    }
    let slide = Slide { pull, consistency: viscosity, index: 1.0, yield_stress: stress };
    Ok(slide.limit(RUN / setting))
}
