//! Taking down a hand's moments as they come.
//!
//! Moments are rounded on entry, once; what is laid, what the report is made of and what the job file holds are then the
//! same numbers, and the film the same to the bit.

use crate::error::ParameterError;
use crate::stroke::{MOST_MOMENTS, Moment, Track};

/// Moments nearer in time than this to the one before are not taken: trigger on, and off [s].
const APART: [f64; 2] = [0.012, 0.06];

/// The moment as it is taken down: time to 0.1 ms, places to 0.1 mm, angles to 0.1 degrees, trigger to a hundredth.
#[must_use]
pub fn rounded(moment: &Moment) -> Moment {
    let to = |v: f64, step: f64| (v / step).round() * step;
    let (near, degrees) = (|v: f64| to(v * 1e4, 1.0) / 1e4, |v: f64| to(v.to_degrees(), 0.1).to_radians());
    Moment {
        time: near(moment.time),
        x: near(moment.x),
        y: near(moment.y),
        distance: near(moment.distance),
        heel: degrees(moment.heel),
        swing: degrees(moment.swing),
        turn: degrees(moment.turn),
        trigger: to(moment.trigger * 100.0, 1.0) / 100.0,
    }
}

/// Takes moments down.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Recorder {
    moments: Vec<Moment>,
}

impl Recorder {
    /// The moment as it is taken down; none where it says nothing that the one before did not, comes out of order, or
    /// there is no room left. A changed trigger is always taken while there is room.
    pub fn take(&mut self, moment: Moment) -> Option<Moment> {
        let mut moment = rounded(&moment);
        if self.moments.len() >= MOST_MOMENTS {
            return None;
        }
        if let Some(last) = self.moments.last() {
            moment.time = moment.time.max(last.time);
            let apart = APART[usize::from(moment.trigger <= 0.0)];
            if moment.trigger == last.trigger && moment.time - last.time < apart {
                return None;
            }
        }
        self.moments.push(moment);
        Some(moment)
    }

    /// What was taken down.
    #[must_use]
    pub fn moments(&self) -> &[Moment] {
        &self.moments
    }

    /// The track.
    ///
    /// # Errors
    /// As [`Track::new`].
    pub fn track(&self) -> Result<Track, ParameterError> {
        Track::new(self.moments.clone())
    }
}
