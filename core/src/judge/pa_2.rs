//! SSPC-PA 2 (text of 2012 to 2018): readings to spots to areas, and its appendix for a test panel.
//!
//! Reading: one. Spot: mean of at least three in a circle of 4 cm (1.5 in). Area: mean of five spots over each 10 m2 (100 ft2) or
//! part. Areas: below 30 m2 each 10 m2; to 100 m2 three; above, three for the first 100 m2 and one for each further 100 m2 or
//! part (seen in published accounts of it; 12 500 ft2 give 15 areas, 75 spots, 225 readings). Readings alone are unrestricted.
//! Spots within 80 % of the lowest and 120 % of the highest film: seen. The other levels' limits, and level 3 as the one that
//! holds when none is named: from memory.

use super::band::begin;
use super::gauge::{Value, cell_at, errors, read};
use super::place::{At, Draw, PlaceOnPart, held};
use super::sure::Figures;
use super::verdict::{Area, FilmVerdict, Reading, Rule, Source, Spot, Verdict};
use super::{Film, follow_up};
use crate::job::Job;
use core::f64::consts::PI;

/// Units in which the areas are counted; the two are not the same size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AreaUnit {
    /// 10 m2.
    SquareMetres,
    /// 100 ft2.
    SquareFeet,
}

/// Spots of an area, and readings of a spot.
pub const SPOTS: usize = 5;
/// Readings of a spot.
pub const READINGS: usize = 3;
/// Readings lie this far from the spot's middle, inside its circle of 4 cm [m].
const RING: f64 = 13e-3;
/// Least distance of a reading from an edge [m] (from memory, of the test panel).
const READING_EDGE: f64 = 12e-3;

/// How many areas are measured on a surface [m2 or ft2].
#[must_use]
pub fn areas(surface: f64, unit: AreaUnit) -> usize {
    let one = match unit {
        AreaUnit::SquareMetres => 10.0,
        AreaUnit::SquareFeet => 100.0,
    };
    let tens = surface / one - 1e-9;
    if tens <= 3.0 {
        tens.ceil().max(1.0) as usize
    } else if tens <= 10.0 {
        3
    } else {
        3 + ((tens - 10.0) / 10.0).ceil().max(0.0) as usize
    }
}

/// Limits of a level against a film wanted: spots and areas, each lowest and highest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Each spot.
    pub spot: [f64; 2],
    /// Each area.
    pub area: [f64; 2],
    /// Where the spots' limits come from.
    pub source: Source,
}

/// Limits of a restriction level, 1 the strictest to 5; levels outside are held to these.
#[must_use]
pub fn limits(level: u8, (low, high): (f64, f64)) -> Limits {
    let (below, above, cap) = match level {
        0 | 1 => (1.0, 1.0, high),
        2 => (1.0, 1.2, high),
        3 => (0.8, 1.2, high),
        4 => (0.8, 1.5, high),
        _ => (0.8, f64::INFINITY, f64::INFINITY),
    };
    // Only the 80 and 120 percent of level 3 were read.
    let source = if level == 3 { Source::Seen } else { Source::FromMemory };
    Limits { spot: [below * low, above * high], area: [low, cap], source }
}

/// Readings round a spot's middle.
fn ring(film: Film<'_>, middle: At, turn: f64) -> Vec<(At, Value)> {
    let face = &film.landed.faces()[middle.face];
    (0..READINGS)
        .map(|k| {
            let angle = 2.0 * PI * (turn + k as f64 / READINGS as f64);
            let (dx, dy) = (RING * crate::math::cos(angle), RING * crate::math::sin(angle));
            let at = held(face, At { x: middle.x + dx, y: middle.y + dy, ..middle }, READING_EDGE);
            // Where another tube stands in the way it is taken in the spot's middle.
            let at = if film.landed.is_hidden(cell_at(film.landed, at)) { middle } else { at };
            (at, read(film, at))
        })
        .collect()
}

/// A spot still without its verdict, and its mean.
pub fn spot(film: Film<'_>, number: usize, area: usize, middle: At, turn: f64) -> (Spot, Value) {
    let readings = ring(film, middle, turn);
    let values: Vec<Value> = readings.iter().map(|(_, v)| *v).collect();
    let off = errors(&values, film.landed);
    let value = Value::mean(&values);
    let readings = readings
        .iter()
        .zip(off)
        .map(|((at, v), e)| Reading {
            place: PlaceOnPart::of(film.landed, *at),
            um: v.film * 1e6,
            standard_error_um: e * 1e6,
        })
        .collect();
    let place = PlaceOnPart::of(film.landed, middle);
    let (um, verdict) = (value.film * 1e6, Verdict::CannotTell);
    (Spot { number, area, place, um, standard_error_um: 0.0, verdict, readings }, value)
}

/// Which of `n` pieces are measured: all, or `wanted` of them drawn.
fn drawn(draw: &mut Draw<'_>, n: usize, wanted: usize) -> Vec<usize> {
    let mut left: Vec<usize> = (0..n).collect();
    if wanted < n {
        let mut taken: Vec<usize> = (0..wanted)
            .map(|_| left.swap_remove(((draw.chance() * left.len() as f64) as usize).min(left.len() - 1)))
            .collect();
        taken.sort_unstable();
        return taken;
    }
    left
}

