//! What SSPC-PA 2 has measured round an area that fails: spots each 1.5 m outwards in eight directions, until two in a row lie in
//! the film wanted; no 80 and 120 percent here (1.5 m and the two in a row: seen; eight directions: from memory).

use super::Film;
use super::pa_2::spot;
use super::place::At;
use super::sure::Figures;
use super::verdict::{Area, Spot, Verdict};
use super::words;
use crate::judge::gauge::{Value, errors};
use core::f64::consts::FRAC_PI_4;
use serde::{Deserialize, Serialize};

/// Between two spots [m].
const STEP: f64 = 1.5;
/// Directions.
const DIRECTIONS: usize = 8;

/// One direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FollowUp {
    /// Degrees from the face's x axis, anticlockwise.
    pub degrees: u32,
    /// Spots in their order.
    pub spots: Vec<Spot>,
    /// Two in a row were in the film wanted, or the face ended first.
    pub closed: bool,
}

/// Spots round a failed area, from its thinnest spot that is out, on that spot's face; directions without room are left out.
pub fn follow(film: Film<'_>, band: (f64, f64), spots: &[Spot], area: usize) -> Vec<FollowUp> {
    let of_area = || spots.iter().filter(|s| s.area == area);
    let out = |s: &&Spot| s.um < band.0 * 1e6 || s.um > band.1 * 1e6;
    let Some(from) = of_area().filter(out).min_by(|a, b| a.um.total_cmp(&b.um)) else { return Vec::new() };
    let (x, y, face) = (from.place.x_mm * 1e-3, from.place.y_mm * 1e-3, from.place.face);
    let (sx, sy) = film.landed.faces()[face].size();
    let mut number = spots.len();
    let mut all = Vec::new();
    for direction in 0..DIRECTIONS {
        let angle = direction as f64 * FRAC_PI_4;
        let (cos, sin) = (crate::math::cos(angle), crate::math::sin(angle));
        let (mut found, mut in_a_row): (Vec<Spot>, u32) = (Vec::new(), 0);
        let mut step = 1.0;
        while in_a_row < 2 {
            let at = At { face, x: x + step * STEP * cos, y: y + step * STEP * sin };
            if at.x.abs() > 0.5 * sx || at.y.abs() > 0.5 * sy {
                break;
            }
            number += 1;
            let (mut spot, value): (Spot, Value) = spot(film, number, area, at, 0.0);
            let figures = Figures::of(&[value], errors(&[value], film.landed), 0.0);
            spot.standard_error_um = figures.errors[0] * 1e6;
            spot.verdict = figures.verdict(0, [band.0, band.1]);
            in_a_row = if spot.verdict == Verdict::Pass { in_a_row + 1 } else { 0 };
            found.push(spot);
            step += 1.0;
        }
        if !found.is_empty() {
            all.push(FollowUp { degrees: direction as u32 * 45, spots: found, closed: in_a_row >= 2 });
        }
    }
    all
}

/// What is to be said of a failed area that leaves no room for it.
pub fn note(areas: &[Area]) -> Option<String> {
    let failed = areas.iter().any(|a| a.verdict == Verdict::Fail && a.follow_up.is_empty());
    failed.then(|| words::NO_ROOM[0].into())
}
