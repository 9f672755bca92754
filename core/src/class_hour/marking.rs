//! The work of marking, in pieces.

use super::answered::{answer, five_tries, quantity, refuse};
use super::exercise::{Exercise, Mark, Unit};
use crate::compare::{Candidate, Comparison, Money, Row};
use crate::error::ParameterError;
use crate::flight::levels;
use crate::job::Job;
use crate::run::{CARD_DROPLETS, Run};
use crate::units::Quantity;

/// Turns in which a pattern is to be balanced.
const TURNS: u32 = 6;
/// How far from the wall gauge's pressure a guess may be [Pa].
const GUESS: f64 = 0.3e5;
/// How far from the best, or from the true amount, one may be [-].
const NEAR: f64 = 0.10;
/// Fans that a tube is tried with, besides the job's own: the fan knob's opening.
const FANS: [f64; 7] = [0.0, 0.1, 0.2, 0.35, 0.5, 0.75, 1.0];
/// Droplets of each: the share that lands is told to about half a hundredth of itself.
const FAN_DROPLETS: u64 = 24_000;
/// Droplets of a gun set beside another.
const BOX_DROPLETS: u64 = 20_000;

/// What is under way.
enum Work {
    /// Nothing to fly.
    Known(Mark),
    /// The card of a pattern.
    Card(Box<Run>),
    /// A tube under one fan after another: paint for the same film, so far.
    Fans(Box<Run>, Vec<f64>),
    /// The part that is mixed for.
    Mix(Box<Run>, f64),
    /// Two guns beside one's own.
    Boxes(Box<Comparison>, usize),
}

/// An exercise being marked.
pub struct Marking {
    job: Job,
    work: Work,
}

impl Marking {
    /// Prepares the marking of a job; nothing is flown yet.
    ///
    /// # Errors
    /// A job that is no exercise, holds no answer where one is asked for or one that cannot be read, or cannot be sprayed, by its key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let word = job.practice.exercise.clone().unwrap_or_default();
        let exercise = Exercise::named(&word).ok_or_else(|| {
            ParameterError::new("practice.exercise", "none", "a job that is an exercise of a class hour")
        })?;
        let work = match exercise {
            Exercise::FiveTries => Work::Known(five_tries(&job)?),
            Exercise::WallPressure => Work::Known(wall_pressure(&job)?),
            Exercise::Balance => {
                let mut job = job.clone();
                // The pattern is read off the card: the part needs no more than a droplet.
                job.run.droplets = 1;
                Work::Card(Box::new(Run::with_card(job, CARD_DROPLETS, levels()[0])?.only_laid()))
            }
            Exercise::FanForTube => Work::Fans(Box::new(under_fan(&job, job.gun.fan)?), Vec::new()),
            Exercise::MixForSix => {
                let given = quantity(&job, Quantity::Volume, "a volume with its unit: \"650 mL\"")?;
                Work::Mix(Box::new(Run::new(job.clone())?.only_laid()), given)
            }
            Exercise::TwoBoxes => {
                let letter = answer(&job)?;
                let chosen = match letter {
                    "A" | "a" => 0,
                    "B" | "b" => 1,
                    _ => return Err(refuse(letter, "\"A\" or \"B\"")),
                };
                let mut job = job.clone();
                job.run.droplets = job.run.droplets.min(BOX_DROPLETS);
                let (candidates, money) = (Candidate::of(&job)?, Money::of(&job));
                if candidates.len() != 2 {
                    let allowed = "two kits to choose between";
                    return Err(ParameterError::new("compare.kits", candidates.len(), allowed));
                }
                Work::Boxes(Box::new(Comparison::new(job, candidates, money)?), chosen)
            }
        };
        Ok(Self { job, work })
    }

    /// Flies at most `most` droplets more; true when the mark is known.
    ///
    /// # Errors
    /// What cannot be flown or said, by its key.
    pub fn advance(&mut self, most: u64) -> Result<bool, ParameterError> {
        let job = &self.job;
        let mark = match &mut self.work {
            Work::Known(_) => return Ok(true),
            Work::Card(run) => {
                if !run.advance(most) {
                    return Ok(false);
                }
                let pattern = run.report()?.pattern.map_or("none", |p| p.kind);
                balanced(job, pattern)
            }
            Work::Fans(run, paint) => {
                if !run.advance(most) {
                    return Ok(false);
                }
                paint.push(for_film(run)?);
                if let Some(fan) = FANS.get(paint.len() - 1) {
                    **run = under_fan(job, *fan)?;
                    return Ok(false);
                }
                least_paint(paint)
            }
            Work::Mix(run, given) => {
                if !run.advance(most) {
                    return Ok(false);
                }
                let plan = run.report()?.mix_plan(job)?;
                mixed(*given, plan.mixed - plan.rounding, plan.mixed)
            }
            Work::Boxes(comparison, chosen) => {
                if !comparison.advance(most) {
                    return Ok(false);
                }
                chosen_of(&comparison.answer().rows, *chosen)?
            }
        };
        self.work = Work::Known(mark);
        Ok(true)
    }

    /// Share of the work that is done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        let share = |(done, all): (u64, u64)| done as f64 / all.max(1) as f64;
        match &self.work {
            Work::Known(_) => 1.0,
            Work::Card(run) | Work::Mix(run, _) => share(run.progress()),
            Work::Fans(run, paint) => (paint.len() as f64 + share(run.progress())) / (FANS.len() + 1) as f64,
            Work::Boxes(comparison, _) => share(comparison.progress()),
        }
    }

    /// The mark, once it is known.
    #[must_use]
    pub fn mark(&self) -> Option<&Mark> {
        match &self.work {
            Work::Known(mark) => Some(mark),
            _ => None,
        }
    }
}

