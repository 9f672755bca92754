//! Points that share one flight: flown once, laid one after the other.

use super::answer::{Figure, Impossible, Point, Value};
use super::column::{Column, Needs};
use super::laid::Laid;
use super::plan::Plan;
use super::replicates::{Replicates, of_card};
use crate::error::ParameterError;
use crate::flight::levels;
use crate::job::{Job, JobError, PartShape};
use crate::run::{CARD_DROPLETS, FIRST_LOOK, Run};
use std::collections::VecDeque;

/// What a step of laying or setting takes, in droplets: so that pieces of work are about alike.
const STEP: u64 = 1024;

impl From<JobError> for Impossible {
    fn from(error: JobError) -> Self {
        let value = if error.value.is_empty() { String::new() } else { format!(" ({})", error.value) };
        let why = format!("{}{value}; allowed: {}", error.problem(), error.allowed);
        Self { key: error.key.clone(), why }
    }
}

impl From<ParameterError> for Impossible {
    fn from(error: ParameterError) -> Self {
        let why = format!("{} is not possible; allowed: {}", error.value, error.allowed);
        Self { key: error.key, why }
    }
}

/// Points of one flight that each want an error: at every look those that have it are laid and done, the others fly on. A run alone
/// looks at the same droplet numbers.
struct Looks {
    /// The job that is flown, its droplets the most that any point may have.
    base: Job,
    /// Droplets of the next look.
    look: u64,
    /// Points not held against it yet.
    here: VecDeque<usize>,
    /// Points that need more.
    later: VecDeque<usize>,
}

/// A flight and the points laid from it.
pub(super) struct Flight {
    waiting: VecDeque<usize>,
    /// The point whose film is being flown or laid.
    doing: Option<usize>,
    run: Option<Box<Run>>,
    looks: Option<Looks>,
    /// The short way of laying, once its first point is done and where it serves.
    laid: Option<Box<Laid>>,
    /// The short way served for no point the last time.
    in_vain: bool,
}

impl Flight {
    pub fn new(points: Vec<usize>) -> Self {
        Self { waiting: points.into(), doing: None, run: None, looks: None, laid: None, in_vain: false }
    }

    /// Works on, about `most` droplets; true when all its points are done. Finished points go to `done`.
    pub fn advance(&mut self, plan: &Plan, most: u64, threads: bool, done: &mut Vec<Point>) -> bool {
        let mut left = most.max(1);
        while left > 0 {
            let Some(point) = self.doing else {
                if self.looks.is_some() {
                    self.look(plan, &mut left, threads, done);
                    continue;
                }
                if threads && self.lay_many(plan, &mut left, done) {
                    continue;
                }
                let Some(next) = self.waiting.pop_front() else { return true };
                left = left.saturating_sub(STEP);
                if let Some(point) = self.lay(plan, next) {
                    done.push(point);
                    continue;
                }
                match self.begin(plan, next) {
                    Ok(()) if self.looks.is_some() => {}
                    Ok(()) => self.doing = Some(next),
                    Err(why) => done.push(plan.impossible(next, why)),
                }
                // Setting up, and a report below, are a piece of their own: of a frame they take as long as one.
                return false;
            };
            let Some(run) = &mut self.run else { return true };
            let (flown, wanted) = run.progress();
            let flying = wanted.saturating_sub(flown);
            let complete = if threads && flying > 1 {
                // The last droplet is left for below: with it the film would be laid in one long piece.
                let piece = left.min(flying - 1);
                left -= piece;
                run.advance_on_all_threads(piece)
            } else if flying > 0 {
                let piece = left.min(flying);
                left -= piece;
                run.advance(piece)
            } else {
                left = left.saturating_sub(STEP);
                run.advance(1)
            };
            if complete {
                self.doing = None;
                let point = read(plan, point, run).unwrap_or_else(|why| plan.impossible(point, why));
                let held = self.looks.as_ref().is_some_and(|looks| !looks.here.is_empty());
                if self.laid.is_none() && (held || !self.waiting.is_empty()) {
                    (self.laid, self.in_vain) = (Laid::new(plan, run).map(Box::new), false);
                }
                if let Some(laid) = &mut self.laid {
                    laid.learn(&point);
                }
                done.push(point);
                break;
            }
        }
        self.doing.is_none() && self.waiting.is_empty() && self.looks.is_none()
    }

