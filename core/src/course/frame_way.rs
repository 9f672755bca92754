//! The gun's way along a frame, in even steps that are visited to and fro: even way for a machine, even paint for a hand.

use super::stand::Visit;
use crate::part::Frame;
use crate::stroke::{Pass, Track};
use crate::tally::GROUPS;

/// Step of the way that is wanted [m], finer than the spray is wide.
const STEP: f64 = 5e-3;
/// Most droplets of a visit; a multiple of the groups, so that every place has as many of each.
const MOST: u64 = 256;

/// A hand's moments.
#[derive(Debug, Clone)]
struct ByHand {
    track: Track,
    /// Segments with the trigger pulled: number, its pass, paint sprayed before it [s at full flow].
    open: Vec<(usize, usize, f64)>,
    /// Radius of each tube [m].
    radii: Vec<f64>,
}

/// The way and its visits.
#[derive(Debug, Clone)]
pub(super) struct FrameWay {
    passes: Vec<Pass>,
    /// Where each pass begins on the way, and the way's length at last [m].
    starts: Vec<f64>,
    by_hand: Option<ByHand>,
    /// Length of the way that is visited: of one coat for a machine, of all coats for a hand [m].
    length: f64,
    distance: f64,
    pub chunk: u64,
    pub visits: u64,
    stride: u64,
}

fn common(mut a: u64, mut b: u64) -> u64 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}

impl FrameWay {
    /// The passes of a coat by a machine, or all coats as a hand's track has them; `droplets` in all.
    pub fn new(
        frame: &Frame,
        passes: Vec<Pass>,
        track: Option<Track>,
        distance: f64,
        droplets: u64,
    ) -> Option<Self> {
        let mut starts = vec![0.0];
        for pass in &passes {
            starts.push(starts.last().copied().unwrap_or(0.0) + pass.length());
        }
        let coat = starts.last().copied().unwrap_or(0.0);
        if coat <= 0.0 {
            return None;
        }
        let by_hand = track.map(|track| ByHand::new(track, frame));
        let length = by_hand.as_ref().map_or(coat, |hand| hand.track.way());
        let wanted = (length / STEP).ceil().max(1.0) as u64;
        let groups = GROUPS as u64;
        let chunk = (droplets / (wanted * groups) * groups).clamp(groups, MOST);
        let visits = droplets.div_ceil(chunk).max(1);
        let mut stride = ((visits as f64 * 0.618_033_988_749_895) as u64).max(1);
        while common(stride, visits) != 1 {
            stride += 1;
        }
        Some(Self { passes, starts, by_hand, length, distance, chunk, visits, stride })
    }

    /// The way between two visits that follow one another on it [m].
    pub fn step(&self) -> f64 {
        self.length / self.visits as f64
    }

    pub fn passes(&self) -> &[Pass] {
        &self.passes
    }

    pub fn track(&self) -> Option<&Track> {
        self.by_hand.as_ref().map(|hand| &hand.track)
    }

    /// The gun as planned at a place of a pass.
    pub fn planned(&self, pass: usize, x: f64) -> Visit {
        let Pass { member, turn, .. } = self.passes[pass];
        Visit { pass, member, x, turn, distance: self.distance, aside: 0.0, swing: 0.0 }
    }

    /// The place of a visit.
    pub fn visit(&self, number: u64) -> Visit {
        let place = (u128::from(number) * u128::from(self.stride) % u128::from(self.visits)) as u64;
        if let Some(hand) = &self.by_hand {
            return hand.at((place as f64 + 0.5) / self.visits as f64);
        }
        let way = (place as f64 + 0.5) * self.step();
        let pass = self.starts.partition_point(|&s| s <= way).clamp(1, self.passes.len()) - 1;
        let p = &self.passes[pass];
        let on = way - self.starts[pass];
        self.planned(pass, p.from + if p.to > p.from { on } else { -on })
    }
}

impl ByHand {
    fn new(track: Track, frame: &Frame) -> Self {
        let (mut open, mut paint) = (Vec::new(), 0.0);
        for (pass, piece) in track.pieces().iter().enumerate() {
            for segment in piece.segments.clone() {
                let [a, b] = [track.moments()[segment], track.moments()[segment + 1]];
                open.push((segment, pass, paint));
                paint += a.trigger * (b.time - a.time);
            }
        }
        Self { track, open, radii: frame.members.iter().map(crate::part::Member::radius).collect() }
    }

    /// The gun after a share 0..1 of all paint.
    fn at(&self, share: f64) -> Visit {
        let paint = share * self.track.open_seconds();
        let number = self.open.partition_point(|&(.., before)| before <= paint).max(1) - 1;
        let (segment, pass, before) = self.open[number];
        let [a, b] = [self.track.moments()[segment], self.track.moments()[segment + 1]];
        let took = a.trigger * (b.time - a.time);
        let moment = a.towards(&b, if took > 0.0 { ((paint - before) / took).clamp(0.0, 1.0) } else { 0.0 });
        Visit::of(&moment, pass, self.radii[moment.member])
    }
}
