//! Passes found in a track: stretches with the trigger on, parted where the hand turns.

use super::Aim;
use crate::stroke::{Moment, Track};
use core::ops::Range;

/// A turn is one when the hand has gone back so far [m].
const TURNED: f64 = 0.04;
/// A stretch shorter than this along the panel is a dab, no pass [m].
const SHORTEST: f64 = 0.05;
/// Slower than this share of the planned speed counts as standing still.
const STILL: f64 = 0.1;
/// A stop shorter than this is none [s].
const STOP: f64 = 0.1;
/// Bits of a pass by which its pace is looked at [m].
const BIT: f64 = 0.025;

/// A bit of a pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bit {
    /// Its middle along the panel, from the panel's middle [m].
    pub x: f64,
    /// Way along the panel [m].
    pub way: f64,
    /// Time it took, stops left out [s].
    pub time: f64,
}

/// A pass of the hand.
#[derive(Debug, Clone, PartialEq)]
pub struct HandPass {
    /// Its segments in the track, by their first moments.
    pub segments: Range<usize>,
    /// Trigger on [s].
    pub from: f64,
    /// Trigger off, or turn [s].
    pub to: f64,
    /// Place along the panel at its begin and end [m].
    pub ends: [f64; 2],
    /// Mean height over the panel's middle, by way [m].
    pub y: f64,
    /// Way along the panel, stops left out [m].
    pub way: f64,
    /// Pace, stops left out [s/m].
    pub pace: f64,
    /// Nearest and farthest distance [m], over the panel.
    pub distance: [f64; 2],
    /// Mean distance over the panel [m].
    pub mean_distance: f64,
    /// Largest swing or heel over the panel [rad], as it lies away from square.
    pub tilt: f64,
    /// Trigger on, gun still [s].
    pub still: f64,
    /// Where it stood longest [m along, m up].
    pub still_at: [f64; 2],
    /// Bits along it, in order.
    pub bits: Vec<Bit>,
}

impl HandPass {
    /// Goes to the right.
    #[must_use]
    pub fn rightward(&self) -> bool {
        self.ends[1] > self.ends[0]
    }

    /// How far past the panel's edges it began and ended [m]; below 0: on the panel.
    #[must_use]
    pub fn leads(&self, width: f64) -> [f64; 2] {
        let side = if self.rightward() { 1.0 } else { -1.0 };
        [-side * self.ends[0] - 0.5 * width, side * self.ends[1] - 0.5 * width]
    }

    /// When the gun was at x on this pass [s].
    pub(super) fn when(&self, moments: &[Moment], x: f64) -> Option<f64> {
        self.segments.clone().find_map(|i| {
            let (a, b) = (&moments[i], &moments[i + 1]);
            let between = (a.x - x) * (b.x - x) <= 0.0 && a.x != b.x;
            between.then(|| a.time + (b.time - a.time) * (x - a.x) / (b.x - a.x))
        })
    }
}

/// Whether the gun stands still from one moment to the next.
pub(super) fn stands(a: &Moment, b: &Moment, aim: &Aim) -> bool {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    (dx * dx + dy * dy).sqrt() * aim.pace < STILL * (b.time - a.time)
}

/// Stops of a range of segments: runs of still segments that last.
pub(super) fn stops(moments: &[Moment], range: Range<usize>, aim: &Aim) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    for i in range.filter(|&i| stands(&moments[i], &moments[i + 1], aim)) {
        match out.last_mut().filter(|stop| stop.end == i) {
            Some(stop) => stop.end = i + 1,
            None => out.push(i..i + 1),
        }
    }
    out.retain(|stop| moments[stop.end].time - moments[stop.start].time >= STOP);
    out
}

/// The passes of a track, in order of time.
#[must_use]
pub fn passes(track: &Track, aim: &Aim) -> Vec<HandPass> {
    let moments = track.moments();
    let pieces = track.pieces();
    pieces
        .iter()
        .flat_map(|piece| parted(moments, piece.segments.clone()))
        .filter_map(|r| pass(moments, r, aim))
        .collect()
}

/// A stretch, parted where it turns back along the panel.
fn parted(moments: &[Moment], range: Range<usize>) -> Vec<Range<usize>> {
    let mut out = Vec::new();
    let (mut begin, mut farthest, mut way) = (range.start, range.start, 0.0_f64);
    for i in range.start + 1..=range.end {
        let x = moments[i].x;
        if way == 0.0 {
            if (x - moments[begin].x).abs() > TURNED {
                (way, farthest) = ((x - moments[begin].x).signum(), i);
            }
        } else if (x - moments[farthest].x) * way >= 0.0 {
            farthest = i;
        } else if (x - moments[farthest].x).abs() > TURNED {
            out.push(begin..farthest);
            (begin, way) = (farthest, -way);
            farthest = i;
        }
    }
    out.push(begin..range.end);
    out
}

fn pass(moments: &[Moment], segments: Range<usize>, aim: &Aim) -> Option<HandPass> {
    let (first, last) = (moments[segments.start], moments[segments.end]);
    if (last.x - first.x).abs() < SHORTEST {
        return None;
    }
    let half = 0.5 * aim.size[0];
    let stops = stops(moments, segments.clone(), aim);
    let mut pass = HandPass {
        segments: segments.clone(),
        from: first.time,
        to: last.time,
        ends: [first.x, last.x],
        y: 0.0,
        way: 0.0,
        pace: 0.0,
        distance: [f64::INFINITY, 0.0],
        mean_distance: 0.0,
        tilt: 0.0,
        still: 0.0,
        still_at: [first.x, first.y],
        bits: Vec::new(),
    };
    let mut longest = 0.0;
    for stop in &stops {
        let time = moments[stop.end].time - moments[stop.start].time;
        pass.still += time;
        if time > longest {
            (longest, pass.still_at) = (time, [moments[stop.start].x, moments[stop.start].y]);
        }
    }
    let (mut time, mut over, mut bit) = (0.0, 0.0, Bit { x: 0.0, way: 0.0, time: 0.0 });
    for i in segments {
        if stops.iter().any(|stop| stop.contains(&i)) {
            continue;
        }
        let (a, b) = (&moments[i], &moments[i + 1]);
        let way = (b.x - a.x).abs();
        let middle = 0.5 * (a.x + b.x);
        pass.way += way;
        pass.y += way * 0.5 * (a.y + b.y);
        time += b.time - a.time;
        if middle.abs() <= half {
            let distance = 0.5 * (a.distance + b.distance);
            over += way;
            pass.mean_distance += way * distance;
            pass.distance = [pass.distance[0].min(distance), pass.distance[1].max(distance)];
            let tilt = if a.swing.abs() > a.heel.abs() { a.swing } else { a.heel };
            if tilt.abs() > pass.tilt.abs() {
                pass.tilt = tilt;
            }
        }
        bit.x += way * middle;
        bit.way += way;
        bit.time += b.time - a.time;
        if bit.way >= BIT {
            pass.bits.push(Bit { x: bit.x / bit.way, ..bit });
            bit = Bit { x: 0.0, way: 0.0, time: 0.0 };
        }
    }
    if pass.way < SHORTEST || over <= 0.0 {
        return None;
    }
    pass.y /= pass.way;
    pass.pace = time / pass.way;
    pass.mean_distance /= over;
    Some(pass)
}
