//! The droplet sizes that the model might as well have given: for a likely range without flying again.
//!
//! Droplets do not meet in the model, so landed parcels may be weighted anew by `volume_density` of another distribution over that
//! of the flown one. One thing is changed at a time: the fitted size, down and up by its range; then the correlation. A gun matched on
//! a card has its own range of size, and its correlations are made to agree at the kit's design point: the card has told the size
//! there, and they differ only in how they carry it to another setting.

use super::{Model, Neighbour};
use crate::atomizer::Correlation;
use crate::error::ParameterError;
use crate::gun::{GunSetting, Kit};
use crate::job::Booth;
use crate::paint::Paint;
use crate::spray::SizeDistribution;

/// Another size distribution and why it is as likely.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeVariant {
    /// What was changed: "size down", "size up", or the correlation's id.
    pub change: &'static str,
    /// The distribution, cut at the largest droplet of the model's own, so that the weights of flown parcels average to 1.
    /// Far coarser variants lose their upper tail by that: 6 % of the Sauter mean at 1.7 times the size.
    pub sizes: SizeDistribution,
}

impl Model {
    /// Sizes with the fitted size at either end of its range, and by each other plain-jet correlation. The model's own is not among them.
    ///
    /// # Errors
    /// As `Model::spray`.
    pub fn size_range(
        &self,
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        booth: &Booth,
    ) -> Result<Vec<SizeVariant>, ParameterError> {
        self.size_range_with(&[], kit, setting, paint, booth)
    }

    /// As `size_range`, for a gun from its box: what the box leaves open widens the range of the fitted size. Each of its causes
    /// (air, cap, fan, flow, class) adds the larger of its two changes of size, as independent errors add: by squares of logarithms.
    ///
    /// # Errors
    /// As `Model::spray`.
    pub fn size_range_with(
        &self,
        neighbours: &[Neighbour],
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        booth: &Booth,
    ) -> Result<Vec<SizeVariant>, ParameterError> {
        let state = self.state(kit, setting, paint, booth)?;
        let largest = self.sizes(kit, setting, &state, paint)?.largest;
        let own = self.sauter(kit, setting, &state, paint)?;
        let mut causes: Vec<(&str, f64)> = Vec::new();
        for other in neighbours {
            // A setting that this neighbour does not bear says nothing of its droplets.
            let Ok(state) = self.state(&other.kit, setting, paint, booth) else { continue };
            let change = crate::math::ln(self.sauter(&other.kit, setting, &state, paint)? / own);
            let cause = other.change.split(' ').next().unwrap_or(other.change);
            match causes.iter_mut().find(|(name, _)| *name == cause) {
                Some((_, most)) => *most = most.max(change * change),
                None => causes.push((cause, change * change)),
            }
        }
        let fitted = self.own(kit).sauter_uncertainty;
        let factor = if causes.is_empty() {
            fitted
        } else {
            let square = crate::math::ln(fitted) * crate::math::ln(fitted);
            crate::math::exp((square + causes.iter().map(|c| c.1).sum::<f64>()).sqrt())
        };
        let scaled = |by: f64| {
            let mut model = *self;
            model.constants.sauter_reference *= by;
            model
        };
        let others = Correlation::PLAIN_JET.into_iter().filter(|c| *c != self.correlation);
        let mut models = vec![("size down", scaled(1.0 / factor)), ("size up", scaled(factor))];
        for correlation in others {
            let mut other = Self { correlation, ..*self };
            if kit.matched.droplets_range.is_some() {
                other.constants.sauter_reference *= self.rated_sauter(kit)? / other.rated_sauter(kit)?;
            }
            models.push((correlation.id(), other));
        }
        models
            .into_iter()
            .map(|(change, model)| {
                let mut sizes = model.sizes(kit, setting, &state, paint)?;
                sizes.largest = sizes.largest.min(largest);
                Ok(SizeVariant { change, sizes })
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue;

    #[test]
    fn a_gun_from_its_box_has_a_wider_range() {
        use crate::set_up::{BoxFigures, from_box};
        let figures =
            BoxFigures { class: None, feed: None, air: 280.0 / 60_000.0, at: 2e5, tip: 1.3e-3, fan: None };
        let gun = from_box(&figures).unwrap();
        let (paint, booth) = (catalogue::paint("two-pack-clear").unwrap(), Booth::at(293.15, 0.5));
        let (model, setting) = (Model::default(), gun.kit.rated());
        let narrow = model.size_range(&gun.kit, &setting, &paint, &booth).unwrap();
        let wide = model.size_range_with(&gun.spread, &gun.kit, &setting, &paint, &booth).unwrap();
        let width = |v: &[SizeVariant]| v[1].sizes.volume_median / v[0].sizes.volume_median;
        let (narrow, wide) = (width(&narrow), width(&wide));
        assert!(
            (narrow - 1.35 * 1.35).abs() < 1e-9 && wide > 1.03 * narrow && wide < 1.5 * narrow,
            "{narrow} {wide}"
        );
    }

    #[test]
    fn the_range_holds_the_fitted_size_both_ways_and_every_other_correlation() {
        let (kit, paint) =
            (catalogue::kit("lvlp-gravity-1.2").unwrap(), catalogue::paint("two-pack-clear").unwrap());
        let booth = Booth::at(293.15, 0.5);
        let model = Model::default();
        let own = model.spray(&kit, &kit.rated(), &paint, &booth).unwrap().sizes;
        let range = model.size_range(&kit, &kit.rated(), &paint, &booth).unwrap();
        let changes: Vec<_> = range.iter().map(|v| v.change).collect();
        assert_eq!(changes, ["size down", "size up", "ll", "nt", "km"]);
        assert!((range[0].sizes.volume_median * 1.35 / own.volume_median - 1.0).abs() < 1e-12);
        assert!((range[1].sizes.volume_median / 1.35 / own.volume_median - 1.0).abs() < 1e-12);
        // Weighting quantiles of the flown sizes gives the other's mean; where it is finer its own cut ends the weights early.
        let n = 20_000;
        for other in &range {
            let (mut weight, mut inverse) = (0.0, 0.0);
            for i in 0..n {
                let d = own.quantile((f64::from(i) + 0.5) / f64::from(n));
                let w = other.sizes.volume_density(d) / own.volume_density(d);
                weight += w;
                inverse += w / d;
            }
            assert!((weight / f64::from(n) - 1.0).abs() < 1e-3, "{}: {weight}", other.change);
            assert!((weight / inverse / other.sizes.sauter() - 1.0).abs() < 1e-3, "{}", other.change);
        }
    }
}
