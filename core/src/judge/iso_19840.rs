//! ISO 19840:2012: single readings against a nominal dry film.
//!
//! Accepted when (a) the mean is at least the nominal film, (b) every reading at least 80 % of it, (c) at most 20 % of the readings
//! lie between 80 % of it and itself, (d) every reading is at most the highest film. Accounts of the standard say "less than 20 %"
//! and "not more than 20 %" (both seen): here 20 % itself passes. (d) and the three smallest areas of the table of counts are from memory,
//! the rest seen. As PSPC's 90/10 (IMO, seen): every reading at least 90 %, and at most 10 % below the nominal film.
//!
//! The nominal film is `spec.nominal`, the highest film the upper end of the film wanted; without the key the nominal film is the
//! lower end of the film wanted: our choice.

use super::band::begin;
use super::gauge::{Value, errors, read};
use super::pa_2::{settle, single};
use super::place::Draw;
use super::sure::{Figures, sure};
use super::verdict::{Decision, FilmVerdict, Rule, Source, Unit, Verdict};
use super::{Film, words};
use crate::job::Job;

/// Below this nominal film the standard does not hold [m] (seen).
pub const LOWEST: f64 = 40e-6;

/// Readings on a surface [m2].
#[must_use]
pub fn readings(surface: f64) -> usize {
    let surface = surface - 1e-9;
    for (up_to, count) in [(1.0, 5), (3.0, 10), (10.0, 15), (30.0, 20), (100.0, 30)] {
        if surface <= up_to {
            return count;
        }
    }
    30 + 10 * ((surface / 100.0).ceil() as usize - 1)
}

/// Share of readings below nominal that passes, and the share of the nominal film that each must have.
#[must_use]
pub fn rule(ninety_ten: bool) -> (f64, f64) {
    if ninety_ten { (0.1, 0.9) } else { (0.2, 0.8) }
}

/// The nominal film of all coats [m]; `low` is the lower end of the film wanted, of all coats.
fn nominal(job: &Job, low: f64) -> f64 {
    match (job.judging.nominal, job.spec) {
        (Some(nominal), Some(spec)) => nominal * (low / spec.low),
        _ => low,
    }
}

/// Judges by single readings.
pub fn judge(film: Film<'_>, job: &Job, band: (f64, f64)) -> FilmVerdict {
    let mut found = begin(film, job, band);
    let correction = job.judging.profile_correction;
    let (share, least) = rule(job.judging.ninety_ten);
    let (nominal, most) = (nominal(job, band.0), band.1);
    let mut draw = Draw::new(film.landed, job.run.seed);
    let n = readings(film.landed.area());
    let mut values: Vec<Value> = Vec::new();
    for number in 1..=n {
        let at = draw.next(0.0, 1.0);
        let value = read(film, at);
        values.push(value);
        found.spots.push(single(film, number, at, value.film - correction));
    }
    let each = Figures::of(&values, errors(&values, film.landed), correction);
    let all = Value::mean(&values);
    let mean = Figures::of(&[all], errors(&[all], film.landed), correction);
    for (i, spot) in found.spots.iter_mut().enumerate() {
        settle(spot, each.errors[i], each.verdict(i, [least * nominal, most]));
    }
    let by_table = if job.judging.ninety_ten { Source::FromMemory } else { Source::Seen };
    found.decisions = vec![
        mean.at_least(Rule::MeanLow, nominal, by_table),
        each.at_least(Rule::ReadingLow, least * nominal, Source::Seen),
        below(&each, nominal, share),
        each.at_most(Rule::ReadingHigh, most, Source::FromMemory),
    ];
    found.verdict = Verdict::of_all(found.decisions.iter().map(|d| d.verdict));
    if nominal < LOWEST {
        found.notes.push(words::THIN_NOMINAL[0].into());
    }
    if correction > 0.0 {
        found.notes.push(
            "The profile correction is taken off every reading: what fills the valleys of the steel does not count as film over its peaks."
                .into(),
        );
    }
    found
}

/// Share of readings below the nominal film.
fn below(each: &Figures, nominal: f64, most: f64) -> Decision {
    let n = each.values.len();
    let z = sure(n);
    let count = |shift: f64| {
        each.values.iter().zip(&each.errors).filter(|(v, e)| **v + shift * z * **e < nominal - 1e-12).count()
    };
    let (sure_below, below, perhaps) = (count(1.0), count(0.0), count(-1.0));
    let passes = |count: usize| count as f64 <= most * n as f64 + 1e-9;
    let verdict = match (passes(perhaps), passes(sure_below)) {
        (true, _) => Verdict::Pass,
        (_, false) => Verdict::Fail,
        _ => Verdict::CannotTell,
    };
    let percent = |count: usize| 100.0 * count as f64 / n as f64;
    Decision {
        rule: Rule::ShareUnder,
        found: percent(below),
        // Half of what the readings' errors leave open, as of z standard errors to either side.
        standard_error: 0.5 * (percent(perhaps) - percent(sure_below)) / z,
        limit: 100.0 * most,
        unit: Unit::Percent,
        at: None,
        verdict,
        source: Source::Seen,
    }
}
