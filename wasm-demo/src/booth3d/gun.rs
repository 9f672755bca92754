//! The gun as a solid: the drawn gun of [`crate::draw::gun`] given its third dimension, at its true size.
//!
//! Gun frame: the tip's face is the origin, z runs the way the spray does, y up.

use glam::DVec3;

use super::mesh::{Mesh, Stuff, Vertex};
use crate::draw::gun::cup::CUP;
use crate::draw::gun::geometry::COLUMN_X;
use crate::state::Feed;

/// A drawing unit of the gun [m]: its cup is 80 mm wide.
const UNIT: f64 = 0.476e-3;
/// Half thickness of body and trigger [m].
const THICK: (f64, f64) = (0.0125, 0.005);

/// Pairs down the body from its front to its back, and on down the handle: drawing units, x back and y down.
const BODY: [[f64; 4]; 6] = [
    [96.0, -62.0, 96.0, 60.0],
    [138.0, -76.0, 138.0, 58.0],
    [184.0, -84.0, 160.0, 26.0],
    [238.0, -78.0, 250.0, 26.0],
    [290.0, -90.0, 256.0, 40.0],
    [349.0, -76.0, 258.0, 52.0],
];
const HANDLE: [[f64; 4]; 8] = [
    [349.0, -76.0, 258.0, 52.0],
    [356.0, 44.0, 258.0, 66.0],
    [402.0, 76.0, 262.0, 90.0],
    [394.0, 98.0, 266.0, 112.0],
    [379.0, 150.0, 272.0, 168.0],
    [386.0, 236.0, 284.0, 252.0],
    [395.0, 322.0, 298.0, 330.0],
    [405.0, 408.0, 313.0, 423.0],
];
/// The trigger, pulled.
const TRIGGER: [[f64; 4]; 6] = [
    [178.0, -66.0, 196.0, -62.0],
    [196.0, -10.0, 214.0, -10.0],
    [222.0, 40.0, 238.0, 38.0],
    [234.0, 90.0, 248.0, 90.0],
    [230.0, 150.0, 244.0, 152.0],
    [218.0, 196.0, 232.0, 200.0],
];

fn at(x: f64, y: f64) -> DVec3 {
    DVec3::new(0.0, -y, -x) * UNIT
}

fn pairs(list: &[[f64; 4]]) -> Vec<(DVec3, DVec3)> {
    list.iter().map(|[a, b, c, d]| (at(*a, *b), at(*c, *d))).collect()
}

