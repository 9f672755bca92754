//! One gun on its way to its best setting: the search with few droplets, then full runs with fresh streams.

use std::collections::BTreeMap;

use super::flown::Flown;
use super::trial::{Laid, Trial};
use crate::gun::{GunSetting, Kit};
use crate::job::{FanAxis, Job};
use crate::report::PatternKind;
use crate::run::Run;
use crate::search::{Ask, HAND, Limits, Net, NetSpec, Point, Rank};

/// Numbers of sides tried on a tube, besides the job's.
const SIDES: [u32; 3] = [2, 3, 4];
/// Settings flown in full at most, while the best of the search does not keep the limits.
const FULL_RUNS: usize = 4;
/// Half of the range of seeds: moves the search's streams away from the full runs'.
const SEED_SHIFT: u64 = 1 << 52;
/// Counting errors by which a full run may pass a limit.
const ERRORS: f64 = 2.0;

/// What is wrong with a setting, least first.
const NOTHING: u8 = 0;
const UNEVEN: u8 = 1;
const HAND_CANNOT: u8 = 2;
const NO_AIR: u8 = 3;
const PATTERN: u8 = 4;
const BARE: u8 = 9;

/// A gun at its best.
pub(super) struct Found {
    /// The job with its setting.
    pub job: Job,
    /// What came out of the full run.
    pub flown: Flown,
    /// Why it is not a setting to use, where no setting keeps the limits.
    pub short_of: Option<String>,
}

/// A gun at its best, or why there is none.
pub(super) type Best = Result<Found, String>;

/// A gun under search.
pub(super) struct Contender {
    job: Job,
    target: f64,
    limits: Limits,
    search: Net,
    trial: Option<(Point, Box<Trial>, bool)>,
    laid: BTreeMap<Point, Laid>,
    full: Option<Full>,
}

/// The full runs of the search's best.
struct Full {
    ranking: Vec<Point>,
    fault: u8,
    at: usize,
    run: Option<Box<Run>>,
    first: Option<(Job, Flown)>,
}

impl Contender {
    /// `job` is the whole job with this gun's kit; `rest` gives what no knob sets; `target` the mean dry film [m].
    pub fn new(job: Job, kit: Kit, rest: GunSetting, target: f64, limits: Limits) -> Self {
        let search = Net::new(&job, &kit, rest, limits, &NetSpec::of_knobs(&job));
        let job = Job { kit, ..job };
        Self { job, target, limits, search, trial: None, laid: BTreeMap::new(), full: None }
    }

    /// Share of the work done, 0..1.
    pub fn done(&self) -> f64 {
        match &self.full {
            None => 0.6 * (self.search.flown() as f64 / self.search.most() as f64).min(1.0),
            Some(full) => {
                let part = full.run.as_ref().map_or(0.0, |run| {
                    let (done, total) = run.progress();
                    done as f64 / total.max(1) as f64
                });
                0.6 + 0.4 * (full.at as f64 + part) / FULL_RUNS as f64
            }
        }
    }

    /// Works on, a piece of at most `most` droplets; the answer once there is one.
    pub fn advance(&mut self, most: u64, threads: bool) -> Option<Best> {
        if self.full.is_some() {
            return self.fly_full(most, threads);
        }
        match self.trial.take() {
            Some(trial) => self.fly_trial(trial, most, threads),
            None => match self.search.ask(&self.job) {
                Ask::Wait => {}
                Ask::Fly(point) => match Trial::new(self.at(point, None, true), self.target) {
                    Ok(trial) => self.trial = Some((point, Box::new(trial), false)),
                    Err(_) => self.search.tell(point, Rank(BARE, 0.0)),
                },
                Ask::Over => return self.begin_full(),
            },
        }
        None
    }

    /// The job at a point; a trial flies other streams than the full run.
    fn at(&self, point: Point, laid: Option<Laid>, trial: bool) -> Job {
        let mut job = self.job.clone();
        job.gun = self.search.setting(point);
        job.stroke.fan_axis = if point.along { FanAxis::Along } else { FanAxis::Across };
        if let Some(laid) = laid {
            job.stroke.sides = laid.sides;
            job.stroke.speed = laid.speed;
        }
        if trial {
            job.run.seed = (job.run.seed + SEED_SHIFT) % (2 * SEED_SHIFT);
        }
        job
    }

