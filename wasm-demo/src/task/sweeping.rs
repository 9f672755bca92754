//! Some points of a sweep, one after the other: what one worker of the pool does.

use mistcoat::job::Job;
use mistcoat::sweep::{Axis, Plan, Point, Sweep};

use crate::worker::Refusal;

/// Droplets of a piece: a few milliseconds on a slow phone.
const PIECE: u64 = 256;

/// A share of a sweep under way.
pub struct Sweeping {
    sweep: Sweep,
    /// Points told so far.
    told: usize,
}

impl Sweeping {
    /// Reads the job and plans its points.
    ///
    /// # Errors
    /// A job that is none, keys or figures that are not known; by the key.
    pub fn start(job: &str, axes: &[Axis], columns: &[String], points: &[usize]) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        let columns: Vec<&str> = columns.iter().map(String::as_str).collect();
        let plan = Plan::new(&job, axes.to_vec(), &columns)
            .map_err(|e| Refusal { key: Some(e.key.clone()), message: e.to_string() })?;
        Ok(Self { sweep: Sweep::of_points(plan, points.iter().copied()), told: 0 })
    }

    /// Works on while there is time; true when all its points are done.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            if self.sweep.advance(PIECE) {
                return true;
            }
            if !time_left() {
                return false;
            }
        }
    }

    /// Thousandths of its points that are done, and all.
    pub fn progress(&self) -> (u64, u64) {
        let (_, points) = self.sweep.progress();
        ((1000.0 * points as f64 * self.sweep.done()) as u64, 1000 * points)
    }

    /// Points done since they were last told, as JSON.
    pub fn partial(&mut self) -> Option<String> {
        let new = self.sweep.points().get(self.told..).filter(|points| !points.is_empty())?;
        let json = to_json(new);
        self.told = self.sweep.points().len();
        Some(json)
    }

    /// The points not told yet.
    pub fn answer(&mut self) -> String {
        self.partial().unwrap_or_else(|| to_json(&[]))
    }
}

fn to_json(points: &[Point]) -> String {
    serde_json::to_string(points).unwrap_or_default()
}
