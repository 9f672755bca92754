//! What each error of a hand costs: the same droplets and the same hand, one error at a time.

use super::hand::lay_all;
use super::{Prepared, Run};
use crate::error::ParameterError;
use crate::film::{FilmMap, evenness};
use crate::job::{Job, PartShape};
use crate::judge::{Ends, ends};
use crate::stroke::{Hand, HandError, Layer};
use crate::tally::Fate;
use serde::{Deserialize, Serialize};

/// Film and paint under one hand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HandFilm {
    /// Area inside the film wanted [%], where there is one and the counting error lets it be said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_band_percent: Option<f64>,
    /// Thinnest cell over mean [-], likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thinnest_over_mean: Option<f64>,
    /// Standard deviation over mean [%].
    pub cv_percent: f64,
    /// Mean dry film [um].
    pub mean_um: f64,
    /// Sprayed [mL].
    pub sprayed_ml: f64,
    /// Sprayed past the part [mL].
    pub lost_ml: f64,
}

/// One error alone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ErrorCost {
    /// "aim", "speed", "distance", "arcing", "heeling" or "drift".
    pub error: String,
    /// The film with this error alone.
    pub film: HandFilm,
}

/// What the hand's errors cost.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HandCosts {
    /// The same plan without any error.
    pub machine: HandFilm,
    /// With all of them.
    pub hand: HandFilm,
    /// With each alone, in the order of [`HandError::ALL`].
    pub errors: Vec<ErrorCost>,
}

/// Where the films come from.
enum Source {
    /// One flight, laid along every hand's way.
    Laid(Box<Run>, Option<Box<Layer>>),
    /// A frame: every hand meets other neighbours, so each flies for itself, the same droplets.
    Flown(Box<Job>, Option<Box<Run>>),
}

/// The work of it, in pieces.
pub struct HandCosting {
    source: Source,
    hands: Vec<Hand>,
    names: Vec<&'static str>,
    films: Vec<HandFilm>,
}

/// A job's run under another hand, its film as it landed.
fn under(job: &Job, hand: Hand) -> Result<Run, ParameterError> {
    let mut job = job.clone();
    job.stroke.hand = hand;
    Ok(Run::with_card(job, 0, crate::flight::levels()[0])?.only_laid())
}

impl HandCosting {
    /// Prepares a job.
    ///
    /// # Errors
    /// A machine's hand, a recorded track, a burst: there is no error to be taken out; as [`Run::new`].
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let hand = job.stroke.hand;
        if hand.is_machine() || job.track.is_some() || job.stroke.burst.is_some() {
            let allowed = "a hand with errors, over passes";
            return Err(ParameterError::new("stroke.hand", hand.word().unwrap_or("own figures"), allowed));
        }
        let single = HandError::ALL.into_iter().filter(|error| !hand.only(*error).is_machine());
        let (mut hands, mut names) = (vec![Hand::default(), hand], vec!["", ""]);
        for error in single {
            hands.push(hand.only(error));
            names.push(error.word());
        }
        let source = if let PartShape::Frame(_) = job.part {
            let first = under(&job, hands[0])?;
            Source::Flown(Box::new(job), Some(Box::new(first)))
        } else {
            Source::Laid(Box::new(Run::new(job)?), None)
        };
        Ok(Self { source, hands, names, films: Vec::new() })
    }

    /// Flies at most `most` droplets more, or lays one film; true when all is known.
    ///
    /// # Errors
    /// A hand that cannot be flown, as [`Run::new`].
    pub fn advance(&mut self, most: u64) -> Result<bool, ParameterError> {
        let Some(hand) = self.hands.get(self.films.len()) else { return Ok(true) };
        match &mut self.source {
            Source::Laid(run, layer) => {
                if !run.is_flown() {
                    run.advance(most);
                    return Ok(false);
                }
                self.films.push(laid(run, layer, hand));
            }
            Source::Flown(job, run) => {
                let under_way = match run {
                    Some(run) => run,
                    None => run.insert(Box::new(under(job, *hand)?)),
                };
                if !under_way.advance(most) {
                    return Ok(false);
                }
                let (prepared, flown) = (under_way.prepared(), under_way.flown());
                let open = prepared.strokes(under_way.card()).open_seconds();
                let landed = under_way.fates().share(Fate::Landed);
                let told = told(prepared, &under_way.film(), flown, open, Some(landed));
                self.films.push(told);
                *run = None;
            }
        }
        Ok(self.films.len() == self.hands.len())
    }

    /// Work done and wanted.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let (done, all) = (self.films.len() as u64, self.hands.len() as u64);
        match &self.source {
            Source::Laid(run, _) => {
                let (flown, wanted) = run.progress();
                // A film takes about as long as so many droplets.
                let share = wanted / 20;
                (flown + share * done, wanted + share * all)
            }
            Source::Flown(job, run) => {
                let each = job.run.droplets;
                (each * done + run.as_ref().map_or(0, |run| run.flown()), each * all)
            }
        }
    }

    /// What came out; none before all is known.
    #[must_use]
    pub fn costs(&self) -> Option<HandCosts> {
        let [machine, hand, ..] = self.films[..] else { return None };
        let errors = self.names.iter().zip(&self.films).skip(2);
        let errors = errors.map(|(error, film)| ErrorCost { error: (*error).into(), film: *film }).collect();
        (self.films.len() == self.hands.len()).then_some(HandCosts { machine, hand, errors })
    }
}

/// The plan under a hand, on the droplets of one run.
fn laid(run: &Run, layer: &mut Option<Box<Layer>>, hand: &Hand) -> HandFilm {
    let prepared = run.prepared();
    let mut film = prepared.bare_film();
    let track = prepared.moved(hand, run.card());
    if let (Some(shelf), Some(track)) = (run.shelf(), &track) {
        lay_all(layer.get_or_insert_with(|| Box::new(Layer::full(shelf))), track, &mut film);
    }
    told(prepared, &film, run.flown(), track.map_or(0.0, |track| track.open_seconds()), None)
}

/// Film and paint; `landed` the share that stays on the part, where it is not told by the film.
fn told(prepared: &Prepared, film: &FilmMap, flown: u64, open: f64, landed: Option<f64>) -> HandFilm {
    let job = &prepared.job;
    let sprayed = prepared.spray.volume_flow * open;
    let mean = film.mean_dry().0;
    let landed =
        landed.map_or_else(|| mean * film.area() / prepared.spray.volume_solids, |share| share * sprayed);
    let (mut in_band_percent, mut thinnest_over_mean) = (None, None);
    if let Ends::Known { min, in_band, .. } = ends(film, job, flown) {
        in_band_percent = in_band.map(|share| share * 100.0);
        thinnest_over_mean = (mean > 0.0).then(|| min / mean);
    }
    HandFilm {
        in_band_percent,
        thinnest_over_mean,
        cv_percent: evenness(film).map_or(0.0, |e| e.cv * 100.0),
        mean_um: mean * 1e6,
        sprayed_ml: sprayed * 1e6,
        lost_ml: (sprayed - landed).max(0.0) * 1e6,
    }
}