    fn fly_trial(&mut self, trial: (Point, Box<Trial>, bool), most: u64, threads: bool) {
        let (point, mut trial, mut card) = trial;
        if trial.needs_card() && !card {
            card = trial.fly_card(most, threads);
        } else if let Some(&laid) = self.laid.get(&point) {
            // All but the pattern is known, and it would be the best.
            if trial.fly_card(most, threads) {
                return self.tell(point, laid, trial.kind());
            }
        } else if trial.fly_part(most, threads) {
            let best = trial.laid(&SIDES).into_iter().map(|laid| (self.rank(&laid), laid));
            let best = best.reduce(|a, b| if b.0.beats(a.0) { b } else { a });
            let Some((rank, laid)) = best else { return self.search.tell(point, Rank(BARE, 0.0)) };
            self.laid.insert(point, laid);
            if card {
                return self.tell(point, laid, trial.kind());
            }
            if self.search.best().is_some_and(|best| !rank.beats(best)) {
                return self.search.tell(point, rank);
            }
        }
        self.trial = Some((point, trial, card));
    }

    fn tell(&mut self, point: Point, laid: Laid, kind: Option<PatternKind>) {
        let rank = self.rank(&laid);
        let spoilt = rank.0 < PATTERN && !pattern_does(kind);
        self.search.tell(point, if spoilt { Rank(PATTERN, laid.volume) } else { rank });
    }

    fn rank(&self, laid: &Laid) -> Rank {
        let by_hand = (HAND[0]..=HAND[1]).contains(&laid.speed) && laid.seconds <= self.limits.seconds;
        if !laid.held {
            Rank(NO_AIR, laid.volume)
        } else if !by_hand {
            Rank(HAND_CANNOT, laid.seconds)
        } else if laid.unevenness > self.limits.unevenness {
            Rank(UNEVEN, laid.unevenness)
        } else {
            Rank(NOTHING, laid.volume)
        }
    }

    fn begin_full(&mut self) -> Option<Best> {
        let ranking = self.search.ranking();
        let Some(&(_, Rank(fault, _))) = ranking.first().filter(|(_, rank)| rank.0 < BARE) else {
            return Some(Err(self.search.why_none()));
        };
        let ranking = ranking.into_iter().take_while(|(_, r)| r.0 == fault).map(|(p, _)| p);
        let ranking = ranking.take(FULL_RUNS).collect();
        self.full = Some(Full { ranking, fault, at: 0, run: None, first: None });
        None
    }

    fn fly_full(&mut self, most: u64, threads: bool) -> Option<Best> {
        let mut full = self.full.take()?;
        let Some(mut run) = full.run.take() else {
            let next = full.ranking.get(full.at).copied();
            let Some(point) = next else {
                // None of them keeps the limits in full: the best of the search, with a word about it.
                let note = self.note(full.fault.max(UNEVEN));
                return Some(
                    full.first
                        .map(|(job, flown)| Found { job, flown, short_of: Some(note) })
                        .ok_or_else(|| self.search.why_none()),
                );
            };
            let job = self.at(point, self.laid.get(&point).copied(), false);
            match Run::new(job) {
                Ok(run) => full.run = Some(Box::new(run)),
                Err(_) => full.at += 1,
            }
            self.full = Some(full);
            return None;
        };
        let complete = if threads { run.advance_on_all_threads(most) } else { run.advance(most) };
        if !complete {
            full.run = Some(run);
            self.full = Some(full);
            return None;
        }
        full.at += 1;
        if let Ok(flown) = Flown::read(&run, self.target) {
            let mut job = run.prepared().job.clone();
            job.stroke.speed = flown.speed;
            let (cv, error) = flown.unevenness;
            let held = flown.air_against.is_none_or(|air| air.holds());
            let even = held && cv <= self.limits.unevenness + ERRORS * error;
            if full.fault != NOTHING {
                return Some(Ok(Found { job, flown, short_of: Some(self.note(full.fault)) }));
            }
            if even && pattern_does(flown.kind) {
                return Some(Ok(Found { job, flown, short_of: None }));
            }
            full.first.get_or_insert((job, flown));
        }
        self.full = Some(full);
        None
    }

    fn note(&self, fault: u8) -> String {
        match fault {
            UNEVEN => format!(
                "no setting was found whose film is as even as {:.0} of 100",
                100.0 * self.limits.unevenness
            ),
            HAND_CANNOT => format!(
                "no setting was found that a hand can use: {:.2} to {:.2} m/s, at most {:.0} s for a part",
                HAND[0], HAND[1], self.limits.seconds
            ),
            NO_AIR => "your air holds no setting that was found".into(),
            _ => "no setting was found whose pattern is neither split nor heavy in the middle".into(),
        }
    }
}

fn pattern_does(kind: Option<PatternKind>) -> bool {
    matches!(kind, Some(PatternKind::Balanced | PatternKind::Round))
}
