//! The air line: gun and its gauge at the left, hose, wall regulator, tank and pump at the right; below it the pressure
//! along the line, over the same places. Not to scale but for the hose's bore against itself.

mod curve;
mod tank;

use super::gun::{air, below, body, cap, cup, fan, fluid, gauge, geometry, trigger};
use super::svg::{group, hatches, line, n, path, rect, text};
use crate::state::{GunFace, Stage};
use curve::curve;
use tank::{mask, tank};

/// Size of the drawing [px].
pub const SIZE: (f64, f64) = (784.0, 584.0);
/// Places of gun gauge, hose ends, wall gauge and tank across the drawing [px].
const GUN_X: f64 = 157.0;
const HOSE_X: (f64, f64) = (236.0, 404.0);
const WALL_X: f64 = 452.0;
const TANK_X: (f64, f64) = (656.0, 736.0);
/// The air way's height [px].
const WAY_Y: f64 = 306.0;
/// Tank's top and foot [px].
const TANK_Y: (f64, f64) = (120.0, 340.0);
/// Top and foot of the pressure curve [px].
const CURVE_Y: (f64, f64) = (454.0, 554.0);

/// A pressure [bar] and how it is said.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// Pressure [bar gauge].
    pub bar: f64,
    /// In the units shown.
    pub words: String,
}

/// The words in the drawing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Labels {
    /// Over the gun's gauge.
    pub gun: String,
    /// Under it: pulled and rest.
    pub gun_says: [String; 2],
    /// At the hose: its size, what it loses.
    pub hose: [String; 2],
    /// At the couplings.
    pub couplings: String,
    /// Over the wall gauge, and under it.
    pub wall: String,
    /// Pulled and rest.
    pub wall_says: [String; 2],
    /// At the mask; empty for none.
    pub mask: String,
    /// At the pump: what it delivers.
    pub pump: [String; 2],
    /// Title of the curve, and of the dashed one.
    pub curve: [String; 2],
    /// Not to scale.
    pub scale: String,
}

/// What is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct AirLine {
    /// The gun, for its small picture.
    pub face: GunFace,
    /// Gun's gauge, trigger pulled.
    pub gun: Said,
    /// At rest.
    pub rest: Said,
    /// Wall gauge, trigger pulled.
    pub wall: Said,
    /// Hose's near and far end, trigger pulled [bar].
    pub hose: (f64, f64),
    /// Tank now.
    pub tank: Said,
    /// Marks of the tank with their words, from the top.
    pub marks: Vec<Said>,
    /// Full scale of the tank: cut-out [bar].
    pub full: f64,
    /// Hose bore [mm].
    pub bore: f64,
    /// Couplings before and behind the hose.
    pub couplings: (u32, u32),
    /// The trigger as shown by the gun's gauge.
    pub stage: Stage,
    /// One bar in the unit shown, the unit, and the step of the dials' figures in it.
    pub dial: (f64, &'static str, f64),
    /// Words.
    pub labels: Labels,
}

/// The whole drawing.
pub fn air_line(a: &AirLine) -> String {
    [gun(a), hose(a), wall(a), tank(a), mask(a), curve(a)].concat()
}

fn dial(a: &AirLine, at: (f64, f64), pulled: f64, rest: f64, stage: Stage) -> String {
    let top = pulled.max(rest).max(1.0);
    let face = GunFace {
        pulled_bar: pulled,
        rest_bar: Some(rest),
        gauge_full_bar: (top * 1.15).ceil().max(4.0),
        stage,
        ..GunFace::default()
    };
    let drawn = gauge::dial(&face, a.dial.0, a.dial.1, a.dial.2);
    let back = group(&format!("translate({} {})", n(-geometry::GAUGE.0), n(-geometry::GAUGE.1)), &drawn);
    group(&format!("translate({} {}) scale(.86)", n(at.0), n(at.1)), &back)
}

fn gun(a: &AirLine) -> String {
    let face = GunFace { stage: a.stage, in_hand: None, mirror: false, ..a.face };
    let pose = geometry::Pose::of(&face);
    let picture = [
        format!("<defs>{}</defs>", hatches("al", 14.0)),
        cup::still("al", face.feed),
        body::still("al", face.feed),
        fluid::still("al", face.feed) + &below::neck("al", face.feed),
        cap::section("al"),
        fan::still("al"),
        fluid::moving(&pose, &face, "al"),
        cup::level(&face),
        fan::moving(&pose, &face, "al"),
        air::moving(&pose, &face),
        trigger::moving(&pose),
    ]
    .concat();
    let l = &a.labels;
    let says = [
        text("word on", (10.0, WAY_Y - 44.0), "start", &l.gun),
        text("dim-figure", (10.0, WAY_Y - 22.0), "start", &l.gun_says[0]),
        text("word", (10.0, WAY_Y - 3.0), "start", &l.gun_says[1]),
    ];
    [
        group("translate(38 104) scale(.34)", &picture),
        dial(a, (GUN_X, WAY_Y), a.gun.bar, a.rest.bar, a.stage),
        says.concat(),
    ]
    .concat()
}

