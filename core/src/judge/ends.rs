//! Figures of the film that only make sense where a cell's counting error is small: ends and shares.

use crate::film::FilmMap;
use crate::job::{Job, SpecBand};

/// A cell's counting error must stay below this share of the film wanted [-].
const OF_BAND: f64 = 0.2;
/// The same against the mean film where no film is wanted [-].
const OF_MEAN: f64 = 0.03;

/// Ends and shares, or how many droplets they would need.
pub enum Ends {
    /// The run can say them: thinnest and thickest cell (dry) [m], share of area in the film wanted [-].
    Known {
        /// Thinnest [m].
        min: f64,
        /// Thickest [m].
        max: f64,
        /// Index of the thinnest cell.
        thinnest: usize,
        /// Index of the thickest cell.
        thickest: usize,
        /// Share in the film wanted.
        in_band: Option<f64>,
    },
    /// It cannot: droplets that would do.
    Needs(f64),
}

/// The film wanted for the whole job: per coat times coats [m].
#[must_use]
pub fn wanted(job: &Job) -> Option<(f64, f64)> {
    let SpecBand { low, high, per_coat } = job.spec?;
    let coats = if per_coat && job.stroke.burst.is_none() { f64::from(job.stroke.coats) } else { 1.0 };
    Some((low * coats, high * coats))
}

/// Ends and shares of a film flown with `droplets`.
#[must_use]
pub fn ends(film: &FilmMap, job: &Job, droplets: u64) -> Ends {
    ends_of(film, job, droplets, film.cell_error())
}

/// The same where a cell's counting error [m] is at hand.
pub(crate) fn ends_of(film: &FilmMap, job: &Job, droplets: u64, error: f64) -> Ends {
    let wanted = wanted(job);
    let limit = match wanted {
        Some((low, high)) => OF_BAND * (high - low),
        None => OF_MEAN * film.mean_dry().0,
    };
    // No parcel, no spread: that nothing was counted is not known to a cell.
    let counted = film.dry.iter().any(|&h| h > 0.0);
    if !counted || limit <= 0.0 || error >= limit {
        let ratio = if limit > 0.0 { error / limit } else { 1.0 };
        return Ends::Needs((droplets.max(1) as f64 * ratio * ratio * 1.1).max(32.0));
    }
    let (thinnest, thickest) = extremes(film);
    let in_band = wanted.map(|(low, high)| film.share_between(low, high));
    Ends::Known { min: film.dry[thinnest].max(0.0), max: film.dry[thickest], thinnest, thickest, in_band }
}

/// The first of the thinnest and of the thickest cells that are meant to be painted.
fn extremes(film: &FilmMap) -> (usize, usize) {
    let meant = || (0..film.len()).filter(|&cell| !film.is_hidden(cell));
    let first = meant().next().unwrap_or(0);
    let (mut thinnest, mut thickest) = (first, first);
    for cell in meant() {
        let h = film.dry[cell];
        if h < film.dry[thinnest] {
            thinnest = cell;
        }
        if h > film.dry[thickest] {
            thickest = cell;
        }
    }
    (thinnest, thickest)
}

/// Dry film below which a place is bare [m]: a tenth of the lower end of the film wanted, or of the paint's usual coat. Ours.
#[must_use]
pub fn bare_below(job: &Job) -> f64 {
    0.1 * wanted(job).map_or(job.paint.dry_film_per_coat[0], |(low, _)| low)
}
