//! How the gun is moved over a part: spacing of the passes, sides of a tube, speed.

use super::flight::Flight;
use super::lever::OVERLAPS;
use crate::in_order::InOrder;
use crate::job::{Job, PartShape};

/// How the passes go, once gun, distance and fan axis are set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// Overlap of neighbouring passes, share of the fan height [-].
    pub overlap: f64,
    /// Tubes: passes from this many sides.
    pub sides: u32,
    /// Speed that it is laid at [m/s].
    pub speed: f64,
}

impl Way {
    /// The way of a job.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let stroke = &job.stroke;
        Self { overlap: stroke.overlap, sides: stroke.sides.max(1), speed: stroke.speed }
    }

    /// The job moved so.
    #[must_use]
    pub fn set(self, mut job: Job) -> Job {
        (job.stroke.overlap, job.stroke.sides, job.stroke.speed) = (self.overlap, self.sides, self.speed);
        job
    }
}

/// Ways to move the gun over the job's part, once it is flown: numbers of passes over a panel, each spaced as far as it may be and
/// half way to the next; sides of a tube.
#[must_use]
pub fn ways(flight: &Flight, most: usize) -> Vec<Way> {
    let own = Way::of(&flight.prepared().job);
    let height = match flight.prepared().job.part {
        PartShape::Panel { height, .. } => height,
        PartShape::Curved { radius, height, .. } => height.min(core::f64::consts::PI * radius),
        PartShape::Tube { .. } | PartShape::Frame(_) => {
            return SIDES.map(|sides| Way { sides, ..own }).to_vec();
        }
    };
    let fan = flight.fan();
    if fan <= 0.0 {
        return vec![own];
    }
    let percent = |spacing: f64| ((1.0 - spacing / fan) * 100.0 + 1e-9).floor() * 0.01;
    let [low, high] = OVERLAPS;
    let mut overlaps: Vec<f64> = Vec::new();
    let first = (height / (fan * (1.0 - low))).ceil().max(1.0) as u32;
    let last = (height / (fan * (1.0 - high))).floor().max(f64::from(first)) as u32;
    for gaps in first..=last {
        let widest = height / f64::from(gaps) * (1.0 + SPARE);
        let wider = if gaps > 1 { height / f64::from(gaps - 1) } else { 1.5 * widest };
        overlaps.extend([percent(widest), percent(0.5 * (widest + wider))]);
    }
    overlaps.retain(|o| (low..=high).contains(o));
    overlaps.in_order(f64::total_cmp);
    overlaps.dedup();
    if overlaps.is_empty() {
        overlaps.push(own.overlap.clamp(low, high));
    }
    let count = overlaps.len();
    let kept = count.min(most.max(1));
    (0..kept).map(|i| Way { overlap: overlaps[(i * count + count / 2) / kept], ..own }).collect()
}

/// Numbers of sides tried on a tube.
pub const SIDES: [u32; 5] = [2, 3, 4, 5, 6];
/// Passes are spaced so much wider than would just do, so that a fan read a little lower does not want one more [-]. Ours: twice the
/// counting error of a fan's height.
const SPARE: f64 = 0.015;
