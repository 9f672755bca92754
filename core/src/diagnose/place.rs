//! Where on a part something is: along an edge, at the ends, behind, in stripes along the passes.

use crate::film::{Face, FilmMap};
use crate::judge::side;

/// Outer rows and columns that count as an edge or an end [share of the face].
const OUTER: f64 = 0.15;
/// Share of what is wrong that must lie there.
const MOST: f64 = 0.6;
/// The same of a tube's half that the first side does not see.
const BEHIND: f64 = 0.57;
/// Share of a face from which on it is all over.
const ALL_OVER: f64 = 0.7;

/// Where most of what is wrong lies: the face's name (empty where the part is one piece) and the place on it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Spot {
    /// Name of the face.
    pub face: String,
    /// "all-over", "stripes", "edges", "ends", "behind", "in-places", or "edge-" or "end-" with "upper", "lower", "left",
    /// "right", "near" or "far".
    pub place: String,
}

/// Where most of a weight by cell lies; none where there is none.
#[must_use]
pub fn spot(film: &FilmMap, weight: impl Fn(usize) -> f64) -> Option<Spot> {
    let weight = |cell: usize| if film.is_hidden(cell) { 0.0 } else { weight(cell) };
    let total = |face: &Face| face.cell_area() * face.cells().map(&weight).sum::<f64>();
    let mut worst: Option<(&Face, f64)> = None;
    for face in film.faces() {
        let sum = total(face);
        if sum > worst.map_or(0.0, |w| w.1) {
            worst = Some((face, sum));
        }
    }
    let (face, _) = worst?;
    Some(Spot { face: face.name.clone(), place: place(face, &weight) })
}

fn place(face: &Face, weight: &impl Fn(usize) -> f64) -> String {
    let (nx, ny) = (face.nx, face.ny);
    let at = |i: usize, j: usize| weight(face.first + j * nx + i);
    let outer = |n: usize| ((OUTER * n as f64 + 0.5) as usize).clamp(1, n);
    let (ex, ey) = (outer(nx), outer(ny));
    let sum = |columns: core::ops::Range<usize>, rows: core::ops::Range<usize>| -> f64 {
        rows.map(|j| columns.clone().map(|i| at(i, j)).sum::<f64>()).sum()
    };
    let all = sum(0..nx, 0..ny).max(f64::MIN_POSITIVE);
    let bad = (0..ny).map(|j| (0..nx).filter(|&i| at(i, j) > 0.0).count()).sum::<usize>();
    let share = |part: f64| part / all;
    if face.closed && share(sum(0..nx, 0..ny / 4) + sum(0..nx, ny - ny / 4..ny)) > BEHIND {
        return "behind".into();
    }
    if bad as f64 > ALL_OVER * (nx * ny) as f64 && even(face, weight) {
        return "all-over".into();
    }
    if !face.closed {
        let (low, high) = (share(sum(0..nx, 0..ey)), share(sum(0..nx, ny - ey..ny)));
        let up = face.place.up();
        if high > MOST {
            return format!("edge-{}", side(up));
        }
        if low > MOST {
            return format!("edge-{}", side(-up));
        }
        if low + high > MOST {
            return "edges".into();
        }
    }
    let (left, right) = (share(sum(0..ex, 0..ny)), share(sum(nx - ex..nx, 0..ny)));
    let along = face.place.along;
    if right > MOST {
        format!("end-{}", side(along))
    } else if left > MOST {
        format!("end-{}", side(-along))
    } else if left + right > MOST {
        "ends".into()
    } else if !face.closed && rows_differ(face, weight) {
        "stripes".into()
    } else {
        "in-places".into()
    }
}

/// The weight is about the same in every quarter.
fn even(face: &Face, weight: &impl Fn(usize) -> f64) -> bool {
    let (nx, ny) = (face.nx, face.ny);
    let mut quarters = [0.0f64; 4];
    for j in 0..ny {
        for i in 0..nx {
            quarters[usize::from(2 * i >= nx) + 2 * usize::from(2 * j >= ny)] +=
                weight(face.first + j * nx + i);
        }
    }
    let (low, high) = quarters.iter().fold((f64::MAX, 0.0f64), |(l, h), q| (l.min(*q), h.max(*q)));
    low > 0.5 * high
}

/// Most of the weight lies in rows that hold more than their part of it: stripes along the passes.
fn rows_differ(face: &Face, weight: &impl Fn(usize) -> f64) -> bool {
    let (nx, ny) = (face.nx, face.ny);
    let rows: Vec<f64> =
        (0..ny).map(|j| (0..nx).map(|i| weight(face.first + j * nx + i)).sum::<f64>()).collect();
    let all: f64 = rows.iter().sum();
    let mean = all / ny.max(1) as f64;
    let heavy: f64 = rows.iter().filter(|r| **r > 1.3 * mean).sum();
    heavy > MOST * all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn on_panel(bad: impl Fn(usize, usize) -> bool) -> String {
        let film = FilmMap::bare(60, 40, 0.01, 0.01);
        let found = spot(&film, |cell| f64::from(u8::from(bad(cell % 60, cell / 60))));
        found.map(|s| s.place).unwrap_or_default()
    }

    #[test]
    fn places_have_names() {
        assert_eq!(on_panel(|_, _| true), "all-over");
        assert_eq!(on_panel(|_, j| j < 4), "edge-lower");
        assert_eq!(on_panel(|_, j| j >= 37), "edge-upper");
        assert_eq!(on_panel(|_, j| !(3..37).contains(&j)), "edges");
        assert_eq!(on_panel(|i, _| i < 5), "end-left");
        assert_eq!(on_panel(|i, _| !(5..55).contains(&i)), "ends");
        assert_eq!(on_panel(|_, j| j % 10 < 3), "stripes");
        assert_eq!(on_panel(|i, j| (i * 7 + j * 13) % 11 == 0), "in-places");
        assert_eq!(on_panel(|_, _| false), "");
    }
}
