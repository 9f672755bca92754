//! What came out: point by point, figures with their uncertainty, and differences between points.

use super::Axis;
use crate::tally::GROUPS;
use serde::{Deserialize, Serialize};

/// A figure's value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Value {
    /// A number in the column's unit.
    Number(f64),
    /// A word: a pattern's name, a verdict.
    Word(String),
    /// Yes or no.
    Flag(bool),
}

/// One figure of a point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Figure {
    /// Its value; none where the run cannot say it.
    pub value: Option<Value>,
    /// Standard error of the count.
    pub standard_error: Option<f64>,
    /// Lower and upper end of the model's likely range.
    pub likely: Option<[f64; 2]>,
    /// The figure without each of the 16 replicate groups in turn: what differences between points get their error from.
    pub without: Option<Vec<f64>>,
}

impl Figure {
    /// Its number, where it is one.
    #[must_use]
    pub fn number(&self) -> Option<f64> {
        match self.value {
            Some(Value::Number(number)) => Some(number),
            _ => None,
        }
    }
}

/// Why a point cannot be sprayed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Impossible {
    /// The key at fault; empty where there is none.
    pub key: String,
    /// Why, in words, with what is allowed.
    pub why: String,
}

/// One point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Its number in the plan.
    pub number: usize,
    /// Value of each key varied, as written.
    pub settings: Vec<String>,
    /// Droplets flown to the part; 0 where it is impossible.
    pub droplets: u64,
    /// Figures in the order of the columns; empty where it is impossible.
    pub figures: Vec<Figure>,
    /// Why it cannot be sprayed.
    pub impossible: Option<Impossible>,
    /// What the painter should be told of it.
    pub warnings: Vec<String>,
}

/// All that is known by now.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The job's name.
    pub name: String,
    /// Keys varied; the last one changes fastest.
    pub axes: Vec<Axis>,
    /// Dotted paths of the figures.
    pub columns: Vec<String>,
    /// Points that are done, by their number.
    pub points: Vec<Point>,
    /// All that were asked for are done.
    pub complete: bool,
}

/// From a point to its neighbour: the next value of one key, the other key held.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// The key that is changed.
    pub key: String,
    /// Number of the point with the earlier value.
    pub from: usize,
    /// Number of the point with the later value.
    pub to: usize,
    /// Differences of the figures, the later less the earlier, in the order of the columns; none of words, and of what one of the two
    /// cannot say.
    pub figures: Vec<Option<Difference>>,
}

/// A difference of one figure.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Difference {
    /// In the column's unit.
    pub value: f64,
    /// Its standard error, paired by replicate groups; none where the figure has no replicates.
    pub standard_error: Option<f64>,
}

/// What is written as JSON.
#[derive(Serialize)]
struct Written<'a> {
    name: &'a str,
    axes: &'a [Axis],
    columns: &'a [String],
    points: &'a [Point],
    differences: Vec<Step>,
    complete: bool,
}

impl Answer {
    /// The answer as JSON, keys in a fixed order, with the differences of neighbouring points.
    #[must_use]
    pub fn to_json(&self) -> String {
        let written = Written {
            name: &self.name,
            axes: &self.axes,
            columns: &self.columns,
            points: &self.points,
            differences: self.steps(),
            complete: self.complete,
        };
        serde_json::to_string_pretty(&written).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
    }

    /// The steps between neighbouring points that are both done, key by key in the order of the points.
    #[must_use]
    pub fn steps(&self) -> Vec<Step> {
        let mut steps = Vec::new();
        let mut stride: usize = self.axes.iter().map(|axis| axis.values.len()).product();
        for axis in &self.axes {
            let count = axis.values.len().max(1);
            stride /= count;
            for to in self.points.iter().filter(|p| !(p.number / stride.max(1)).is_multiple_of(count)) {
                let Some(from) = self.point(to.number - stride) else { continue };
                let figures = (0..self.columns.len()).map(|i| {
                    let (a, b) = (to.figures.get(i)?, from.figures.get(i)?);
                    let value = a.number()? - b.number()?;
                    Some(Difference { value, standard_error: difference(a, b).map(|d| d.1) })
                });
                let (key, figures) = (axis.key.clone(), figures.collect());
                steps.push(Step { key, from: from.number, to: to.number, figures });
            }
        }
        steps
    }

    /// Index of a column.
    #[must_use]
    pub fn column(&self, path: &str) -> Option<usize> {
        self.columns.iter().position(|c| c == path)
    }

    /// A point by its number, where it is done.
    #[must_use]
    pub fn point(&self, number: usize) -> Option<&Point> {
        self.points.binary_search_by_key(&number, |p| p.number).ok().map(|i| &self.points[i])
    }

    /// A figure of one point less that of another, and its standard error: paired by replicate groups, so that chance that both
    /// share drops out. None where one of them is not known or has no replicates.
    #[must_use]
    pub fn difference(&self, path: &str, point: usize, less: usize) -> Option<(f64, f64)> {
        let column = self.column(path)?;
        let figure = |number| self.point(number)?.figures.get(column);
        difference(figure(point)?, figure(less)?)
    }
}

/// As [`Answer::difference`], of two figures.
pub(super) fn difference(a: &Figure, b: &Figure) -> Option<(f64, f64)> {
    let value = a.number()? - b.number()?;
    let (a, b) = (a.without.as_ref()?, b.without.as_ref()?);
    if a.len() != GROUPS || b.len() != GROUPS {
        return None;
    }
    let each: Vec<f64> = a.iter().zip(b).map(|(a, b)| a - b).collect();
    let n = GROUPS as f64;
    let mean = each.iter().sum::<f64>() / n;
    let spread: f64 = each.iter().map(|d| (d - mean) * (d - mean)).sum();
    Some((value, (spread * (n - 1.0) / n).sqrt()))
}
