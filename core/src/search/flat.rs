//! How exact each knob must be: one thing at a time is turned away from the best, speed and spacing going with it, until a part takes 1 % more
//! paint or something stops it. All on the same streams.

use crate::in_order::InOrder;
use std::collections::VecDeque;

use serde::{Deserialize, Serialize};

use super::asked::Asked;
use super::lever::Lever;
use super::look::Look;
use super::paced::Paced;
use super::setup::turned;
use super::side::Side;
use super::stop::What;
use super::trial::{Choice, Trial, Tried};
use crate::error::ParameterError;
use crate::job::{Job, with_key};

/// More paint that counts as the same [-].
pub const SAME: f64 = 0.01;
/// Droplets to the part and to the card.
const DROPLETS: [u64; 2] = [12_288, 8_192];
/// Counting errors of a range.
const ERRORS: f64 = 2.0;
/// A neighbour this much better, and more than the errors, is worth another full flight [-].
const BETTER: f64 = 0.003;
/// Moves its streams away from those that the best was chosen by.
const SEED: u64 = 1 << 50;

/// How far one thing may be turned.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Flat {
    /// What is turned.
    pub lever: Lever,
    /// As it should be, in the lever's own unit.
    pub at: f64,
    /// Lowest that is as good.
    pub low: End,
    /// Highest.
    pub high: End,
    /// What was flown: value, more paint [%], its counting error.
    pub points: Vec<[f64; 3]>,
}

/// An end of what is as good.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct End {
    /// Where.
    pub value: f64,
    /// Nearest and farthest to the best that it may be, by twice the counting error.
    pub range: [f64; 2],
    /// What ends it there.
    pub what: What,
}

/// The look round the best.
pub struct Flats {
    job: Job,
    look: Look,
    base: Option<Tried>,
    trial: Option<Box<Trial>>,
    value: f64,
    side: Option<Side>,
    waiting: VecDeque<Side>,
    sides: usize,
    flats: Vec<Flat>,
    better: Option<(f64, Job)>,
}

impl Flats {
    /// Round a job's set-up.
    ///
    /// # Errors
    /// A set-up that cannot be sprayed, by its key.
    pub fn new(job: Job, look: Look) -> Result<Self, ParameterError> {
        let mut job = job;
        job.run.seed = (job.run.seed + SEED) % (1 << 53);
        let trial = Trial::new(job.clone(), DROPLETS, look, Choice::Own)?;
        let mut waiting = VecDeque::new();
        for lever in
            turned(&job).into_iter().filter(|lever| *lever != Lever::AirKnob && *lever != Lever::Speed)
        {
            for up in [false, true] {
                let at = lever.now(&job);
                waiting.push_back(Side::new(lever, up, at));
            }
        }
        let sides = waiting.len();
        Ok(Self {
            job,
            look,
            base: None,
            trial: Some(Box::new(trial)),
            value: 0.0,
            side: None,
            waiting,
            sides,
            flats: Vec::new(),
            better: None,
        })
    }

