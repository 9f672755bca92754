//! The cup: how long it lasts, and what a blocked vent does to it.
//!
//! Closed cup: paint that leaves expands the air above it isothermally, p = pa Va / (Va + V left); what the room presses in at the
//! tip grows by pa - p, so flow falls and stops once that equals what drives it (a few kPa: some percent of the air above).

use super::fluid::{drive, flow_under};
use super::spec::{GunSetting, Kit};
use crate::air::{Jet, ROOM_PRESSURE};
use crate::constants::Constants;
use crate::paint::Paint;

/// Longest step of the closed cup's history [s], and most steps.
const STEP: f64 = 0.1;
const MOST_STEPS: f64 = 5000.0;

impl Kit {
    /// Paint that can be sprayed out of a cup at a level 0..=1 [m3]: all but what stays in cup and gun.
    #[must_use]
    pub fn usable(&self, level: f64) -> f64 {
        (level * self.cup_volume - self.residue).max(0.0)
    }

    /// Trigger-on time until the cup is dry at this flow [m3/s], head and flow held [s]; none when nothing flows.
    #[must_use]
    pub fn seconds_to_dry(&self, level: f64, flow: f64) -> Option<f64> {
        (flow > 0.0).then(|| self.usable(level) / flow)
    }

    /// Fills that `volume` [m3] of sprayed paint takes, the present one at `level` among them; a fill is a full cup. None where
    /// even a full cup holds nothing to spray.
    #[must_use]
    pub fn fills(&self, level: f64, volume: f64) -> Option<u64> {
        let (first, full) = (self.usable(level), self.usable(1.0));
        let further = ((volume - first) / full).ceil().max(0.0);
        (full > 0.0 && further < 1e9).then(|| 1 + further as u64)
    }
}

/// Underpressure [Pa] in a closed cup: `air` [m3] above the paint at room pressure, of which `left` [m3] of paint has gone since.
#[must_use]
pub fn underpressure(air: f64, left: f64) -> f64 {
    if left <= 0.0 { 0.0 } else { ROOM_PRESSURE * left / (air.max(0.0) + left) }
}

/// A cup with its vent blocked, trigger pulled for a while.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClosedCup {
    /// Paint flow now [m3/s].
    pub flow: f64,
    /// Paint that has left since the trigger was pulled [m3].
    pub left: f64,
    /// Underpressure above the paint [Pa].
    pub underpressure: f64,
}

impl ClosedCup {
    /// State after `seconds` of pulled trigger, the vent blocked all along.
    ///
    /// A pot has no vent: its flow stays. Midpoint steps of at most 0.1 s, 5,000 at most; nothing changes any more after that.
    #[must_use]
    pub fn after(
        seconds: f64,
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        annulus: &Jet,
        c: &Constants,
    ) -> Self {
        let air = (1.0 - setting.cup_level) * kit.cup_volume;
        let closed = kit.feed != super::Feed::Pressure;
        let full = kit.usable(setting.cup_level);
        let flow = |left: f64| {
            if left >= full {
                return 0.0;
            }
            let level = setting.cup_level - left / kit.cup_volume;
            let now = GunSetting { cup_level: level, ..setting.clone() };
            let held = if closed { underpressure(air, left) } else { 0.0 };
            flow_under(drive(kit, &now, paint, annulus, c) - held, kit, &now, paint, c)
        };
        let steps = (seconds.max(0.0) / STEP).ceil().clamp(1.0, MOST_STEPS);
        let step = (seconds.max(0.0) / steps).min(STEP);
        let mut left = 0.0;
        for _ in 0..steps as u32 {
            let half = left + 0.5 * step * flow(left);
            left += step * flow(half);
        }
        let held = if closed { underpressure(air, left) } else { 0.0 };
        Self { flow: flow(left), left, underpressure: held }
    }
}
