//! A comparison under way: your gun as set, your gun at its best, then each kit at its own.

use super::answer::{Answer, LimitFigures};
use super::candidate::Candidate;
use super::contender::{Best, Contender, Found};
use super::flown::Flown;
use super::row::{Figures, Row};
use super::saving::{Money, PayBack, Saving, Sure, sure};
use crate::error::ParameterError;
use crate::job::{Job, PartShape};
use crate::report::wanted;
use crate::run::Run;
use crate::search::{EVEN_ENOUGH, FINE_ENOUGH, HAND, LONGEST, Limits, sauter};

/// Kits beside your own at most.
pub const MOST_KITS: usize = 12;

enum Work {
    AsSet(Box<Run>),
    Gun(usize, Box<Contender>),
    Done,
}

/// A comparison under way. Every slicing and any number of threads give the same digits.
pub struct Comparison {
    job: Job,
    money: Money,
    candidates: Vec<Candidate>,
    target: f64,
    limits: Option<Limits>,
    rows: Vec<Row>,
    own: [Option<Flown>; 2],
    work: Work,
}

impl Comparison {
    /// Prepares the comparison of a job's gun with candidates; nothing is flown yet.
    ///
    /// # Errors
    /// A job that cannot be sprayed or has no passes, too many candidates, by key.
    pub fn new(job: Job, candidates: Vec<Candidate>, money: Money) -> Result<Self, ParameterError> {
        if let Some(burst) = job.stroke.burst {
            let allowed =
                "passes over the part (stroke.speed instead): kits are compared by the paint for a part";
            return Err(ParameterError::new("stroke.burst", format!("{burst} s"), allowed));
        }
        if let PartShape::Frame(_) = job.part {
            let allowed = "a panel, a curved panel or one tube: kits are not compared on a frame yet; take one of its tubes";
            return Err(ParameterError::new("part.frame", "a frame", allowed));
        }
        if candidates.len() > MOST_KITS {
            let allowed = format!("at most {MOST_KITS} kits beside your own");
            return Err(ParameterError::new("compare.kits", candidates.len(), allowed));
        }
        // A hand's errors are no gun's.
        let job = job.by_machine();
        let run = Box::new(Run::new(job.clone())?);
        let target = wanted(&job).map_or(0.0, |(low, high)| 0.5 * (low + high));
        Ok(Self {
            job,
            money,
            candidates,
            target,
            limits: None,
            rows: Vec::new(),
            own: [None, None],
            work: Work::AsSet(run),
        })
    }

    /// Works on, a piece of at most `most` droplets; true when all rows are there.
    pub fn advance(&mut self, most: u64) -> bool {
        self.step(most.max(1), false)
    }

    /// The same on all threads where the crate has them.
    pub fn advance_on_all_threads(&mut self, most: u64) -> bool {
        self.step(most.max(1), true)
    }

    /// Works to the end, on all threads where the crate has them.
    pub fn finish(&mut self) {
        while !self.advance_on_all_threads(u64::MAX) {}
    }

