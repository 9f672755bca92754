//! What is wrong with a run, read off its figures; worst first.

use crate::in_order::InOrder;
use serde::{Deserialize, Serialize};

use super::measure::Measure;
use super::place::spot;
use super::readout::Readout;
use crate::film::FilmMap;
use crate::report::{PatternKind, wanted};
use crate::run::Run;

/// Share of the paint that may pass a part by before it is a complaint [-]. Ours.
pub const LOST: f64 = 0.6;
/// Counting errors by which a figure must pass what is bearable.
const ERRORS: f64 = 3.0;

/// Something that is wrong.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Complaint {
    /// What it is measured by.
    pub measure: Measure,
    /// The figure, in the measure's unit; of `paint` the share that is not on the part [of 100].
    pub value: f64,
    /// Unit of `value`.
    pub unit: String,
    /// How bad, in steps of the measure.
    pub severity: f64,
    /// Name of the face it is worst on; empty where the part is one piece.
    pub face: String,
    /// Where on it; as in [`super::Spot`], empty where it has no place.
    pub place: String,
    /// What the gun's model warns of, where the complaint is that.
    pub warning: Option<String>,
}

/// All complaints of a run, worst first.
#[must_use]
pub fn complaints(readout: &Readout, run: &Run) -> Vec<Complaint> {
    let mut found = Vec::new();
    let mut add = |measure: Measure, value: f64, severity: f64, warning: Option<String>| {
        let spot = where_is(measure, run).unwrap_or_default();
        let unit = if measure == Measure::Paint { "of 100" } else { measure.unit() };
        let (face, place) = (spot.face, spot.place);
        found.push(Complaint { measure, value, unit: unit.into(), severity, face, place, warning });
    };
    for (&measure, figure) in &readout.figures {
        let value = figure.value;
        let named = match measure {
            Measure::Split => readout.kind == Some(PatternKind::Split),
            Measure::HeavyCentre => readout.kind == Some(PatternKind::HeavyCentre),
            Measure::HeavyEnd => readout.kind == Some(PatternKind::HeavyEnd),
            Measure::Starved => readout.kind == Some(PatternKind::Starved),
            Measure::Bent => readout.kind == Some(PatternKind::Crescent),
            Measure::Spat => readout.kind == Some(PatternKind::Spitting),
            Measure::Drops => {
                let flooded = readout.kind == Some(PatternKind::Flooded);
                flooded || (readout.fault.is_some() && readout.value(Measure::OverCap) == Some(0.0))
            }
            Measure::Paint => readout.lost > LOST,
            _ => value > measure.bearable() + ERRORS * figure.standard_error(),
        };
        if !named {
            continue;
        }
        let excess = (value - measure.free()).max(0.0) / measure.grade();
        match measure {
            Measure::Paint => add(measure, 100.0 * readout.lost, (readout.lost - LOST) / 0.15, None),
            Measure::Drops | Measure::OverCap => {
                add(measure, value, excess.max(1.0), readout.fault.clone());
            }
            _ => add(measure, value, excess.max(0.1), None),
        }
    }
    found.in_order(|a, b| b.severity.total_cmp(&a.severity).then(a.measure.cmp(&b.measure)));
    found
}

/// Where a complaint about the film is worst.
fn where_is(measure: Measure, run: &Run) -> Option<super::Spot> {
    let (film, job) = (run.film(), &run.prepared().job);
    let film: &FilmMap = &film;
    let marked = |word| {
        let set = run.set_film()?;
        spot(film, |cell| f64::from(u8::from(set.cells[cell].mark.word() == Some(word))))
    };
    let flag = |bad: bool| f64::from(u8::from(bad));
    let mean = film.mean_dry().0;
    match (measure, wanted(job)) {
        (Measure::Thin, Some((low, _))) => spot(film, |cell| flag(film.dry[cell] < low)),
        (Measure::Thick, Some((_, high))) => spot(film, |cell| flag(film.dry[cell] > high)),
        (Measure::Uneven, _) => spot(film, |cell| {
            let off = film.dry[cell] - mean;
            off * off
        }),
        (Measure::Runs, _) => marked("run"),
        (Measure::Dry, _) => marked("dry"),
        (Measure::Bare, _) => marked("bare"),
        _ => None,
    }
}
