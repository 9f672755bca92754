//! The film gauge: the dry film averaged over its probe.
//!
//! It has no error of its own: a gauge within the few percent of its maker would hide nothing that the film's counting error
//! does not already leave open, and that is told. Probe 10 mm across: common practice, no source.

use super::Film;
use super::place::At;
use crate::film::FilmMap;
use crate::tally::{GROUPS, standard_error};

/// Radius of the probe [m].
const PROBE: f64 = 5e-3;

/// A film read somewhere, or a mean of such, with what each replicate group alone would read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// Dry film [m].
    pub film: f64,
    /// Of each group [m].
    pub groups: [f64; GROUPS],
}

impl Value {
    /// Mean of some; 0 of none.
    pub fn mean(of: &[Self]) -> Self {
        let n = of.len().max(1) as f64;
        let mut sum = Self { film: 0.0, groups: [0.0; GROUPS] };
        for value in of {
            sum.film += value.film;
            for (a, b) in sum.groups.iter_mut().zip(value.groups) {
                *a += b;
            }
        }
        sum.film /= n;
        sum.groups.iter_mut().for_each(|g| *g /= n);
        sum
    }
}

/// The cell under a place.
pub fn cell_at(film: &FilmMap, at: At) -> usize {
    let face = &film.faces()[at.face];
    let last = |n: usize| n.saturating_sub(1) as f64;
    let i = (at.x / face.cell_x + 0.5 * face.nx as f64).floor().clamp(0.0, last(face.nx)) as usize;
    let row = (at.y / face.cell_y + 0.5 * face.ny as f64).floor();
    let j = if face.closed {
        (row as i64).rem_euclid(face.ny.max(1) as i64) as usize
    } else {
        row.clamp(0.0, last(face.ny)) as usize
    };
    face.first + j * face.nx + i
}

/// Cells of a face under a probe that are meant to be painted; at least the one under its middle.
pub fn cells(film: &FilmMap, at: At, radius: f64) -> Vec<usize> {
    let face = &film.faces()[at.face];
    let column = |x: f64| (x / face.cell_x + 0.5 * face.nx as f64).floor();
    let row = |y: f64| (y / face.cell_y + 0.5 * face.ny as f64).floor();
    let last = |n: usize| n.saturating_sub(1) as f64;
    let mut found = Vec::new();
    let (from_x, to_x) = (
        column(at.x - radius).clamp(0.0, last(face.nx)) as usize,
        column(at.x + radius).clamp(0.0, last(face.nx)) as usize,
    );
    for j in row(at.y - radius) as i64..=row(at.y + radius) as i64 {
        let ny = face.ny as i64;
        let inside = if face.closed { j.rem_euclid(ny) } else { j };
        if !(0..ny).contains(&inside) {
            continue;
        }
        // Measured before it is wrapped.
        let dy = (j as f64 + 0.5 - 0.5 * face.ny as f64) * face.cell_y - at.y;
        for i in from_x..=to_x {
            let dx = face.x(i) - at.x;
            if dx * dx + dy * dy <= radius * radius {
                found.push(face.first + inside as usize * face.nx + i);
            }
        }
    }
    found.retain(|&cell| !film.is_hidden(cell));
    if found.is_empty() {
        found.push(cell_at(film, at));
    }
    found
}

/// The film under the probe.
pub fn read(film: Film<'_>, at: At) -> Value {
    let under = cells(film.landed, at, PROBE);
    let n = under.len() as f64;
    let mean = |of: &[f64]| under.iter().map(|&cell| of[cell]).sum::<f64>() / n;
    Value { film: mean(film.dry), groups: core::array::from_fn(|g| mean(film.landed.group(g))) }
}

/// Standard errors of some values of one kind.
///
/// A count's variance goes with the count, so all values share one ratio of variance to film, taken over them all: steadier
/// than each value's own sixteen groups, and not nothing where nothing was counted.
pub fn errors(of: &[Value], film: &FilmMap) -> Vec<f64> {
    let (mut variance, mut sum) = (0.0, 0.0);
    for value in of {
        let e = standard_error(&value.groups);
        variance += e * e;
        sum += value.film.max(0.0);
    }
    let ratio = if sum > 0.0 && variance > 0.0 {
        variance / sum
    } else {
        let e = film.cell_error();
        e * e / film.mean_dry().0.max(f64::MIN_POSITIVE)
    };
    of.iter().map(|value| (ratio * (value.film.max(0.0) + ratio)).sqrt()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::film::{Face, Place};

    #[test]
    fn a_probe_covers_a_circle_and_goes_round_a_tube() {
        let film = FilmMap::bare(20, 20, 2e-3, 2e-3);
        let under = cells(&film, At { face: 0, x: 1e-3, y: 1e-3 }, 5e-3);
        // Cell middles within 2.5 cells of a cell's middle: 21.
        assert_eq!(under.len(), 21);
        let corner = cells(&film, At { face: 0, x: 20e-3, y: 20e-3 }, 5e-3);
        assert!(corner.iter().all(|&c| c < 400) && corner.contains(&399), "{corner:?}");
        let tube = FilmMap::over(vec![Face {
            name: String::new(),
            first: 0,
            nx: 20,
            ny: 24,
            cell_x: 2e-3,
            cell_y: 2e-3,
            closed: true,
            place: Place::leaning(0.0, 24.0 * 2e-3 / (2.0 * core::f64::consts::PI)),
        }]);
        let back = cells(&tube, At { face: 0, x: 1e-3, y: 24e-3 }, 3e-3);
        assert!(back.iter().any(|&c| c < 20) && back.iter().any(|&c| c >= 23 * 20), "{back:?}");
    }

    #[test]
    fn a_cell_larger_than_the_probe_is_read_itself() {
        let film = FilmMap::bare(3, 3, 0.1, 0.1);
        assert_eq!(cells(&film, At { face: 0, x: -0.149, y: 0.149 }, PROBE), [6]);
    }
}
