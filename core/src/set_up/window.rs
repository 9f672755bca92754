//! Which paints a kit can do: the viscosities it atomises, computed.

use super::Model;
use crate::error::ParameterError;
use crate::gun::{GunSetting, Kit};
use crate::job::Booth;
use crate::paint::Paint;

/// Fluid knob as shares of the rated one that are tried: the painter may cut it to half.
const KNOBS: [f64; 3] = [1.0, 0.75, 0.5];
/// Share of the flow with the paint it is made for below which a kit is too slow for a paint, needle open [-]. Ours: twice the time.
const SLOW: f64 = 0.5;
/// Viscosities looked at [m2/s], and how many.
const LOWEST: f64 = 2e-6;
const HIGHEST: f64 = 2000e-6;
const STEPS: u32 = 30;

impl Model {
    /// Whether a kit sprays a paint well: at its rated pressure, fan open, with the fluid knob somewhere between half and all of its
    /// rated opening, there is nothing to warn of (too thick, coarse, flooded, no flow), and fully open at least half as much paint flows
    /// as of the paint it is made for.
    ///
    /// # Errors
    /// The first value out of range, by its key.
    pub fn can_spray(&self, kit: &Kit, paint: &Paint, booth: &Booth) -> Result<bool, ParameterError> {
        let open = GunSetting { fluid: 1.0, ..kit.rated() };
        let flow = self.state(kit, &open, paint, booth)?.paint_flow;
        if flow < SLOW * self.rated(kit)?.0.paint_flow {
            return Ok(false);
        }
        for knob in KNOBS {
            let setting = GunSetting { fluid: knob * kit.rated_fluid, ..kit.rated() };
            if self.state(kit, &setting, paint, booth)?.warnings.is_empty() {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Kinematic viscosities in the cup [m2/s] between which the kit sprays this paint, thinned more or less, well; lowest and
    /// highest to 2 %. None where it does at no viscosity. The ends are 2 and 2000 mm2/s where it still does there.
    ///
    /// # Errors
    /// The first value out of range, by its key.
    pub fn viscosity_window(
        &self,
        kit: &Kit,
        paint: &Paint,
        booth: &Booth,
    ) -> Result<Option<[f64; 2]>, ParameterError> {
        let good = |nu: f64| self.can_spray(kit, &paint.clone().with_kinematic_viscosity(nu)?, booth);
        let ratio = crate::math::pow(HIGHEST / LOWEST, 1.0 / f64::from(STEPS));
        let mut all = vec![LOWEST];
        for i in 1..=STEPS {
            all.push((all[i as usize - 1] * ratio).min(HIGHEST));
        }
        let mut ok = Vec::new();
        for nu in &all {
            ok.push(good(*nu)?);
        }
        let (Some(first), Some(last)) = (ok.iter().position(|&g| g), ok.iter().rposition(|&g| g)) else {
            return Ok(None);
        };
        // Between the last bad and the first good one.
        let edge = |mut bad: f64, mut fine: f64| {
            while (bad / fine - 1.0).abs() > 0.02 {
                let middle = (bad * fine).sqrt();
                if good(middle)? { fine = middle } else { bad = middle }
            }
            Ok::<_, ParameterError>(fine)
        };
        let low = if first == 0 { all[0] } else { edge(all[first - 1], all[first])? };
        let high = if last + 1 == all.len() { all[last] } else { edge(all[last + 1], all[last])? };
        Ok(Some([low, high]))
    }
}
