//! What a judgement holds, as it is written into the report. Films in micrometres, places in millimetres.

use super::follow_up::FollowUp;
use super::{BandShares, CombReading, Dew, NextCoat, PlaceOnPart};
use serde::{Deserialize, Serialize};

/// What a rule comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// The rule is kept.
    Pass,
    /// It is broken.
    Fail,
    /// The film's counting error leaves it open.
    CannotTell,
}

impl Verdict {
    /// Broken if one is broken, open if one is open, else kept.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Fail, _) | (_, Self::Fail) => Self::Fail,
            (Self::CannotTell, _) | (_, Self::CannotTell) => Self::CannotTell,
            _ => Self::Pass,
        }
    }

    /// Of all of these; kept where there is none.
    #[must_use]
    pub fn of_all(all: impl IntoIterator<Item = Self>) -> Self {
        all.into_iter().fold(Self::Pass, Self::and)
    }
}

/// How far a rule may be trusted to be the standard's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Source {
    /// Read in the standard or in a published account of it.
    Seen,
    /// From memory: check the standard.
    FromMemory,
    /// Our own; no standard.
    Ours,
}

/// What a decision is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// Share of the area that is right.
    RightOn,
    /// Every spot at least.
    SpotLow,
    /// Every spot at most.
    SpotHigh,
    /// Every area at least.
    AreaLow,
    /// Every area at most.
    AreaHigh,
    /// Every reading at least.
    ReadingLow,
    /// Every reading at most.
    ReadingHigh,
    /// Mean of all readings at least.
    MeanLow,
    /// Mean of all readings at most.
    MeanHigh,
    /// Share of readings below the nominal film, at most.
    ShareUnder,
}

/// Unit of a decision's figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Micrometres of dry film.
    Um,
    /// Percent.
    Percent,
}

/// One rule, what was found, and what it comes to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Decision {
    /// The rule.
    pub rule: Rule,
    /// The figure furthest towards breaking it.
    pub found: f64,
    /// Its standard error from counting.
    pub standard_error: f64,
    /// The rule's limit.
    pub limit: f64,
    /// Unit of the three.
    pub unit: Unit,
    /// Number of that spot, area or reading, where the rule is about each; from 1.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub at: Option<usize>,
    /// What it comes to.
    pub verdict: Verdict,
    /// Where the rule comes from.
    pub source: Source,
}

/// One reading of the gauge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Its place.
    #[serde(flatten)]
    pub place: PlaceOnPart,
    /// Dry film, profile correction taken off [um].
    pub um: f64,
    /// Its standard error from counting [um].
    pub standard_error_um: f64,
}

/// A spot: the mean of its readings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    /// Its number, from 1.
    pub number: usize,
    /// Number of its area, from 1; 0 where the method has none.
    pub area: usize,
    /// Its middle.
    #[serde(flatten)]
    pub place: PlaceOnPart,
    /// Mean [um].
    pub um: f64,
    /// Its standard error from counting [um].
    pub standard_error_um: f64,
    /// What it alone comes to.
    pub verdict: Verdict,
    /// Its readings.
    pub readings: Vec<Reading>,
}

/// An area: the mean of its spots.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Area {
    /// Its number, from 1.
    pub number: usize,
    /// Mean [um].
    pub um: f64,
    /// Its standard error from counting [um].
    pub standard_error_um: f64,
    /// What it alone comes to.
    pub verdict: Verdict,
    /// What is measured round it when it fails.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub follow_up: Vec<FollowUp>,
}

/// A film judged by a method.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FilmVerdict {
    /// The method's word in the job file.
    pub method: String,
    /// Restriction level of SSPC-PA 2.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub level: Option<u8>,
    /// What it comes to.
    pub verdict: Verdict,
    /// The verdict in a sentence, metric.
    pub sentence: String,
    /// Dry film wanted, lowest and highest [um].
    pub wanted_um: [f64; 2],
    /// What the part is called in the sentence.
    pub part: String,
    /// Shares of the area, where the counting error allows; said whatever the method.
    #[serde(flatten, skip_serializing_if = "Option::is_none", default)]
    pub shares: Option<BandShares>,
    /// Each rule with what was found.
    pub decisions: Vec<Decision>,
    /// Areas.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub areas: Vec<Area>,
    /// Spots, or single readings as spots of one.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub spots: Vec<Spot>,
    /// What must be known about the verdict.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub notes: Vec<String>,
}

impl FilmVerdict {
    /// Nothing is sure: too few droplets for any spread.
    pub(super) fn doubt(&mut self) {
        self.verdict = Verdict::CannotTell;
        self.decisions.iter_mut().for_each(|d| d.verdict = Verdict::CannotTell);
        self.areas.iter_mut().for_each(|a| a.verdict = Verdict::CannotTell);
        self.spots.iter_mut().for_each(|s| s.verdict = Verdict::CannotTell);
    }
}

/// All that is judged of a run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Judgement {
    /// The dry film, where the job says what is wanted.
    #[serde(flatten, skip_serializing_if = "Option::is_none", default)]
    pub film: Option<FilmVerdict>,
    /// What a comb in the wet film reads at once.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub comb: Option<CombReading>,
    /// When the next coat may go on.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub next_coat: Option<NextCoat>,
    /// Is the part clear of the dew point.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub dew: Option<Dew>,
}

impl Judgement {
    /// Standard errors of the figures that have a path of their own in the report; lists carry theirs with them.
    #[must_use]
    pub fn counting_errors(&self) -> Vec<(&'static str, f64)> {
        let mut all = Vec::new();
        if let Some(shares) = self.film.as_ref().and_then(|f| f.shares.as_ref()) {
            all.push(("judgement.right_percent", shares.right_error_percent));
        }
        all.extend(self.comb.as_ref().map(|comb| ("judgement.comb.wet_um", comb.standard_error_um)));
        all
    }
}
