//! A run: a job flown, slice by slice, to its report. Every slicing and any number of threads give the same digits.

mod card;
mod card_map;
mod direct;
mod faces;
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
use crate::film::{Deposit, FilmMap, SetFilm, WetLaws};
use crate::flight::{Batch, levels};
use crate::job::Job;
use crate::report::Report;
use crate::stroke::{Layer, SWEEP_STEPS};
use crate::tally::Digest;
use fearless_simd::Level;
use hand::{ByHand, lay_all};
pub(crate) use looks::FIRST_LOOK;
use std::borrow::Cow;

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

    /// Flies at most `most` droplets more, and when all are flown lays the film step by step and lets it set, a step a
    /// call; true when the run is complete.
    pub fn advance(&mut self, most: u64) -> bool {
        if most > 0 && self.is_flown() {
            if self.is_laid() { self.settle_some() } else { self.lay_one() }
        } else {
            self.fly(most);
        }
        self.is_complete()
    }

    /// Flies at most `most` droplets more and lays nothing.
    pub(crate) fn fly(&mut self, most: u64) {
        if self.prepared.spaced_by_fan() {
            let left = self.fly_card(most);
            let left = self.fly_part(left);
            self.fly_poses(left);
        } else {
            // The part first: its picture is what one waits for.
            let left = self.fly_part(most);
            let left = self.fly_poses(left);
            self.fly_card(left);
        }
    }

    /// Flies at most `most` droplets to the card; how many of them are left.
    fn fly_card(&mut self, most: u64) -> u64 {
        let next = self.card_total.min(self.card_flown.saturating_add(most)).max(self.card_flown);
        let left = most - (next - self.card_flown);
        let card = &mut self.card;
        self.prepared.card.fly(self.level, self.card_flown, next, &mut self.batch, |o| card.count(o));
        self.card_flown = next;
        left
    }

    /// Flies at most `most` droplets to the part; how many of them are left.
    fn fly_part(&mut self, most: u64) -> u64 {
        let mut left = most;
        while left > 0 && self.flown < self.total {
            let next = self.stop_before(self.flown.saturating_add(left));
            left -= next - self.flown;
            let part = &mut self.part;
            let (level, batch) = (self.level, &mut self.batch);
            if let Some(frame) = &self.prepared.frame {
                frame.fly(level, self.flown, next, batch, |o| part.count(o));
            } else {
                let mut middle = self.by_hand.as_mut().and_then(|by_hand| by_hand.shelf.middle_mut());
                self.prepared.course.fly(level, self.flown, next, batch, |o| {
                    part.count(o);
                    if let Some(imprint) = &mut middle {
                        imprint.count(o);
                    }
                });
            }
            self.flown = next;
            self.look();
        }
        left
    }

    /// Flies at most `most` droplets of the gun's other poses; how many of them are left.
    fn fly_poses(&mut self, most: u64) -> u64 {
        match &mut self.by_hand {
            Some(by_hand) if self.flown >= self.total => {
                by_hand.shelf.advance_at(self.level, most, &mut self.batch)
            }
            _ => most,
        }
    }

    /// Flies all that is left, on all threads where the crate has them.
    pub fn finish(&mut self) {
        while !self.advance_on_all_threads(u64::MAX) {}
    }

    fn lay_one(&mut self) {
        if self.is_laid() {
            return;
        }
        let (film, step) = &mut self.laid;
        match &mut self.by_hand {
            Some(by_hand) => by_hand.step(&self.prepared, &self.card, *step, film),
            None => {
                let strokes = self.prepared.strokes(&self.card);
                self.prepared.swept(&self.part, &strokes).step(*step, film);
            }
        }
        *step += 1;
    }

    /// A piece of the film's time.
    fn settle_some(&mut self) {
        if self.set.is_some() || !self.settles {
            return;
        }
        let film = &self.laid.0;
        let mut settling = match self.settling.take() {
            Some(settling) => settling,
            None => match Settling::new(&self.prepared, &self.part, film) {
                Ok(settling) => settling,
                // Its volatiles were known to the flight: there is nothing else to be refused.
                Err(_) => {
                    self.set = Some(SetFilm::unread(Vec::new()));
                    return;
                }
            },
        };
        if settling.advance(&|number| self.deposit(number)) {
            let wet = settling.wet();
            self.set_laws = Some((wet.laws().clone(), wet.steepest()));
            self.set = Some(settling.into_set());
        } else {
            self.settling = Some(settling);
        }
    }

    fn is_flown(&self) -> bool {
        let poses = self.by_hand.as_ref().is_none_or(|by_hand| by_hand.shelf.is_flown());
        self.card_flown >= self.card_total && self.flown >= self.total && poses
    }

    fn is_laid(&self) -> bool {
        self.is_flown() && self.laid.1 >= self.by_hand.as_ref().map_or(SWEEP_STEPS, ByHand::steps)
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

    /// Droplets flown and wanted, the card's included.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let poses = self.by_hand.as_ref().map_or((0, 0), |by_hand| {
            let (flown, wanted) = by_hand.shelf.progress();
            (flown - self.flown.min(flown), wanted - self.total.min(wanted))
        });
        (self.card_flown + self.flown + poses.0, self.card_total + self.total + poses.1)
    }

    /// All droplets are flown, the film is laid and has set.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.is_laid() && (self.set.is_some() || !self.settles)
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

    /// The film so far. On a panel under passes it is bare until the card is flown: the fan's height spaces them.
    #[must_use]
    pub fn film(&self) -> Cow<'_, FilmMap> {
        if self.is_laid() {
            return Cow::Borrowed(&self.laid.0);
        }
        let mut film = self.prepared.bare_film();
        if self.flown == 0 {
            return Cow::Owned(film);
        }
        if let Some(by_hand) = &self.by_hand {
            lay_all(&Layer::full(&by_hand.shelf), &self.prepared.track(&self.card), &mut film);
        } else {
            let strokes = self.prepared.strokes(&self.card);
            self.prepared.swept(&self.part, &strokes).lay(&mut film);
        }
        Cow::Owned(film)
    }

    /// The dry film so far, without groups and wet film: quick, for pictures under way.
    #[must_use]
    pub fn picture(&self) -> Cow<'_, FilmMap> {
        if self.is_laid() {
            return Cow::Borrowed(&self.laid.0);
        }
        let mut film = self.prepared.bare_film();
        if self.flown == 0 {
            return Cow::Owned(film);
        }
        if let Some(by_hand) = &self.by_hand {
            lay_all(&Layer::sketch(&by_hand.shelf), &self.prepared.track(&self.card), &mut film);
        } else {
            let strokes = self.prepared.strokes(&self.card);
            self.prepared.swept(&self.part, &strokes).picture(&mut film);
        }
        Cow::Owned(film)
    }

    /// What landed so far, pass by pass in order of time, turns and flash between; together it is the film as landed.
    pub fn deposits(&self, each: &mut dyn FnMut(&Deposit)) {
        (0..).map_while(|number| self.deposit(number)).for_each(|deposit| each(&deposit));
    }

    /// One of them, by number; none past the last.
    fn deposit(&self, number: usize) -> Option<Deposit> {
        if self.flown == 0 {
            return None;
        }
        if let Some(by_hand) = &self.by_hand {
            return by_hand.deposit(&self.prepared, &self.card, number);
        }
        let strokes = self.prepared.strokes(&self.card);
        let deposits = self.prepared.deposits(&self.part, &strokes);
        (number < deposits.len()).then(|| deposits.at(number, &self.prepared.bare_film()))
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
