//! What the hand is to do: the machine's passes on a panel.

use crate::job::StrokePlan;
use crate::stroke::{Moment, Pass, Track};

/// A plan of straight passes along a panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Aim {
    /// Panel along the passes and across them [m].
    pub size: [f64; 2],
    /// Height of each pass over the panel's middle, in order [m].
    pub rows: Vec<f64>,
    /// Time for each length [s/m].
    pub pace: f64,
    /// Tip to panel [m].
    pub distance: f64,
    /// Trigger on past each edge [m].
    pub lead: f64,
    /// Trigger off between two passes [s].
    pub turn: f64,
    /// Paint flow [m3/s].
    pub flow: f64,
}

impl Aim {
    /// The plan of a job on a panel of this size; `flow` [m3/s] is its paint's.
    ///
    /// None where there are no passes or the gun does not move.
    #[must_use]
    pub fn new(size: [f64; 2], passes: &[Pass], plan: &StrokePlan, flow: f64) -> Option<Self> {
        let rows: Vec<f64> = passes.iter().map(|p| p.offset).collect();
        let moves = !rows.is_empty() && plan.speed > 0.0;
        moves.then(|| Self {
            size,
            rows,
            pace: 1.0 / plan.speed,
            distance: plan.distance,
            lead: plan.lead,
            turn: plan.turn,
            flow,
        })
    }

    /// Distance between neighbouring passes [m]; the panel's height where there is one pass alone.
    #[must_use]
    pub fn spacing(&self) -> f64 {
        match self.rows.as_slice() {
            [first, .., last] => (first - last).abs() / (self.rows.len() - 1) as f64,
            _ => self.size[1],
        }
    }

    /// The plan of a coat across, read along its own way: as far apart as along, from the left edge or before it to the right one or past it.
    #[must_use]
    pub fn across(&self) -> Self {
        let (spacing, breadth) = (self.spacing().max(1e-3), self.size[0]);
        let count = (breadth / spacing - 1e-9).ceil() as usize + 1;
        let first = 0.5 * spacing * (count - 1) as f64;
        let rows = (0..count).map(|i| first - spacing * i as f64).collect();
        Self { size: [self.size[1], self.size[0]], rows, ..self.clone() }
    }

    /// From the panel's middle to where the trigger opens and shuts [m].
    #[must_use]
    pub fn reach(&self) -> f64 {
        0.5 * self.size[0] + self.lead
    }

    /// Trigger-on time of all passes [s].
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.rows.len() as f64 * 2.0 * self.reach() * self.pace
    }

    /// Paint of all passes [m3].
    #[must_use]
    pub fn paint(&self) -> f64 {
        self.seconds() * self.flow
    }

    /// The plan as a machine would lay it, moment by moment, `step` [s] apart along a pass.
    #[must_use]
    pub fn track(&self, step: f64) -> Option<Track> {
        let mut moments = Vec::new();
        let mut time = 0.0;
        for (i, &y) in self.rows.iter().enumerate() {
            moments.extend(self.pass(time, y, i % 2 == 0, step));
            time += 2.0 * self.reach() * self.pace + self.turn.max(0.05);
        }
        Track::new(moments).ok()
    }

    /// One pass begun at `time` [s].
    #[must_use]
    pub fn pass(&self, time: f64, y: f64, rightward: bool, step: f64) -> Vec<Moment> {
        let took = 2.0 * self.reach() * self.pace;
        let count = (took / step.max(1e-3)).ceil().max(1.0) as usize;
        let from = if rightward { -self.reach() } else { self.reach() };
        (0..=count)
            .map(|k| {
                let share = k as f64 / count as f64;
                Moment {
                    time: time + took * share,
                    x: from - 2.0 * from * share,
                    y,
                    distance: self.distance,
                    trigger: if k < count { 1.0 } else { 0.0 },
                    ..Moment::default()
                }
            })
            .collect()
    }
}
