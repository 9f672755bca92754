//! The search: every lever that the trade turns for the complaints, flown with few droplets on the streams of one first flight. A
//! change of the stroke alone needs no flight: the first flight's droplets are laid again.

use std::collections::VecDeque;

use super::Lever;
use super::change::{Move, changed, settled};
use super::climb::Climb;
use super::complaint::Complaint;
use super::judge::badness;
use super::measure::Measure;
use super::readout::{Readout, target_of};
use super::remedy::{Way, remedies};
use super::tried::{Tried, chosen, more, ranking};
use crate::compare::HAND;
use crate::error::ParameterError;
use crate::flight::levels;
use crate::job::{Job, RunSetting};
use crate::report::wanted;
use crate::run::Run;

/// What a place further down the trade's list counts [grades].
const RANK: f64 = 0.02;
/// A speed nearer than this to the present one is not worth a word [-].
const SAME_SPEED: f64 = 0.05;

enum Aim {
    /// The flight that others are laid from or held against.
    Ground,
    /// A value of the climb's lever.
    Value(f64),
    /// The same with the speed that keeps the film; how bad it is without.
    Paced(f64, f64),
}

struct Flying {
    moves: Vec<Move>,
    run: Box<Run>,
    aim: Aim,
    on_ground: bool,
}

/// A search under way.
pub(super) struct Search {
    job: Job,
    complaints: Vec<Complaint>,
    setting: RunSetting,
    card: u64,
    mean: f64,
    first: Option<(Readout, f64)>,
    ground: Option<Box<Run>>,
    ground_moves: Vec<Move>,
    flying: Option<Flying>,
    climb: Option<Climb>,
    waiting: VecDeque<Climb>,
    ways: usize,
    paired: bool,
    settles: bool,
    tried: Vec<Tried>,
}

impl Search {
    /// A search for what mends the complaints of a job whose mean dry film is `mean` [m].
    pub fn new(job: Job, complaints: Vec<Complaint>, mean: f64, droplets: [u64; 2]) -> Self {
        // The film's time costs more than its flight: only where it is what one complains of.
        let settles = complaints.iter().any(|c| c.measure.of_the_finish());
        let setting = RunSetting { droplets: droplets[0], standard_error: None, ..job.run };
        Self {
            job,
            complaints,
            setting,
            card: droplets[1],
            mean,
            first: None,
            ground: None,
            ground_moves: Vec::new(),
            flying: None,
            climb: None,
            waiting: VecDeque::new(),
            ways: 0,
            paired: false,
            settles,
            tried: Vec::new(),
        }
    }

    /// Share of the work done, 0..1.
    pub fn done(&self) -> f64 {
        let left = self.waiting.len() + usize::from(self.climb.is_some());
        if self.first.is_none() || self.ways == 0 {
            0.0
        } else {
            1.0 - left as f64 / self.ways.max(left) as f64
        }
    }

    /// Works on, a piece of at most `most` droplets; true when it is over.
    ///
    /// # Errors
    /// The job itself cannot be flown.
    pub fn advance(&mut self, most: u64, threads: bool) -> Result<bool, ParameterError> {
        if let Some(mut flying) = self.flying.take() {
            let complete =
                if threads { flying.run.advance_on_all_threads(most) } else { flying.run.advance(most) };
            if complete {
                self.land(flying)?;
            } else {
                self.flying = Some(flying);
            }
            return Ok(false);
        }
        if self.ground.is_none() {
            let moves = self.ground_moves.clone();
            let job = changed(&self.job, &moves, self.setting).unwrap_or_else(|| self.plain());
            let run = Box::new(self.run(job)?);
            self.flying = Some(Flying { moves, run, aim: Aim::Ground, on_ground: true });
            return Ok(false);
        }
        if let Some(climb) = self.climb.as_mut() {
            let Some(step) = climb.next(&self.job) else {
                self.climb = None;
                return Ok(false);
            };
            let moves: Vec<Move> = climb.with.iter().copied().chain([step]).collect();
            if !self.start(moves, step.to)
                && let Some(climb) = self.climb.as_mut()
            {
                climb.tell(step.to, None, None);
            }
            return Ok(false);
        }
        if let Some(next) = self.waiting.pop_front() {
            if next.with != self.ground_moves {
                self.ground_moves.clone_from(&next.with);
                self.ground = None;
            }
            self.climb = Some(next);
            return Ok(false);
        }
        if self.paired {
            return Ok(true);
        }
        self.paired = true;
        self.pair();
        Ok(self.waiting.is_empty())
    }

    fn run(&self, job: Job) -> Result<Run, ParameterError> {
        let run = Run::with_card(job, self.card, levels()[0])?;
        Ok(if self.settles { run } else { run.only_laid() })
    }

    fn plain(&self) -> Job {
        Job { run: self.setting, ..self.job.clone() }
    }

    /// Begins to fly a change; false where it cannot be.
    fn start(&mut self, moves: Vec<Move>, value: f64) -> bool {
        let Some(moves) = settled(&self.job, &moves) else { return false };
        let Some(job) = changed(&self.job, &moves, self.setting) else { return false };
        let aim = Aim::Value(value);
        if let Some(mut run) = self.ground.take() {
            if run.relay(job.clone()) == Ok(true) {
                self.flying = Some(Flying { moves, run, aim, on_ground: true });
                return true;
            }
            self.ground = Some(run);
        }
        match self.run(job) {
            Ok(run) => {
                self.flying = Some(Flying { moves, run: Box::new(run), aim, on_ground: false });
                true
            }
            Err(_) => false,
        }
    }

