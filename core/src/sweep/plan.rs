//! What is to be flown: a job, one or two keys with their values, and the figures to keep.

use super::answer::{Impossible, Point};
use super::axis::Axis;
use super::column::{Column, DEFAULT_COLUMNS, Needs};
use super::flight::Flight;
use crate::error::ParameterError;
use crate::in_order::InOrder;
use crate::job::{Job, with_key};

/// Keys varied at a time.
pub const MOST_AXES: usize = 2;
/// Points of a plan.
pub const MOST_POINTS: usize = 1_000_000;

/// Keys that say where the gun goes or what is made of the film, and nothing of how a droplet flies. A run is asked again before its
/// droplets are used for another point, so that a key too many here costs time and no digit.
const OF_THE_STROKE: [&str; 7] = [
    "stroke.speed",
    "stroke.overlap",
    "stroke.lead",
    "stroke.coats",
    "stroke.turn",
    "stroke.flash",
    "stroke.sides",
];
const OF_THE_FILM: [&str; 6] = ["spec.", "mix.", "card.", "compare.", "practice.", "supply.price."];

/// A sweep's plan. Points are numbered from 0, the last key changing fastest.
#[derive(Debug, Clone)]
pub struct Plan {
    name: String,
    text: String,
    axes: Vec<Axis>,
    columns: Vec<&'static Column>,
}

impl Plan {
    /// Plans the points of a job over one or two keys; `columns` are dotted paths of the report, empty for [`DEFAULT_COLUMNS`].
    ///
    /// # Errors
    /// No key or more than two, the same key twice, more than [`MOST_POINTS`] points, a column that is not known.
    pub fn new(job: &Job, axes: Vec<Axis>, columns: &[&str]) -> Result<Self, ParameterError> {
        if axes.is_empty() || axes.len() > MOST_AXES {
            let allowed = format!("one key to vary, or {MOST_AXES}");
            return Err(ParameterError::new("vary", format!("{} keys", axes.len()), allowed));
        }
        if let [a, b] = axes.as_slice()
            && a.key == b.key
        {
            return Err(ParameterError::new("vary", &a.key, "two different keys"));
        }
        let points = axes.iter().try_fold(1usize, |n, axis| n.checked_mul(axis.values.len()));
        if points.is_none_or(|n| n > MOST_POINTS) {
            return Err(ParameterError::new("vary", "too many points", format!("at most {MOST_POINTS}")));
        }
        let paths = if columns.is_empty() { DEFAULT_COLUMNS } else { columns };
        let columns = paths.iter().map(|path| Column::find(path)).collect::<Result<_, _>>()?;
        Ok(Self { name: job.name.clone(), text: job.text.clone(), axes, columns })
    }

    /// The job's name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Keys varied.
    #[must_use]
    pub fn axes(&self) -> &[Axis] {
        &self.axes
    }

    /// Figures kept.
    #[must_use]
    pub fn columns(&self) -> &[&'static Column] {
        &self.columns
    }

    /// Number of points.
    #[must_use]
    pub fn len(&self) -> usize {
        self.axes.iter().map(|axis| axis.values.len()).product()
    }

    /// It has no points.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Values of the keys at a point, as written.
    #[must_use]
    pub fn settings(&self, point: usize) -> Vec<&str> {
        let mut rest = point;
        let mut values: Vec<&str> = Vec::with_capacity(self.axes.len());
        for axis in self.axes.iter().rev() {
            let n = axis.values.len();
            values.push(&axis.values[rest % n]);
            rest /= n;
        }
        values.reverse();
        values
    }

    /// The job file's text at a point.
    ///
    /// # Errors
    /// Why the point is impossible: a value out of its key's range, keys that exclude each other.
    pub fn text(&self, point: usize) -> Result<String, Impossible> {
        let mut text = self.text.clone();
        for (axis, value) in self.axes.iter().zip(self.settings(point)) {
            text = with_key(&text, &axis.key, value)?;
        }
        Ok(text)
    }

    /// The job at a point.
    ///
    /// # Errors
    /// As [`Plan::text`].
    pub fn job(&self, point: usize) -> Result<Job, Impossible> {
        Ok(Job::from_toml(&self.text(point)?)?)
    }

    /// Points by flights: those of one flight differ by nothing that a droplet feels, so that they are best done together.
    #[must_use]
    pub fn flights(&self, points: impl IntoIterator<Item = usize>) -> Vec<Vec<usize>> {
        let mut flights: std::collections::BTreeMap<Vec<usize>, Vec<usize>> =
            std::collections::BTreeMap::new();
        for point in points {
            let (mut rest, mut place) = (point, Vec::new());
            for axis in self.axes.iter().rev() {
                let n = axis.values.len();
                place.push(if is_laid_anew(&axis.key) { 0 } else { rest % n });
                rest /= n;
            }
            flights.entry(place).or_default().push(point);
        }
        let mut flights: Vec<_> = flights.into_values().collect();
        flights.in_order(|a, b| a.first().cmp(&b.first()));
        flights
    }

    /// Flies one point alone, on all threads where the crate has them. A number past the last point gives none.
    #[must_use]
    pub fn fly(&self, point: usize) -> Option<Point> {
        if point >= self.len() {
            return None;
        }
        let mut flight = Flight::new(vec![point]);
        let mut done = Vec::new();
        while !flight.advance(self, u64::MAX, true, &mut done) {}
        done.pop()
    }

    pub(super) fn needs(&self) -> Needs {
        self.columns.iter().map(|c| c.needs).max().unwrap_or(Needs::Film)
    }

    pub(super) fn impossible(&self, point: usize, why: Impossible) -> Point {
        Point {
            number: point,
            settings: self.settings(point).into_iter().map(String::from).collect(),
            droplets: 0,
            figures: Vec::new(),
            impossible: Some(why),
            warnings: Vec::new(),
        }
    }
}

fn is_laid_anew(key: &str) -> bool {
    OF_THE_STROKE.contains(&key) || OF_THE_FILM.iter().any(|section| key.starts_with(section))
}

/// A share of a plan's points for one process of several: point i belongs to shard i mod n.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shard {
    /// Which, from 0.
    pub number: usize,
    /// Of how many.
    pub of: usize,
}

impl Shard {
    /// Reads "0/4".
    ///
    /// # Errors
    /// What is no shard.
    pub fn read(text: &str) -> Result<Self, ParameterError> {
        let whole = |t: &str| t.trim().parse::<usize>().ok();
        match text.split_once('/').and_then(|(i, n)| Some((whole(i)?, whole(n)?))) {
            Some((number, of)) if number < of && of <= MOST_POINTS => Ok(Self { number, of }),
            _ => {
                let allowed = format!("a shard and how many there are: 0/4 to 3/4; at most {MOST_POINTS}");
                Err(ParameterError::new("shard", text, allowed))
            }
        }
    }

    /// Its points.
    pub fn points(self, plan: &Plan) -> impl Iterator<Item = usize> {
        (self.number..plan.len()).step_by(self.of)
    }
}
