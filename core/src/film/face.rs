//! One face of a part: a flat or round piece of it, unrolled into cells.

use glam::DVec3;

/// Where a face stands in the booth: x to the painter's right, y up, z towards the painter; the part's middle is 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Middle of a flat or partly round face; middle of the axis of a closed round one [m].
    pub middle: DVec3,
    /// Its x axis, of length 1: along the passes, along a tube.
    pub along: DVec3,
    /// Outward normal of its middle line (y = 0), of length 1.
    pub front: DVec3,
    /// Outward radius round `along` [m]; 0 of a flat face.
    pub radius: f64,
}

impl Place {
    /// A flat face or a tube that leans [rad] against level: 0 flat, pi/2 upright, pi overhead. A panel leans from front to
    /// back, a tube along its own length.
    #[must_use]
    pub fn leaning(lean: f64, radius: f64) -> Self {
        let (sin, cos) = (crate::math::sin(lean), crate::math::cos(lean));
        let front = DVec3::new(0.0, cos, sin);
        let along = if radius > 0.0 { DVec3::new(0.0, sin, -cos) } else { DVec3::X };
        Self { middle: DVec3::ZERO, along, front, radius }
    }

    /// The y axis where y is 0, of length 1.
    #[must_use]
    pub fn up(&self) -> DVec3 {
        self.front.cross(self.along)
    }

    /// Outward normal at y [m], measured over the face.
    #[must_use]
    pub fn normal(&self, y: f64) -> DVec3 {
        if self.radius <= 0.0 {
            return self.front;
        }
        let angle = y / self.radius;
        self.front * crate::math::cos(angle) + self.up() * crate::math::sin(angle)
    }

    /// The way y rises at y [m].
    #[must_use]
    pub fn rising(&self, y: f64) -> DVec3 {
        self.normal(y).cross(self.along)
    }

    /// Gravity's direction at y [m] as the face has it: along x, along y, and into the face; of length 1.
    #[must_use]
    pub fn down(&self, y: f64) -> [f64; 3] {
        [-self.along.y, -self.rising(y).y, self.normal(y).y]
    }
}

/// A face and its cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Plain name of the piece ("front leg, left"); empty where the part is one piece.
    pub name: String,
    /// Its first cell in the film's lists.
    pub first: usize,
    /// Cells along x.
    pub nx: usize,
    /// Cells along y.
    pub ny: usize,
    /// Cell size along x [m].
    pub cell_x: f64,
    /// Cell size along y [m].
    pub cell_y: f64,
    /// Its last row of cells lies beside its first: a tube, unrolled.
    pub closed: bool,
    /// Where it stands.
    pub place: Place,
}

impl Face {
    /// Number of cells.
    #[must_use]
    pub fn len(&self) -> usize {
        self.nx * self.ny
    }

    /// No cells.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Its cells in the film's lists, row by row: x fastest, y rising.
    #[must_use]
    pub fn cells(&self) -> core::ops::Range<usize> {
        self.first..self.first + self.len()
    }

    /// Size along x and along y [m].
    #[must_use]
    pub fn size(&self) -> (f64, f64) {
        (self.nx as f64 * self.cell_x, self.ny as f64 * self.cell_y)
    }

    /// Area of a cell [m2].
    #[must_use]
    pub fn cell_area(&self) -> f64 {
        self.cell_x * self.cell_y
    }

    /// Middle of a column of cells, from the face's middle [m].
    #[must_use]
    pub fn x(&self, column: usize) -> f64 {
        (column as f64 + 0.5 - 0.5 * self.nx as f64) * self.cell_x
    }

    /// Middle of a row of cells, from the face's middle line, over the face [m].
    #[must_use]
    pub fn y(&self, row: usize) -> f64 {
        (row as f64 + 0.5 - 0.5 * self.ny as f64) * self.cell_y
    }

    /// A place of the face in the booth; x and y from its middle, y over the face [m].
    #[must_use]
    pub fn point(&self, x: f64, y: f64) -> DVec3 {
        let place = &self.place;
        let base = place.middle + place.along * x;
        if place.radius <= 0.0 {
            return base + place.up() * y;
        }
        // A closed face's middle is on its axis, another's on its surface.
        let axis = if self.closed { base } else { base - place.front * place.radius };
        axis + place.normal(y) * place.radius
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::{FRAC_PI_2, PI};

    fn near(a: DVec3, b: [f64; 3]) {
        assert!((a - DVec3::from(b)).length() < 1e-12, "{a} {b:?}");
    }

    #[test]
    fn an_upright_panel_has_its_rows_upwards() {
        let place = Place::leaning(FRAC_PI_2, 0.0);
        near(place.up(), [0.0, 1.0, 0.0]);
        near(place.front, [0.0, 0.0, 1.0]);
        let [x, y, into] = place.down(0.1);
        assert!(x.abs() < 1e-12 && (y + 1.0).abs() < 1e-12 && into.abs() < 1e-12);
    }

    #[test]
    fn gravity_presses_on_a_flat_panel_and_pulls_off_an_overhead_one() {
        assert!((Place::leaning(0.0, 0.0).down(0.0)[2] - 1.0).abs() < 1e-12);
        assert!((Place::leaning(PI, 0.0).down(0.0)[2] + 1.0).abs() < 1e-12);
    }

    #[test]
    fn round_a_level_tube_gravity_runs_with_the_sine_of_the_angle_from_the_top() {
        let radius = 0.011;
        let place = Place::leaning(0.0, radius);
        for degrees in [0.0_f64, 30.0, 90.0, 135.0] {
            let angle = degrees.to_radians();
            let [x, y, into] = place.down(angle * radius);
            let (sin, cos) = (crate::math::sin(angle), crate::math::cos(angle));
            assert!(x.abs() < 1e-12 && (y - sin).abs() < 1e-9 && (into - cos).abs() < 1e-9);
        }
    }

    #[test]
    fn cells_of_a_tube_lie_on_its_surface() {
        let (radius, length) = (0.011, 0.6);
        let (nx, ny) = (120, 24);
        let face = Face {
            name: String::new(),
            first: 0,
            nx,
            ny,
            cell_x: length / nx as f64,
            cell_y: 2.0 * PI * radius / ny as f64,
            closed: true,
            place: Place::leaning(FRAC_PI_2, radius),
        };
        near(face.point(0.1, 0.0), [0.0, 0.1, radius]);
        near(face.point(0.1, PI * radius), [0.0, 0.1, -radius]);
        assert_eq!((face.x(0), face.cells()), (0.0025 - 0.3, 0..2880));
    }
}
