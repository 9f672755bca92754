//! Tables whose keys belong together: gun, supply, part, stroke.

use super::draw::{one, within};
use super::{Lines, MOST_AREA};
use crate::patterns::Draws;
use mistcoat::catalogue;
use mistcoat::part::Frame;
use mistcoat::units::{Quantity, parse};
use std::f64::consts::PI;

/// A kit, or a gun from its box.
pub(super) fn gun(d: &mut Draws, lines: &mut Lines) {
    if d.uniform() < 0.85 {
        return lines.drawn(d, "gun.kit");
    }
    for path in ["gun.box.air", "gun.box.at", "gun.box.tip"] {
        lines.drawn(d, path);
    }
    if d.uniform() < 0.5 {
        lines.drawn(d, "gun.box.fan");
        lines.drawn(d, "gun.box.fan_at");
    }
}

/// Compressor and line, or none.
pub(super) fn supply(d: &mut Draws, lines: &mut Lines) {
    if d.uniform() < 0.7 {
        return;
    }
    match d.uniform() {
        u if u < 0.5 => lines.drawn(d, "supply.compressor"),
        u if u < 0.7 => {
            lines.drawn(d, "supply.compressor.like");
            lines.drawn(d, "supply.compressor.tank");
        }
        _ => {
            for path in ["delivered_air", "tank", "cut_in", "cut_out"] {
                lines.drawn(d, super::of(&format!("supply.compressor.{path}")).path);
            }
        }
    }
    let line = mistcoat::job::KEYS.iter().map(|k| k.path);
    for path in line.filter(|p| p.starts_with("supply.") && !p.starts_with("supply.compressor")) {
        if d.uniform() < 0.3 {
            lines.drawn(d, path);
        }
    }
}

/// Kits to compare with.
pub(super) fn kits(d: &mut Draws) -> String {
    let kit = one(d, catalogue::kits()).id;
    format!(
        "[{{ kit = \"{kit}\", price = {} }}, {{ box = {{ air = \"{} L/min\", at = \"2 bar\", tip = \"1.3 mm\" }} }}]",
        within(d, 1.0, 1e4),
        within(d, 3.0, 1000.0)
    )
}

/// Keys of a shape until its area is small enough.
fn sized(d: &mut Draws, lines: &mut Lines, names: &[&'static str], area: fn(&[f64]) -> f64) {
    loop {
        let mut own = Lines::default();
        names.iter().for_each(|name| own.drawn(d, name));
        let read = |text: &str| parse(Quantity::Length, text.trim_matches('"')).unwrap_or(f64::INFINITY);
        let metres: Vec<f64> = own.0.iter().map(|(_, value)| read(value)).collect();
        if area(&metres) <= MOST_AREA {
            return lines.0.append(&mut own.0);
        }
    }
}

/// The part; true where it is a frame.
pub(super) fn part(d: &mut Draws, lines: &mut Lines) -> bool {
    match d.uniform() {
        u if u < 0.35 => sized(d, lines, &["part.panel.width", "part.panel.height"], |m| m[0] * m[1]),
        u if u < 0.6 => sized(d, lines, &["part.tube.diameter", "part.tube.length"], |m| PI * m[0] * m[1]),
        u if u < 0.85 => {
            let names = ["part.curved.radius", "part.curved.width", "part.curved.height"];
            // What goes further than half way round is drawn again, too.
            sized(d, lines, &names, |m| if m[2] > PI * m[0] { f64::INFINITY } else { m[1] * m[2] });
        }
        _ => {
            frame(d, lines);
            return true;
        }
    }
    false
}

/// One of our own frames, or tubes anywhere; some of them picked.
fn frame(d: &mut Draws, lines: &mut Lines) {
    let names: Vec<String>;
    if d.uniform() < 0.5 {
        let word = d.one_of(&Frame::SHAPES);
        let own = Frame::named(word).map(|f| f.members).unwrap_or_default();
        names = own.iter().map(|m| m.name.clone()).collect();
        lines.add("part.frame", format!("{word:?}"));
    } else {
        let count = d.one_of(&[1, 2, 3, 7]);
        names = (0..count).map(|i| format!("tube {i}")).collect();
        let tubes: Vec<String> = names.iter().map(|name| tube(d, name)).collect();
        lines.add("part.frame", format!("{{ tubes = [{}] }}", tubes.join(", ")));
    }
    if d.uniform() < 0.2 {
        let picked: Vec<String> =
            names.iter().filter(|_| d.uniform() < 0.5).map(|n| format!("{n:?}")).collect();
        lines.add("stroke.members", format!("[{}]", picked.join(", ")));
    }
}

fn tube(d: &mut Draws, name: &str) -> String {
    let from: [f64; 3] = std::array::from_fn(|_| d.between(-400.0, 400.0).round());
    let length = within(d, 20.0, 800.0);
    let (turn, rise) = (d.between(0.0, 2.0 * PI), d.one_of(&[0.0, 0.3, 1.0, PI / 2.0]));
    let way = [rise.cos() * turn.cos(), rise.sin(), rise.cos() * turn.sin()];
    let to: [f64; 3] = std::array::from_fn(|i| from[i] + length * way[i]);
    let point = |p: [f64; 3]| p.map(|x| format!("\"{x:.4} mm\"")).join(", ");
    let diameter = within(d, 3.0, 100.0);
    format!(
        "{{ name = \"{name}\", from = [{}], to = [{}], diameter = \"{diameter} mm\" }}",
        point(from),
        point(to)
    )
}

/// Distance, pace, hand, now and then a recorded track.
pub(super) fn stroke(d: &mut Draws, lines: &mut Lines, frame: bool) {
    lines.drawn(d, "stroke.distance");
    lines.drawn(d, "stroke.speed");
    match d.uniform() {
        u if u < 0.15 => lines.drawn(d, "stroke.hand"),
        u if u < 0.3 => {
            for path in ["aim", "speed", "distance", "pivot", "heel", "drift"] {
                if d.uniform() < 0.4 {
                    lines.drawn(d, super::of(&format!("stroke.hand.{path}")).path);
                }
            }
        }
        u if u < 0.4 && !frame => {
            let half = [d.between(0.0, 1.0), d.between(0.0, 0.5)];
            let track = track(d, half);
            lines.add("stroke.track", track);
        }
        _ => {}
    }
}

/// Moments of a hand over a part of a half size [m].
pub(super) fn track(d: &mut Draws, half: [f64; 2]) -> String {
    let mut time = 0.0;
    let wild = d.uniform() < 0.2;
    let (far, tilt) = if wild { ([20.0, 2000.0], 57.0) } else { ([80.0, 400.0], 20.0) };
    let turned = d.uniform() < 0.2;
    let rows: Vec<String> = (0..d.one_of(&[2, 3, 8, 20]))
        .map(|i| {
            if i > 0 {
                time += within(d, 0.005, 3.0);
            }
            let [x, y] = half.map(|h| 1e3 * d.between(-h, h));
            let distance = within(d, far[0], far[1]);
            let [heel, swing] = [0, 1].map(|_| d.between(-tilt, tilt));
            let trigger = d.one_of(&[0.0, 1.0, 1.0, 0.5]);
            let turn = if turned { format!(", {:.1}", d.between(-360.0, 360.0)) } else { String::new() };
            format!("[{time:.3}, {x:.1}, {y:.1}, {distance}, {heel:.2}, {swing:.2}, {trigger}{turn}]")
        })
        .collect();
    format!("[{}]", rows.join(", "))
}
