//! The flood test, as the worker does it: flies the job's card, lets its paint run, and reads the runs.

use mistcoat::flight::{Batch, levels};
use mistcoat::job::Job;
use mistcoat::report::{CurtainKind, flood_test};
use mistcoat::run::{CARD_DROPLETS, CardTally, Prepared, Tally};
use serde::{Deserialize, Serialize};

use crate::worker::Refusal;

/// Droplets between two looks at the clock.
const PIECE: u64 = 512;

/// One column of the card [mm], down from the fan's middle; a dry column has none.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Column {
    /// Highest wet place.
    pub top: f64,
    /// Where the spray itself ends.
    pub edge: f64,
    /// Where the runs end.
    pub lowest: f64,
}

/// The runs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// Width of a column [mm].
    pub column: f64,
    /// Columns from left to right.
    pub columns: Vec<Option<Column>>,
    /// Longest run [mm].
    pub longest: f64,
    /// "even", "long-middle", "two-tails" or "no-runs".
    pub reading: String,
}

/// A flood test under way.
pub struct Flooding {
    prepared: Prepared,
    card: CardTally,
    flown: u64,
    seconds: f64,
    batch: Batch<f32>,
}

impl Flooding {
    /// Reads the job.
    ///
    /// # Errors
    /// A job that cannot be sprayed, by its key.
    pub fn start(job: &str, seconds: f64) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        let prepared =
            Prepared::new(job).map_err(|e| Refusal { key: Some(e.key.clone()), message: e.to_string() })?;
        let (card, batch) = (CardTally::default(), Batch::default());
        Ok(Self { prepared, card, flown: 0, seconds, batch })
    }

    /// Flies on while there is time; true when all is flown.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            let next = CARD_DROPLETS.min(self.flown + PIECE);
            let card = &mut self.card;
            self.prepared.card.fly(levels()[0], self.flown, next, &mut self.batch, |o| card.count(o));
            self.flown = next;
            if self.flown >= CARD_DROPLETS || !time_left() {
                return self.flown >= CARD_DROPLETS;
            }
        }
    }

    /// Droplets flown and wanted.
    pub fn progress(&self) -> (u64, u64) {
        (self.flown, CARD_DROPLETS)
    }

    /// The runs, as JSON.
    ///
    /// # Errors
    /// A figure that cannot be written.
    pub fn answer(&self) -> Result<String, Refusal> {
        let curtain = flood_test(&self.card, &self.prepared.spray, self.seconds);
        let columns =
            curtain.lowest.iter().zip(&curtain.lengths).zip(&curtain.film).map(|((low, run), film)| {
                let first = film.iter().position(|h| *h >= 20e-6)?;
                let lowest = (*low)? * 1e3;
                let top = (first as f64 * curtain.column - curtain.top) * 1e3;
                Some(Column { top, edge: (lowest - run * 1e3).max(top), lowest })
            });
        let reading = match curtain.reading {
            CurtainKind::Even => "even",
            CurtainKind::LongMiddle => "long-middle",
            CurtainKind::TwoTails => "two-tails",
            CurtainKind::NoRuns => "no-runs",
        };
        let answer = Answer {
            column: curtain.column * 1e3,
            columns: columns.collect(),
            longest: curtain.lengths.iter().copied().fold(0.0, f64::max) * 1e3,
            reading: reading.into(),
        };
        serde_json::to_string(&answer).map_err(|e| Refusal { key: None, message: e.to_string() })
    }
}
