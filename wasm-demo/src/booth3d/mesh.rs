//! Solids from a few shapes: turned, boxed, and lofted between pairs of points.

use std::f64::consts::TAU;

use glam::{DVec2, DVec3};

/// What a surface is made of; the number a vertex carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Stuff {
    /// Bare part.
    Bare = 0,
    /// The drawn gun, as light as the sheet.
    Gun = 1,
    /// Paint.
    Paint = 2,
    /// Wood of stands.
    Wood = 3,
    /// Wall of the booth; takes no light.
    Wall = 4,
    /// Floor of the booth; takes no light.
    Floor = 5,
    /// Shadow on the floor: `uv` is the place from its middle, `ground` its half size, `out.x` how soft it is [m],
    /// `out.y` how dark.
    Shadow = 6,
    /// Part under its film: `uv` is the place in the texture.
    Film = 7,
    /// A hose.
    Hose = 8,
}

/// One corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vertex {
    /// Place [m].
    pub at: DVec3,
    /// Outward, for the light.
    pub normal: DVec3,
    /// Outward, for the outline: the same for all corners that meet at a place.
    pub out: DVec3,
    /// Place in the film texture.
    pub uv: [f32; 2],
    /// Way from the right edge of a flat face and height on it, for the test strip [m].
    pub ground: [f64; 2],
    /// What it is made of.
    pub stuff: Stuff,
}

impl Vertex {
    /// A corner whose outline goes the way of its light.
    #[must_use]
    pub fn new(at: DVec3, normal: DVec3, stuff: Stuff) -> Self {
        Self { at, normal, out: normal, uv: [0.0; 2], ground: [FAR_OFF, 0.0], stuff }
    }
}

/// Farther than any edge [m].
pub const FAR_OFF: f64 = 1e3;
/// Numbers a vertex.
pub const STRIDE: usize = 14;

/// Triangles, counter-clockwise seen from outside.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Mesh {
    /// [`STRIDE`] numbers each: place, normal, outline, film, ground, stuff.
    pub vertices: Vec<f32>,
    /// Three corners each.
    pub triangles: Vec<u32>,
}

impl Mesh {
    /// Adds a corner.
    pub fn corner(&mut self, v: Vertex) -> u32 {
        let number = (self.vertices.len() / STRIDE) as u32;
        for part in [v.at, v.normal, v.out] {
            self.vertices.extend([part.x as f32, part.y as f32, part.z as f32]);
        }
        self.vertices.extend(v.uv);
        self.vertices.extend([v.ground[0] as f32, v.ground[1] as f32, f32::from(v.stuff as u8)]);
        number
    }

    /// Adds a four-cornered piece, corners in order round it; it faces the way of the first corner's normal.
    pub fn quad(&mut self, corners: [Vertex; 4]) {
        let [a, b, c, d] = corners.map(|v| v.at);
        let turned = (c - a).cross(d - b).dot(corners.iter().map(|v| v.normal).sum()) < 0.0;
        let [a, b, c, d] = corners.map(|v| self.corner(v));
        self.triangles.extend(if turned { [a, c, b, a, d, c] } else { [a, b, c, a, c, d] });
    }

    /// A body turned about an axis; `profile` is way along the axis and radius [m], from one end to the other.
    pub fn turned(&mut self, foot: DVec3, axis: DVec3, profile: &[(f64, f64)], stuff: Stuff, round: u32) {
        let side = axis.any_orthonormal_vector();
        let other = axis.cross(side);
        let points: Vec<DVec2> = profile.iter().map(|p| DVec2::new(p.0, p.1)).collect();
        let slopes: Vec<DVec2> =
            points.windows(2).map(|w| (w[1] - w[0]).perp().normalize_or_zero()).collect();
        let outward = |i: usize| {
            let before = i.checked_sub(1).and_then(|i| slopes.get(i));
            let both = before.copied().unwrap_or_default() + slopes.get(i).copied().unwrap_or_default();
            both.normalize_or_zero()
        };
        for (i, slope) in slopes.iter().enumerate() {
            for k in 0..round {
                let at = |end: usize, k: u32| {
                    let (sin, cos) = (TAU * f64::from(k) / f64::from(round)).sin_cos();
                    let ray = side * cos + other * sin;
                    let world = |v: DVec2| axis * v.x + ray * v.y;
                    let out = outward(i + end);
                    // A gentle bend is rounded in the light, a sharp one stays an edge.
                    let normal = if out.dot(*slope) > 0.86 { out } else { *slope };
                    Vertex {
                        out: world(out),
                        ..Vertex::new(foot + world(points[i + end]), world(normal), stuff)
                    }
                };
                self.quad([at(0, k), at(1, k), at(1, k + 1), at(0, k + 1)]);
            }
        }
    }

    /// A round bar with flat ends.
    pub fn bar(&mut self, from: DVec3, to: DVec3, radius: f64, stuff: Stuff) {
        let length = (to - from).length();
        if length > 0.0 {
            let profile = [(0.0, 0.0), (0.0, radius), (length, radius), (length, 0.0)];
            self.turned(from, (to - from) / length, &profile, stuff, 14);
        }
    }

