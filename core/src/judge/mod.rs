//! Judging a film: is it what was wanted, by which rule, and when may the next coat go on.
//!
//! A gauge or a comb is set down on the part as an inspector would; what it reads is the film's, averaged over the probe,
//! with the film's counting error and no error of the gauge's own. A verdict is only given where the counting error leaves it
//! no doubt. Rules, sources and what is from memory: `docs/methods/judgement.md`.

mod band;
pub mod comb;
mod dew;
mod ends;
mod follow_up;
mod gauge;
pub mod iso_19840;
mod next_coat;
pub mod pa_2;
mod place;
mod sure;
mod verdict;
mod whereabouts;
pub mod words;

pub use band::BandShares;
pub use comb::{Comb, CombReading};
pub use dew::{CLEARANCE, Dew, dew_of};
pub(crate) use ends::ends_of;
pub use ends::{Ends, bare_below, ends, wanted};
pub use follow_up::FollowUp;
pub use next_coat::{NextCoat, Plan};
pub use place::PlaceOnPart;
pub use verdict::{Area, Decision, FilmVerdict, Judgement, Reading, Rule, Source, Spot, Unit, Verdict};
pub use whereabouts::side;

use crate::film::FilmMap;
use crate::job::{Job, Method};

/// Droplets below which the groups tell no spread.
const FEWEST: u64 = 32;

/// The film that is judged.
#[derive(Debug, Clone, Copy)]
pub struct Film<'a> {
    /// As it landed: faces, wet film, and the groups that tell the counting error.
    pub landed: &'a FilmMap,
    /// Dry film by cell once it has set [m]; `landed.dry` where nothing ran.
    pub dry: &'a [f64],
    /// Film that is wet by cell just after the last coat [m]; empty where that is not known.
    pub fresh_wet: &'a [f64],
    /// Its solids [m].
    pub fresh_dry: &'a [f64],
    /// Droplets flown.
    pub droplets: u64,
}

/// Judges a job's film. What it cannot say is left out.
#[must_use]
pub fn judge(film: Film<'_>, job: &Job) -> Judgement {
    let counted = film.droplets >= FEWEST && film.landed.dry.iter().any(|&h| h > 0.0);
    let passes = job.stroke.burst.is_none();
    let verdict = wanted(job).filter(|_| passes && film.dry.len() == film.landed.len()).map(|band| {
        let mut found = match job.judging.method {
            Method::Band => band::judge(film, job, band),
            Method::Pa2 => pa_2::judge(film, job, band),
            Method::Pa2Panel => pa_2::judge_panel(film, job, band),
            Method::Iso19840 => iso_19840::judge(film, job, band),
        };
        if !counted {
            found.doubt();
        }
        found
    });
    let mut judgement = Judgement {
        film: verdict,
        comb: counted.then(|| comb::at_the_middle(film)).flatten(),
        next_coat: passes.then(|| next_coat::next_coat(film, job)).flatten(),
        dew: dew_of(job),
    };
    if let Some(verdict) = &mut judgement.film {
        verdict.sentence = words::sentence(verdict, crate::units::System::Metric);
    }
    judgement
}