/// Judges by spots and areas.
pub fn judge(film: Film<'_>, job: &Job, band: (f64, f64)) -> FilmVerdict {
    let mut found = begin(film, job, band);
    let surface = film.landed.area();
    let wanted = areas(surface, AreaUnit::SquareMetres);
    let pieces = ((surface / 10.0 - 1e-9).ceil().max(1.0)) as usize;
    let mut draw = Draw::new(film.landed, job.run.seed);
    let measured = drawn(&mut draw, pieces, wanted);
    let (mut values, mut means) = (Vec::new(), Vec::new());
    for (area, &piece) in measured.iter().enumerate() {
        let (from, to) = (piece as f64 / pieces as f64, (piece + 1) as f64 / pieces as f64);
        let first = values.len();
        for _ in 0..SPOTS {
            let (middle, turn) = (draw.next(from, to), draw.chance());
            let (spot, value) = spot(film, values.len() + 1, area + 1, middle, turn);
            found.spots.push(spot);
            values.push(value);
        }
        means.push(Value::mean(&values[first..]));
    }
    let spots = Figures::of(&values, errors(&values, film.landed), 0.0);
    let area = Figures::of(&means, errors(&means, film.landed), 0.0);
    let limits = limits(job.judging.level, band);
    for (i, spot) in found.spots.iter_mut().enumerate() {
        spot.standard_error_um = spots.errors[i] * 1e6;
        spot.verdict = spots.verdict(i, limits.spot);
    }
    found.decisions.push(spots.at_least(Rule::SpotLow, limits.spot[0], limits.source));
    if limits.spot[1].is_finite() {
        found.decisions.push(spots.at_most(Rule::SpotHigh, limits.spot[1], limits.source));
    }
    found.decisions.push(area.at_least(Rule::AreaLow, limits.area[0], limits.source));
    if limits.area[1].is_finite() {
        found.decisions.push(area.at_most(Rule::AreaHigh, limits.area[1], limits.source));
    }
    for (i, mean) in means.iter().enumerate() {
        let verdict = area.verdict(i, limits.area);
        let follow_up = if verdict == Verdict::Fail {
            follow_up::follow(film, band, &found.spots, i + 1)
        } else {
            Vec::new()
        };
        found.areas.push(Area {
            number: i + 1,
            um: mean.film * 1e6,
            standard_error_um: area.errors[i] * 1e6,
            verdict,
            follow_up,
        });
    }
    found.verdict = Verdict::of_all(found.decisions.iter().map(|d| d.verdict));
    found.notes.extend(follow_up::note(&found.areas));
    found
}

/// Judges a test panel: two readings in the upper, middle and lower third each, 12 mm off the edges and 25 mm apart; none below
/// 80 % of the lowest or above 120 % of the highest film; their mean inside (all from memory).
pub fn judge_panel(film: Film<'_>, job: &Job, band: (f64, f64)) -> FilmVerdict {
    const APART: f64 = 25e-3;
    let mut found = begin(film, job, band);
    let mut draw = Draw::new(film.landed, job.run.seed);
    let face = film.landed.face();
    let (sx, sy) = face.size();
    let mut values = Vec::new();
    let half = 0.5 * sx - READING_EDGE.min(0.25 * sx);
    for third in 0..3 {
        let y0 = sy * (0.5 - (third as f64 + 0.5) / 3.0);
        let room = (sy / 6.0 - READING_EDGE).max(0.0);
        let first = (2.0 * draw.chance() - 1.0) * half;
        // The second at least 25 mm further, counted round the width that is left.
        let second = first + APART + draw.chance() * (2.0 * half - 2.0 * APART).max(0.0);
        let second = if second > half { second - 2.0 * half } else { second };
        for x in [first, second] {
            let at = At { face: 0, x, y: y0 + (2.0 * draw.chance() - 1.0) * room };
            let value = read(film, at);
            values.push(value);
            found.spots.push(single(film, values.len(), at, value.film));
        }
    }
    let readings = Figures::of(&values, errors(&values, film.landed), 0.0);
    let mean = Value::mean(&values);
    let mean = Figures::of(&[mean], errors(&[mean], film.landed), 0.0);
    let each = [0.8 * band.0, 1.2 * band.1];
    for (i, spot) in found.spots.iter_mut().enumerate() {
        settle(spot, readings.errors[i], readings.verdict(i, each));
    }
    let memory = Source::FromMemory;
    found.decisions = vec![
        readings.at_least(Rule::ReadingLow, each[0], memory),
        readings.at_most(Rule::ReadingHigh, each[1], memory),
        mean.at_least(Rule::MeanLow, band.0, memory),
        mean.at_most(Rule::MeanHigh, band.1, memory),
    ];
    found.verdict = Verdict::of_all(found.decisions.iter().map(|d| d.verdict));
    found
}

/// A single reading in a spot's place.
pub fn single(film: Film<'_>, number: usize, at: At, value: f64) -> Spot {
    let place = PlaceOnPart::of(film.landed, at);
    let reading = Reading { place: place.clone(), um: value * 1e6, standard_error_um: 0.0 };
    let readings = vec![reading];
    Spot {
        number,
        area: 0,
        place,
        um: value * 1e6,
        standard_error_um: 0.0,
        verdict: Verdict::CannotTell,
        readings,
    }
}

/// Its error [m] and what it comes to.
pub fn settle(spot: &mut Spot, error: f64, verdict: Verdict) {
    spot.standard_error_um = error * 1e6;
    spot.verdict = verdict;
    spot.readings.iter_mut().for_each(|r| r.standard_error_um = error * 1e6);
}
