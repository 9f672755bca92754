//! An advice: what to change, what it promises, and what it does besides.

use serde::{Deserialize, Serialize};

use super::Lever;
use super::change::{Move, keys};
use super::complaint::{Complaint, LOST};
use super::judge::{Side, sides};
use super::measure::Measure;
use super::readout::Readout;
use crate::job::Job;

/// Counting errors that a promised gain must pass.
pub const SURE: f64 = 3.0;

/// One lever of an advice.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// The lever.
    pub lever: Lever,
    /// More than before.
    pub more: bool,
    /// From, in the lever's own unit.
    pub from: f64,
    /// To, likewise.
    pub to: f64,
    /// Key of the job file.
    pub key: String,
    /// Its new value as the job file takes it.
    pub value: String,
}

/// What to change, found by flying it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Advice {
    /// The complaint that it mends.
    pub measure: Measure,
    /// Name of the face that the complaint is worst on.
    pub face: String,
    /// Where on it.
    pub place: String,
    /// What to change; the first is the cause, the others go with it.
    pub steps: Vec<Step>,
    /// The measure's figure before.
    pub before: f64,
    /// After.
    pub after: f64,
    /// Likely range of `after`: counting and the model.
    pub after_low: f64,
    /// Its upper end.
    pub after_high: f64,
    /// By how much it gets less.
    pub gain: f64,
    /// Likely range of `gain`.
    pub gain_low: f64,
    /// Its upper end.
    pub gain_high: f64,
    /// Counting error of `gain`.
    pub standard_error: f64,
    /// Unit of all these.
    pub unit: String,
    /// What it leaves is bearable.
    pub enough: bool,
    /// Other complaints that it mends besides.
    pub also: Vec<Measure>,
    /// What else it changes.
    pub sides: Vec<Side>,
    /// Paint sprayed, before and after [mL].
    pub sprayed_ml: [f64; 2],
    /// Trigger on, before and after [s].
    pub trigger_s: [f64; 2],
    /// Mean dry film, before and after [um].
    pub film_um: [f64; 2],
    /// Fan height after, on a flat card [mm].
    pub fan_mm: f64,
    /// What is outside the data sheet, before as after.
    pub outside: Vec<String>,
}

/// Least gain that is worth an advice, from what a figure is before.
#[must_use]
pub fn worth(measure: Measure, before: f64) -> f64 {
    match measure {
        Measure::Paint => 0.08 * before,
        Measure::Drops | Measure::OverCap | Measure::AirShort => 0.05 * before.max(1e-3),
        _ => (0.1 * before).max(0.2 * measure.grade()),
    }
}

/// A share of the area is at most 100.
fn within(measure: Measure, figure: f64) -> f64 {
    if measure.is_area() { figure.min(100.0) } else { figure }
}

impl Advice {
    /// The same advice with another hand's figures; none where the gain is not sure there.
    #[must_use]
    pub fn with_hand(&self, before: &Readout, after: &Readout) -> Option<Self> {
        let gain = before.figures.get(&self.measure)?.to(after.figures.get(&self.measure)?);
        (gain.value > SURE * gain.standard_error).then(|| Self {
            before: gain.before,
            after: gain.after,
            after_low: gain.after_range[0],
            after_high: within(self.measure, gain.after_range[1]),
            gain: gain.value,
            gain_low: gain.range[0],
            gain_high: gain.range[1],
            standard_error: gain.standard_error,
            ..self.clone()
        })
    }

    /// One advice of what several hands had of the same change: the mean gain, its error with the hands' scatter in it; none of
    /// no hand. Each of them has been sure for its own hand.
    #[must_use]
    pub fn of_all(hands: &[Self]) -> Option<Self> {
        let first = hands.first()?.clone();
        if hands.len() < 2 {
            return Some(first);
        }
        let n = hands.len() as f64;
        let mean = |of: fn(&Self) -> f64| hands.iter().map(of).sum::<f64>() / n;
        let gain = mean(|a| a.gain);
        let scatter = hands.iter().map(|a| (a.gain - gain) * (a.gain - gain)).sum::<f64>() / (n - 1.0);
        let error = (first.standard_error * first.standard_error + scatter).sqrt();
        let spread = 2.0 * scatter.sqrt();
        let least = |of: fn(&Self) -> f64| hands.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: fn(&Self) -> f64| hands.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        Some(Self {
            before: mean(|a| a.before),
            after: mean(|a| a.after),
            after_low: (least(|a| a.after_low) - spread).max(0.0),
            after_high: within(first.measure, most(|a| a.after_high) + spread),
            gain,
            gain_low: least(|a| a.gain_low) - spread,
            gain_high: most(|a| a.gain_high) + spread,
            standard_error: error,
            enough: hands.iter().all(|a| a.enough),
            ..first
        })
    }

    /// The advice of some moves, flown in full; none where the gain is not sure, not worth it, or spoils something else.
    #[must_use]
    pub fn of(
        complaints: &[Complaint],
        which: usize,
        moves: &[Move],
        job: &Job,
        before: &Readout,
        after: &Readout,
    ) -> Option<Self> {
        let complaint = complaints.get(which)?;
        let measure = complaint.measure;
        let gain = before.figures.get(&measure)?.to(after.figures.get(&measure)?);
        if gain.value <= SURE * gain.standard_error || gain.value < worth(measure, gain.before) {
            return None;
        }
        let sides = sides(before, after, measure, 0.0)?;
        let mended = |c: &&Complaint| {
            let now = after.value(c.measure);
            c.measure != measure
                && match c.measure {
                    Measure::Paint => after.lost <= LOST,
                    Measure::Drops => after.fault.is_none(),
                    _ => now.is_some_and(|v| v <= c.measure.bearable()),
                }
        };
        let also = complaints.iter().filter(mended).map(|c| c.measure).collect();
        let steps = moves.iter().zip(keys(job, moves)).map(|(m, (key, value))| Step {
            lever: m.lever,
            more: m.up(),
            from: m.from,
            to: m.to,
            key,
            value,
        });
        Some(Self {
            measure,
            face: complaint.face.clone(),
            place: complaint.place.clone(),
            steps: steps.collect(),
            before: gain.before,
            after: gain.after,
            after_low: gain.after_range[0],
            after_high: within(measure, gain.after_range[1]),
            gain: gain.value,
            gain_low: gain.range[0],
            gain_high: gain.range[1],
            standard_error: gain.standard_error,
            unit: measure.unit().into(),
            enough: measure == Measure::Paint || gain.after <= measure.bearable().max(measure.free()),
            also,
            sides,
            sprayed_ml: [before.sprayed, after.sprayed],
            trigger_s: [before.trigger, after.trigger],
            film_um: [before.mean * 1e6, after.mean * 1e6],
            fan_mm: after.fan * 1e3,
            outside: after.notes.iter().filter(|n| n.contains("outside")).cloned().collect(),
        })
    }
}
