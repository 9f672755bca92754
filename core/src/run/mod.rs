//! A run: a job flown, slice by slice, to its report. Every slicing and any number of threads give the same digits.

mod bare;
mod card;
mod card_map;
mod direct;
mod faces;
mod film;
mod flying;
mod frame_film;
mod hand;
mod hand_costs;
mod looks;
mod part_tally;
mod pieces;
mod poses;
mod prepare;
mod settling;
mod so_far;
mod strokes;

pub use card::{CARD_DROPLETS, CardTally, PROFILE_BIN};
pub use card_map::{CardMap, MAP_CELL, MAP_CELLS};
pub use direct::direct_film;
pub use faces::faces;
pub use hand_costs::{ErrorCost, HandCosting, HandCosts, HandFilm};
pub use part_tally::PartTally;
pub use poses::PoseRange;
pub use prepare::Prepared;
pub use settling::{Settling, wet_laws};
pub use so_far::SoFar;

use crate::course::Outcome;
pub use crate::course::Tally;
pub(crate) use crate::course::fly_all;
use crate::error::ParameterError;
use crate::film::{FilmMap, SetFilm, WetLaws};
use crate::flight::{Batch, levels};
use crate::job::Job;
use crate::report::Report;
use crate::tally::Digest;
use fearless_simd::Level;
use hand::ByHand;
pub(crate) use looks::FIRST_LOOK;

/// A run of a job.
pub struct Run {
    prepared: Prepared,
    card: CardTally,
    part: PartTally,
    card_flown: u64,
    card_total: u64,
    flown: u64,
    total: u64,
    next_look: u64,
    level: Level,
    batch: Batch<f32>,
    /// The film once all is flown, and how many steps of its sweep are done.
    laid: (FilmMap, usize),
    /// The film is let set once it is laid.
    settles: bool,
    /// The film on its way to having set, and what came of it.
    settling: Option<Settling>,
    set: Option<SetFilm>,
    /// What the film was made of, and gravity along its steepest place [N/m3].
    set_laws: Option<(WetLaws, f64)>,
    /// Where the gun is not a machine's.
    by_hand: Option<ByHand>,
}

