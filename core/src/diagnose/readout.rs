//! All figures of a flown run that a complaint or an advice may be about.

use crate::in_order::InOrder;
use std::collections::BTreeMap;

use super::figure::Figure;
use super::measure::Measure;
use crate::compare::{Flown, fault, sauter};
use crate::error::ParameterError;
use crate::film::{FilmMap, squares};
use crate::gun::{HVLP_LIMIT, Warning};
use crate::job::Job;
use crate::report::{AlongFan, Pattern, PatternKind, STARVED, along_fan, wanted};
use crate::run::Run;
use crate::tally::GROUPS;

/// Counting noise of a fan's bow at [`AT`] parcels on the card [-] (computed, docs/methods/pattern-names.md).
const BOW_NOISE: f64 = 0.05;
/// See [`BOW_NOISE`].
const AT: f64 = 200_000.0;

/// A run's figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Readout {
    /// The figures it can say.
    pub figures: BTreeMap<Measure, Figure>,
    /// Mean dry film [m].
    pub mean: f64,
    /// Trigger on, for a part with the film wanted [s].
    pub seconds: f64,
    /// Trigger on, as flown [s].
    pub trigger: f64,
    /// Paint sprayed, as flown [mL].
    pub sprayed: f64,
    /// Fan height on a flat card [m].
    pub fan: f64,
    /// The fan's height spaces the passes, or there are none: a narrow fan is no cure there.
    pub by_the_fan: bool,
    /// The pattern's name.
    pub kind: Option<PatternKind>,
    /// What speaks against the gun as set.
    pub fault: Option<String>,
    /// The job's notes: what is outside the data sheet among them.
    pub notes: Vec<String>,
    /// Largest counting error of a cell over the band wanted [-]; 0 without a band.
    pub cell_noise: f64,
    /// Of all sprayed, the share that is not on the part [-].
    pub lost: f64,
}

impl Readout {
    /// Reads a finished run; paint and time are told for a mean dry film of `target` [m].
    ///
    /// # Errors
    /// Nothing landed on the part, or a value out of a model's range.
    pub fn of(run: &Run, target: f64) -> Result<Self, ParameterError> {
        let prepared = run.prepared();
        let job = &prepared.job;
        let flown = Flown::read(run, target)?;
        let film = run.film();
        let mut figures = BTreeMap::new();
        let burst = job.stroke.burst.is_some();
        let ratios: Vec<_> = flown.variants.iter().map(|v| (v.0, flown.volume / v.1)).collect();
        let mut cell_noise = 0.0;
        if let Some((low, high)) = wanted(job).filter(|_| !burst) {
            figures.insert(Measure::Thin, area(&film, &ratios, |h| h < low));
            figures.insert(Measure::Thick, area(&film, &ratios, |h| h > high));
            cell_noise = film.cell_error() / (high - low).max(1e-9);
        }
        if let Some(set) = run.set_film().filter(|_| !burst) {
            for (measure, word) in [(Measure::Runs, "run"), (Measure::Dry, "dry"), (Measure::Bare, "bare")] {
                let share = 100.0 * set.share(word);
                figures.insert(measure, beyond(&film, &ratios, share, measure == Measure::Runs));
            }
        }
        if let Some((all, without)) = squares(&film).filter(|_| !burst) {
            let cv = |square: f64| 100.0 * square.max(0.0).sqrt();
            let own = Figure { without: without.map(cv), ..Figure::certain(cv(all)) };
            figures.insert(Measure::Uneven, own);
        }
        if !burst {
            let ml = 1e6;
            let paint = Figure {
                without: flown.without.map(|v| v * ml),
                variants: flown.variants.iter().map(|v| (v.0, v.1 * ml)).collect(),
                ..Figure::certain(flown.volume * ml)
            };
            figures.insert(Measure::Paint, paint);
        }
        figures.extend(spray(run));
        let (drops, state) = sauter(job, &job.kit, &job.gun)?;
        figures.insert(Measure::Drops, Figure::certain(drops * 1e6));
        if state.warnings.iter().any(|w| matches!(w, Warning::OverHvlpLimit(_))) {
            let over = (state.air.cap_pressure - HVLP_LIMIT).max(0.0) * 1e-5;
            figures.insert(Measure::OverCap, Figure::certain(over));
        } else {
            figures.insert(Measure::OverCap, Figure::certain(0.0));
        }
        if let Some(air) = flown.air_against {
            let short = if air.holds() { 0.0 } else { (-air.margin_l_min).max(1.0) };
            figures.insert(Measure::AirShort, Figure::certain(short));
        }
        let trigger = flown.seconds * flown.film / target.max(f64::MIN_POSITIVE);
        let volume = prepared.spray.volume_flow * trigger;
        let solids = volume * prepared.spray.volume_solids;
        let lost = if solids > 0.0 { (1.0 - flown.film * film.area() / solids).clamp(0.0, 1.0) } else { 0.0 };
        Ok(Self {
            figures,
            mean: flown.film,
            seconds: flown.seconds,
            trigger,
            sprayed: volume * 1e6,
            fan: flown.fan,
            by_the_fan: burst || prepared.spaced_by_fan(),
            kind: flown.kind,
            fault: fault(&state).map(|f| f.words),
            notes: job.notes.clone(),
            cell_noise,
            lost,
        })
    }