/// The gun with its cup holding `level` of its volume; `fan` is the fan's long axis in the gun frame, which the cap's horns
/// stand across, `down` the way down in it.
#[must_use]
pub fn gun(feed: Feed, level: f64, fan: DVec3, down: DVec3) -> Mesh {
    let mut mesh = Mesh::default();
    let back = -DVec3::Z;
    let unit = |profile: &[(f64, f64)]| -> Vec<(f64, f64)> {
        profile.iter().map(|p| (p.0 * UNIT, p.1 * UNIT)).collect()
    };
    // Tip, cap and ring.
    let cap = [
        (0.0, 0.0),
        (0.0, 8.0),
        (10.0, 14.0),
        (16.0, 40.0),
        (40.0, 52.0),
        (46.0, 66.0),
        (96.0, 66.0),
        (96.0, 0.0),
    ];
    mesh.turned(DVec3::ZERO, back, &unit(&cap), Stuff::Gun, 32);
    let side = fan.with_z(0.0).normalize_or(DVec3::Y).cross(DVec3::Z);
    for sign in [-1.0, 1.0] {
        let horn = |x: f64, r: f64| back * (x * UNIT) + side * (sign * r * UNIT);
        let half = side.cross(DVec3::Z) * (13.0 * UNIT);
        mesh.lofted(
            &[
                (horn(-22.0, 46.0), horn(-14.0, 58.0)),
                (horn(20.0, 30.0), horn(30.0, 62.0)),
                (horn(40.0, 34.0), horn(44.0, 60.0)),
            ],
            half,
            Stuff::Gun,
        );
    }
    let body: Vec<_> = pairs(&BODY).into_iter().chain(pairs(&HANDLE).into_iter().skip(1)).collect();
    mesh.lofted(&body, DVec3::X * THICK.0, Stuff::Gun);
    mesh.lofted(&pairs(&TRIGGER), DVec3::X * THICK.1, Stuff::Gun);
    // Fluid knob on the needle's axis, fan knob above it, air knob at the handle's foot.
    let knob =
        unit(&[(0.0, 0.0), (0.0, 14.0), (30.0, 14.0), (30.0, 31.0), (76.0, 31.0), (80.0, 26.0), (80.0, 0.0)]);
    mesh.turned(at(352.0, 0.0), back, &knob, Stuff::Gun, 20);
    let slope = (-32.0_f64).to_radians();
    mesh.turned(at(326.0, -92.0), at(slope.cos(), slope.sin()).normalize(), &knob, Stuff::Gun, 20);
    let slope = 8.0_f64.to_radians();
    mesh.turned(at(384.0, 380.0), at(slope.cos(), slope.sin()).normalize(), &knob, Stuff::Gun, 20);
    // Out of the handle, then down, and away from the part to where the painter stands.
    let away = [DVec3::NEG_Z, DVec3::NEG_Y]
        .map(|way| way - down * way.dot(down))
        .into_iter()
        .find(|way| way.length() > 0.5)
        .unwrap_or(DVec3::NEG_Y)
        .normalize();
    hose(&mut mesh, at(362.0, 412.0), DVec3::new(0.0, -0.11, -0.02), down * 0.24 + away * 0.42, Stuff::Hose);
    match feed {
        Feed::Gravity => gravity_cup(&mut mesh, level),
        Feed::Suction => {
            let pot = unit(&[
                (0.0, 0.0),
                (0.0, 30.0),
                (18.0, 30.0),
                (22.0, 92.0),
                (44.0, 96.0),
                (230.0, 96.0),
                (240.0, 84.0),
                (240.0, 0.0),
            ]);
            mesh.turned(at(COLUMN_X, 56.0), -DVec3::Y, &pot, Stuff::Gun, 32);
        }
        Feed::Pressure => {
            hose(
                &mut mesh,
                at(COLUMN_X, 56.0),
                DVec3::new(0.0, -0.16, 0.0),
                DVec3::new(0.03, -0.42, -0.3),
                Stuff::Paint,
            );
        }
    }
    mesh
}

fn gravity_cup(mesh: &mut Mesh, level: f64) {
    let foot = at(COLUMN_X, CUP.foot);
    let up = DVec3::Y;
    let surface = CUP.surface(level);
    let wall = |from: f64, to: f64| -> Vec<(f64, f64)> {
        (0..=10)
            .map(|i| from + (to - from) * f64::from(i) / 10.0)
            .map(|y| ((CUP.foot - y) * UNIT, (CUP.radius(y) + 4.0) * UNIT))
            .collect()
    };
    // Paint to its level, seen through the cup; air above.
    let mut full = vec![(0.0, 0.0)];
    full.extend(wall(CUP.foot, surface));
    full.push(((CUP.foot - surface) * UNIT, 0.0));
    mesh.turned(foot, up, &full, Stuff::Paint, 36);
    let mut free = vec![((CUP.foot - surface) * UNIT, 0.0)];
    free.extend(wall(surface, CUP.brim));
    let lid = |y: f64, r: f64| ((CUP.foot - y) * UNIT, r * UNIT);
    free.extend([
        lid(-284.0, 95.0),
        lid(-302.0, 95.0),
        lid(-308.0, 86.0),
        lid(-310.0, 16.0),
        lid(-326.0, 14.0),
        lid(-326.0, 0.0),
    ]);
    mesh.turned(foot, up, &free, Stuff::Gun, 36);
    let neck = [(0.0, 0.0), (0.0, 26.0), (46.0 * UNIT, 26.0), (46.0 * UNIT, 0.0)];
    mesh.turned(at(COLUMN_X, CUP.foot + 44.0), up, &neck.map(|p| (p.0, p.1 * UNIT)), Stuff::Gun, 24);
}

