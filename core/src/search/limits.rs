//! What a setting must keep to before it is flown: figures that need no droplets.

use crate::error::ParameterError;
use crate::gun::{GunSetting, Kit, State, Warning};
use crate::job::Job;
use crate::set_up::Model;

/// Sauter mean diameter that is fine enough for any of the finishes [m]. Ours: a quarter above the reference gun's
/// 24 um with clear. A gun that is set coarser now may stay as coarse.
pub const FINE_ENOUGH: f64 = 30e-6;
/// Standard deviation over mean of the film that is even enough [-]. Ours: 15 of 100. A film that is less even now may
/// stay so.
pub const EVEN_ENOUGH: f64 = 0.15;
/// Slowest and fastest stroke that a hand keeps for long [m/s]. Common practice, no source.
pub const HAND: [f64; 2] = [0.15, 0.8];
/// A setting may not take longer for a part than the gun as set takes, times this [-]. Ours.
pub const LONGEST: f64 = 1.5;

/// The limits that hold for every contender of a comparison.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Coarsest spray, Sauter mean diameter [m].
    pub sauter: f64,
    /// Least even film, standard deviation over mean [-].
    pub unevenness: f64,
    /// Longest time with the trigger on for a part [s].
    pub seconds: f64,
}

/// Why a setting is not one that a painter would use.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The pressure is above a limit: less of it would do.
    pub too_high: bool,
    /// Why, in words.
    pub words: String,
}

/// What speaks against a gun as set; none when nothing does.
#[must_use]
pub fn fault(state: &State) -> Option<Fault> {
    let found = state.warnings.iter().find(|w| spoils(w))?;
    Some(Fault { too_high: matches!(found, Warning::OverHvlpLimit(_)), words: found.to_string() })
}

fn spoils(warning: &Warning) -> bool {
    matches!(
        warning,
        Warning::OverHvlpLimit(_)
            | Warning::Flooded(_)
            | Warning::Coarse(_)
            | Warning::WeakAir(..)
            | Warning::TooThick(_)
            | Warning::TriggerReleased
            | Warning::NeedleShut
            | Warning::AirShut
            | Warning::CupDry
            | Warning::NoPaint
    )
}

/// Sauter mean diameter of a kit as set, with the job's paint [m], and the gun's state.
///
/// # Errors
/// The first value out of range, by its key.
pub fn sauter(job: &Job, kit: &Kit, setting: &GunSetting) -> Result<(f64, State), ParameterError> {
    let model = Model::default();
    let state = model.state(kit, setting, &job.paint, &job.booth)?;
    Ok((model.sauter(kit, setting, &state, &job.paint)?, state))
}

impl Limits {
    /// Whether a setting is worth flying; else why not.
    ///
    /// # Errors
    /// The reason, in words.
    pub fn admit(&self, job: &Job, kit: &Kit, setting: &GunSetting) -> Result<(), Fault> {
        let plain = |words: String| Fault { too_high: false, words };
        let (sauter, state) = sauter(job, kit, setting).map_err(|e| plain(e.to_string()))?;
        match fault(&state) {
            Some(fault) => Err(fault),
            None if sauter > self.sauter => Err(plain(format!(
                "droplets of {:.0} um (Sauter mean) are coarser than the {:.0} um that this comparison allows",
                sauter * 1e6,
                self.sauter * 1e6
            ))),
            None => Ok(()),
        }
    }
}
