//! What each error of a hand costs: the same droplets and the same hand, one error at a time.

use super::Run;
use super::hand::lay_all;
use crate::error::ParameterError;
use crate::film::evenness;
use crate::job::Job;
use crate::judge::{Ends, ends};
use crate::stroke::{Hand, HandError, Layer};
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

/// The work of it, in pieces.
pub struct HandCosting {
    run: Run,
    layer: Option<Layer>,
    hands: Vec<Hand>,
    names: Vec<&'static str>,
    films: Vec<HandFilm>,
}

impl HandCosting {
    /// Prepares a job.
    ///
    /// # Errors
    /// A machine's hand, a recorded track, a frame: there is no error to be taken out; as [`Run::new`].
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let hand = job.stroke.hand;
        if hand.is_machine() || job.track.is_some() || job.stroke.burst.is_some() {
            let allowed = "a hand with errors, over passes";
            return Err(ParameterError::new("stroke.hand", hand.word().unwrap_or("own figures"), allowed));
        }
        let run = Run::new(job)?;
        if run.shelf().is_none() {
            return Err(ParameterError::new("part.frame", "a frame", "a panel, a curved panel or one tube"));
        }
        let single = HandError::ALL.into_iter().filter(|error| !hand.only(*error).is_machine());
        let (mut hands, mut names) = (vec![Hand::default(), hand], vec!["", ""]);
        for error in single {
            hands.push(hand.only(error));
            names.push(error.word());
        }
        Ok(Self { run, layer: None, hands, names, films: Vec::new() })
    }

    /// Flies at most `most` droplets more, or lays one film; true when all is known.
    pub fn advance(&mut self, most: u64) -> bool {
        if !self.run.is_flown() {
            self.run.advance(most);
        } else if let Some(hand) = self.hands.get(self.films.len()).copied() {
            let film = self.film(&hand);
            self.films.push(film);
        }
        self.films.len() == self.hands.len()
    }

    /// The plan under a hand, on the run's droplets.
    fn film(&mut self, hand: &Hand) -> HandFilm {
        let run = &self.run;
        let (prepared, job) = (run.prepared(), &run.prepared().job);
        let mut film = prepared.bare_film();
        let layer = match (&mut self.layer, run.shelf()) {
            (None, Some(shelf)) => Some(&*self.layer.insert(Layer::full(shelf))),
            (layer, _) => layer.as_ref(),
        };
        let track = prepared.moved(hand, run.card());
        if let (Some(layer), Some(track)) = (layer, &track) {
            lay_all(layer, track, &mut film);
        }
        let open = track.map_or(0.0, |track| track.open_seconds());
        let sprayed = prepared.spray.volume_flow * open;
        let mean = film.mean_dry().0;
        let landed = mean * film.area() / prepared.spray.volume_solids;
        let (mut in_band_percent, mut thinnest_over_mean) = (None, None);
        if let Ends::Known { min, in_band, .. } = ends(&film, job, run.flown()) {
            in_band_percent = in_band.map(|share| share * 100.0);
            thinnest_over_mean = (mean > 0.0).then(|| min / mean);
        }
        HandFilm {
            in_band_percent,
            thinnest_over_mean,
            cv_percent: evenness(&film).map_or(0.0, |e| e.cv * 100.0),
            mean_um: mean * 1e6,
            sprayed_ml: sprayed * 1e6,
            lost_ml: (sprayed - landed).max(0.0) * 1e6,
        }
    }

    /// Work done and wanted.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let (flown, wanted) = self.run.progress();
        // A film takes about as long as so many droplets.
        let share = wanted / 20;
        (flown + share * self.films.len() as u64, wanted + share * self.hands.len() as u64)
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