    /// Takes in what came out.
    fn land(&mut self, flying: Flying) -> Result<(), ParameterError> {
        let Flying { moves, mut run, aim, on_ground } = flying;
        let target = target_of(&run.prepared().job, self.mean);
        let readout = Readout::of(&run, target);
        let band = wanted(&run.prepared().job).filter(|_| run.prepared().job.stroke.burst.is_none());
        let Some((first, _)) = &self.first else {
            // The very first flight: the job as it is.
            let readout = readout?;
            let bad = badness(&readout, &readout, band);
            self.first = Some((readout, bad));
            self.ground = Some(run);
            self.begin(bad);
            return Ok(());
        };
        let bad = readout.as_ref().ok().map(|r| badness(r, first, band) + self.counts(&moves));
        let mean = readout.as_ref().map_or(0.0, |r| r.mean);
        if let (Ok(readout), Some(bad), false) = (readout, bad, matches!(aim, Aim::Ground)) {
            self.tried.push(Tried { moves: moves.clone(), readout, badness: bad });
        }
        let told = match aim {
            Aim::Ground => None,
            Aim::Paced(value, plain) => Some((value, plain, bad)),
            Aim::Value(value) => match (bad, self.pace(&run, &moves, mean)) {
                (Some(bad), Some((moves, job))) if run.relay(job.clone()) == Ok(true) => {
                    self.flying = Some(Flying { moves, run, aim: Aim::Paced(value, bad), on_ground });
                    return Ok(());
                }
                (bad, _) => {
                    if let Some(climb) = self.climb.as_mut() {
                        climb.tell(value, bad, None);
                    }
                    None
                }
            },
        };
        if let (Some((value, plain, paced)), Some(climb)) = (told, self.climb.as_mut()) {
            climb.tell(value, Some(plain), paced);
        }
        if on_ground {
            self.ground = Some(run);
        }
        Ok(())
    }

    /// The change with the speed that keeps the film where it belongs.
    fn pace(&self, run: &Run, moves: &[Move], mean: f64) -> Option<(Vec<Move>, Job)> {
        let job = &run.prepared().job;
        let taken = moves.iter().any(|m| m.lever == Lever::Speed);
        if taken || job.stroke.burst.is_some() || mean <= 0.0 {
            return None;
        }
        let inside = wanted(job).is_none_or(|(low, high)| (low..=high).contains(&self.mean));
        let target = if inside { self.mean } else { target_of(job, self.mean) };
        let from = job.stroke.speed;
        let to = Lever::Speed.rounded((from * mean / target).clamp(HAND[0], HAND[1]), job);
        if (to / from - 1.0).abs() < SAME_SPEED {
            return None;
        }
        let step = Move { lever: Lever::Speed, from, to };
        let moves: Vec<Move> = moves.iter().copied().chain([step]).collect();
        let job = changed(&self.job, &moves, self.setting)?;
        Some((moves, job))
    }

    /// What a change itself counts: one thing is better than two, and what comes first in the trade's list.
    fn counts(&self, moves: &[Move]) -> f64 {
        let rank = |m: &Move| {
            let place = |c: &Complaint| remedies(c.measure).iter().position(|w| *w == (m.lever, m.up()));
            self.complaints.iter().filter_map(place).min().unwrap_or(10) as f64
        };
        more(moves) + moves.first().map_or(0.0, |m| RANK * rank(m))
    }

    /// Queues the levers for all complaints.
    fn begin(&mut self, bad: f64) {
        let mut ways: Vec<Way> = Vec::new();
        for complaint in &self.complaints {
            // A film that is thin here and right elsewhere is uneven.
            let also =
                matches!(complaint.measure, Measure::Thin | Measure::Thick) && complaint.place != "all-over";
            let uneven = if also { remedies(Measure::Uneven) } else { &[] };
            for way in remedies(complaint.measure).iter().chain(uneven) {
                if !ways.contains(way) {
                    ways.push(*way);
                }
            }
        }
        self.waiting =
            ways.iter().map(|(lever, up)| Climb::new(*lever, *up, &self.job, Vec::new(), bad)).collect();
        self.ways = self.waiting.len();
    }

    /// Where the best single change leaves much of the worst complaint: the second best on top of it.
    fn pair(&mut self) {
        let Some(worst) = self.complaints.first() else { return };
        let measure = worst.measure;
        let ranking = self.ranking(measure);
        let Some(&best) = ranking.first() else { return };
        let best = &self.tried[best];
        let left = best.readout.value(measure).unwrap_or(0.0);
        let bearable = measure.bearable().max(measure.free());
        if measure == Measure::Paint || left <= bearable {
            return;
        }
        let apart = |m: &&Move| best.moves.iter().all(|b| b.lever != m.lever);
        let other = ranking.iter().skip(1).find_map(|&i| self.tried[i].moves.first().filter(apart));
        if let Some(&Move { lever, from, to }) = other {
            let climb = Climb::new(lever, to > from, &self.job, best.moves.clone(), best.badness);
            self.waiting.push_back(climb);
        }
    }

    /// Changes that mend a complaint and spoil nothing, best first, by their place among those flown.
    fn ranking(&self, measure: Measure) -> Vec<usize> {
        self.first.as_ref().map_or_else(Vec::new, |(first, _)| ranking(first, &self.tried, measure))
    }

    /// Changes that are worth a flight in full, each with the complaint it is for (by its place in the list).
    pub fn chosen(&self) -> Vec<(usize, Vec<Move>)> {
        self.first.as_ref().map_or_else(Vec::new, |(first, _)| chosen(first, &self.tried, &self.complaints))
    }
}
