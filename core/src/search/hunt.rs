//! A search under way: the job as it is, a coarse net by a machine's hand, the hunt for the best by the painter's, full flights of the best
//! on fresh streams, and how exact each knob must be.

use std::collections::BTreeMap;

use super::answer::{Answer, Found, FrontPoint, found};
use super::asked::Asked;
use super::flat::Flats;
use super::flight::{FULL, FULL_PARTS, Look, Way};
use super::front::front;
use super::lever::Lever;
use super::net::{Ask, DISTANCE_STEP, Net, NetSpec, Point, Rank};
use super::setup::{keys, set};
use super::trial::{Choice, Trial, Tried};
use super::verify::Verify;
use crate::error::ParameterError;
use crate::job::{FanAxis, Job};
use crate::stroke::{Hand, Strip};

/// Droplets of a trial to the part and to the card: of the net, of the hunt.
const NET: [u64; 2] = [4_096, 8_192];
const HUNT: [u64; 2] = [8_192, 8_192];
/// Ways laid in a trial of the net and of the hunt.
const WAYS: [usize; 2] = [8, 24];
/// Parts that the hand paints in a trial: so many that its luck is none of a set-up's merit.
const PARTS: u64 = 16;
/// Those of them whose film is let set in the net, and in the hunt.
const SETS: [u64; 2] = [2, 6];
/// Best points of the net that the hunt starts from.
const SEEDS: usize = 6;
/// Trials of the hunt at most.
const TRIALS: usize = 50;
/// Best set-ups that are flown in full; more, one by one, while none of them keeps to all for sure.
const BEST: usize = 3;
const MORE: usize = 9;
/// Times that a better neighbour of the best may take its place.
const ROUNDS: u32 = 2;
/// Moves the trials' streams away from the full flights'.
const SEED_SHIFT: u64 = 1 << 52;
/// What is wrong with a point that cannot be flown.
const NOTHING: u8 = 9;

enum Work {
    Now(Box<Trial>),
    Net,
    Hunt,
    Full,
    Flat(Box<Flats>),
    Over,
}

/// A search under way. Every slicing and any number of threads give the same digits.
pub struct Search {
    job: Job,
    asked: Asked,
    net: Net,
    work: Work,
    trial: Option<(Point, Box<Trial>)>,
    /// What the coarse net gave.
    screened: BTreeMap<Point, Tried>,
    /// What the hunt gave.
    hunted: BTreeMap<Point, Tried>,
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

/// Columns and parts that a hand's film is looked at with: all parts of a full flight let set, or so many of a trial's.
fn look(job: &Job, sets: Option<u64>) -> Look {
    if !Strip::does(&job.stroke) {
        // Arcs and tilts are laid piece by piece: a hundred times as dear.
        return Look::whole(8, 2);
    }
    sets.map_or(Look::whole(6, FULL_PARTS), |sets| Look { columns: 6, parts: PARTS, sets })
}

impl Search {
    /// Prepares a search for what a job asks; nothing is flown yet.
    ///
    /// # Errors
    /// A job that cannot be sprayed, that has no passes, a frame, by key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let asked = Asked::of(&job)?;
        let job = searched(&job);
        let trial = Trial::new(job.clone(), FULL, look(&job, None), Choice::AsIs)?;
        let net = Net::new(&job, &job.kit, job.gun.clone(), asked.limits(), &spec(&job));
        let answer = Answer::new(&job, &asked);
        Ok(Self {
            job,
            asked,
            net,
            work: Work::Now(Box::new(trial)),
            trial: None,
            screened: BTreeMap::new(),
            hunted: BTreeMap::new(),
            full: Vec::new(),
            verify: None,
            verified: Vec::new(),
            at: 0,
            rounds: 0,
            answer,
        })
    }

    /// Works on, a piece of at most `most` droplets or one film laid; true when all is done.
    ///
    /// # Errors
    /// A value out of a model's range, by its key.
    pub fn advance(&mut self, most: u64) -> Result<bool, ParameterError> {
        self.step(most.max(1), false)
    }

