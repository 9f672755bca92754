//! Film that grows behind the gun while a run is under way.
//!
//! A run counts droplets for the whole way at once, so a film half counted lies everywhere. It is shown where the gun has
//! been: of each cell the share of its strokes that have gone over it, weighed by how near they pass.

use std::f64::consts::PI;

use mistcoat::film::Face;

use super::way::{Leg, Way};

/// Weight of a stroke however far off: it keeps a cell that nothing passes near from hanging on nothing.
const LEAST: f64 = 1e-3;

/// A leg on its face: where it begins, its way of length 1, its length [m].
struct Line {
    from: (f64, f64),
    along: (f64, f64),
    length: f64,
}

impl Line {
    fn of(leg: &Leg) -> Self {
        let [a, b] = leg.ends;
        let by = (b.x - a.x, b.y - a.y);
        let length = by.0.hypot(by.1);
        let along = if length > 1e-9 { (by.0 / length, by.1 / length) } else { (0.0, 0.0) };
        Self { from: (a.x, a.y), along, length }
    }

    /// How far along the line a place lies, and how far beside it [m].
    fn at(&self, x: f64, y: f64) -> (f64, f64) {
        let (dx, dy) = (x - self.from.0, y - self.from.1);
        let along = dx * self.along.0 + dy * self.along.1;
        (along, (dx - along * self.along.0).hypot(dy - along * self.along.1))
    }
}

/// For each cell of the faces the share of its strokes, 0..=1, that have gone over it at a moment as played [s]; `reach` is
/// the spray's size along the way, `across` half its size across it [m].
#[must_use]
pub fn gone_over(way: &Way, time: f64, faces: &[Face], reach: f64, across: f64) -> Vec<f32> {
    let (reach, across) = (reach.max(1e-3), across.max(1e-3));
    let mut sums = vec![[0.0_f64; 2]; faces.iter().map(Face::len).sum()];
    for leg in way.legs.iter().filter(|l| l.deposit.is_some()) {
        let Some(face) = faces.get(leg.ends[0].face) else { continue };
        let line = Line::of(leg);
        let share = if leg.seconds > 0.0 {
            (time - leg.start) / leg.seconds
        } else {
            f64::from(u8::from(time >= leg.start))
        };
        let head = share * line.length;
        for row in 0..face.ny {
            for column in 0..face.nx {
                let (x, y) = (face.x(column), face.y(row));
                let (along, beside) = line.at(x, y);
                let weight = if face.closed {
                    ((y - leg.ends[0].y) / face.place.radius.max(1e-6)).rem_euclid(2.0 * PI).cos().max(0.0)
                } else {
                    1.0 - (beside / across).powi(2).min(1.0)
                };
                let passed = match share {
                    s if s <= 0.0 => 0.0,
                    s if s >= 1.0 => 1.0,
                    s if line.length <= 0.0 => s,
                    _ => ((head - along) / reach + 0.5).clamp(0.0, 1.0),
                };
                if let Some([done, all]) = sums.get_mut(face.first + row * face.nx + column) {
                    *done += (weight + LEAST) * passed;
                    *all += weight + LEAST;
                }
            }
        }
    }
    sums.into_iter().map(|[done, all]| if all > 0.0 { (done / all) as f32 } else { 0.0 }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::film::FilmMap;
    use mistcoat::job::Job;
    use mistcoat::stroke::Strokes;

    fn of(text: &str) -> (Way, Vec<Face>) {
        let job = Job::from_toml(text).unwrap();
        let faces = FilmMap::over(mistcoat::run::faces(&job)).faces().to_vec();
        (Way::of(&Strokes::plan(&job.stroke, &job.part, 0.2), &job.stroke, &faces), faces)
    }

    #[test]
    fn nothing_before_the_first_stroke_all_after_the_last() {
        for text in [crate::state::CHAIR_LEG, crate::state::TABLE_TOP] {
            let (way, faces) = of(text);
            let at = |time: f64| gone_over(&way, time, &faces, 0.05, 0.1);
            assert!(at(0.0).iter().all(|s| *s < 0.01));
            assert!(at(way.seconds() + 1.0).iter().all(|s| (*s - 1.0).abs() < 1e-6));
            // A share only ever grows.
            let (early, late) = (at(0.3 * way.seconds()), at(0.6 * way.seconds()));
            assert!(early.iter().zip(&late).all(|(a, b)| a <= b) && early != late);
        }
    }

    #[test]
    fn on_a_panel_rows_the_gun_has_not_come_to_are_bare() {
        let (way, faces) = of(crate::state::TABLE_TOP);
        let (face, half) = (&faces[0], 0.5 * way.seconds());
        let share = gone_over(&way, half, &faces, 0.05, 0.1);
        let row = |row: usize| share[face.first + row * face.nx + face.nx / 2];
        let (top, foot) = (row(face.ny - 1), row(0));
        assert!(top.max(foot) > 0.99 && top.min(foot) < 0.01, "{top} {foot}");
    }
}
