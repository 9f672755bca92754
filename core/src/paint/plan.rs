//! How much to mix.
//!
//! On the parts + overspray + test card + what stays in cup and gun at every clean-out + reserve, rounded up to what one can
//! measure. Coats follow each other after the flash; where going round all parts takes longer than that, nobody waits. Mixed
//! paint is good for its pot life, so a longer job is mixed in lots, each rounded up and each with its own clean-out. The range:
//! for the same film, paint sprayed goes as 1/(share that lands), over the model's likely range of that share.

use super::{Mix, Recipe};
use crate::error::{ParameterError, within};

const ML: f64 = 1e-6;
/// Largest volume [m3] for which a step [m3] is used; ours: what measuring cups and jugs are marked in.
const STEPS: [(f64, f64); 5] = [
    (20.0 * ML, ML),
    (100.0 * ML, 5.0 * ML),
    (500.0 * ML, 10.0 * ML),
    (2e3 * ML, 50.0 * ML),
    (1e4 * ML, 100.0 * ML),
];
/// Hardener of a lot below which a measuring cup is too coarse [m3]. Ours: 5 mL are read to 0.5 mL at best.
const WEIGH: f64 = 5.0 * ML;

/// What has to be known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MixNeed {
    /// Parts to paint, at least 1.
    pub parts: u32,
    /// Sprayed on one part, all coats [m3].
    pub sprayed: f64,
    /// Share of it that lands: as run, lowest and highest likely.
    pub landed: [f64; 3],
    /// Sprayed on test cards [m3].
    pub test_card: f64,
    /// Stays in cup and gun at each clean-out [m3].
    pub residue: f64,
    /// Volume of the cup [m3].
    pub cup: f64,
    /// Reserve, share of all the rest.
    pub reserve: f64,
    /// Trigger on for one part, all coats [s].
    pub trigger: f64,
    /// Trigger time over working time, above 0 to 1.
    pub duty: f64,
    /// Coats.
    pub coats: u32,
    /// Time between coats [s].
    pub flash: f64,
    /// Pot life [s]; none for one-pack paints.
    pub pot_life: Option<f64>,
}

/// A share of the mix, to be measured out for one lot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Volume [m3].
    pub volume: f64,
    /// Mass [kg].
    pub mass: f64,
}

/// How much to mix, and where it goes. Volumes [m3] are of the mixed paint.
#[derive(Debug, Clone, PartialEq)]
pub struct MixPlan {
    /// On the parts.
    pub on_parts: f64,
    /// Sprayed past the parts.
    pub overspray: f64,
    /// On test cards.
    pub test_card: f64,
    /// Left in cup and gun, all clean-outs together.
    pub left: f64,
    /// Reserve.
    pub reserve: f64,
    /// Added by rounding up.
    pub rounding: f64,
    /// To be mixed: the sum of the six.
    pub mixed: f64,
    /// The same for the model's likely range, smallest and largest; none when nothing lands.
    pub range: Option<[f64; 2]>,
    /// Lots it is mixed in, at least 1.
    pub lots: u32,
    /// One lot.
    pub lot: f64,
    /// Base of one lot.
    pub base: Measure,
    /// Hardener of one lot; nothing for one-pack paints.
    pub hardener: Measure,
    /// Thinner of one lot.
    pub thinner: Measure,
    /// Times the cup is filled, reserve not counted.
    pub cup_fills: u32,
    /// From the first pull of the trigger to the last [s].
    pub seconds: f64,
    /// What the painter should be told.
    pub warnings: Vec<String>,
}

/// The next step up that one can measure.
fn round_up(volume: f64) -> f64 {
    let step = STEPS.iter().find(|(most, _)| volume <= *most).map_or(500.0 * ML, |(_, step)| *step);
    // A hair's breadth over a step is that step, not the next.
    (volume / step - 1e-9).ceil().max(1.0) * step
}

