//! A search under way: the job as it is, the hunt by few droplets, full flights of the best on fresh streams, and how exact each knob must be.

use super::answer::{Answer, Found, found};
use super::asked::Asked;
use super::flat::Flats;
use super::hunt::{Hunt, SETS};
use super::look::{FULL, look};
use super::setup::set;
use super::trial::{Choice, Trial};
use super::verify::Verify;
use crate::error::ParameterError;
use crate::job::Job;
use crate::stroke::Hand;

/// Best set-ups that are flown in full; more, one by one, while none of them keeps to all for sure.
const BEST: usize = 3;
const MORE: usize = 9;
/// Times that a better neighbour of the best may take its place.
const ROUNDS: u32 = 2;

enum Work {
    Now(Box<Trial>),
    Hunt(Box<Hunt>),
    Full,
    Flat(Box<Flats>),
    Over,
}

/// A search under way. Every slicing and any number of threads give the same digits.
pub struct Search {
    job: Job,
    asked: Asked,
    work: Work,
    full: Vec<Job>,
    verify: Option<Box<Verify>>,
    verified: Vec<Found>,
    at: usize,
    rounds: u32,
    answer: Answer,
}

/// The job as it is searched for: by the painter's hand, a steady one where the job names none.
#[must_use]
pub fn searched(job: &Job) -> Job {
    let named = job.given.iter().any(|key| key.starts_with("stroke.hand"));
    let hand = if named { job.stroke.hand } else { Hand::named("steady").unwrap_or_default() };
    let mut own = job.clone();
    own.stroke.hand = hand;
    own
}

crate::in_pieces::in_pieces!(Search);

impl Search {
    /// Prepares a search for what a job asks; nothing is flown yet.
    ///
    /// # Errors
    /// A job that cannot be sprayed, that has no passes, a frame, by key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let asked = Asked::of(&job)?;
        let job = searched(&job);
        let trial = Trial::new(job.clone(), FULL, look(&job, None), Choice::AsIs)?;
        let answer = Answer::new(&job, &asked);
        Ok(Self {
            job,
            asked,
            work: Work::Now(Box::new(trial)),
            full: Vec::new(),
            verify: None,
            verified: Vec::new(),
            at: 0,
            rounds: 0,
            answer,
        })
    }

    /// Share of the work done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        let share = |flown: usize, of: usize| (flown as f64 / of.max(1) as f64).min(1.0);
        match &self.work {
            Work::Now(trial) => 0.05 * trial.done(),
            Work::Hunt(hunt) => 0.05 + 0.6 * hunt.done(),
            Work::Full => 0.65 + 0.15 * share(self.at, self.full.len().min(BEST)),
            Work::Flat(flats) => 0.8 + 0.2 * flats.done(),
            Work::Over => 1.0,
        }
    }

    /// What is known by now.
    #[must_use]
    pub fn answer(&self) -> &Answer {
        &self.answer
    }

    /// What is asked of the film and the set-up.
    #[must_use]
    pub fn asked(&self) -> &Asked {
        &self.asked
    }

    fn step(&mut self, most: u64, threads: bool) -> Result<bool, ParameterError> {
        match std::mem::replace(&mut self.work, Work::Over) {
            Work::Now(mut trial) => {
                self.work = if trial.advance(&self.asked, most, threads) {
                    self.answer.now = trial.tried().map(|tried| found(&self.job, &self.job, &trial, &tried));
                    Work::Hunt(Box::new(Hunt::new(&self.job, &self.asked)))
                } else {
                    Work::Now(trial)
                };
            }
            Work::Hunt(mut hunt) => {
                let over = hunt.advance(&self.asked, most, threads);
                if let Some(best) = hunt.news() {
                    (self.answer.best, self.answer.front) = (Some(best), hunt.front());
                }
                if over {
                    self.choose(&hunt);
                } else {
                    self.work = Work::Hunt(hunt);
                }
            }
            Work::Full => {
                self.work = Work::Full;
                self.verify(most, threads)?;
            }
            Work::Flat(mut flats) => {
                let over = flats.advance(&self.asked, most, threads);
                self.answer.flat = flats.answer();
                if !over {
                    self.work = Work::Flat(flats);
                } else if let Some(better) = flats.better().filter(|_| self.rounds < ROUNDS) {
                    self.rounds += 1;
                    self.full = vec![better];
                    (self.at, self.work) = (0, Work::Full);
                }
            }
            Work::Over => {}
        }
        self.answer.complete = matches!(self.work, Work::Over);
        Ok(self.answer.complete)
    }

    /// From the hunt to the full flights.
    fn choose(&mut self, hunt: &Hunt) {
        self.answer.front = hunt.front();
        self.answer.trials = hunt.trials();
        self.answer.why_none = hunt.why_none().cloned();
        self.full = hunt.best(MORE);
        self.work = if self.full.is_empty() { Work::Over } else { Work::Full };
    }

    fn verify(&mut self, most: u64, threads: bool) -> Result<(), ParameterError> {
        let Some(mut verify) = self.verify.take() else {
            let enough = self.at >= BEST && self.verified.iter().any(|found| found.rank().0 == 0);
            match self.full.get(self.at).filter(|_| !enough) {
                Some(job) => {
                    let job = set(&self.job, job)?;
                    self.verify = Verify::new(job, look(&self.job, None)).ok().map(Box::new);
                    if self.verify.is_none() {
                        self.at += 1;
                    }
                }
                None => self.decide(),
            }
            return Ok(());
        };
        if !verify.advance(&self.asked, most, threads) {
            self.verify = Some(verify);
            return Ok(());
        }
        self.at += 1;
        self.verified.extend(verify.found(&self.job));
        Ok(())
    }

    /// The best of the full flights, and how exact its knobs must be.
    fn decide(&mut self) {
        let better = |a: &Found, b: &Found| b.rank() < a.rank();
        let best = self.verified.iter().cloned().reduce(|a, b| if better(&a, &b) { b } else { a });
        let Some(best) = best else {
            self.work = Work::Over;
            return;
        };
        // As it is it may be as good as any set-up of the net.
        let kept = self.answer.now.clone().filter(|now| now.rank() <= best.rank());
        let best = kept.unwrap_or(best);
        let job = best.job(&self.job);
        if self.answer.best.as_ref() == Some(&best) && !self.answer.flat.is_empty() {
            // The neighbour was no better in full.
            self.work = Work::Over;
            return;
        }
        self.answer.best = Some(best);
        self.work = job
            .ok()
            .and_then(|job| Flats::new(job, look(&self.job, Some(SETS[1]))).ok())
            .map_or(Work::Over, |flats| Work::Flat(Box::new(flats)));
    }
}
