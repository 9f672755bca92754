//! The hunt for the best set-ups by few droplets: a coarse net, steps to better neighbours of its best, and from the best to more fluid for
//! those that take more paint and less time.

use crate::in_order::InOrder;
use std::collections::BTreeMap;

use super::answer::{Found, FrontPoint, found};
use super::asked::Asked;
use super::front::front;
use super::lever::Lever;
use super::look::look;
use super::net::Net;
use super::point::{Ask, DISTANCE_STEP, NetSpec, Point, Rank};
use super::setup::keys;
use super::trial::{Choice, Trial, Tried};
use super::way::Way;
use crate::error::ParameterError;
use crate::job::{FanAxis, Job};

/// Droplets of a trial to the part and to the card: of the net, of the hunt.
const NET: [u64; 2] = [4_096, 8_192];
const HUNT: [u64; 2] = [8_192, 8_192];
/// Ways laid in a trial of the net and of the hunt.
const WAYS: [usize; 2] = [8, 24];
/// Parts whose film is let set in a trial of the net, and of the hunt.
pub(super) const SETS: [u64; 2] = [2, 6];
/// Best points of the net that the hunt starts from.
const SEEDS: usize = 6;
/// Quickest points of the net that it starts from.
const QUICK_SEEDS: usize = 4;
/// Trials of the hunt at most.
const TRIALS: usize = 50;
/// Steps from the best's fluid to the knob's end.
const LADDER: i32 = 6;
/// Moves the trials' streams away from the full flights'.
const SEED_SHIFT: u64 = 1 << 52;
/// What is wrong with a point that cannot be flown.
const NOTHING: u8 = 9;

/// What is being flown.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stage {
    Net,
    Hunt,
    Quicker,
    Over,
}

/// A hunt under way.
pub(super) struct Hunt {
    job: Job,
    net: Net,
    stage: Stage,
    trial: Option<(Point, Box<Trial>)>,
    /// What the coarse net gave.
    screened: BTreeMap<Point, Tried>,
    /// What the hunt gave.
    hunted: BTreeMap<Point, Tried>,
    /// What more fluid gave: for the trade-off alone.
    quicker: BTreeMap<Point, Tried>,
    /// The best of the pool in hand, when the last trial was it.
    news: Option<Found>,
    why_none: Option<String>,
}

impl Hunt {
    /// For a job; nothing is flown yet.
    pub fn new(job: &Job, asked: &Asked) -> Self {
        Self {
            net: Net::new(job, &job.kit, job.gun.clone(), asked.limits(), &spec(job)),
            job: job.clone(),
            stage: Stage::Net,
            trial: None,
            screened: BTreeMap::new(),
            hunted: BTreeMap::new(),
            quicker: BTreeMap::new(),
            news: None,
            why_none: None,
        }
    }

    /// Works on, a piece; true when it is over.
    pub fn advance(&mut self, asked: &Asked, most: u64, threads: bool) -> bool {
        let over = self.fly(asked, most, threads);
        match self.stage {
            Stage::Net if over => self.seed(asked),
            Stage::Hunt if over => self.climb(),
            Stage::Quicker if over => self.stage = Stage::Over,
            _ => {}
        }
        self.stage == Stage::Over
    }

    /// Share done, 0..=1.
    pub fn done(&self) -> f64 {
        let share = |flown: usize, of: usize| (flown as f64 / of.max(1) as f64).min(1.0);
        match self.stage {
            Stage::Net => 0.4 * share(self.net.flown(), self.net.flown() + self.net.left()),
            Stage::Hunt => 0.4 + 0.5 * share(self.net.flown(), TRIALS),
            Stage::Quicker => 0.9 + 0.1 * share(self.net.flown(), self.net.flown() + self.net.left()),
            Stage::Over => 1.0,
        }
    }

    /// The best by few droplets, when the last piece found it.
    pub fn news(&mut self) -> Option<Found> {
        self.news.take()
    }

    /// Why nothing could be flown.
    pub fn why_none(&self) -> Option<&String> {
        self.why_none.as_ref()
    }

    /// Set-ups flown.
    pub fn trials(&self) -> usize {
        self.screened.len() + self.hunted.len() + self.quicker.len()
    }

    /// The best set-ups of the hunt, best first.
    pub fn best(&self, most: usize) -> Vec<Job> {
        ranked(&self.hunted).into_iter().take(most).map(|(p, t)| t.way.set(self.at(p))).collect()
    }

    /// Set-ups that no other beats in both paint and time.
    pub fn front(&self) -> Vec<FrontPoint> {
        let pools =
            if self.stage == Stage::Net { vec![&self.screened] } else { vec![&self.hunted, &self.quicker] };
        let sure = pools.into_iter().flatten().filter(|(_, tried)| tried.paced.is_sure());
        let all: Vec<(Point, &Tried)> = sure.map(|(point, tried)| (*point, tried)).collect();
        let pairs: Vec<(f64, f64)> = all.iter().map(|(_, t)| (t.paced.volume, t.paced.seconds)).collect();
        let told = |i: usize| {
            let (point, tried) = &all[i];
            let job = tried.way.set(self.at(*point));
            FrontPoint {
                ml: tried.paced.volume * 1e6,
                ml_standard_error: tried.paced.standard_error() * 1e6,
                seconds: tried.paced.seconds,
                keys: keys(&self.job, &job),
            }
        };
        front(&pairs).into_iter().map(told).collect()
    }