/// A hose that hangs from its fitting: a bow over `first` to `last`, both seen from the fitting [m].
fn hose(mesh: &mut Mesh, from: DVec3, first: DVec3, last: DVec3, stuff: Stuff) {
    const RADIUS: f64 = 7e-3;
    const PIECES: u32 = 14;
    let point = |t: f64| from + first * (2.0 * t * (1.0 - t)) + last * (t * t);
    let ring = |i: u32, k: u32| {
        let t = f64::from(i) / f64::from(PIECES);
        let way = (first * (2.0 - 4.0 * t) + last * (2.0 * t)).normalize_or(DVec3::NEG_Y);
        let side = way.cross(DVec3::X).normalize_or(DVec3::Z);
        let (sin, cos) = (std::f64::consts::TAU * f64::from(k) / 10.0).sin_cos();
        let normal = side * cos + way.cross(side) * sin;
        Vertex::new(point(t) + normal * RADIUS, normal, stuff)
    };
    for i in 0..PIECES {
        for k in 0..10 {
            mesh.quad([ring(i, k), ring(i + 1, k), ring(i + 1, k + 1), ring(i, k + 1)]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::mesh::tests::faces_out;
    use super::*;

    #[test]
    fn every_feed_gives_a_sound_gun_of_its_true_size() {
        for feed in [Feed::Gravity, Feed::Suction, Feed::Pressure] {
            let mesh = gun(feed, 0.5, DVec3::X, DVec3::NEG_Y);
            faces_out(&mesh);
            let places = (0..mesh.corners() as u32).map(|c| mesh.at(c));
            let (low, high) =
                places.fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(l, h), p| (l.min(p), h.max(p)));
            // Nothing of it stands more than the horns' tips before the tip.
            assert!(high.z < 0.012 && low.z < -0.19, "{feed:?}: {low} {high}");
            assert!(high.x < 0.055 && low.x > -0.055, "{feed:?}: {low} {high}");
        }
    }

    #[test]
    fn pointing_down_its_hose_hangs_towards_the_painter() {
        // The gun's frame over a level panel: down is the way it sprays, the handle's end is the painter's.
        let lowest = |down: DVec3| {
            let mesh = gun(Feed::Gravity, 0.5, DVec3::X, down);
            let hose = (0..mesh.corners()).filter(|c| {
                mesh.vertices[c * super::super::mesh::STRIDE + 13] == f32::from(Stuff::Hose as u8)
            });
            hose.map(|c| mesh.at(c as u32))
                .fold(DVec3::splat(-9.0), |far, p| if p.dot(down) > far.dot(down) { p } else { far })
        };
        let end = lowest(DVec3::Z);
        assert!(end.z > 0.0 && end.y < -0.4, "{end}");
        let upright = lowest(DVec3::NEG_Y);
        assert!(upright.y < -0.4 && upright.z < -0.4, "{upright}");
    }

    #[test]
    fn the_level_falls_in_the_cup() {
        let top = |level: f64| {
            let mesh = gun(Feed::Gravity, level, DVec3::X, DVec3::NEG_Y);
            let painted =
                (0..mesh.corners()).filter(|c| mesh.vertices[c * super::super::mesh::STRIDE + 13] == 2.0);
            painted.map(|c| mesh.at(c as u32).y).fold(f64::NEG_INFINITY, f64::max)
        };
        assert!(top(1.0) > top(0.5) + 0.02 && top(0.5) > top(0.05) + 0.02);
        assert!(top(f64::NAN).is_finite());
    }
}
