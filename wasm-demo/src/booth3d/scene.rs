//! What stands in the booth for a job, how it is looked at, and where on it a film is thinnest.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;
use mistcoat::film::{Face, FilmMap};
use mistcoat::job::{FanAxis, Job};
use mistcoat::run::faces;
use mistcoat::stroke::Strokes;

use super::atlas::Atlas;
use super::camera::{Camera, FIELD, Frame, NARROW};
use super::part::bounds;
use super::way::{Spot, fan_axis, gun_frame};

/// How far round the gun's place the first view looks at a part in one piece, and, up and down only, at a frame [m].
const WINDOW: (f64, f64) = (0.34, 0.26);

/// Part and gun of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// The part's faces.
    pub faces: Vec<Face>,
    /// Their film's texture.
    pub atlas: Atlas,
    /// Tip to the part [m].
    pub distance: f64,
    /// The fan's long axis against the passes.
    pub axis: FanAxis,
    /// Where the gun rests before each face: in the middle of the first pass along it.
    pub rests: Vec<Spot>,
}

/// Views with a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// From beside the painter: what a visitor sees first.
    Beside,
    /// From where the painter stands.
    Painter,
    /// Along the part.
    End,
    /// From above.
    Above,
}

impl Scene {
    /// The scene of a job; none when its part is too large for one texture.
    #[must_use]
    pub fn of(job: &Job) -> Option<Self> {
        let faces = FilmMap::over(faces(job)).faces().to_vec();
        let atlas = Atlas::of(&faces)?;
        let rests = rests(job, &faces);
        Some(Self { faces, atlas, distance: job.stroke.distance, axis: job.stroke.fan_axis, rests })
    }

    /// A face by its number, or the first.
    #[must_use]
    pub fn face(&self, number: usize) -> &Face {
        self.faces.get(number).unwrap_or(&self.faces[0])
    }

    /// Where the gun rests before a face, by its number; before the first where there is none.
    #[must_use]
    pub fn rest(&self, face: usize) -> Spot {
        self.rests.get(face).or(self.rests.first()).copied().unwrap_or_default()
    }

    /// Ends of the fan where it meets the part [m], for a fan of this height.
    #[must_use]
    pub fn fan(&self, spot: &Spot, height: f64) -> [DVec3; 2] {
        let face = self.face(spot.face);
        let (middle, half) = (face.point(spot.x, spot.y), 0.5 * height * fan_axis(face, spot.y, self.axis));
        [middle - half, middle + half]
    }

    /// The eye of a named view; the gun stands at `spot`.
    #[must_use]
    pub fn seen(&self, named: Named, frame: &Frame, spot: &Spot, fan: Option<f64>) -> Camera {
        let field = if named == Named::End { NARROW } else { FIELD };
        Camera::looking(self.angles(named), field, &self.must_see(named, spot, fan), frame)
    }

    fn angles(&self, named: Named) -> (f64, f64) {
        let degrees = |yaw: f64, pitch: f64| (yaw.to_radians(), pitch.to_radians());
        let place = &self.face(0).place;
        let alone = self.faces.len() == 1;
        let lies = alone && place.front.y > 0.7;
        match named {
            // Over the right shoulder, so that the gun does not hide what it sprays.
            Named::Painter => degrees(20.0, if lies { 26.0 } else { 10.0 }),
            Named::Above => degrees(35.0, 62.0),
            // Down an upright tube, with the gun at the left as in the strip below.
            Named::End if alone && place.radius > 0.0 && place.along.y.abs() > 0.7 => (FRAC_PI_2, FRAC_PI_2),
            Named::End if alone && place.radius > 0.0 && place.along.z.abs() > 0.7 => degrees(0.0, 3.0),
            Named::End => degrees(90.0, 3.0),
            Named::Beside if lies => degrees(36.0, 24.0),
            Named::Beside if alone && place.radius > 0.0 => degrees(60.0, 13.0),
            Named::Beside => degrees(46.0, 13.0),
        }
    }

    /// What a view must not cut off: the part (the first view: the part near the gun), the gun, the fan.
    fn must_see(&self, named: Named, spot: &Spot, fan: Option<f64>) -> Vec<DVec3> {
        let (low, high) = bounds(&self.faces);
        let face = self.face(spot.face);
        let middle = face.point(spot.x, spot.y);
        let alone = self.faces.len() == 1;
        let window = if alone { DVec3::splat(WINDOW.0) } else { DVec3::new(1e3, WINDOW.1, 1e3) };
        let near = |v: DVec3| {
            if named == Named::Beside || alone { v.clamp(middle - window, middle + window) } else { v }
        };
        let (low, high) = (near(low), near(high));
        let mut points: Vec<DVec3> = (0..8)
            .map(|i| DVec3::new([low.x, high.x][i & 1], [low.y, high.y][i >> 1 & 1], [low.z, high.z][i >> 2]))
            .collect();
        let gun = gun_frame(face, spot, self.distance);
        // Tip, back of the knobs, lid of the cup, foot of the handle.
        for (y, z) in [(0.0, 0.0), (0.0, -0.2), (0.15, -0.06), (-0.12, -0.15)] {
            points.push(gun.transform_point3(DVec3::new(0.0, y, z)));
        }
        if let Some(height) = fan {
            points.extend(self.fan(spot, height));
        }
        points
    }