    /// As many points the short way as `left` is worth, on all threads; those that need the long one wait on. False where none was laid.
    fn lay_many(&mut self, plan: &Plan, left: &mut u64, done: &mut Vec<Point>) -> bool {
        let (Some(laid), Some(run), false) = (&mut self.laid, &self.run, self.in_vain) else { return false };
        let most = usize::try_from(*left / STEP).unwrap_or(usize::MAX).max(1);
        let numbers: Vec<usize> = self.waiting.drain(..most.min(self.waiting.len())).collect();
        *left = left.saturating_sub(STEP.saturating_mul(numbers.len() as u64));
        let points = laid.points(plan, &numbers, run);
        let before = done.len();
        for (point, number) in points.into_iter().zip(numbers).rev() {
            match point {
                Some(point) => done.push(point),
                None => self.waiting.push_front(number),
            }
        }
        done[before..].reverse();
        self.in_vain = done.len() == before;
        !self.in_vain
    }

    /// A point the short way; none where it needs the long one.
    fn lay(&mut self, plan: &Plan, point: usize) -> Option<Point> {
        let (laid, run) = (self.laid.as_mut()?, self.run.as_ref()?);
        let point = laid.point(plan, point, &plan.job(point).ok()?, run);
        self.in_vain = point.is_none();
        point
    }

    /// Sets the run up for a point: with the droplets of the point before where they fly alike.
    fn begin(&mut self, plan: &Plan, point: usize) -> Result<(), Impossible> {
        let job = plan.job(point)?;
        if let Some(run) = &mut self.run
            && job.run.standard_error.is_none()
            && run.relay(job.clone())?
        {
            return Ok(());
        }
        let flown = |job: &Job| -> Result<Box<Run>, Impossible> {
            let run = Run::with_card(job.clone(), card_droplets(plan, job), levels()[0])?;
            Ok(Box::new(if plan.needs() < Needs::Set { run.only_laid() } else { run }))
        };
        if job.run.standard_error.is_some() && !self.waiting.is_empty() {
            let mut base = job.clone();
            base.run.standard_error = None;
            let run = flown(&base)?;
            // A hand's poses follow the droplets of its own run: those points are flown alone.
            if run.shelf().is_none() {
                (self.run, self.laid) = (Some(run), None);
                let here = std::iter::once(point).chain(self.waiting.drain(..)).collect();
                self.looks = Some(Looks { base, look: FIRST_LOOK, here, later: VecDeque::new() });
                return Ok(());
            }
        }
        (self.run, self.laid) = (Some(flown(&job)?), None);
        Ok(())
    }

    /// A piece of the way to the next look, or one point held against it.
    fn look(&mut self, plan: &Plan, left: &mut u64, threads: bool, done: &mut Vec<Point>) {
        let (Some(looks), Some(run)) = (&mut self.looks, &mut self.run) else { return };
        let most = looks.base.run.droplets;
        let stop = looks.look.min(most);
        if run.flown() < stop {
            let piece = (*left).min(stop - run.flown());
            *left -= piece;
            if threads {
                run.advance_on_all_threads(piece)
            } else {
                run.advance(piece)
            };
            return;
        }
        *left = left.saturating_sub(STEP);
        let Some(point) = looks.here.pop_front() else {
            std::mem::swap(&mut looks.here, &mut looks.later);
            looks.look = looks.look.saturating_mul(2);
            self.laid = None;
            // Nobody is left, or, what does not happen, the flight's own job is refused: those that are left fly alone.
            let over = looks.here.is_empty();
            if over || !run.relay(looks.base.clone()).unwrap_or(false) {
                self.waiting.append(&mut looks.here);
                (self.looks, self.run) = (None, None);
            } else {
                run.go_on();
            }
            return;
        };
        let job = match plan.job(point) {
            Ok(job) => job,
            Err(why) => return done.push(plan.impossible(point, why)),
        };
        if self.laid.is_none() {
            self.laid = Laid::new(plan, run).map(Box::new);
        }
        if let Some(laid) = &mut self.laid
            && let Some(sure) = laid.is_sure_enough(&job)
        {
            if stop < most && !sure {
                return looks.later.push_back(point);
            }
            if let Some(point) = laid.point(plan, point, &job, run) {
                return done.push(point);
            }
        }
        match run.relay(job).map_err(Impossible::from) {
            Ok(true) if stop == most || run.is_sure_enough() => {
                run.end_here();
                self.doing = Some(point);
            }
            Ok(true) => looks.later.push_back(point),
            // It needs droplets of its own.
            Ok(false) => self.waiting.push_back(point),
            Err(why) => done.push(plan.impossible(point, why)),
        }
    }

