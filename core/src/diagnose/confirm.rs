//! The chosen changes flown in full on fresh streams: only what comes out here is promised.

use super::advice::Advice;
use super::change::{Move, changed};
use super::complaint::Complaint;
use super::judge::badness;
use super::readout::{Readout, target_of};
use super::tried::more;
use crate::error::ParameterError;
use crate::flight::levels;
use crate::in_order::InOrder;
use crate::job::{Job, RunSetting};
use crate::report::wanted;
use crate::run::Run;

/// Half of the range of seeds: moves these streams away from the search's.
const SEED_SHIFT: u64 = 1 << 52;

/// Hands that a change is flown with, where a hand's errors are drawn: what helped one may spoil the next.
const HANDS: usize = 3;

/// Full flights under way.
pub(super) struct Confirm {
    job: Job,
    complaints: Vec<Complaint>,
    list: Vec<(usize, Vec<Move>)>,
    mean: f64,
    setting: RunSetting,
    card: u64,
    /// Hands to fly with, and how many are done.
    hands: [usize; 2],
    /// Of each change what the hands before had of it; none where one of them had nothing.
    of_hands: Vec<Option<Vec<Advice>>>,
    /// Changes done.
    at: usize,
    first: Option<Readout>,
    ground: Option<Box<Run>>,
    flying: Option<(Box<Run>, bool)>,
    found: Vec<(usize, f64, Advice)>,
}

impl Confirm {
    /// `list` is what to fly, each for a complaint by its place.
    pub fn new(
        job: Job,
        complaints: Vec<Complaint>,
        list: Vec<(usize, Vec<Move>)>,
        mean: f64,
        droplets: [u64; 2],
    ) -> Self {
        let seed = (job.run.seed + SEED_SHIFT) % (2 * SEED_SHIFT);
        let setting = RunSetting { droplets: droplets[0], standard_error: None, seed };
        let drawn = !job.stroke.hand.is_machine() && job.track.is_none();
        Self {
            hands: [if drawn { HANDS } else { 1 }, 0],
            of_hands: vec![Some(Vec::new()); list.len()],
            job,
            complaints,
            list,
            mean,
            setting,
            card: droplets[1],
            at: 0,
            first: None,
            ground: None,
            flying: None,
            found: Vec::new(),
        }
    }

    /// Share of the work done, 0..1.
    pub fn done(&self) -> f64 {
        let part = self.flying.as_ref().map_or(0.0, |(run, _)| {
            let (done, total) = run.progress();
            done as f64 / total.max(1) as f64
        });
        let first = if self.first.is_some() { 1.0 } else { 0.0 };
        let hand = ((first + self.at as f64 + part) / (self.list.len() + 1) as f64).min(1.0);
        ((self.hands[1] as f64 + hand) / self.hands[0] as f64).min(1.0)
    }

    /// What is promised by now: for the worst complaint first, the best change of each first.
    pub fn advices(&self) -> Vec<Advice> {
        let mut found: Vec<_> = self.found.iter().collect();
        found.in_order(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        found.into_iter().map(|f| f.2.clone()).collect()
    }

    /// Works on, a piece of at most `most` droplets; true when it is over.
    ///
    /// # Errors
    /// The job itself cannot be flown.
    pub fn advance(&mut self, most: u64, threads: bool) -> Result<bool, ParameterError> {
        let Some((mut run, on_ground)) = self.flying.take() else {
            return self.start();
        };
        let complete = if threads { run.advance_on_all_threads(most) } else { run.advance(most) };
        if !complete {
            self.flying = Some((run, on_ground));
            return Ok(false);
        }
        let readout = Readout::of(&run, target_of(&run.prepared().job, self.mean));
        match &self.first {
            None => self.first = Some(readout?),
            Some(first) => {
                let (complaint, moves) = &self.list[self.at];
                let job = &run.prepared().job;
                let known = self.of_hands[self.at].take();
                let all = known.zip(readout.as_ref().ok()).and_then(|(mut all, after)| {
                    let advice = match all.first() {
                        Some(advice) => advice.with_hand(first, after),
                        None => Advice::of(&self.complaints, *complaint, moves, &self.job, first, after),
                    };
                    all.push(advice?);
                    Some(all)
                });
                if let (Some(all), Ok(after)) = (&all, readout)
                    && all.len() == self.hands[0]
                    && let Some(advice) = Advice::of_all(all)
                {
                    let band = wanted(job).filter(|_| job.stroke.burst.is_none());
                    let more = more(moves);
                    self.found.push((*complaint, badness(&after, first, band) + more, advice));
                }
                self.of_hands[self.at] = all;
                self.at += 1;
                self.skip();
            }
        }
        if on_ground {
            self.ground = Some(run);
        }
        Ok(self.over())
    }

    /// Past the changes that a hand before had nothing of.
    fn skip(&mut self) {
        while self.of_hands.get(self.at).is_some_and(Option::is_none) {
            self.at += 1;
        }
    }

    /// All changes are done; with all hands, or the next one begins.
    fn over(&mut self) -> bool {
        if self.at < self.list.len() {
            return false;
        }
        self.hands[1] += 1;
        let more = self.hands[1] < self.hands[0] && self.of_hands.iter().any(Option::is_some);
        if more {
            (self.at, self.first, self.ground) = (0, None, None);
            self.setting.seed = (self.setting.seed + SEED_SHIFT / 16) % (2 * SEED_SHIFT);
            self.skip();
        }
        !more
    }

    fn start(&mut self) -> Result<bool, ParameterError> {
        if self.first.is_none() {
            let job = Job { run: self.setting, ..self.job.clone() };
            self.flying = Some((Box::new(Run::with_card(job, self.card, levels()[0])?), true));
            return Ok(false);
        }
        let Some((_, moves)) = self.list.get(self.at) else { return Ok(true) };
        let Some(job) = changed(&self.job, moves, self.setting) else {
            self.of_hands[self.at] = None;
            self.at += 1;
            self.skip();
            return Ok(self.over());
        };
        if let Some(mut run) = self.ground.take() {
            if run.relay(job.clone())? {
                self.flying = Some((run, true));
                return Ok(false);
            }
            self.ground = Some(run);
        }
        self.flying = Some((Box::new(Run::with_card(job, self.card, levels()[0])?), false));
        Ok(false)
    }
}