fn wall_pressure(job: &Job) -> Result<Mark, ParameterError> {
    let given = quantity(job, Quantity::Pressure, "a pressure with its unit: \"3.2 bar\"")?;
    let wall = crate::set_up::air_answer(job, &[])?.and_then(|answer| answer.wall).ok_or_else(|| {
        ParameterError::new("supply", "no wall gauge gives the pressure", "a supply that can give it")
    })?;
    let off = (given - wall.pulled).abs();
    Ok(Mark {
        exercise: Exercise::WallPressure.word().into(),
        figure: given,
        wanted: Some(wall.pulled),
        unit: Unit::Pressure,
        off,
        goal: GUESS,
        said: None,
        reached: off <= GUESS,
    })
}

fn balanced(job: &Job, pattern: &str) -> Mark {
    let turns = job.practice.turns;
    Mark {
        exercise: Exercise::Balance.word().into(),
        figure: f64::from(turns),
        wanted: None,
        unit: Unit::Turns,
        off: f64::from(turns),
        goal: f64::from(TURNS),
        said: Some(pattern.into()),
        reached: pattern == crate::report::PatternKind::Balanced.word() && turns <= TURNS,
    }
}

/// The job's tube under a fan, by a machine: the gun counts, not the hand.
fn under_fan(job: &Job, fan: f64) -> Result<Run, ParameterError> {
    let mut job = job.by_machine();
    job.gun.fan = fan;
    job.run.droplets = FAN_DROPLETS;
    job.run.standard_error = None;
    Ok(Run::with_card(job, 0, levels()[0])?.only_laid())
}

/// Paint for the film wanted over the part, or for 10 um of dry film where none is [m3].
fn for_film(run: &Run) -> Result<f64, ParameterError> {
    let prepared = run.prepared();
    let dry = crate::judge::wanted(&prepared.job).map_or(10e-6, |(low, high)| 0.5 * (low + high));
    let landed = run.report()?.transfer_efficiency.value;
    if landed <= 0.0 {
        return Err(ParameterError::new("gun.fan", "no paint lands", "a fan that meets the tube"));
    }
    Ok(dry * run.film().area() / prepared.spray.volume_solids / landed)
}

fn least_paint(paint: &[f64]) -> Mark {
    let (own, best) = (paint[0], paint.iter().copied().fold(f64::INFINITY, f64::min));
    let off = own / best - 1.0;
    Mark {
        exercise: Exercise::FanForTube.word().into(),
        figure: own,
        wanted: Some(best),
        unit: Unit::Volume,
        off,
        goal: NEAR,
        said: None,
        reached: off <= NEAR,
    }
}

/// An amount between what is needed and what that is rounded up to is not off.
fn mixed(given: f64, need: f64, rounded: f64) -> Mark {
    let off = (given - given.clamp(need, rounded.max(need))).abs() / need;
    Mark {
        exercise: Exercise::MixForSix.word().into(),
        figure: given,
        wanted: Some(rounded),
        unit: Unit::Volume,
        off,
        goal: NEAR,
        said: None,
        reached: off <= NEAR,
    }
}

/// The gun chosen among those that keep the limits, your air among them: by the paint for a part.
pub(super) fn chosen_of(rows: &[Row], chosen: usize) -> Result<Mark, ParameterError> {
    let boxes: Vec<&Row> =
        rows.iter().filter(|row| !["as-set", "best"].contains(&row.label.as_str())).collect();
    let paint = |row: &Row| row.figures.as_ref().map(|f| f.ml * 1e-6);
    let best =
        boxes.iter().filter(|row| row.keeps).filter_map(|row| paint(row)).fold(f64::INFINITY, f64::min);
    let cannot = |what: &str| {
        ParameterError::new("compare.kits", what, "two kits of which one at least does the part")
    };
    let row = boxes.get(chosen).ok_or_else(|| cannot("one kit"))?;
    if !best.is_finite() {
        return Err(cannot("no kit keeps the limits"));
    }
    // A gun that cannot do the part has no paint to tell: as far off as can be.
    let (figure, off) = match paint(row) {
        Some(own) if row.keeps => (own, own / best - 1.0),
        Some(own) => (own, (own / best - 1.0).max(1.0)),
        None => (0.0, 1.0),
    };
    Ok(Mark {
        exercise: Exercise::TwoBoxes.word().into(),
        figure,
        wanted: Some(best),
        unit: Unit::Volume,
        off,
        goal: NEAR,
        said: Some(row.label.clone()),
        reached: row.keeps && off <= NEAR,
    })
}
