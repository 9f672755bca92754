//! How far the paint flow is known: the constants of tip and needle at their ends, one at a time, without flying.

use super::Model;
use crate::constants::Constants;
use crate::error::ParameterError;
use crate::gun::{GunSetting, Kit, Matched, State};
use crate::job::Booth;
use crate::paint::Paint;
use crate::report::together;

/// Lowest and highest `tip_suction` [-]: 4-6 kPa at the tip (common practice).
pub const TIP_SUCTION_ENDS: [f64; 2] = [0.07, 0.11];
/// Lowest and highest `kinetic_loss` [-]: Hagenbach's term 1.1-1.2 (from memory).
pub const KINETIC_LOSS_ENDS: [f64; 2] = [1.1, 1.3];
/// Lowest and highest `needle_gap_length` [m]. Ours.
pub const NEEDLE_GAP_ENDS: [f64; 2] = [0.25e-3, 1.0e-3];
/// What weighing leaves open in the flow of a gun matched on a card, times or over [-]. Ours: the model's error in `fit` is 3-6 %.
const MATCHED: f64 = 1.05;

impl Model {
    /// Lowest and highest factor on the paint flow of a gun as set [-]: at most 1, at least 1.
    ///
    /// # Errors
    /// As `Model::state`.
    pub fn flow_range(
        &self,
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        booth: &Booth,
    ) -> Result<(f64, f64), ParameterError> {
        let own = self.own(kit);
        let flow = |c: &Constants| {
            State::new(kit, setting, paint, booth.temperature, c).map(|state| state.paint_flow)
        };
        let base = flow(&own)?;
        if base <= 0.0 {
            return Ok((1.0, 1.0));
        }
        if kit.matched != Matched::default() {
            return Ok((1.0 / MATCHED, MATCHED));
        }
        let changed = |ends: [f64; 2], change: fn(&mut Constants, f64)| {
            let mut range = (1.0f64, 1.0f64);
            for end in ends {
                let mut c = own;
                change(&mut c, end);
                let factor = flow(&c)? / base;
                range = (range.0.min(factor), range.1.max(factor));
            }
            Ok::<_, ParameterError>(range)
        };
        Ok(together(&[
            changed(TIP_SUCTION_ENDS, |c, x| c.tip_suction = x)?,
            changed(KINETIC_LOSS_ENDS, |c, x| c.kinetic_loss = x)?,
            changed(NEEDLE_GAP_ENDS, |c, x| c.needle_gap_length = x)?,
        ]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue;

    #[test]
    fn a_gravity_gun_is_known_within_a_fifth_and_a_matched_one_better() {
        let (paint, booth) = (catalogue::paint("two-pack-clear").unwrap(), Booth::at(293.15, 0.5));
        let range = |kit: &Kit| Model::default().flow_range(kit, &kit.rated(), &paint, &booth).unwrap();
        let mut kit = catalogue::kit("hvlp-gravity-1.3").unwrap();
        let (low, high) = range(&kit);
        assert!((0.75..0.85).contains(&low) && (1.05..1.12).contains(&high), "{low} {high}");
        kit.matched.suction = 0.9;
        assert_eq!(range(&kit), (1.0 / MATCHED, MATCHED));
        // A pot pushes the paint: suction hardly counts.
        let pot = range(&catalogue::kit("hvlp-pressure-1.0").unwrap());
        assert!(pot.0 > low && pot.1 < high + 0.03, "{pot:?}");
    }
}
