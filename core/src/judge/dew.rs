//! Is the part clear of the dew point. The surface must be at least 3 C above it (painters' rule, seen in coating manuals; ISO
//! 8502-4 and SSPC-PA 1 from memory), and air above 85 % humidity is refused by most data sheets (seen).

use super::verdict::Verdict;
use crate::air::dew_point;
use crate::job::Job;
use serde::{Deserialize, Serialize};

/// Surface above dew point, at least [K].
pub const CLEARANCE: f64 = 3.0;
/// Humidity above which most data sheets say no [-].
const MOST_HUMIDITY: f64 = 0.85;
/// Rounding of degrees [K].
const HAIR: f64 = 1e-9;

/// Dew point and surface.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Dew {
    /// Dew point of the booth's air [C].
    pub dew_point_c: f64,
    /// Surface of the part [C].
    pub surface_c: f64,
    /// Surface above dew point [C]; negative: it is wet with dew.
    pub above_c: f64,
    /// At least 3 C above.
    pub verdict: Verdict,
    /// The air is damper than most data sheets allow.
    pub damp: bool,
}

/// Of a job's booth and part; none for air without vapour.
#[must_use]
pub fn dew_of(job: &Job) -> Option<Dew> {
    let dew = dew_point(job.booth.temperature, job.booth.humidity)?;
    let above = job.part_temperature - dew;
    let verdict = if above >= CLEARANCE - HAIR { Verdict::Pass } else { Verdict::Fail };
    Some(Dew {
        dew_point_c: dew - 273.15,
        surface_c: job.part_temperature - 273.15,
        above_c: above,
        verdict,
        damp: job.booth.humidity > MOST_HUMIDITY,
    })
}
