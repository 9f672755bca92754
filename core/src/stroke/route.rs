//! The plan as lines on the part: raster, cross coats, ends banded first; round a tube side by side.

use crate::job::{PartShape, PassOrder, StrokePlan};
use core::f64::consts::{FRAC_PI_2, TAU};

/// One planned pass, straight, trigger on from end to end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// It runs up or down the face instead of along x.
    pub upright: bool,
    /// Where the aim begins and ends, along the pass [m].
    pub ends: [f64; 2],
    /// Aim across the pass [m].
    pub offset: f64,
    /// Fan turned from how the job holds it, or side of a tube [rad].
    pub turn: f64,
    /// Its coat, from 0.
    pub coat: u32,
    /// Tube of a frame it goes along; 0 elsewhere.
    pub member: usize,
}

/// Most passes of one coat.
const MOST: usize = 2000;

/// Lines across a length, spaced by `spacing`, the outer two at or past its ends.
fn lines(length: f64, spacing: f64) -> impl Iterator<Item = f64> {
    let count = ((length / spacing - 1e-9).ceil() as usize + 1).min(MOST);
    let first = -0.5 * spacing * (count - 1) as f64;
    (0..count).map(move |i| first + spacing * i as f64)
}

/// The passes of a plan on a part, coat by coat; `fan` [m] is the fan's size across the pass.
#[must_use]
pub fn legs(plan: &StrokePlan, part: &PartShape, fan: f64) -> Vec<Leg> {
    let spacing = (fan * (1.0 - plan.overlap)).max(1e-3);
    let mut legs = Vec::new();
    for coat in 0..plan.coats {
        let mut go = |upright, half: f64, rows: Vec<(f64, f64)>| {
            for (offset, turn) in rows {
                let ends = if legs.len() % 2 == 0 { [-half, half] } else { [half, -half] };
                legs.push(Leg { upright, ends, offset, turn, coat, member: 0 });
            }
        };
        match *part {
            // Tube by tube, as `FramePlan` found them.
            PartShape::Frame(_) => {}
            PartShape::Curved { radius, width, height } => {
                let pi = core::f64::consts::PI;
                let rows = lines(height.min(pi * radius), spacing).map(|y| (0.0, -y / radius));
                go(false, 0.5 * width + plan.lead, rows.filter(|row| row.1.abs() < pi).collect());
            }
            PartShape::Tube { length, .. } => {
                let sides = plan.sides.max(1);
                let turn = |i| TAU * f64::from(i) / f64::from(sides);
                go(false, 0.5 * length + plan.lead, (0..sides).map(|i| (0.0, turn(i))).collect());
            }
            PartShape::Panel { width, height } => {
                let across = plan.order == PassOrder::Cross && coat % 2 == 1;
                let (length, breadth) = if across { (height, width) } else { (width, height) };
                let banded = plan.order == PassOrder::Banded;
                if banded {
                    let ends = vec![(-0.5 * width, FRAC_PI_2), (0.5 * width, FRAC_PI_2)];
                    go(true, 0.5 * height + plan.lead, ends);
                }
                let lead = if banded { 0.0 } else { plan.lead };
                let turn = if across { FRAC_PI_2 } else { 0.0 };
                // From the top down, as one sprays; from left to right where the passes are upright.
                let sign = if across { 1.0 } else { -1.0 };
                let rows = lines(breadth, spacing).map(|at| (sign * at, turn)).collect();
                go(across, 0.5 * length + lead, rows);
            }
        }
    }
    legs
}
