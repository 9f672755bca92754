//! The answer of a search.

use serde::{Deserialize, Serialize};

use super::asked::Asked;
use super::flat::Flat;
use super::setup::{Change, changes, keys, with_keys};
use super::stop::{Stop, What};
use super::trial::{Trial, Tried};
use crate::error::ParameterError;
use crate::job::Job;
use crate::report::{likely_factors, likely_ratios, rest};
use crate::set_up::Model;

/// Counting errors that a range holds on either side.
const ERRORS: f64 = 2.0;

/// What to set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The job's name.
    pub name: String,
    /// The hand that it is for: its word in the job file, or "own".
    pub hand: String,
    /// The job does not name one.
    pub by_default: bool,
    /// Dry film, lowest and highest, all coats [um].
    pub band_um: [f64; 2],
    /// The job gives no film wanted: the paint's usual coat is taken.
    pub usual_band: bool,
    /// Share of the area that must be inside it [%].
    pub right_on_percent: f64,
    /// Thinnest spot over the mean film at least [-].
    pub thinnest: f64,
    /// The data sheet's pressures, where it gives some [bar].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub sheet_bar: Option<[f64; 2]>,
    /// The job as it is, by the same hand.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub now: Option<Found>,
    /// The best that was found; with stops it is the nearest, and nothing keeps to all that is asked.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub best: Option<Found>,
    /// Set-ups that no other beats in both paint and time, by rising paint; figures of few droplets.
    pub front: Vec<FrontPoint>,
    /// How exact each knob must be.
    pub flat: Vec<Flat>,
    /// Set-ups flown.
    pub trials: usize,
    /// Why nothing at all was flown.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub why_none: Option<String>,
    /// All is done.
    pub complete: bool,
}

/// A set-up that was flown, with its figures for one part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// What to change, in the order a painter does.
    pub changes: Vec<Change>,
    /// All that a search sets, as keys of the job file with their values.
    pub keys: Vec<(String, String)>,
    /// Paint for a part [mL].
    pub ml: f64,
    /// Its likely range by the model's variants and twice the counting error.
    pub ml_low: f64,
    /// Upper end.
    pub ml_high: f64,
    /// Counting error.
    pub ml_standard_error: f64,
    /// Trigger on, for a part [s].
    pub seconds: f64,
    /// Its range, as that of the paint.
    pub seconds_low: f64,
    /// Upper end.
    pub seconds_high: f64,
    /// Mean dry film [um].
    pub mean_um: f64,
    /// Standard deviation over mean [%].
    pub uneven_percent: f64,
    /// Thinnest spot over mean [-].
    pub thinnest: f64,
    /// Area inside the film wanted [%].
    pub right_percent: f64,
    /// Thickest wet film of a coat [um].
    pub wettest_um: f64,
    /// Fan height on a flat card [mm].
    pub fan_mm: f64,
    /// The pattern's name.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub pattern: Option<String>,
    /// Share of the solids sprayed that is on the part [-].
    pub landed: f64,
    /// What it does not keep to.
    pub stops: Vec<Stop>,
    /// What it keeps to here, by less than the luck of the hand and the counting of droplets.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub unsure: Vec<Stop>,
    /// What keeps it from less paint.
    pub bound: What,
}

/// A set-up of the trade-off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FrontPoint {
    /// Paint for a part [mL].
    pub ml: f64,
    /// Counting error.
    pub ml_standard_error: f64,
    /// Trigger on, for a part [s].
    pub seconds: f64,
    /// The set-up.
    pub keys: Vec<(String, String)>,
}

impl Answer {
    pub(super) fn new(job: &Job, asked: &Asked) -> Self {
        let (low, high) = asked.band;
        Self {
            name: job.name.clone(),
            hand: job.stroke.hand.word().unwrap_or("own").into(),
            by_default: !job.given.iter().any(|key| key.starts_with("stroke.hand")),
            band_um: [low * 1e6, high * 1e6],
            usual_band: !asked.own_band,
            right_on_percent: asked.right_on * 100.0,
            thinnest: asked.thinnest,
            sheet_bar: job.sheet.pressure.map(|ends| ends.map(|p| p * 1e-5)),
            now: None,
            best: None,
            front: Vec::new(),
            flat: Vec::new(),
            trials: 0,
            why_none: None,
            complete: false,
        }
    }

    /// The best keeps to all that is asked, for sure.
    #[must_use]
    pub fn is_sure(&self) -> bool {
        self.best.as_ref().is_some_and(|best| best.rank().0 == 0)
    }

    /// The answer as JSON, keys in a fixed order.
    #[must_use]
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
    }
}

impl Found {
    /// How good it is: less is better.
    #[must_use]
    pub fn rank(&self) -> (u8, f64) {
        super::stop::rank(&self.stops, &self.unsure, self.ml)
    }

    /// The job with this set-up, by the hand that it was searched for.
    ///
    /// # Errors
    /// A text that does not take its keys.
    pub fn job(&self, from: &Job) -> Result<Job, ParameterError> {
        with_keys(from, &self.keys)
    }
}

/// Figures of a set-up that was tried, to get from one job to another.
pub(super) fn found(from: &Job, to: &Job, trial: &Trial, tried: &Tried) -> Found {
    let (run, paced) = (trial.flight().run(), &tried.paced);
    let prepared = run.prepared();
    let (spray, own) = (&prepared.spray, &prepared.job);
    let variants = Model::default()
        .size_range_with(&own.neighbours, &own.kit, &own.gun, &own.paint, &own.booth)
        .unwrap_or_default();
    let part = run.part();
    let ratios = likely_ratios(&spray.sizes, &variants, &part.sprayed, &part.landed);
    let (least, most) = likely_factors(&ratios, rest(own));
    let (low, high) = (1.0 / most, 1.0 / least);
    let error = ERRORS * paced.standard_error() / paced.volume.max(f64::MIN_POSITIVE);
    let (low, high) = ((low - error).max(0.0), high + error);
    let area = prepared.bare_film().area();
    let solids = paced.volume * spray.volume_solids;
    // A job as it is has nothing to be written into it.
    let set = (from != to).then(|| tried.way.set(to.clone()));
    Found {
        changes: set.as_ref().map_or_else(Vec::new, |to| changes(from, to)),
        keys: set.as_ref().map_or_else(Vec::new, |to| keys(from, to)),
        ml: paced.volume * 1e6,
        ml_low: low * paced.volume * 1e6,
        ml_high: high * paced.volume * 1e6,
        ml_standard_error: paced.standard_error() * 1e6,
        seconds: paced.seconds,
        seconds_low: low * paced.seconds,
        seconds_high: high * paced.seconds,
        mean_um: paced.mean * 1e6,
        uneven_percent: paced.unevenness * 100.0,
        thinnest: paced.thinnest,
        right_percent: paced.right * 100.0,
        wettest_um: paced.wettest * 1e6,
        fan_mm: tried.fan * 1e3,
        pattern: tried.kind.map(|k| k.word().into()),
        landed: if solids > 0.0 { (paced.mean * area / solids).min(1.0) } else { 0.0 },
        stops: paced.stops.clone(),
        unsure: paced.unsure.clone(),
        bound: paced.bound,
    }
}