impl MixNeed {
    fn check(&self) -> Result<(), ParameterError> {
        within("mix.parts", f64::from(self.parts), 1.0, 1e6, "")?;
        within("paint sprayed on one part", self.sprayed / ML, 1e-3, 1e6, "mL")?;
        for share in self.landed {
            within("transfer efficiency", share, 0.0, 1.0, "")?;
        }
        within("paint on test cards", self.test_card / ML, 0.0, 1e6, "mL")?;
        within("gun.residue", self.residue / ML, 0.0, 1e4, "mL")?;
        within("gun.cup_volume", self.cup / ML, 0.5, 1e6, "mL")?;
        within("mix.reserve", self.reserve, 0.0, 1.0, "")?;
        within("trigger time", self.trigger, 0.0, 1e6, "s")?;
        within("mix.duty", self.duty, 0.01, 1.0, "")?;
        within("stroke.coats", f64::from(self.coats), 1.0, 100.0, "")?;
        within("paint.sheet.flash", self.flash, 0.0, 1e6, "s")?;
        self.pot_life.map_or(Ok(0.0), |life| within("paint.sheet.pot_life", life, 1.0, 1e7, "s"))?;
        Ok(())
    }

    /// From the first pull of the trigger to the last [s].
    fn seconds(&self) -> f64 {
        let coats = f64::from(self.coats);
        let round = f64::from(self.parts) * self.trigger / (coats * self.duty);
        round * coats + (coats - 1.0) * (self.flash - round).max(0.0)
    }
}

impl MixPlan {
    /// The plan for a paint of these tins, mixed so.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn new(need: &MixNeed, recipe: &Recipe, mix: &Mix) -> Result<Self, ParameterError> {
        need.check()?;
        let seconds = need.seconds();
        let lots = need.pot_life.map_or(1.0, |life| (seconds / life).ceil().max(1.0));
        within("lots of paint", lots, 1.0, 1e6, "")?;
        let left = need.residue * lots;
        let sprayed = need.sprayed * f64::from(need.parts);
        let all = |sprayed: f64| (sprayed + need.test_card + left) * (1.0 + need.reserve);
        let of_lot = |sprayed: f64| round_up(all(sprayed) / lots);
        let lot = of_lot(sprayed);
        let [value, low, high] = need.landed;
        let range = (low > 0.0)
            .then(|| [of_lot(sprayed * value / high) * lots, of_lot(sprayed * value / low) * lots]);

        let shares = mix.shares();
        let measure = |share: f64, density: f64| Measure { volume: lot * share, mass: lot * share * density };
        let hardener = recipe.hardener.as_ref().map_or(0.0, |h| h.density);
        let mut plan = Self {
            on_parts: sprayed * value,
            overspray: sprayed * (1.0 - value),
            test_card: need.test_card,
            left,
            reserve: all(sprayed) - sprayed - need.test_card - left,
            rounding: lot * lots - all(sprayed),
            mixed: lot * lots,
            range,
            lots: lots as u32,
            lot,
            base: measure(shares[0], recipe.base.density),
            hardener: measure(shares[1], hardener),
            thinner: measure(shares[2], recipe.thinner.density),
            cup_fills: ((sprayed + need.test_card + left) / need.cup).ceil().max(1.0) as u32,
            seconds,
            warnings: Vec::new(),
        };
        plan.warn(need);
        Ok(plan)
    }

    fn warn(&mut self, need: &MixNeed) {
        let one = need.trigger / (f64::from(need.coats) * need.duty);
        if let Some(life) = need.pot_life
            && one > life
        {
            self.warnings.push(format!(
                "pot life: one coat of one part takes {:.0} min, longer than the {:.0} min that the mixed paint is good for",
                one / 60.0,
                life / 60.0
            ));
        }
        if self.hardener.volume > 0.0 && self.hardener.volume < WEIGH {
            self.warnings.push(format!(
                "hardener: {:.1} mL are too few for a measuring cup: weigh {:.1} g",
                self.hardener.volume / ML,
                self.hardener.mass * 1e3
            ));
        }
    }

    /// Mass of one lot [kg].
    #[must_use]
    pub fn lot_mass(&self) -> f64 {
        self.base.mass + self.hardener.mass + self.thinner.mass
    }
}

#[cfg(test)]
mod tests;
