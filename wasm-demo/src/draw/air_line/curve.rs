//! The pressure along the line, under the same places.

use super::super::svg::{line, open, path, text};
use super::{AirLine, CURVE_Y, GUN_X, HOSE_X, SIZE, TANK_X, WALL_X};

/// Pressure along the line, trigger pulled; dashed at rest.
pub(super) fn curve(a: &AirLine) -> String {
    let (top, foot) = CURVE_Y;
    let most = a.full.max(a.wall.bar).max(1.0);
    let y = |bar: f64| foot - (bar / most).clamp(0.0, 1.0) * (foot - top);
    let tank = 0.5 * (TANK_X.0 + TANK_X.1);
    let (far, near) = HOSE_X;
    let pulled = [
        (30.0, a.gun.bar),
        (GUN_X, a.gun.bar),
        (far - 30.0, a.gun.bar),
        (far, a.hose.1),
        (near, a.hose.0),
        (WALL_X - 22.0, a.wall.bar),
        (WALL_X - 6.0, a.wall.bar),
        (WALL_X + 6.0, a.tank.bar),
        (tank, a.tank.bar),
        (760.0, a.tank.bar),
    ];
    let rest = [(30.0, a.rest.bar), (WALL_X - 6.0, a.rest.bar), (WALL_X + 6.0, a.tank.bar)];
    let at = |points: &[(f64, f64)]| points.iter().map(|(x, bar)| (*x, y(*bar))).collect::<Vec<_>>();
    let mut out = line("part", (30.0, foot), (760.0, foot));
    for x in [GUN_X, far, near, WALL_X, tank] {
        out += &line("dotted", (x, top - 14.0), (x, foot));
    }
    out += &path("dashed", &open(&at(&rest)));
    out += &path("profile-line", &open(&at(&pulled)));
    for (x, said, anchor, below) in
        [(34.0, &a.gun, "start", true), (WALL_X - 30.0, &a.wall, "end", true), (758.0, &a.tank, "end", true)]
    {
        out += &text("dim-figure", (x, y(said.bar) + if below { 18.0 } else { -7.0 }), anchor, &said.words);
    }
    out += &text("word", (34.0, y(a.rest.bar) - 8.0), "start", &a.labels.curve[1]);
    out += &text("word on", (30.0, top - 24.0), "start", &a.labels.curve[0]);
    out + &text("axis-figure", (760.0, SIZE.1 - 8.0), "end", &a.labels.scale)
}