impl Run {
    /// Prepares a job: gun, spray, air and part; nothing is flown yet.
    ///
    /// # Errors
    /// A set-up that cannot be sprayed, by its key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let level = levels()[0];
        Self::at_level(job, level)
    }

    /// The same at a chosen SIMD level (all give the same digits).
    ///
    /// # Errors
    /// As [`Run::new`].
    pub fn at_level(job: Job, level: Level) -> Result<Self, ParameterError> {
        Self::with_card(job, CARD_DROPLETS, level)
    }

    /// The same with another number of droplets to the large card than [`CARD_DROPLETS`]: for runs that are only held
    /// against each other. With none there is no pattern, and on a panel no fan height to space passes by.
    ///
    /// # Errors
    /// As [`Run::new`].
    pub fn with_card(job: Job, card_droplets: u64, level: Level) -> Result<Self, ParameterError> {
        Self::of(Prepared::new(job)?, card_droplets, level)
    }

    /// A run of what was prepared otherwise.
    ///
    /// # Errors
    /// As [`Run::new`].
    pub(crate) fn of(prepared: Prepared, card_droplets: u64, level: Level) -> Result<Self, ParameterError> {
        let part = prepared.nothing_flown();
        let total = prepared.job.run.droplets;
        let laid = (prepared.bare_film(), 0);
        let by_hand = ByHand::new(&prepared)?;
        Ok(Self {
            prepared,
            card: CardTally::default(),
            part,
            card_flown: 0,
            card_total: card_droplets,
            flown: 0,
            total,
            next_look: FIRST_LOOK,
            level,
            batch: Batch::default(),
            laid,
            settles: true,
            settling: None,
            set: None,
            set_laws: None,
            by_hand,
        })
    }

    /// The same run with its film left as it landed: it is complete when that is laid, and tells nothing of runs, texture or bare
    /// places. For runs that are only held against each other.
    #[must_use]
    pub fn only_laid(self) -> Self {
        Self { settles: false, ..self }
    }

    /// What the run was prepared from.
    #[must_use]
    pub fn prepared(&self) -> &Prepared {
        &self.prepared
    }

    /// Lays what was flown along the strokes of another job; false, and nothing is changed, where that job needs droplets of
    /// its own (another gun, paint, part, distance or seed). The film is bare again: [`Run::advance`] lays it.
    ///
    /// # Errors
    /// As [`Run::new`].
    pub fn relay(&mut self, job: Job) -> Result<bool, ParameterError> {
        let next = Prepared::new(job)?;
        let same = self.prepared.flies_like(&next);
        if same {
            self.laid = (next.bare_film(), 0);
            (self.settling, self.set, self.set_laws) = (None, None, None);
            self.prepared = next;
            if let Some(by_hand) = &mut self.by_hand {
                by_hand.relay();
            }
        }
        Ok(same)
    }

    /// A second run with the same droplets, its film bare, to be relaid beside this one; none before all are flown, and none of a hand's.
    #[must_use]
    pub fn flown_again(&self) -> Option<Self> {
        (self.is_flown() && self.by_hand.is_none()).then(|| Self {
            prepared: self.prepared.clone(),
            card: self.card.clone(),
            part: self.part.clone(),
            batch: Batch::default(),
            laid: (self.prepared.bare_film(), 0),
            settling: None,
            set: None,
            set_laws: None,
            by_hand: None,
            ..*self
        })
    }

    /// The film after it set: runs, texture, what is wrong where. None before the run is complete, or where nothing was flown.
    #[must_use]
    pub fn set_film(&self) -> Option<&SetFilm> {
        self.set.as_ref().filter(|set| !set.cells.is_empty())
    }

    /// What the film was made of, and gravity along its steepest place [N/m3]; once the run is complete.
    #[must_use]
    pub fn set_laws(&self) -> Option<&(WetLaws, f64)> {
        self.set_laws.as_ref()
    }

    /// The wet film while it sets; none before the film is laid and after it has set.
    #[must_use]
    pub fn settling(&self) -> Option<&Settling> {
        self.settling.as_ref()
    }

    /// Droplets of the job flown so far.
    #[must_use]
    pub fn flown(&self) -> u64 {
        self.flown
    }

    /// What landed on the large card.
    #[must_use]
    pub fn card(&self) -> &CardTally {
        &self.card
    }

    /// What became of the job's droplets.
    #[must_use]
    pub fn part(&self) -> &PartTally {
        &self.part
    }

    /// The report of what has been flown so far.
    ///
    /// # Errors
    /// A figure that came out not finite (a defect, told by its key).
    pub fn report(&self) -> Result<Report, ParameterError> {
        Report::new(self)
    }

    /// FNV-1a over all counts and the report.
    ///
    /// # Errors
    /// As [`Run::report`].
    pub fn digest(&self) -> Result<u64, ParameterError> {
        Ok(self.digest_of(&self.report()?.to_json()))
    }

    /// The digest where the report's JSON is at hand already.
    #[must_use]
    pub fn digest_of(&self, report: &str) -> u64 {
        let mut digest = Digest::default();
        self.card.digest(&mut digest);
        self.part.digest(&mut digest);
        if let Some(by_hand) = &self.by_hand {
            by_hand.shelf.digest(&mut digest);
        }
        for byte in report.bytes() {
            digest.count(u64::from(byte));
        }
        digest.value()
    }
}

/// One droplet of a job in f64, by its number: what a failing test prints, and how it is looked at.
///
/// # Errors
/// As [`Run::new`].
pub fn replay(job: Job, droplet: u64) -> Result<Outcome, ParameterError> {
    Ok(Prepared::new(job)?.course.replay(droplet))
}
