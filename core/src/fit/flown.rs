//! One card flown, and what one would measure on it.

use super::closed::Closed;
use crate::course::Outcome;
use crate::error::ParameterError;
use crate::flight::levels;
use crate::job::Job;
use crate::report::pattern_sizes;
use crate::run::{CardTally, Prepared, Tally, fly_all};
use crate::tally::{Fate, GROUPS, WET_UNIT};

/// Half of the band in the middle of a pass where its film is measured [m]: a comb is 20 to 30 mm wide. Ours.
const MIDDLE: f64 = 10e-3;
/// Figures of a card: height, thickness, wet film, dry film.
pub(super) const FIGURES: usize = 4;

/// Counts of one card.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct FlownCard {
    card: CardTally,
    /// Landed in the middle band, by group: parcels, and wet volume in 2^-20 of a parcel.
    middle: [[u64; 2]; GROUPS],
}

/// What a card says, its natural logarithm, with counting errors.
///
/// Order: fan height [m], fan thickness [m], then landed volume in the middle of the fan per metre of its height over volume sprayed,
/// wet and dry [1/m]: times the paint flow over the gun's speed it is the film of a pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CardFigures {
    /// Logarithms.
    pub logs: [f64; FIGURES],
    /// Their standard errors by leaving out replicate groups [-].
    pub errors: [f64; FIGURES],
}

impl Tally for FlownCard {
    fn count(&mut self, o: &Outcome) {
        self.card.count(o);
        if o.fate == Fate::Landed && o.place[1].abs() <= MIDDLE {
            let middle = &mut self.middle[o.group()];
            middle[0] += 1;
            middle[1] += (o.wet * WET_UNIT + 0.5) as u64;
        }
    }

    fn merge(&mut self, other: &Self) {
        self.card.merge(&other.card);
        for (mine, theirs) in self.middle.iter_mut().zip(&other.middle) {
            mine[0] += theirs[0];
            mine[1] += theirs[1];
        }
    }
}

impl FlownCard {
    fn logs(&self, without: Option<usize>) -> Option<[f64; FIGURES]> {
        let sizes = pattern_sizes(&self.card, without);
        let (mut solids, mut wet, mut flown) = (0, 0, 0);
        for (group, middle) in self.middle.iter().enumerate().filter(|(g, _)| Some(*g) != without) {
            solids += middle[0];
            wet += middle[1];
            flown += self.card.fates.group_total(group);
        }
        let per = 2.0 * MIDDLE * flown as f64;
        let figures = [sizes.length, sizes.width, wet as f64 / WET_UNIT / per, solids as f64 / per];
        let all_there = figures.iter().all(|x| *x > 0.0 && x.is_finite());
        all_there.then(|| figures.map(crate::math::ln))
    }

    /// The figures; none where too little landed to measure.
    pub fn figures(&self) -> Option<CardFigures> {
        let logs = self.logs(None)?;
        let mut squares = [0.0; FIGURES];
        for group in 0..GROUPS {
            let without = self.logs(Some(group))?;
            for (square, (a, b)) in squares.iter_mut().zip(without.into_iter().zip(logs)) {
                *square += (a - b) * (a - b);
            }
        }
        let n = GROUPS as f64;
        Some(CardFigures { logs, errors: squares.map(|s| (s * (n - 1.0) / n).sqrt()) })
    }
}

/// The gun with these factors held still before a card, ready to fly.
pub(super) fn prepare(
    closed: &Closed,
    logs: [f64; 4],
    distance: f64,
    seed: u64,
) -> Result<Prepared, ParameterError> {
    let mut job = closed.job_with(logs);
    job.stroke.distance = distance;
    job.run.seed = seed;
    Prepared::new(job)
}

/// What the model itself reads on a card of this job: its own gun, matched or not, at the job's distance, seed and setting. Its film
/// times paint flow over gun speed is that of a pass.
///
/// # Errors
/// A set-up that cannot be sprayed, or of which too little lands to measure.
pub fn model_card(job: Job, droplets: u64) -> Result<CardFigures, ParameterError> {
    let distance = job.stroke.distance;
    let prepared = Prepared::new(job)?;
    let mut card = FlownCard::default();
    fly_all(&prepared.card, levels()[0], 0, droplets, FlownCard::default, &mut card);
    card.figures().ok_or_else(|| blank(distance))
}

/// The error of a card on which nothing can be measured.
pub(super) fn blank(distance: f64) -> ParameterError {
    ParameterError::new(
        "card.distance",
        format!("{:.0} mm: of this gun as set too little lands to measure", distance * 1e3),
        "a setting and a distance at which the paint reaches the card",
    )
}