    /// The next trial, a piece; true when the net is over.
    fn fly(&mut self, asked: &Asked, most: u64, threads: bool) -> bool {
        let Some((point, mut trial)) = self.trial.take() else {
            match self.net.ask(&self.job) {
                Ask::Wait => return false,
                Ask::Over => return true,
                Ask::Fly(point) => {
                    match self.trial_of(point) {
                        Ok(trial) => self.trial = Some((point, Box::new(trial))),
                        Err(_) => self.net.tell(point, Rank(NOTHING, 0.0)),
                    }
                    return false;
                }
            }
        };
        if !trial.advance(asked, most, threads) {
            self.trial = Some((point, trial));
            return false;
        }
        let Some(tried) = trial.tried() else {
            self.net.tell(point, Rank(NOTHING, 0.0));
            return false;
        };
        let (fault, figure) = tried.rank();
        self.net.tell(point, Rank(fault, figure));
        let pool = match self.stage {
            Stage::Net => &mut self.screened,
            Stage::Hunt => &mut self.hunted,
            _ => &mut self.quicker,
        };
        pool.insert(point, tried.clone());
        if self.stage != Stage::Quicker && best_of(pool).is_some_and(|(best, _)| *best == point) {
            let job = tried.way.set(self.at(point));
            self.news = Some(found(&self.job, &job, &trial, &tried));
        }
        false
    }

    fn trial_of(&self, point: Point) -> Result<Trial, ParameterError> {
        let near = self.hunted.get(&point).or_else(|| self.screened.get(&point));
        let near = near.or_else(|| best_of(&self.hunted).map(|(_, tried)| tried));
        let way = near.map_or_else(|| Way::of(&self.job), |tried| tried.way);
        let mut job = way.set(self.at(point));
        job.run.seed = (job.run.seed + SEED_SHIFT) % (2 * SEED_SHIFT);
        let coarse = self.stage == Stage::Net;
        let (droplets, ways, sets) = if coarse { (NET, WAYS[0], SETS[0]) } else { (HUNT, WAYS[1], SETS[1]) };
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

    /// From the coarse net to the hunt: the best, and of the quickest.
    fn seed(&mut self, asked: &Asked) {
        let all = ranked(&self.screened);
        let mut seeds: Vec<Point> = all.iter().take(SEEDS).map(|(p, _)| *p).collect();
        let pairs: Vec<(f64, f64)> = all.iter().map(|(_, t)| (t.paced.volume, t.paced.seconds)).collect();
        let sure = |i: &usize| all[*i].1.paced.is_sure();
        seeds.extend(front(&pairs).into_iter().filter(sure).take(QUICK_SEEDS).map(|i| all[i].0));
        let mut once: Vec<Point> = Vec::new();
        for point in seeds {
            if !once.contains(&point) {
                once.push(point);
            }
        }
        if once.is_empty() {
            self.why_none = Some(self.net.why_none());
            self.stage = Stage::Over;
            return;
        }
        let spec = NetSpec::of_knobs(&self.job);
        let empty = Net::new(&self.job, &self.job.kit, self.job.gun.clone(), asked.limits(), &spec);
        self.net = std::mem::replace(&mut self.net, empty).reseeded(once, TRIALS, true);
        self.stage = Stage::Hunt;
    }

    /// From the hunt to what is quicker: paint goes with the time at one flow, so a quicker part wants more fluid.
    fn climb(&mut self) {
        self.stage = Stage::Over;
        let Some(best) = best_of(&self.hunted).map(|(point, _)| *point) else { return };
        let room = self.net.fluid_turns() - best.fluid;
        let fluid = |i: i32| best.fluid + (i * room + LADDER / 2) / LADDER;
        let mut points: Vec<Point> = (1..=LADDER).map(|i| Point { fluid: fluid(i), ..best }).collect();
        points.dedup();
        points.retain(|point| !self.hunted.contains_key(point));
        let most = points.len();
        if most > 0 {
            let spec = NetSpec::of_knobs(&self.job);
            let empty = Net::new(&self.job, &self.job.kit, self.job.gun.clone(), self.net.limits(), &spec);
            self.net = std::mem::replace(&mut self.net, empty).reseeded(points, most, false);
            self.stage = Stage::Quicker;
        }
    }
}

/// The best of a pool.
fn best_of(pool: &BTreeMap<Point, Tried>) -> Option<(&Point, &Tried)> {
    pool.iter().reduce(|a, b| if b.1.rank() < a.1.rank() { b } else { a })
}

/// A pool, best first.
fn ranked(pool: &BTreeMap<Point, Tried>) -> Vec<(Point, &Tried)> {
    let mut all: Vec<(Point, &Tried)> = pool.iter().map(|(p, t)| (*p, t)).collect();
    all.in_order(|a, b| a.1.rank().0.cmp(&b.1.rank().0).then(a.1.rank().1.total_cmp(&b.1.rank().1)));
    all
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
