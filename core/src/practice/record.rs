//! Taking down a hand's moments as they come.
//!
//! Moments are rounded on entry, once; what is laid, what the report is made of and what the job file holds are then the
//! same numbers, and the film the same to the bit.

use crate::error::ParameterError;
use crate::stroke::{MOST_MOMENTS, Moment, Track};

/// Moments nearer in time than this to the one before are not taken: trigger on, and off [s].
const APART: [f64; 2] = [0.0155, 0.08];

/// Millimetre [m], as the job file's reader takes it.
const MM: f64 = 1e-3;

/// The moment as it is taken down: time to 0.1 ms, places to 0.1 mm, angles to 0.1 degrees, trigger to a hundredth; the very
/// numbers that the job file's rows are read as.
#[must_use]
pub fn rounded(moment: &Moment) -> Moment {
    let short = |v: f64, per: f64| (v * per).round() / per + 0.0;
    let mm = |v: f64| short(v * 1e3, 10.0) * MM;
    let degrees = |v: f64| short(v.to_degrees(), 10.0).to_radians();
    Moment {
        time: short(moment.time, 1e4),
        x: mm(moment.x),
        y: mm(moment.y),
        distance: mm(moment.distance),
        heel: degrees(moment.heel),
        swing: degrees(moment.swing),
        turn: degrees(moment.turn),
        trigger: short(moment.trigger, 100.0),
        member: moment.member,
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

    /// Keeps a moment that was taken down before, as it is.
    pub fn keep(&mut self, moment: Moment) {
        self.moments.push(moment);
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

/// Moments as the job file's `stroke.track` has them; read back they are the same, to the bit, where they were [`rounded`].
#[must_use]
pub fn rows(moments: &[Moment]) -> String {
    let short = |v: f64, per: f64| (v * per).round() / per;
    let rows: Vec<String> = moments
        .iter()
        .map(|m| {
            let mm = |v: f64| short(v * 1e3, 10.0);
            let deg = |v: f64| short(v.to_degrees(), 10.0);
            let mut row = vec![
                short(m.time, 1e4),
                mm(m.x),
                mm(m.y),
                mm(m.distance),
                deg(m.heel),
                deg(m.swing),
                short(m.trigger, 100.0),
            ];
            if m.turn != 0.0 {
                row.push(deg(m.turn));
            }
            // No negative zero.
            let row: Vec<String> = row.into_iter().map(|v| (v + 0.0).to_string()).collect();
            format!("[{}]", row.join(","))
        })
        .collect();
    format!("[{}]", rows.join(","))
}