    /// Share done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        1.0 - self.waiting.len() as f64 / self.sides.max(1) as f64
    }

    /// What is known by now.
    #[must_use]
    pub fn answer(&self) -> Vec<Flat> {
        self.flats.clone()
    }

    /// A neighbour that is better than the best, as far as this tells.
    #[must_use]
    pub fn better(&self) -> Option<Job> {
        self.better.as_ref().map(|(_, job)| job.clone())
    }

    /// Works on, a piece; true when it is over.
    pub fn advance(&mut self, asked: &Asked, most: u64, threads: bool) -> bool {
        if let Some(mut trial) = self.trial.take() {
            if !trial.advance(asked, most, threads) {
                self.trial = Some(trial);
                return false;
            }
            let tried = trial.tried();
            if self.base.is_none() {
                let Some(tried) = tried else { return true };
                self.flats.push(speed(&tried));
                self.base = Some(tried);
            } else {
                let job = trial.flight().prepared().job.clone();
                self.tell(tried, job);
            }
            return false;
        }
        let Some(mut side) = self.side.take().or_else(|| self.waiting.pop_front()) else { return true };
        match side.next(&self.job) {
            Some(value) => match self.trial_at(&side, value, asked) {
                Ok(trial) => {
                    self.value = value;
                    self.trial = Some(Box::new(trial));
                    self.side = Some(side);
                }
                Err(what) => {
                    side.bad = Some((value, what));
                    self.go_on(side);
                }
            },
            None => self.close(side),
        }
        false
    }

    /// A trial of one lever at another value, or what forbids it.
    fn trial_at(&self, side: &Side, value: f64, asked: &Asked) -> Result<Trial, What> {
        let base = self.base.as_ref().ok_or(What::Gun)?;
        let text = with_key(&self.job.text, side.lever.key(), &side.lever.literal(value, &self.job));
        let read = Job::from_toml(&text.map_err(|_| What::Gun)?).map_err(|_| What::Gun)?;
        let mut job = Job { gun: read.gun, ..self.job.clone() };
        (job.stroke.distance, job.stroke.fan_axis) = (read.stroke.distance, read.stroke.fan_axis);
        job = base.way.set(job);
        (job.stroke.overlap, job.stroke.sides) = (read.stroke.overlap, read.stroke.sides);
        asked.limits().admit(&job, &job.kit, &job.gun).map_err(|_| What::Gun)?;
        let fixed = matches!(side.lever, Lever::Overlap | Lever::Sides);
        let choice = if fixed { Choice::Own } else { Choice::Of(24) };
        Trial::new(job, DROPLETS, self.look, choice).map_err(|_| What::Gun)
    }

    fn tell(&mut self, tried: Option<Tried>, job: Job) {
        let (Some(mut side), Some(base)) = (self.side.take(), &self.base) else { return };
        let value = self.value;
        let Some(tried) = tried else {
            side.bad = Some((value, What::Gun));
            return self.go_on(side);
        };
        let (more, error) = tried.paced.against(&base.paced);
        let stop = tried.paced.stops.first().or(tried.paced.unsure.first());
        if let Some(stop) = stop.filter(|_| base.paced.is_sure()) {
            side.bad = Some((value, stop.what));
            return self.go_on(side);
        }
        let gain = -more - ERRORS * error;
        if gain > BETTER && base.paced.is_sure() && self.better.as_ref().is_none_or(|(g, _)| gain > *g) {
            self.better = Some((gain, tried.way.set(job)));
        }
        self.of(side.lever).points.push([value, 100.0 * more, 100.0 * error]);
        if more > SAME {
            let (from, paint, _) = side.good;
            let cross = |level: f64| {
                let share = ((level - paint) / (more - paint).max(1e-9)).clamp(0.0, 1.0);
                from + (value - from) * share
            };
            let end = End {
                value: cross(SAME),
                range: [cross(SAME - ERRORS * error), cross(SAME + ERRORS * error)],
                what: What::Paint,
            };
            return self.end(&side, end);
        }
        side.good = (value, more, error);
        self.go_on(side);
    }

    /// On with a side.
    fn go_on(&mut self, mut side: Side) {
        if side.bad.is_some() {
            side.halvings += 1;
        } else {
            side.step += 1;
        }
        self.side = Some(side);
    }

    /// Nothing more to try on a side.
    fn close(&mut self, side: Side) {
        let value = side.good.0;
        let what = match side.bad {
            Some((_, what)) => what,
            None => match side.lever {
                Lever::Pressure if self.job.sheet.pressure.is_some() => What::Sheet,
                Lever::Distance | Lever::Overlap | Lever::Sides | Lever::Axis => What::Reach,
                _ => What::Gun,
            },
        };
        self.end(&side, End { value, range: [value, side.bad.map_or(value, |bad| bad.0)], what });
    }

    /// What is known of a lever.
    fn of(&mut self, lever: Lever) -> &mut Flat {
        let at = lever.now(&self.job);
        let place = self.flats.iter().position(|f| f.lever == lever).unwrap_or_else(|| {
            let none = End { value: at, range: [at; 2], what: What::Gun };
            self.flats.push(Flat { lever, at, low: none, high: none, points: vec![[at, 0.0, 0.0]] });
            self.flats.len() - 1
        });
        &mut self.flats[place]
    }

    fn end(&mut self, side: &Side, end: End) {
        let flat = self.of(side.lever);
        *(if side.up { &mut flat.high } else { &mut flat.low }) = end;
        flat.points.in_order(|a, b| a[0].total_cmp(&b[0]));
        self.side = None;
    }
}

/// Speed: paint goes with 1 over it, and faster the film is no longer what is asked.
fn speed(base: &Tried) -> Flat {
    let Paced { speed, bound, .. } = base.paced;
    let low = speed / (1.0 + SAME);
    Flat {
        lever: Lever::Speed,
        at: speed,
        low: End { value: low, range: [low; 2], what: What::Paint },
        high: End {
            value: speed,
            range: [speed; 2],
            what: if bound == What::Fast { bound } else { What::Thin },
        },
        points: vec![[low, 100.0 * SAME, 0.0], [speed, 0.0, 0.0]],
    }
}
