//! Passes of a machine's hand: straight, at even speed, trigger on from lead-in to run-out.

use super::Track;
use super::frame_passes;
use crate::job::{PartShape, StrokePlan};

/// One straight pass along x, in the part's frame (its middle is 0).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pass {
    /// Gun's place where the trigger opens [m].
    pub from: f64,
    /// Gun's place where it shuts [m].
    pub to: f64,
    /// Gun's place across the pass [m]; 0 on a tube.
    pub offset: f64,
    /// Side of a tube the gun stands at, turned from the first [rad]; on a curved face its angle from the middle.
    pub turn: f64,
    /// Member of a frame it goes along; 0 on other parts.
    pub member: usize,
}

impl Pass {
    /// Trigger-on way [m].
    #[must_use]
    pub fn length(&self) -> f64 {
        (self.to - self.from).abs()
    }
}

/// What the gun does.
#[derive(Debug, Clone, PartialEq)]
pub enum Strokes {
    /// Held still over the middle for so many seconds.
    Burst(f64),
    /// All passes of one coat, sprayed `coats` times at `speed` [m/s].
    Passes {
        /// Passes of one coat, in order.
        passes: Vec<Pass>,
        /// Gun speed [m/s].
        speed: f64,
        /// Coats.
        coats: u32,
    },
    /// Moved freely, moment by moment: a hand, or what was recorded of one. All coats.
    Track(Track),
}

impl Strokes {
    /// Strokes of a plan on a part; `fan_height` [m] is the fan's size across the pass at this distance.
    ///
    /// On a panel the passes are spaced by the fan's height less the overlap, evenly about the middle, the outer two at
    /// or past its edges; on a curved panel the same, measured over its face, the gun square to it. On a tube one pass a
    /// side, on a frame one pass a side of each tube.
    #[must_use]
    pub fn plan(plan: &StrokePlan, part: &PartShape, fan_height: f64) -> Self {
        if let Some(seconds) = plan.burst {
            return Self::Burst(seconds);
        }
        let spaced = |height: f64| {
            let spacing = (fan_height * (1.0 - plan.overlap)).max(1e-3);
            let count = ((height / spacing - 1e-9).ceil() as usize + 1).min(2000);
            let first = -0.5 * spacing * (count - 1) as f64;
            // From the top down, as one sprays.
            (0..count).map(move |i| -(first + spacing * i as f64))
        };
        let (length, rows) = match part {
            PartShape::Panel { width, height } => {
                (*width, spaced(*height).map(|offset| (offset, 0.0)).collect::<Vec<_>>())
            }
            PartShape::Curved { radius, width, height } => {
                // Past the edge the gun goes on round the same circle, never past its own first pass.
                let turns = spaced(height.min(core::f64::consts::PI * radius)).map(|y| y / radius);
                let round = |turn: &f64| turn.abs() < core::f64::consts::PI;
                (*width, turns.filter(round).map(|turn| (0.0, turn)).collect())
            }
            PartShape::Tube { length, .. } => {
                let sides = plan.sides.max(1);
                let step = core::f64::consts::TAU / f64::from(sides);
                (*length, (0..sides).map(|i| (0.0, step * f64::from(i))).collect())
            }
            PartShape::Frame(frame) => {
                let (passes, _) = frame_passes(frame, plan);
                return Self::Passes { passes, speed: plan.speed, coats: plan.coats };
            }
        };
        let reach = 0.5 * length + plan.lead;
        let passes = rows
            .into_iter()
            .enumerate()
            .map(|(i, (offset, turn))| {
                let (from, to) = if i % 2 == 0 { (-reach, reach) } else { (reach, -reach) };
                Pass { from, to, offset, turn, member: 0 }
            })
            .collect();
        Self::Passes { passes, speed: plan.speed, coats: plan.coats }
    }

    /// Trigger-on time, all coats [s].
    #[must_use]
    pub fn seconds(&self) -> f64 {
        match self {
            Self::Burst(seconds) => *seconds,
            Self::Passes { passes, speed, coats } => {
                f64::from(*coats) * passes.iter().map(Pass::length).sum::<f64>() / speed
            }
            Self::Track(track) => track.seconds(),
        }
    }

    /// Time at the full paint flow that sprays as much [s]: less than `seconds` where the trigger is half pulled.
    #[must_use]
    pub fn open_seconds(&self) -> f64 {
        match self {
            Self::Track(track) => track.open_seconds(),
            _ => self.seconds(),
        }
    }

    /// Where the gun is `time` [s] of trigger-on time into the job: along x [m], across [m], side of a tube [rad].
    #[must_use]
    pub fn pose(&self, time: f64) -> (f64, f64, f64) {
        match self {
            Self::Burst(_) => (0.0, 0.0, 0.0),
            Self::Passes { passes, speed, .. } => {
                let coat: f64 = passes.iter().map(Pass::length).sum();
                let mut way = time * speed;
                while way >= coat && coat > 0.0 {
                    way -= coat;
                }
                for pass in passes {
                    if way < pass.length() {
                        let x = pass.from + way * if pass.to > pass.from { 1.0 } else { -1.0 };
                        return (x, pass.offset, pass.turn);
                    }
                    way -= pass.length();
                }
                passes.last().map_or((0.0, 0.0, 0.0), |p| (p.to, p.offset, p.turn))
            }
            Self::Track(track) => {
                let at = track.pose(time);
                (at.x, at.y, at.turn)
            }
        }
    }
}
