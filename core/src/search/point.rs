//! Points of a net, how wide it is cast, and how good a point is.

use crate::job::Job;

/// Trials of a search over the knobs at most.
const MOST: usize = 72;

/// A point of the net.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Point {
    /// Fan knob, eighths of a turn out.
    pub fan: i32,
    /// Fluid knob, eighths of a turn out.
    pub fluid: i32,
    /// Pressure steps above the lowest that does.
    pub over: i32,
    /// The fan lies along the stroke.
    pub along: bool,
    /// Gun to part, in steps of 5 mm.
    pub distance: i32,
}

/// Step of the distance [m].
pub(crate) const DISTANCE_STEP: f64 = 0.005;

/// How wide a net is cast.
#[derive(Debug, Clone)]
pub(crate) struct NetSpec {
    /// Openings of the fan knob that are looked at first [-].
    pub fans: Vec<f64>,
    /// Openings of the fluid knob [-].
    pub fluids: Vec<f64>,
    /// Distances [5 mm].
    pub distances: Vec<i32>,
    /// Nearest and farthest [5 mm].
    pub reach: [i32; 2],
    /// Trials at most.
    pub most: usize,
    /// Better neighbours are looked for once the net is flown.
    pub refines: bool,
}

impl NetSpec {
    /// Over the knobs alone, the distance left as it is.
    pub fn of_knobs(job: &Job) -> Self {
        let own = (job.stroke.distance / DISTANCE_STEP + 0.5) as i32;
        Self {
            fans: vec![0.05, 0.2, 0.5, 1.0],
            fluids: vec![0.3, 0.55, 0.85],
            distances: vec![own],
            reach: [own, own],
            most: MOST,
            refines: true,
        }
    }
}

/// How good a setting is: what is wrong with it (0 nothing), then its figure; less is better.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rank(pub u8, pub f64);

impl Rank {
    pub fn beats(self, other: Self) -> bool {
        (self.0, self.1) < (other.0, other.1)
    }
}

/// What a search wants next.
pub(crate) enum Ask {
    /// A point is to be flown.
    Fly(Point),
    /// It is still looking: ask again.
    Wait,
    /// It is over.
    Over,
}