    /// A box about its middle; `half` are its half edges.
    pub fn boxed(&mut self, middle: DVec3, half: [DVec3; 3], stuff: Stuff) {
        for axis in 0..3 {
            let (n, u, v) = (half[axis], half[(axis + 1) % 3], half[(axis + 2) % 3]);
            for side in [-1.0, 1.0] {
                let corner = |a: f64, b: f64| {
                    let from = n * side + u * a + v * b;
                    let normal = (n * side).normalize_or_zero();
                    let out =
                        (normal + (u * a).normalize_or_zero() + (v * b).normalize_or_zero()).normalize();
                    Vertex { out, ..Vertex::new(middle + from, normal, stuff) }
                };
                self.quad([corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)]);
            }
        }
    }

    /// A plate between pairs of points, `half` thick to both sides: its outline runs down one side and up the other.
    pub fn lofted(&mut self, pairs: &[(DVec3, DVec3)], half: DVec3, stuff: Stuff) {
        let Some((first, last)) = pairs.first().zip(pairs.last()) else { return };
        let across = half.normalize_or_zero();
        let rim: Vec<DVec3> = pairs.iter().map(|p| p.0).chain(pairs.iter().rev().map(|p| p.1)).collect();
        let middle = 0.25 * (first.0 + first.1 + last.0 + last.1);
        let n = rim.len();
        // The rim's outward way: across the edge, away from the inside.
        let inside = |i: usize| {
            let pair = pairs[if i < pairs.len() { i } else { 2 * pairs.len() - 1 - i }];
            0.5 * (pair.0 + pair.1)
        };
        let edge = |i: usize| {
            let (a, b) = (rim[i], rim[(i + 1) % n]);
            let normal = (b - a).cross(across).normalize_or_zero();
            let from = 0.5 * (inside(i) + inside((i + 1) % n));
            let away = 0.5 * (a + b) - if (from - 0.5 * (a + b)).length() > 1e-9 { from } else { middle };
            if normal.dot(away) < 0.0 { -normal } else { normal }
        };
        let edges: Vec<DVec3> = (0..n).map(edge).collect();
        let out = |i: usize, side: f64| {
            ((edges[(i + n - 1) % n] + edges[i]).normalize_or_zero() + across * side).normalize_or_zero()
        };
        for (i, &edge) in edges.iter().enumerate() {
            let j = (i + 1) % n;
            let corner = |k: usize, side: f64| Vertex {
                out: out(k, side),
                ..Vertex::new(rim[k] + half * side, edge, stuff)
            };
            self.quad([corner(i, -1.0), corner(i, 1.0), corner(j, 1.0), corner(j, -1.0)]);
        }
        for side in [-1.0, 1.0] {
            for i in 0..pairs.len() - 1 {
                let corner = |k: usize| Vertex {
                    out: out(k, side),
                    ..Vertex::new(rim[k] + half * side, across * side, stuff)
                };
                self.quad([corner(i), corner(i + 1), corner(n - 2 - i), corner(n - 1 - i)]);
            }
        }
    }

    /// Number of corners.
    #[must_use]
    pub fn corners(&self) -> usize {
        self.vertices.len() / STRIDE
    }

    /// Place of a corner [m].
    #[must_use]
    pub fn at(&self, corner: u32) -> DVec3 {
        let v = &self.vertices[corner as usize * STRIDE..];
        DVec3::new(f64::from(v[0]), f64::from(v[1]), f64::from(v[2]))
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// Volume inside, positive when every triangle faces outward.
    pub fn volume(mesh: &Mesh) -> f64 {
        let six: f64 = mesh
            .triangles
            .chunks_exact(3)
            .map(|t| mesh.at(t[0]).dot(mesh.at(t[1]).cross(mesh.at(t[2]))))
            .sum();
        six / 6.0
    }

    /// Every triangle faces the way its corners say.
    pub fn faces_out(mesh: &Mesh) {
        for t in mesh.triangles.chunks_exact(3) {
            let [a, b, c] = [mesh.at(t[0]), mesh.at(t[1]), mesh.at(t[2])];
            let way = (b - a).cross(c - a);
            let v = &mesh.vertices[t[0] as usize * STRIDE + 3..];
            let normal = DVec3::new(f64::from(v[0]), f64::from(v[1]), f64::from(v[2]));
            assert!(
                way.length() < 1e-12 || way.dot(normal) > -1e-9 * way.length(),
                "{a} {b} {c} against {normal}"
            );
        }
        assert!(mesh.vertices.iter().all(|v| v.is_finite()));
    }

    #[test]
    fn solids_are_closed_and_hold_their_volume() {
        let mut bar = Mesh::default();
        bar.bar(DVec3::new(0.1, 0.2, 0.3), DVec3::new(0.1, 0.9, 0.3), 0.05, Stuff::Wood);
        faces_out(&bar);
        // A bar of 14 sides.
        let area = 0.5 * 14.0 * (TAU / 14.0).sin() * 0.05 * 0.05;
        assert!((volume(&bar) - area * 0.7).abs() < 1e-8, "{}", volume(&bar));
        let mut block = Mesh::default();
        block.boxed(DVec3::ONE, [DVec3::X * 0.1, DVec3::Y * 0.2, DVec3::Z * 0.3], Stuff::Wood);
        faces_out(&block);
        assert!((volume(&block) - 8.0 * 0.006).abs() < 1e-7, "{}", volume(&block));
        let mut plate = Mesh::default();
        let pair = |y: f64| (DVec3::new(-0.1, y, 0.0), DVec3::new(0.2, y, 0.0));
        plate.lofted(&[pair(0.0), pair(0.3), pair(0.5)], DVec3::Z * 0.01, Stuff::Gun);
        faces_out(&plate);
        assert!((volume(&plate) - 0.3 * 0.5 * 0.02).abs() < 1e-8, "{}", volume(&plate));
    }
}
