//! Frames of our own: a café chair, a bicycle's main frame, a piece of railing, small parts on a rack. Sizes as such things usually
//! have them (common practice, no source); straight tubes, bends left out.

use super::Member;
use glam::DVec3;

fn mm(x: f64, y: f64, z: f64) -> DVec3 {
    DVec3::new(x, y, z) * 1e-3
}

fn tube(name: impl Into<String>, from: DVec3, to: DVec3, diameter: f64) -> Member {
    Member::new(name, from, to, diameter * 1e-3)
}

/// Left is the painter's left, before the chair's front.
const SIDES: [(&str, f64); 2] = [("left", -1.0), ("right", 1.0)];

pub(super) fn chair() -> Vec<Member> {
    let mut all = Vec::new();
    for (side, s) in SIDES {
        let (front, rear) = (mm(s * 190.0, 450.0, 190.0), mm(s * 185.0, 450.0, -180.0));
        all.push(tube(format!("front leg, {side}"), mm(s * 200.0, 0.0, 200.0), front, 22.0));
        all.push(tube(format!("rear leg, {side}"), mm(s * 200.0, 0.0, -210.0), rear, 22.0));
        all.push(tube(format!("back post, {side}"), rear, mm(s * 185.0, 830.0, -250.0), 22.0));
        all.push(tube(format!("seat rail, {side}"), front, rear, 22.0));
        let low = [mm(s * 196.7, 150.0, 196.7), mm(s * 195.0, 150.0, -200.0)];
        all.push(tube(format!("rung, {side}"), low[0], low[1], 16.0));
    }
    let across =
        |name: &str, x: f64, y: f64, z: f64, diameter: f64| tube(name, mm(-x, y, z), mm(x, y, z), diameter);
    all.push(across("seat rail, front", 190.0, 450.0, 190.0, 22.0));
    all.push(across("seat rail, rear", 185.0, 450.0, -180.0, 22.0));
    all.push(across("back rail, middle", 185.0, 650.0, -216.8, 22.0));
    all.push(across("back rail, top", 185.0, 830.0, -250.0, 22.0));
    all
}

pub(super) fn bicycle() -> Vec<Member> {
    let (bracket, axle) = (mm(0.0, 0.0, 0.0), |z: f64| mm(-420.0, 30.0, z));
    let mut all = vec![
        tube("seat tube", bracket, mm(-170.0, 500.0, 0.0), 30.0),
        tube("top tube", mm(-162.0, 476.0, 0.0), mm(388.0, 530.0, 0.0), 28.0),
        tube("down tube", bracket, mm(418.0, 434.0, 0.0), 34.0),
        tube("head tube", mm(380.0, 556.0, 0.0), mm(426.0, 410.0, 0.0), 36.0),
    ];
    for (side, s) in [("near", 1.0), ("far", -1.0)] {
        all.push(tube(format!("chain stay, {side}"), mm(0.0, 0.0, s * 20.0), axle(s * 65.0), 20.0));
        all.push(tube(format!("seat stay, {side}"), mm(-162.0, 476.0, s * 18.0), axle(s * 65.0), 16.0));
    }
    all
}

pub(super) fn railing() -> Vec<Member> {
    let rail = |name: &str, y: f64| tube(name, mm(-750.0, y, 0.0), mm(750.0, y, 0.0), 42.0);
    let mut all = vec![rail("rail, upper", 900.0), rail("rail, lower", 120.0)];
    for (side, s) in SIDES {
        all.push(tube(format!("post, {side}"), mm(s * 750.0, 0.0, 0.0), mm(s * 750.0, 950.0, 0.0), 42.0));
    }
    for i in 0..9 {
        let x = -600.0 + 150.0 * f64::from(i);
        all.push(tube(format!("baluster {}", i + 1), mm(x, 120.0, 0.0), mm(x, 900.0, 0.0), 16.0));
    }
    all
}

/// Furniture feet, hung in two rows from bars that are not meant to be painted.
pub(super) fn rack() -> Vec<Member> {
    let mut all = Vec::new();
    for (row, y) in [("upper", 400.0), ("lower", 150.0)] {
        let bar = tube(format!("bar, {row}"), mm(-340.0, y, 0.0), mm(340.0, y, 0.0), 12.0);
        all.push(Member { sprayed: false, ..bar });
        for i in 0..5 {
            let x = -280.0 + 140.0 * f64::from(i);
            let name = format!("foot {}, {row} row", i + 1);
            all.push(tube(name, mm(x, y - 160.0, 0.0), mm(x, y - 40.0, 0.0), 30.0));
        }
    }
    all
}
