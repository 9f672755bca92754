//! The booth in words, for those who do not see it.

use glam::DVec3;
use leptos::prelude::*;
use mistcoat::units::Quantity;

use super::Band;
use crate::booth3d::part::bounds;
use crate::booth3d::scene::Scene;
use crate::figures::said;
use crate::views::part_said::part_said;
use crate::words::{fill, words};

/// Smaller parts are not told apart into upper and lower, left and right [m].
const LARGE: f64 = 0.1;

/// What stands there, its film, its worst place, the fan.
pub fn says(band: Band) -> String {
    let w = words().booth;
    let desk = band.desk;
    let say = |q: Quantity, v: f64| said(q, v, desk.system.get());
    let part =
        desk.parsed.with(|j| j.as_ref().map(|j| part_said(&j.part, desk.system.get())).unwrap_or_default());
    let mut out = vec![fill(w.stands, &[&part])];
    match desk.fresh() {
        Some(run) => {
            if let Some(mean) = run.number("film.dry_um.mean") {
                out.push(fill(w.filmed, &[&say(Quantity::Film, mean * 1e-6)]));
            }
            let film = super::paint::film(band);
            let worst = band.scene.with(|s| {
                let s = s.as_ref()?;
                let (film, face, at, normal) = s.thinnest(film.as_ref()?)?;
                Some((film, place(s, face, at, normal)))
            });
            if let Some((film, place)) = worst {
                out.push(fill(w.thinnest, &[&place, &say(Quantity::Film, film)]));
            }
            if let Some(mm) = run.number("pattern.length_mm") {
                out.push(fill(w.fan, &[&say(Quantity::Length, mm * 1e-3)]));
            }
        }
        None => out.push(if desk.busy() && !desk.stopped.get() { w.growing } else { w.bare }.into()),
    }
    out.join(" ")
}

/// A place of the part in words.
fn place(scene: &Scene, face: usize, at: DVec3, normal: DVec3) -> String {
    let w = words().booth;
    let mut out = Vec::new();
    let face = scene.face(face);
    if !face.name.is_empty() {
        out.push(face.name.clone());
    }
    if face.place.radius > 0.0 {
        let ways = [DVec3::Z, DVec3::NEG_Z, DVec3::X, DVec3::NEG_X, DVec3::Y, DVec3::NEG_Y];
        let best = (0..6).max_by(|&a, &b| normal.dot(ways[a]).total_cmp(&normal.dot(ways[b])));
        out.extend(best.map(|i| w.sides[i].to_string()));
    }
    let (low, high) = bounds(std::slice::from_ref(face));
    let third = |low: f64, high: f64, v: f64| (((v - low) / (high - low) * 3.0) as usize).min(2);
    if high.y - low.y > LARGE {
        out.push(w.heights[2 - third(low.y, high.y, at.y)].to_string());
    }
    if high.x - low.x > LARGE {
        out.push(w.breadths[third(low.x, high.x, at.x)].to_string());
    }
    out.join(", ")
}