    /// Where a film [m] is thinnest: film, face, and the place on it. None when the film does not fit the part.
    #[must_use]
    pub fn thinnest(&self, dry: &[f32]) -> Option<(f64, usize, DVec3, DVec3)> {
        let cells: usize = self.faces.iter().map(Face::len).sum();
        let (cell, film) =
            dry.iter().enumerate().filter(|(_, v)| v.is_finite()).min_by(|a, b| a.1.total_cmp(b.1))?;
        let (number, face) = self.faces.iter().enumerate().find(|(_, f)| f.cells().contains(&cell))?;
        if dry.len() != cells {
            return None;
        }
        let within = cell - face.first;
        let (x, y) = (face.x(within % face.nx), face.y(within / face.nx));
        Some((f64::from(*film), number, face.point(x, y), face.place.normal(y)))
    }
}

/// The middle of the first pass along each face; on a flat one the middle of the face.
fn rests(job: &Job, faces: &[Face]) -> Vec<Spot> {
    let strokes = Strokes::plan(&job.stroke, &job.part, 0.2);
    let first = |number: usize| match &strokes {
        Strokes::Passes { passes, .. } => passes.iter().find(|p| p.member == number).copied(),
        _ => None,
    };
    faces
        .iter()
        .enumerate()
        .map(|(number, face)| {
            let rest = Spot { face: number, ..Spot::default() };
            match first(number) {
                Some(pass) if face.closed => {
                    Spot { x: 0.5 * (pass.from + pass.to), y: pass.turn * face.place.radius, ..rest }
                }
                _ => rest,
            }
        })
        .collect()
}

/// Cells of a picture, rows from its top, in the order of a face: rows rising.
#[must_use]
pub fn rising(picture: &[f32], columns: usize) -> Vec<f32> {
    picture.chunks(columns.max(1)).rev().flatten().copied().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::{CHAIR_LEG, TABLE_TOP};

    const FRAME: Frame = Frame { width: 1280.0, height: 372.0, centre: (0.4, 0.5), free: (330.0, 160.0) };

    fn scene(text: &str) -> Scene {
        Scene::of(&Job::from_toml(text).unwrap()).unwrap()
    }

    #[test]
    fn every_named_view_shows_gun_and_fan_inside_its_frame() {
        let chair =
            TABLE_TOP.replace("panel = { width = \"600 mm\", height = \"400 mm\" }", "frame = \"chair\"");
        for text in [CHAIR_LEG, TABLE_TOP, &chair] {
            let scene = scene(text);
            let spot = scene.rest(0);
            for named in [Named::Beside, Named::Painter, Named::End, Named::Above] {
                let camera = scene.seen(named, &FRAME, &spot, Some(0.3));
                for p in scene.must_see(named, &spot, Some(0.3)) {
                    let (x, y) = camera.project(p, &FRAME).unwrap();
                    assert!(
                        (0.0..864.0).contains(&x) && (0.0..372.0).contains(&y),
                        "{named:?}: {p} at {x} {y}"
                    );
                }
            }
        }
    }

    #[test]
    fn down_the_end_of_a_leg_the_fan_is_seen_at_full_height_and_the_gun_stands_left() {
        let scene = scene(CHAIR_LEG);
        let camera = scene.seen(Named::End, &FRAME, &scene.rest(0), Some(0.3));
        let [a, b] = scene.fan(&scene.rest(0), 0.3).map(|p| camera.project(p, &FRAME).unwrap());
        let tip = camera.project(DVec3::new(0.0, 0.0, 0.16), &FRAME).unwrap();
        assert!((a.0 - b.0).abs() < 1.0 && (a.1 - b.1).abs() > 100.0, "{a:?} {b:?}");
        assert!(tip.0 < a.0 - 50.0, "{tip:?}");
    }

    #[test]
    fn the_thinnest_place_is_found_in_the_booth() {
        let scene = scene(CHAIR_LEG);
        let face = scene.face(0);
        let mut dry = vec![20e-6_f32; face.len()];
        // The last row lies behind the tube, the last column at its upper end.
        dry[face.len() - 1] = 5e-6;
        let (film, number, at, normal) = scene.thinnest(&dry).unwrap();
        assert!((film - 5e-6).abs() < 1e-9 && number == 0 && at.y > 0.29 && normal.z < -0.9, "{at} {normal}");
        assert!(scene.thinnest(&dry[1..]).is_none() && scene.thinnest(&[]).is_none());
    }

    #[test]
    fn a_picture_is_turned_into_rising_rows() {
        assert_eq!(rising(&[1.0, 2.0, 3.0, 4.0, 5.0, 6.0], 2), [5.0, 6.0, 3.0, 4.0, 1.0, 2.0]);
    }
}
