//! Time this thread spent on a core: what other programs take does not count.

use std::time::Instant;

/// A running clock.
#[derive(Debug)]
pub struct Clock {
    wall: Instant,
    core: Option<f64>,
}

/// Linux tells it; elsewhere the wall clock serves.
fn on_core() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(text.split_whitespace().next()?.parse::<f64>().ok()? * 1e-9)
}

impl Clock {
    /// Starts now.
    #[must_use]
    pub fn start() -> Self {
        Self { wall: Instant::now(), core: on_core() }
    }

    /// Seconds since.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        match (self.core, on_core()) {
            (Some(from), Some(to)) => to - from,
            _ => self.wall.elapsed().as_secs_f64(),
        }
    }
}
