//! The eye: turned about what it looks at, never upside down, never below the floor.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::{DMat4, DVec3, DVec4};

/// Height of the field of view [rad]: a long lens, so that near and far tubes keep their measure.
pub const FIELD: f64 = 0.40;
/// The same along a part: a very long lens, so that its near end does not hide what lies behind.
pub const NARROW: f64 = 0.06;
/// Lowest and highest place of the eye over the level [rad].
const PITCH: (f64, f64) = (-0.02, FRAC_PI_2);
/// Nearest and farthest distance, as shares of the distance at which everything fits.
const NEAR: f64 = 0.35;
const FAR: f64 = 2.5;

/// Where the eye is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// Turned to the painter's right from straight behind the painter [rad].
    pub yaw: f64,
    /// Over the level [rad].
    pub pitch: f64,
    /// From the target [m].
    pub distance: f64,
    /// What it looks at [m].
    pub target: DVec3,
    /// Distance at which everything fits [m].
    pub fits: f64,
    /// Height of the field of view [rad].
    pub field: f64,
}

/// The picture: its size [CSS px], and where the target appears in it, as shares of the size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// Place of the target.
    pub centre: (f64, f64),
    /// Room round the target that is free of other things [px]: half width, half height.
    pub free: (f64, f64),
}

impl Camera {
    /// An eye at these angles, so far away that all of `points` are seen.
    #[must_use]
    pub fn looking((yaw, pitch): (f64, f64), field: f64, points: &[DVec3], frame: &Frame) -> Self {
        let (low, high) = points
            .iter()
            .fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), p| (low.min(*p), high.max(*p)));
        let target = if points.is_empty() { DVec3::ZERO } else { 0.5 * (low + high) };
        let mut camera = Self { yaw, pitch, distance: 1.0, target, fits: 1.0, field };
        // All is seen from far off, so the least such distance lies between.
        let (mut near, mut far) = (0.05, 200.0);
        for _ in 0..48 {
            camera.distance = 0.5 * (near + far);
            if camera.sees_all(points, frame) {
                far = camera.distance;
            } else {
                near = camera.distance;
            }
        }
        camera.distance = far;
        camera.fits = far;
        camera
    }

    fn sees_all(&self, points: &[DVec3], frame: &Frame) -> bool {
        let middle = (frame.centre.0 * frame.width, frame.centre.1 * frame.height);
        points.iter().all(|p| {
            self.project(*p, frame).is_some_and(|(x, y)| {
                (x - middle.0).abs() <= frame.free.0 && (y - middle.1).abs() <= frame.free.1
            })
        })
    }

    /// Turned by these angles [rad].
    pub fn turn(&mut self, yaw: f64, pitch: f64) {
        self.yaw = (self.yaw + yaw + PI).rem_euclid(TAU) - PI;
        self.pitch = (self.pitch + pitch).clamp(PITCH.0, PITCH.1);
    }

    /// Nearer by a factor above 1, farther below; false at the limit, where nothing changes.
    pub fn nearer(&mut self, factor: f64) -> bool {
        let wanted = (self.distance / factor.clamp(0.1, 10.0)).clamp(NEAR * self.fits, FAR * self.fits);
        let changed = (wanted - self.distance).abs() > 1e-9;
        self.distance = wanted;
        changed
    }

    /// Right, up and towards the eye, each of length 1.
    #[must_use]
    pub fn axes(&self) -> [DVec3; 3] {
        let (sy, cy) = self.yaw.sin_cos();
        let (sp, cp) = self.pitch.sin_cos();
        let back = DVec3::new(sy * cp, sp, cy * cp);
        let right = DVec3::new(cy, 0.0, -sy);
        [right, back.cross(right), back]
    }

    /// The eye's place [m].
    #[must_use]
    pub fn eye(&self) -> DVec3 {
        self.target + self.axes()[2] * self.distance
    }

    /// From the booth to clip space.
    #[must_use]
    pub fn matrix(&self, frame: &Frame) -> DMat4 {
        let [right, up, back] = self.axes();
        let eye = self.eye();
        let view = DMat4::from_cols(
            DVec4::new(right.x, up.x, back.x, 0.0),
            DVec4::new(right.y, up.y, back.y, 0.0),
            DVec4::new(right.z, up.z, back.z, 0.0),
            DVec4::new(-right.dot(eye), -up.dot(eye), -back.dot(eye), 1.0),
        );
        let aspect = frame.width.max(1.0) / frame.height.max(1.0);
        let near = (0.05 * self.distance).max(0.02);
        let lens =
            glam::dcamera::rh::proj::opengl::perspective(self.field, aspect, near, self.distance + 25.0);
        let shift = DVec3::new(2.0 * frame.centre.0 - 1.0, 1.0 - 2.0 * frame.centre.1, 0.0);
        DMat4::from_translation(shift) * lens * view
    }

    /// Where a place appears [CSS px]; none behind the eye.
    #[must_use]
    pub fn project(&self, p: DVec3, frame: &Frame) -> Option<(f64, f64)> {
        let clip = self.matrix(frame) * p.extend(1.0);
        (clip.w > 1e-6).then(|| {
            let x = 0.5 * (clip.x / clip.w + 1.0) * frame.width;
            let y = 0.5 * (1.0 - clip.y / clip.w) * frame.height;
            (x, y)
        })
    }

    /// The ray through a place of the picture [CSS px]: where it starts, and its way of length 1.
    #[must_use]
    pub fn ray(&self, at: (f64, f64), frame: &Frame) -> (DVec3, DVec3) {
        let [right, up, back] = self.axes();
        let tall = (0.5 * self.field).tan();
        let wide = tall * frame.width.max(1.0) / frame.height.max(1.0);
        let x = 2.0 * (at.0 / frame.width.max(1.0) - frame.centre.0) * wide;
        let y = 2.0 * (frame.centre.1 - at.1 / frame.height.max(1.0)) * tall;
        (self.eye(), (right * x + up * y - back).normalize())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame = Frame { width: 900.0, height: 372.0, centre: (0.4, 0.5), free: (300.0, 160.0) };

    fn cube(half: f64) -> Vec<DVec3> {
        (0..8)
            .map(|i| {
                DVec3::new(f64::from(i & 1), f64::from(i >> 1 & 1), f64::from(i >> 2)) * 2.0 - DVec3::ONE
            })
            .map(|p| p * half)
            .collect()
    }

    #[test]
    fn from_the_painter_right_is_right_and_up_is_up() {
        let camera = Camera::looking((0.0, 0.0), FIELD, &cube(0.3), &FRAME);
        let at = |p| camera.project(p, &FRAME).unwrap();
        let middle = at(DVec3::ZERO);
        assert!((middle.0 - 360.0).abs() < 1e-6 && (middle.1 - 186.0).abs() < 1e-6, "{middle:?}");
        assert!(at(DVec3::X * 0.1).0 > middle.0 + 5.0 && at(DVec3::Y * 0.1).1 < middle.1 - 5.0);
        assert!(camera.eye().z > 0.5);
    }

    #[test]
    fn what_it_must_see_just_fits_at_every_angle() {
        for (yaw, pitch) in [(0.0, 0.0), (1.0, 0.2), (FRAC_PI_2, FRAC_PI_2), (-3.0, 1.0)] {
            let camera = Camera::looking((yaw, pitch), FIELD, &cube(0.3), &FRAME);
            assert!(camera.sees_all(&cube(0.3), &FRAME), "{yaw} {pitch}");
            let closer = Camera { distance: 0.97 * camera.distance, ..camera };
            assert!(!closer.sees_all(&cube(0.3), &FRAME), "{yaw} {pitch}: could be nearer");
        }
        assert!(Camera::looking((0.0, 0.0), FIELD, &[], &FRAME).matrix(&FRAME).is_finite());
    }

    #[test]
    fn a_ray_through_a_places_picture_meets_the_place() {
        let camera = Camera::looking((1.1, 0.4), FIELD, &cube(0.3), &FRAME);
        for p in cube(0.2) {
            let (from, way) = camera.ray(camera.project(p, &FRAME).unwrap(), &FRAME);
            assert!((p - from).cross(way).length() < 1e-9, "{p}");
            assert!((p - from).dot(way) > 0.0);
        }
    }

    #[test]
    fn it_stays_over_the_floor_and_inside_its_limits() {
        let mut camera = Camera::looking((0.0, 0.3), NARROW, &cube(0.3), &FRAME);
        camera.turn(50.0, -9.0);
        assert!(camera.pitch == PITCH.0 && camera.yaw.abs() <= PI);
        camera.turn(0.0, 9.0);
        assert!(camera.pitch == FRAC_PI_2 && camera.matrix(&FRAME).is_finite());
        assert!(camera.nearer(1.2) && !Camera { distance: NEAR * camera.fits, ..camera }.nearer(2.0));
        assert!(!Camera { distance: FAR * camera.fits, ..camera }.nearer(0.5));
    }
}
