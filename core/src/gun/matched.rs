//! What a card has told of one gun: factors on the model's constants, all 1 for a kit of the catalogue.
//!
//! A kit differs from another by its geometry alone; a gun that was matched on a card differs from its kit by these. Effective
//! areas are not among them: nothing on a card measures air. How they are found: `docs/methods/match.md`.

use crate::constants::Constants;
use crate::error::{ParameterError, within};

/// Factors of one gun on the model's constants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Matched {
    /// On the fan's slope, cT [-], 0.3..=3.
    pub fan: f64,
    /// On the spread of the rays, ex, open and closed alike [-], 0.3..=3.
    pub edge: f64,
    /// On the suction at the tip, cs [-], 0.3..=3.
    pub suction: f64,
    /// On the needle's lift [-], 0.3..=3: for a pressure gun, whose flow hardly feels the suction.
    pub needle: f64,
    /// On the Sauter mean diameter [-], 0.3..=3.
    pub droplets: f64,
    /// Likely range of that diameter, times or over [-], 1.01..=2; none: the model's own.
    pub droplets_range: Option<f64>,
}

impl Default for Matched {
    fn default() -> Self {
        Self { fan: 1.0, edge: 1.0, suction: 1.0, needle: 1.0, droplets: 1.0, droplets_range: None }
    }
}

impl Matched {
    /// The constants of this gun.
    #[must_use]
    pub fn applied(&self, c: &Constants) -> Constants {
        Constants {
            fan_slope: c.fan_slope * self.fan,
            ray_spread_open: c.ray_spread_open * self.edge,
            ray_spread_closed: c.ray_spread_closed * self.edge,
            tip_suction: c.tip_suction * self.suction,
            needle_gain: c.needle_gain * self.needle,
            sauter_reference: c.sauter_reference * self.droplets,
            sauter_uncertainty: self.droplets_range.unwrap_or(c.sauter_uncertainty),
            ..*c
        }
    }

    /// Checks every factor.
    ///
    /// # Errors
    /// The first factor out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        within("gun.matched.fan", self.fan, 0.3, 3.0, "")?;
        within("gun.matched.edge", self.edge, 0.3, 3.0, "")?;
        within("gun.matched.suction", self.suction, 0.3, 3.0, "")?;
        within("gun.matched.needle", self.needle, 0.3, 3.0, "")?;
        within("gun.matched.droplets", self.droplets, 0.3, 3.0, "")?;
        within("gun.matched.droplets_range", self.droplets_range.unwrap_or(1.35), 1.01, 2.0, "")?;
        Ok(())
    }
}
