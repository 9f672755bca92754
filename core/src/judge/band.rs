//! The plain band: how much of the area is thin, right and thick, and where it is worst. Ours, no standard.
//!
//! Passes when the right share reaches `spec.right_on` beyond two standard errors and the shift that the noise itself gives (a
//! noisy film spreads over the band's ends). Both by leaving out one replicate group at a time.

use super::ends::{Ends, ends};
use super::place::{At, PlaceOnPart};
use super::sure::sure;
use super::verdict::{Decision, FilmVerdict, Rule, Source, Unit, Verdict};
use super::{Film, words};
use crate::film::FilmMap;
use crate::job::{Job, Method};
use crate::tally::GROUPS;
use serde::{Deserialize, Serialize};

/// Shares of the area and the ends of the film.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BandShares {
    /// Area below the film wanted [%].
    pub thin_percent: f64,
    /// Area inside it [%].
    pub right_percent: f64,
    /// Area above it [%].
    pub thick_percent: f64,
    /// How far the right share may be off by counting, one standard deviation with the noise's own shift [%].
    pub right_error_percent: f64,
    /// Thinnest cell [um].
    pub thinnest_um: f64,
    /// Where it is.
    pub thinnest_at: PlaceOnPart,
    /// Thickest cell [um].
    pub thickest_um: f64,
    /// Where it is.
    pub thickest_at: PlaceOnPart,
}

/// Shares of the area below, inside and above a band [-].
fn shares(film: &FilmMap, dry: impl Fn(usize) -> f64, (low, high): (f64, f64)) -> [f64; 3] {
    let share =
        |inside: &dyn Fn(f64) -> bool| film.mean_over_area(|cell| f64::from(u8::from(inside(dry(cell)))));
    let (thin, thick) = (share(&|h| h < low), share(&|h| h > high));
    [thin, (1.0 - thin - thick).max(0.0), thick]
}

/// The middle of a cell.
fn middle(film: &FilmMap, cell: usize) -> At {
    let face = film.faces().iter().position(|f| f.cells().contains(&cell)).unwrap_or(0);
    let f = &film.faces()[face];
    let inside = cell - f.first;
    At { face, x: f.x(inside % f.nx), y: f.y(inside / f.nx) }
}

/// Shares and ends; none where a cell's counting error is too large to say them.
pub fn band_shares(film: Film<'_>, job: &Job, band: (f64, f64)) -> Option<BandShares> {
    let map = film.landed;
    if let Ends::Needs(_) = ends(map, job, film.droplets) {
        return None;
    }
    let all = shares(map, |cell| film.dry[cell], band);
    // Film without one group: what it set to, less what that group alone adds to its mean.
    let n = GROUPS as f64;
    let without: Vec<f64> = (0..GROUPS)
        .map(|g| {
            let group = map.group(g);
            shares(map, |cell| film.dry[cell] + (map.dry[cell] - group[cell]) / (n - 1.0), band)[1]
        })
        .collect();
    let mean = without.iter().sum::<f64>() / n;
    let spread = without.iter().map(|s| (s - mean) * (s - mean)).sum::<f64>() * (n - 1.0) / n;
    let shift = (n - 1.0) * (mean - all[1]);
    let cell = |better: fn(f64, f64) -> bool| {
        let first =
            (0..film.dry.len()).reduce(|best, c| if better(film.dry[c], film.dry[best]) { c } else { best });
        first.unwrap_or(0)
    };
    let (low, high) = (cell(|a, b| a < b), cell(|a, b| a > b));
    Some(BandShares {
        thin_percent: all[0] * 100.0,
        right_percent: all[1] * 100.0,
        thick_percent: all[2] * 100.0,
        right_error_percent: (spread + shift * shift).sqrt() * 100.0,
        thinnest_um: film.dry[low].max(0.0) * 1e6,
        thinnest_at: PlaceOnPart::of(map, middle(map, low)),
        thickest_um: film.dry[high] * 1e6,
        thickest_at: PlaceOnPart::of(map, middle(map, high)),
    })
}

/// A verdict without any decision yet: what all methods say.
pub fn begin(film: Film<'_>, job: &Job, band: (f64, f64)) -> FilmVerdict {
    FilmVerdict {
        method: job.judging.method.word().into(),
        level: (job.judging.method == Method::Pa2).then_some(job.judging.level),
        verdict: Verdict::CannotTell,
        sentence: String::new(),
        wanted_um: [band.0 * 1e6, band.1 * 1e6],
        part: words::part(&job.part).into(),
        shares: band_shares(film, job, band),
        decisions: Vec::new(),
        areas: Vec::new(),
        spots: Vec::new(),
        notes: Vec::new(),
    }
}

/// Judges by the band.
pub fn judge(film: Film<'_>, job: &Job, band: (f64, f64)) -> FilmVerdict {
    let mut found = begin(film, job, band);
    let wanted = job.judging.right_on * 100.0;
    if let Some(shares) = &found.shares {
        let (room, doubt) = (shares.right_percent - wanted, sure(1) * shares.right_error_percent);
        let verdict = super::sure::against(room, doubt);
        found.decisions.push(Decision {
            rule: Rule::RightOn,
            found: shares.right_percent,
            standard_error: shares.right_error_percent,
            limit: wanted,
            unit: Unit::Percent,
            at: None,
            verdict,
            source: Source::Ours,
        });
        found.verdict = verdict;
    } else if let Ends::Needs(droplets) = ends(film.landed, job, film.droplets) {
        found.notes.push(words::needs(droplets));
    }
    found
}