    /// The same on all threads where the crate has them.
    ///
    /// # Errors
    /// As [`Search::advance`].
    pub fn advance_on_all_threads(&mut self, most: u64) -> Result<bool, ParameterError> {
        self.step(most.max(1), true)
    }

    /// Works to the end, on all threads where the crate has them.
    ///
    /// # Errors
    /// As [`Search::advance`].
    pub fn finish(&mut self) -> Result<(), ParameterError> {
        while !self.advance_on_all_threads(u64::MAX)? {}
        Ok(())
    }

    /// Share of the work done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        let share = |flown: usize, of: usize| (flown as f64 / of.max(1) as f64).min(1.0);
        match &self.work {
            Work::Now(trial) => 0.05 * trial.done(),
            Work::Net => 0.05 + 0.25 * share(self.net.flown(), self.net.flown() + self.net.left()),
            Work::Hunt => 0.3 + 0.35 * share(self.net.flown(), TRIALS),
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
                if trial.advance(&self.asked, most, threads) {
                    self.answer.now = trial.tried().map(|tried| found(&self.job, &self.job, &trial, &tried));
                    self.work = Work::Net;
                } else {
                    self.work = Work::Now(trial);
                }
            }
            Work::Net => {
                self.work = Work::Net;
                if self.fly(most, threads, true) {
                    self.seed();
                }
            }
            Work::Hunt => {
                self.work = Work::Hunt;
                if self.fly(most, threads, false) {
                    self.choose();
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

    /// The next trial of the net, a piece; true when the net is over.
    fn fly(&mut self, most: u64, threads: bool, coarse: bool) -> bool {
        let Some((point, mut trial)) = self.trial.take() else {
            match self.net.ask(&self.job) {
                Ask::Wait => return false,
                Ask::Over => return true,
                Ask::Fly(point) => {
                    match self.trial_of(point, coarse) {
                        Ok(trial) => self.trial = Some((point, Box::new(trial))),
                        Err(_) => self.net.tell(point, Rank(NOTHING, 0.0)),
                    }
                    return false;
                }
            }
        };
        if !trial.advance(&self.asked, most, threads) {
            self.trial = Some((point, trial));
            return false;
        }
        match trial.tried() {
            Some(tried) => {
                let (fault, figure) = tried.rank();
                self.net.tell(point, Rank(fault, figure));
                let pool = if coarse { &mut self.screened } else { &mut self.hunted };
                pool.insert(point, tried);
                self.partly(point, &trial, coarse);
            }
            None => self.net.tell(point, Rank(NOTHING, 0.0)),
        }
        false
    }

    fn trial_of(&self, point: Point, coarse: bool) -> Result<Trial, ParameterError> {
        let near = self.hunted.get(&point).or_else(|| self.screened.get(&point));
        let near = near.or_else(|| self.best_hunted().map(|(_, tried)| tried));
        let way = near.map_or_else(|| Way::of(&self.job), |tried| tried.way);
        let mut job = way.set(self.at(point));
        job.run.seed = (job.run.seed + SEED_SHIFT) % (2 * SEED_SHIFT);
        let (droplets, ways, sets) =
            if coarse { (NET, WAYS[0], SETS[0]) } else { (HUNT, WAYS[1], SETS[1]) };
        let look = look(&job, Some(sets));
        Trial::new(job, droplets, look, Choice::Of(ways))
    }

    /// The job at a point.
    fn at(&self, point: Point) -> Job {
        let mut job = self.job.clone();
        job.gun = self.net.setting(point);
        job.stroke.fan_axis = if point.along { FanAxis::Along } else { FanAxis::Across };
        job.stroke.distance = f64::from(point.distance) * DISTANCE_STEP;
        job
    }

    fn best_hunted(&self) -> Option<(&Point, &Tried)> {
        self.hunted.iter().reduce(|a, b| if b.1.rank() < a.1.rank() { b } else { a })
    }

    /// From the coarse net to the hunt: the best, and of the quickest.
    fn seed(&mut self) {
        let mut all: Vec<(Point, &Tried)> = self.screened.iter().map(|(p, t)| (*p, t)).collect();
        all.sort_by(|a, b| a.1.rank().0.cmp(&b.1.rank().0).then(a.1.rank().1.total_cmp(&b.1.rank().1)));
        let mut seeds: Vec<Point> = all.iter().take(SEEDS).map(|(p, _)| *p).collect();
        let pairs: Vec<(f64, f64)> = all.iter().map(|(_, t)| (t.paced.volume, t.paced.seconds)).collect();
        let sound = |i: &usize| all[*i].1.paced.is_sure();
        seeds.extend(front(&pairs).into_iter().filter(sound).take(4).map(|i| all[i].0));
        let mut once: Vec<Point> = Vec::new();
        for point in seeds {
            if !once.contains(&point) {
                once.push(point);
            }
        }
        let net = std::mem::replace(
            &mut self.net,
            Net::new(
                &self.job,
                &self.job.kit,
                self.job.gun.clone(),
                self.asked.limits(),
                &NetSpec::of_knobs(&self.job),
            ),
        );
        if once.is_empty() {
            self.answer.why_none = Some(net.why_none());
            self.work = Work::Over;
            return;
        }
        self.net = net.reseeded(once, TRIALS);
        self.work = Work::Hunt;
    }

    /// From the hunt to the full flights.
    fn choose(&mut self) {
        let mut all: Vec<(Point, &Tried)> = self.hunted.iter().map(|(p, t)| (*p, t)).collect();
        all.sort_by(|a, b| a.1.rank().0.cmp(&b.1.rank().0).then(a.1.rank().1.total_cmp(&b.1.rank().1)));
        self.full = all.iter().take(MORE).map(|(p, t)| t.way.set(self.at(*p))).collect();
        self.answer.trials = self.screened.len() + self.hunted.len();
        self.work = if self.full.is_empty() { Work::Over } else { Work::Full };
    }

    /// The best so far by few droplets, and the trade-off.
    fn partly(&mut self, point: Point, trial: &Trial, coarse: bool) {
        let pool = if coarse { &self.screened } else { &self.hunted };
        let best = pool.iter().reduce(|a, b| if b.1.rank() < a.1.rank() { b } else { a });
        if let Some((_, tried)) = best.filter(|(p, _)| **p == point) {
            let job = tried.way.set(self.at(point));
            self.answer.best = Some(found(&self.job, &job, trial, tried));
        }
        let sound: Vec<(Point, &Tried)> =
            pool.iter().filter(|(_, t)| t.paced.is_sure()).map(|(p, t)| (*p, t)).collect();
        let pairs: Vec<(f64, f64)> = sound.iter().map(|(_, t)| (t.paced.volume, t.paced.seconds)).collect();
        let point = |i: usize| {
            let (point, tried) = &sound[i];
            let job = tried.way.set(self.at(*point));
            FrontPoint {
                ml: tried.paced.volume * 1e6,
                ml_standard_error: tried.paced.standard_error() * 1e6,
                seconds: tried.paced.seconds,
                keys: keys(&self.job, &job),
            }
        };
        self.answer.front = front(&pairs).into_iter().map(point).collect();
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

/// Net of a search: over the knobs and two distances, between the usual ones.
fn spec(job: &Job) -> NetSpec {
    let [near, far] = Lever::Distance.limits(job);
    let at = |share: f64| ((near + share * (far - near)) / DISTANCE_STEP + 0.5) as i32;
    NetSpec {
        fans: vec![0.05, 0.25, 0.55, 1.0],
        fluids: vec![0.25, 0.5, 0.85],
        distances: vec![at(0.15), at(0.6)],
        reach: [at(0.0), at(1.0)],
        most: usize::MAX,
        refines: false,
    }
}