    /// Work done and wanted, in thousandths of a gun.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        const GUN: f64 = 1000.0;
        let total = (self.candidates.len() + 1) as f64 * GUN + 0.2 * GUN;
        let done = match &self.work {
            Work::AsSet(run) => {
                let (done, total) = run.progress();
                0.2 * GUN * done as f64 / total.max(1) as f64
            }
            Work::Gun(i, gun) => 0.2 * GUN + GUN * (*i as f64 + gun.done()),
            Work::Done => total,
        };
        (done as u64, total as u64)
    }

    /// The rows so far.
    #[must_use]
    pub fn answer(&self) -> Answer {
        Answer {
            name: self.job.name.clone(),
            film_um: (self.target > 0.0).then_some(self.target * 1e6),
            paint_price: self.money.paint_price,
            parts: self.money.parts,
            limits: self.limits.map(|l| LimitFigures {
                sauter_um: l.sauter * 1e6,
                even_percent: l.unevenness * 100.0,
                speed_mm_s: HAND.map(|v| v * 1e3),
                seconds: l.seconds,
            }),
            rows: self.rows.clone(),
        }
    }

    fn step(&mut self, most: u64, threads: bool) -> bool {
        match std::mem::replace(&mut self.work, Work::Done) {
            Work::AsSet(mut run) => {
                let complete = if threads { run.advance_on_all_threads(most) } else { run.advance(most) };
                if complete { self.as_set(&run) } else { self.work = Work::AsSet(run) }
            }
            Work::Gun(i, mut gun) => match gun.advance(most, threads) {
                Some(best) => self.take(i, best),
                None => self.work = Work::Gun(i, gun),
            },
            Work::Done => return true,
        }
        matches!(self.work, Work::Done)
    }

    /// Row 1, the film that all rows lay, and the limits that follow from it.
    fn as_set(&mut self, run: &Run) {
        let mut row = Row::new("as-set", &self.job, &self.job.kit, None, &self.job.neighbours);
        row.notes.extend(run.prepared().state.warnings.iter().map(ToString::to_string));
        if self.target <= 0.0 {
            self.target = run.film().mean_dry().0;
        }
        let flown = Flown::read(run, self.target).and_then(|flown| {
            // At the pressure that the supply gives.
            let job = &run.prepared().job;
            let figures = Figures::new(job, &flown)?;
            let (drops, _) = sauter(job, &job.kit, &job.gun)?;
            Ok((flown, figures, drops))
        });
        match flown {
            Ok((flown, figures, drops)) => {
                self.limits = Some(Limits {
                    sauter: drops.max(FINE_ENOUGH),
                    unevenness: flown.unevenness.0.max(EVEN_ENOUGH),
                    seconds: LONGEST * flown.seconds,
                });
                row.figures = Some(figures);
                self.own[0] = Some(flown);
                self.rows.push(row);
                self.begin(0);
            }
            // Without your own gun there is nothing to compare with.
            Err(error) => {
                row.cannot = Some(error.to_string());
                self.rows.push(row);
            }
        }
    }

    /// Starts the search of gun `i`: 0 your own, then the candidates.
    fn begin(&mut self, i: usize) {
        let Some(limits) = self.limits else { return };
        let mut job = self.job.clone();
        let (kit, rest) = match i.checked_sub(1) {
            None => (job.kit.clone(), job.gun.clone()),
            Some(k) => match self.candidates.get(k) {
                Some(candidate) => {
                    job.neighbours.clone_from(&candidate.neighbours);
                    (candidate.kit.clone(), candidate.kit.rated())
                }
                None => return,
            },
        };
        let gun = Contender::new(job, kit, rest, self.target, limits);
        self.work = Work::Gun(i, Box::new(gun));
    }

    fn take(&mut self, i: usize, best: Best) {
        let row = match i.checked_sub(1) {
            None => self.own_best(best),
            Some(k) => self.other(k, best),
        };
        self.rows.push(row);
        self.begin(i + 1);
    }

    fn own_best(&mut self, best: Best) -> Row {
        let mut row = Row::new("best", &self.job, &self.job.kit, None, &self.job.neighbours);
        let as_set = self.own[0].clone();
        match best {
            Err(why) => (row.keeps, row.cannot) = (false, Some(why)),
            Ok(Found { job, flown, short_of }) => {
                // As set it may be as good as any setting of the net.
                let kept = as_set.as_ref().filter(|own| own.volume <= flown.volume && self.keeps_limits(own));
                let (job, flown, short_of) = match kept {
                    Some(own) => (self.job.clone(), own.clone(), None),
                    None => (job, flown, short_of),
                };
                row.figures = Figures::new(&job, &flown).ok();
                row.saved = as_set.map(|own| Saving::between(&own, &flown, false));
                row.pays_back = row.saved.and_then(|s| PayBack::of(&s, Some(0.0), &self.money));
                row.sure = row.saved.map(|s| sure(&s, None, &self.money, short_of.is_none()));
                row.keeps = short_of.is_none();
                row.notes.extend(short_of);
                self.own[1] = Some(flown);
            }
        }
        row
    }

    fn keeps_limits(&self, own: &Flown) -> bool {
        use crate::report::PatternKind::{Balanced, Round};
        let pattern = matches!(own.kind, Some(Balanced | Round));
        let by_hand = (HAND[0]..=HAND[1]).contains(&own.speed);
        let held = own.air_against.is_none_or(|air| air.holds());
        let admitted = self.limits.is_some_and(|l| l.admit(&self.job, &self.job.kit, &self.job.gun).is_ok());
        pattern && by_hand && held && admitted
    }

    fn other(&self, k: usize, best: Best) -> Row {
        let Candidate { kit, price, neighbours } = &self.candidates[k];
        let mut row = Row::new(&label(k), &self.job, kit, *price, neighbours);
        let boxed = row.from_box;
        match best {
            Err(why) => {
                (row.keeps, row.cannot) = (false, Some(why));
                row.sure = Some(Sure::No);
            }
            Ok(Found { job, flown, short_of }) => {
                row.figures = Figures::new(&job, &flown).ok();
                let against =
                    |own: &Option<Flown>| own.as_ref().map(|own| Saving::between(own, &flown, boxed));
                row.saved = against(&self.own[0]);
                row.saved_more = against(&self.own[1]);
                // What the price buys is what turning your own knobs does not.
                if let Some(saving) = row.saved_more.or(row.saved) {
                    row.pays_back = PayBack::of(&saving, *price, &self.money);
                    row.sure = Some(sure(&saving, *price, &self.money, short_of.is_none()));
                }
                row.keeps = short_of.is_none();
                row.notes.extend(short_of);
            }
        }
        row
    }
}

/// "A" for the first kit, "B" for the second.
fn label(k: usize) -> String {
    char::from_u32('A' as u32 + k as u32).map_or_else(|| format!("{}", k + 1), String::from)
}