    /// A figure's value; none where the run cannot say it.
    #[must_use]
    pub fn value(&self, measure: Measure) -> Option<f64> {
        self.figures.get(&measure).map(|f| f.value)
    }
}

/// Share of the area where `bad` holds of the dry film [%]; `ratios` are the variants' films over the model's own.
fn area(film: &FilmMap, ratios: &[(&'static str, f64)], bad: impl Fn(f64) -> bool) -> Figure {
    let share =
        |dry: &dyn Fn(usize) -> f64| 100.0 * film.mean_over_area(|cell| f64::from(u8::from(bad(dry(cell)))));
    let value = share(&|cell| film.dry[cell]);
    // Whole rows of cells pass a limit at once, so that leaving out a group at a time makes too much of it: balanced halves, drawn
    // together to what a jackknife counts with.
    let together = 1.0 / ((GROUPS - 1) as f64).sqrt();
    let half = |sample| share(&|cell| film.dry[cell] + film.half_off(cell, sample)) - value;
    Figure {
        value,
        without: core::array::from_fn(|sample| value + together * half(sample)),
        variants: ratios.iter().map(|&(change, r)| (change, share(&|cell| film.dry[cell] * r))).collect(),
        own_error: 0.0,
    }
}

/// A share of the area [%] that the film's time gave, with the errors of the share of the landed film that is beyond a limit: above it
/// (`thick`) or below it, the limit chosen so that it is as large.
fn beyond(film: &FilmMap, ratios: &[(&'static str, f64)], share: f64, thick: bool) -> Figure {
    let mut sorted: Vec<f64> = (0..film.len()).filter(|&c| !film.is_hidden(c)).map(|c| film.dry[c]).collect();
    sorted.in_order(f64::total_cmp);
    let n = sorted.len();
    let from_end = ((share / 100.0 * n as f64) as usize).min(n.saturating_sub(1));
    let limit = sorted.get(if thick { n - 1 - from_end.min(n.max(1) - 1) } else { from_end }).copied();
    let Some(limit) = limit else { return Figure::certain(share) };
    let like = area(film, ratios, |h| if thick { h > limit } else { h < limit });
    let moved = |value: f64| (share + value - like.value).clamp(0.0, 100.0);
    Figure {
        value: share,
        without: like.without.map(moved),
        variants: like.variants.iter().map(|v| (v.0, moved(v.1))).collect(),
        own_error: 0.0,
    }
}

/// Figures of the pattern on the card.
fn spray(run: &Run) -> Vec<(Measure, Figure)> {
    let card = run.card();
    let Some(all) = along_fan(card, None) else { return Vec::new() };
    let Some(pattern) = Pattern::on(card, run.prepared().spray.volume_flow) else { return Vec::new() };
    let mut without = [all; GROUPS];
    for (g, one) in without.iter_mut().enumerate() {
        *one = along_fan(card, Some(g)).unwrap_or(all);
    }
    let round = pattern.kind == PatternKind::Round;
    let percent = |share: f64| 100.0 * share;
    let figure = |of: &dyn Fn(&AlongFan) -> f64| Figure {
        without: without.map(|one| percent(of(&one))),
        ..Figure::certain(percent(of(&all)))
    };
    let parcels = card.map.parcels().max(1) as f64;
    let reading = pattern.reading;
    let bow = Figure {
        own_error: percent(BOW_NOISE * (AT / parcels).sqrt()),
        ..Figure::certain(percent(reading.bow.abs()))
    };
    let spat = reading.splatter.clamp(0.0, 1.0);
    let spat = Figure {
        own_error: percent((spat * (1.0 - spat) / parcels).sqrt()),
        ..Figure::certain(percent(spat))
    };
    let starved = Figure::certain(percent((1.0 - reading.build / STARVED).max(0.0)));
    let mut figures = vec![(Measure::Starved, starved), (Measure::Bent, bow), (Measure::Spat, spat)];
    // A round spot has neither ends nor middle.
    let shape = |of: &dyn Fn(&AlongFan) -> f64| if round { Figure::certain(0.0) } else { figure(of) };
    figures.push((Measure::Split, shape(&|a| (1.0 - a.dip).max(0.0))));
    figures.push((Measure::HeavyCentre, shape(&|a| (1.0 - a.half_way).max(0.0))));
    figures.push((Measure::HeavyEnd, shape(&|a| a.skew.abs())));
    figures
}

/// Mean dry film that paint and time are told for [m]: the middle of the film wanted, else the film as it is.
#[must_use]
pub fn target_of(job: &Job, mean: f64) -> f64 {
    wanted(job).filter(|_| job.stroke.burst.is_none()).map_or(mean, |(low, high)| 0.5 * (low + high))
}