    /// Gives half of its waiting points to another with the same droplets, so that two threads can lay them; none where there is nothing
    /// to share, and where the short way needs no second flight.
    pub fn split(&mut self) -> Option<Self> {
        if self.waiting.len() < 2 || self.looks.is_some() || (self.laid.is_some() && !self.in_vain) {
            return None;
        }
        let run = self.run.as_ref()?.flown_again()?;
        let waiting = self.waiting.split_off(self.waiting.len() / 2);
        Some(Self { waiting, doing: None, run: Some(Box::new(run)), looks: None, laid: None, in_vain: false })
    }

    /// Points not done yet, the one under way by the share of it that is left.
    pub fn left(&self) -> f64 {
        let under_way = self.doing.and(self.run.as_ref()).map_or(0.0, |run| {
            let (flown, wanted) = run.progress();
            1.0 - 0.9 * flown as f64 / wanted.max(1) as f64
        });
        self.queued() as f64 + under_way
    }

    /// How many points are not done yet.
    pub fn points_left(&self) -> usize {
        self.queued() + usize::from(self.doing.is_some())
    }

    fn queued(&self) -> usize {
        self.waiting.len() + self.looks.as_ref().map_or(0, |looks| looks.here.len() + looks.later.len())
    }
}

/// Droplets to the large card: none where nothing hangs on them.
fn card_droplets(plan: &Plan, job: &Job) -> u64 {
    let spaces =
        !matches!(job.part, PartShape::Tube { .. } | PartShape::Frame(_)) && job.stroke.burst.is_none();
    let kept = plan.columns().iter().any(|c| c.needs == Needs::Card);
    if spaces || kept { CARD_DROPLETS } else { 0 }
}

/// A point's figures out of its run's report.
fn read(plan: &Plan, point: usize, run: &Run) -> Result<Point, Impossible> {
    let report = run.report()?;
    let values =
        serde_json::to_value(&report).map_err(|e| ParameterError::new("report", e, "plain figures"))?;
    let film = run.film();
    let replicates = Replicates::new(&film, run.flown());
    let figure = |column: &&'static Column| {
        let path = column.path;
        let value = walk(&values, path).and_then(|value| match value {
            serde_json::Value::Number(number) => number.as_f64().map(Value::Number),
            serde_json::Value::String(word) => Some(Value::Word(word.clone())),
            serde_json::Value::Bool(flag) => Some(Value::Flag(*flag)),
            _ => None,
        });
        let number = match value {
            Some(Value::Number(number)) => Some(number),
            _ => None,
        };
        let likely = column.range_ends().and_then(|ends| {
            let [low, high] = ends.map(|path| walk(&values, &path)?.as_f64());
            Some([low?, high?])
        });
        let without = number.filter(|_| column.counted).and_then(|number| {
            of_card(run, path).or_else(|| replicates.as_ref()?.of_film(path, number, report.paint.sprayed_ml))
        });
        Figure { value, standard_error: report.standard_errors.get(path).copied(), likely, without }
    };
    Ok(Point {
        number: point,
        settings: plan.settings(point).into_iter().map(String::from).collect(),
        droplets: report.droplets,
        figures: plan.columns().iter().map(figure).collect(),
        impossible: None,
        warnings: report.warnings.clone(),
    })
}

fn walk<'a>(values: &'a serde_json::Value, path: &str) -> Option<&'a serde_json::Value> {
    path.split('.').try_fold(values, |value, name| value.get(name))
}
