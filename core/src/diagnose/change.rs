//! A change of a job: levers moved, written into its text.

use super::Lever;
use crate::compare::{Fault, fault, sauter};
use crate::gun::GunSetting;
use crate::job::{Job, RunSetting, with_key};

/// Step of the pressure that goes with a fan knob turned in [Pa].
const PRESSURE: f64 = 0.1e5;
/// Openings of the fluid knob that may go with it, over what it is [-].
const FLUIDS: [f64; 4] = [1.0, 0.8, 0.6, 0.45];

/// A lever moved, in its own unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Move {
    /// The lever.
    pub lever: Lever,
    /// From.
    pub from: f64,
    /// To.
    pub to: f64,
}

impl Move {
    /// It is more than before.
    #[must_use]
    pub fn up(&self) -> bool {
        self.to > self.from
    }
}

/// The keys of some moves as the job file takes them.
#[must_use]
pub fn keys(job: &Job, moves: &[Move]) -> Vec<(String, String)> {
    moves.iter().map(|m| (m.lever.key().to_string(), m.lever.literal(m.to, job))).collect()
}

/// The job with some moves and other run settings; none where it cannot be, or where it leaves the data sheet's window and the job
/// does not.
#[must_use]
pub fn changed(job: &Job, moves: &[Move], run: RunSetting) -> Option<Job> {
    let mut text = job.text.clone();
    for (key, value) in keys(job, moves) {
        text = with_key(&text, &key, &value).ok()?;
    }
    let mut changed = Job::from_toml(&text).ok()?;
    changed.run = run;
    let outside = |job: &Job| job.notes.iter().filter(|note| note.contains("outside")).count();
    (outside(&changed) <= outside(job)).then_some(changed)
}

/// The moves, and with a fan knob turned in what must go with it: a shut fan valve lets more pressure through to the cap, and less air
/// then carries less paint. None where no pressure and fluid keep the gun inside its limits.
#[must_use]
pub fn settled(job: &Job, moves: &[Move]) -> Option<Vec<Move>> {
    let shut = moves.iter().find(|m| m.lever == Lever::Fan && !m.up());
    let taken = moves.iter().any(|m| matches!(m.lever, Lever::Pressure | Lever::Fluid));
    let Some(shut) = shut.filter(|_| !taken) else { return Some(moves.to_vec()) };
    let spoilt = |gun: &GunSetting| -> Option<Fault> {
        sauter(job, &job.kit, gun).ok().and_then(|(_, state)| fault(&state))
    };
    let fan = shut.to / job.kit.fan_turns.max(f64::MIN_POSITIVE);
    let turned = GunSetting { fan, ..job.gun.clone() };
    if !spoilt(&turned).is_some_and(|f| f.too_high) || spoilt(&job.gun).is_some() {
        return Some(moves.to_vec());
    }
    let (pressure, fluid) = (Lever::Pressure.now(job), Lever::Fluid.now(job));
    let [lowest, _] = Lever::Pressure.limits(job);
    for share in FLUIDS {
        let less = Lever::Fluid.rounded(fluid * share, job);
        let mut at = Lever::Pressure.rounded(pressure - PRESSURE, job);
        while at >= lowest - 1.0 {
            let gun = GunSetting {
                inlet_pressure: at,
                fluid: less / job.kit.fluid_turns.max(f64::MIN_POSITIVE),
                ..turned.clone()
            };
            if spoilt(&gun).is_none() {
                let mut all = moves.to_vec();
                all.push(Move { lever: Lever::Pressure, from: pressure, to: at });
                if share < 1.0 {
                    all.push(Move { lever: Lever::Fluid, from: fluid, to: less });
                }
                return Some(all);
            }
            at -= PRESSURE;
        }
    }
    None
}
