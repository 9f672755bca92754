//! A figure without each replicate group in turn: the same group of two points flew the same streams.

use crate::film::{FilmMap, squares};
use crate::report::pattern_sizes;
use crate::run::Run;
use crate::tally::{Fate, GROUPS};

/// Fewer droplets than this tell no spread.
const FEWEST: u64 = 32;

/// What is worked out once for all figures of a film.
pub(super) struct Replicates<'a> {
    film: &'a FilmMap,
    /// Mean of each group [m], and of all [m].
    means: [f64; GROUPS],
    mean: f64,
    /// Squares of the unevenness, where they are known already.
    squares: Option<(f64, [f64; GROUPS])>,
}

impl<'a> Replicates<'a> {
    /// Of a film; none where too little was flown, or nothing landed.
    pub fn new(film: &'a FilmMap, droplets: u64) -> Option<Self> {
        Self::with(film, droplets, film.group_means(), None)
    }

    /// The same where the groups' means are at hand, and [`squares`] of the film may be.
    pub fn with(
        film: &'a FilmMap,
        droplets: u64,
        means: [f64; GROUPS],
        squares: Option<(f64, [f64; GROUPS])>,
    ) -> Option<Self> {
        let mean = means.iter().sum::<f64>() / GROUPS as f64;
        (droplets >= FEWEST && mean > 0.0).then_some(Self { film, means, mean, squares })
    }

    /// Mean of all groups but one, over the mean [-].
    fn share_without(&self, group: usize) -> f64 {
        let n = GROUPS as f64;
        (n * self.mean - self.means[group]) / ((n - 1.0) * self.mean)
    }

    /// A figure of the film by its path, without each group; `sprayed` is the paint sprayed in the unit of a lost one.
    pub fn of_film(&self, path: &str, value: f64, sprayed: f64) -> Option<Vec<f64>> {
        let each = |f: &dyn Fn(usize) -> f64| Some((0..GROUPS).map(f).collect());
        match path {
            "transfer_efficiency.value"
            | "fates.landed"
            | "film.dry_um.mean"
            | "film.wet_um.mean"
            | "finish.set_um.mean"
            | "paint.on_part_ml" => each(&|g| value * self.share_without(g)),
            "paint.lost_ml" => each(&|g| sprayed - (sprayed - value) * self.share_without(g)),
            "film.cv_percent.value" => {
                let (_, without) = self.squares.or_else(|| squares(self.film))?;
                Some(without.iter().map(|square| square.max(0.0).sqrt() * 100.0).collect())
            }
            "film.thinnest_over_mean" => {
                let thinnest = self.film.thinnest_without();
                each(&|g| thinnest[g] / (self.mean * self.share_without(g)))
            }
            "film.dry_um.min" => Some(self.film.thinnest_without().iter().map(|h| h * 1e6).collect()),
            _ => None,
        }
    }
}

/// A figure of the large card by its path, without each group.
pub(super) fn of_card(run: &Run, path: &str) -> Option<Vec<f64>> {
    let card = run.card();
    if card.fates.total() < FEWEST {
        return None;
    }
    let each = |f: &dyn Fn(usize) -> f64| Some((0..GROUPS).map(f).collect());
    match path {
        "large_panel_efficiency.value" => {
            let landed: u64 = (0..GROUPS).map(|g| card.fates.of_group(Fate::Landed, g)).sum();
            each(&|g| {
                let on = landed - card.fates.of_group(Fate::Landed, g);
                on as f64 / (card.fates.total() - card.fates.group_total(g)).max(1) as f64
            })
        }
        "pattern.length_mm" => each(&|g| pattern_sizes(card, Some(g)).length * 1e3),
        "pattern.width_mm" => each(&|g| pattern_sizes(card, Some(g)).width * 1e3),
        _ => None,
    }
}