fn coupling(x: f64) -> String {
    [
        rect("metal part", x - 7.0, WAY_Y - 7.0, 8.0, 14.0, 1.5),
        rect("sheet part", x + 1.0, WAY_Y - 5.0, 7.0, 10.0, 1.0),
        line("inside-line", (x - 3.0, WAY_Y - 7.0), (x - 3.0, WAY_Y + 7.0)),
    ]
    .concat()
}

fn hose(a: &AirLine) -> String {
    let (from, to) = HOSE_X;
    let at = |share: f64| n(from + share * (to - from));
    let (up, low) = (WAY_Y, WAY_Y + 46.0);
    // Hangs in two bights between gun and wall.
    let way = format!(
        "M{g} {up}H{a}C{b} {up} {b} {low} {c} {low}S{d} {up} {e} {up}S{f} {low} {h} {low}S{i} {up} {j} {up}H{w}",
        g = n(GUN_X + 40.0),
        a = at(0.0),
        b = at(0.14),
        c = at(0.25),
        d = at(0.36),
        e = at(0.5),
        f = at(0.64),
        h = at(0.75),
        i = at(0.88),
        j = at(1.0),
        w = n(WALL_X - 30.0),
    );
    let size = if a.bore < 7.0 {
        "thin"
    } else if a.bore < 9.5 {
        "middle"
    } else {
        "wide"
    };
    let edge = path(&format!("line-edge {size}"), &way) + &path(&format!("line-bore {size}"), &way);
    let row = |count: u32, first: f64, step: f64| {
        (0..count.min(3)).map(|i| coupling(first + step * f64::from(i))).collect::<String>()
    };
    let l = &a.labels;
    let middle = 0.5 * (from + to);
    [
        edge,
        row(a.couplings.0, to + 8.0, -20.0),
        row(a.couplings.1, from - 22.0, 20.0),
        text("word on", (middle, low + 26.0), "middle", &l.hose[0]),
        text("word", (middle, low + 45.0), "middle", &l.hose[1]),
        text("word", (middle, up - 22.0), "middle", &l.couplings),
    ]
    .concat()
}

fn wall(a: &AirLine) -> String {
    let l = &a.labels;
    let pipe = path("line-edge pipe", &format!("M{} {}H{}", n(WALL_X + 20.0), n(WAY_Y), n(TANK_X.0)))
        + &path("line-bore pipe", &format!("M{} {}H{}", n(WALL_X + 20.0), n(WAY_Y), n(TANK_X.0 + 2.0)));
    let x = WALL_X;
    let block = [
        rect("metal outline-2", x - 22.0, WAY_Y - 16.0, 44.0, 32.0, 3.0),
        rect("sheet part", x - 13.0, WAY_Y + 16.0, 26.0, 7.0, 0.0),
        path("metal part", &format!("M{} {}h30l-4 24h-22Z", n(x - 15.0), n(WAY_Y + 23.0))),
        line("inside-line", (x - 5.0, WAY_Y + 24.0), (x - 4.0, WAY_Y + 46.0)),
        line("inside-line", (x + 5.0, WAY_Y + 24.0), (x + 4.0, WAY_Y + 46.0)),
    ]
    .concat();
    [
        pipe,
        block,
        dial(a, (x, WAY_Y - 60.0), a.wall.bar, a.wall.bar.max(a.rest.bar), a.stage),
        text("word on", (x, WAY_Y - 156.0), "middle", &l.wall),
        text("dim-figure", (x, WAY_Y - 135.0), "middle", &l.wall_says[0]),
        text("word", (x, WAY_Y - 116.0), "middle", &l.wall_says[1]),
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(bar: f64) -> Said {
        Said { bar, words: format!("{bar}") }
    }

    fn sample(tank: f64) -> AirLine {
        AirLine {
            face: GunFace::default(),
            gun: said(2.0),
            rest: said(3.2),
            wall: said(3.0),
            hose: (2.8, 2.2),
            tank: said(tank),
            marks: vec![said(8.0), said(6.0), said(5.9)],
            full: 8.0,
            bore: 8.0,
            couplings: (1, 1),
            stage: Stage::Paint,
            dial: (1.0, "bar", 1.0),
            labels: Labels { mask: "air-fed mask".into(), ..Labels::default() },
        }
    }

    #[test]
    fn it_is_sound_whatever_the_figures() {
        for tank in [8.0, 0.0, f64::NAN, f64::INFINITY, -3.0] {
            let svg = air_line(&sample(tank));
            let (opened, shut) = (svg.matches("<g").count(), svg.matches("</g>").count());
            assert_eq!(opened, shut);
            assert!(!svg.contains("NaN\"") && !svg.contains("inf\"") && !svg.contains("style="));
        }
    }

    #[test]
    fn marks_that_lie_close_keep_apart() {
        let svg = tank(&sample(8.0));
        let places: Vec<f64> = svg
            .split("<text class=\"word\"")
            .skip(1)
            .filter(|t| t.contains("text-anchor=\"end\""))
            .filter_map(|t| t.split("y=\"").nth(1)?.split('"').next()?.parse().ok())
            .collect();
        assert!(places.len() >= 3 && places[1] + 16.9 <= places[2], "{places:?}");
    }
}
