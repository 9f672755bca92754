//! From tins to cup: mixing ratio and thinning.
//!
//! Volumes add; solids, density and solvents follow by volume. Viscosity: ln mu = sum of volume share times ln mu
//! (Arrhenius' mixing rule, from memory: right trend, within 30 % for paints; a cup reading overrides it).

use super::{Paint, Sheet, Solvent, TWENTY_C, ThinnerSpeed};
use crate::error::{ParameterError, within};
use crate::math::{exp, ln};

/// One tin at 20 C. Typical values: replace by the product's data sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Density [kg/m3].
    pub density: f64,
    /// Volume solids [-].
    pub volume_solids: f64,
    /// Viscosity at the cup's shear rate [Pa s].
    pub viscosity: f64,
    /// Volatiles; their shares sum to 1 - volume_solids.
    pub solvents: Vec<Solvent>,
}

/// What a thinning percentage is counted on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThinningOf {
    /// Base and hardener together.
    Mix,
    /// The base alone.
    Base,
}

/// How the tins are put together, by volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mix {
    /// Parts of base [-].
    pub base: f64,
    /// Parts of hardener [-]; 0 for one-pack paints.
    pub hardener: f64,
    /// Thinner, share of what `thinning_of` says [-], 0..=2.
    pub thinning: f64,
    /// What the thinning is counted on.
    pub thinning_of: ThinningOf,
}

/// A class of paint: its tins and what stays the same however it is mixed.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// Catalogue id.
    pub id: String,
    /// Plain name for the screen.
    pub name: String,
    /// Base.
    pub base: Component,
    /// Hardener of a two-pack paint.
    pub hardener: Option<Component>,
    /// Thinner in use: the medium one, unless `thinned_with` another.
    pub thinner: Component,
    /// Fast thinner.
    pub fast: Component,
    /// Slow thinner.
    pub slow: Component,
    /// The usual mix.
    pub usual: Mix,
    /// Power-law index above the cup's shear rate [-].
    pub flow_index: f64,
    /// High-shear viscosity over the cup's [-].
    pub high_shear_share: f64,
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Viscosity on landing of a film of the usual mix [Pa s].
    pub film_viscosity: f64,
    /// Time in which it rises e-fold [s].
    pub setting_time: f64,
    /// Yield stress of the film on landing [Pa].
    pub yield_stress: f64,
    /// Hardener with isocyanate.
    pub isocyanate: bool,
    /// Usual dry film of one coat [m], lowest and highest.
    pub dry_film_per_coat: [f64; 2],
    /// What else the class's data sheets usually say.
    pub sheet: Sheet,
}

impl Mix {
    /// Shares of base, hardener and thinner in the volume mixed; they sum to 1.
    #[must_use]
    pub fn shares(&self) -> [f64; 3] {
        let counted = match self.thinning_of {
            ThinningOf::Mix => self.base + self.hardener,
            ThinningOf::Base => self.base,
        };
        let thinner = self.thinning * counted;
        let total = self.base + self.hardener + thinner;
        [self.base / total, self.hardener / total, thinner / total]
    }

    /// Reads "2:1" as parts of base and hardener.
    ///
    /// # Errors
    /// Not two positive numbers with a colon between, each 0.01..=1000.
    pub fn parts(text: &str) -> Result<[f64; 2], ParameterError> {
        let refused = || {
            ParameterError::new(
                "paint.mix",
                format!("\"{text}\""),
                "base:hardener by volume, each 0.01 to 1000, such as \"2:1\"",
            )
        };
        let mut parts = text.split(':').map(|p| p.trim().parse::<f64>());
        match (parts.next(), parts.next(), parts.next()) {
            (Some(Ok(a)), Some(Ok(b)), None) if [a, b].iter().all(|p| (0.01..=1000.0).contains(p)) => {
                Ok([a, b])
            }
            _ => Err(refused()),
        }
    }
}

impl Recipe {
    /// The same tins with a thinner of this speed.
    #[must_use]
    pub fn thinned_with(mut self, speed: ThinnerSpeed) -> Self {
        match speed {
            ThinnerSpeed::Fast => self.thinner = self.fast.clone(),
            ThinnerSpeed::Medium => {}
            ThinnerSpeed::Slow => self.thinner = self.slow.clone(),
        }
        self
    }

    /// The paint in the cup at 20 C, mixed and thinned so.
    ///
    /// # Errors
    /// Hardener for a one-pack paint or none for a two-pack one, parts or thinning out of range, more than
    /// `MOST_SOLVENTS` different solvents.
    pub fn mixed(&self, mix: &Mix) -> Result<Paint, ParameterError> {
        within("paint.mix: base", mix.base, 0.01, 1000.0, "parts")?;
        within("paint.thinning", mix.thinning, 0.0, 2.0, "")?;
        match &self.hardener {
            Some(_) => within("paint.mix: hardener", mix.hardener, 0.01, 1000.0, "parts")?,
            None => within("paint.mix: hardener (one-pack paint)", mix.hardener, 0.0, 0.0, "parts")?,
        };
        let [base, hardener, thinner] = mix.shares();
        let mut tins = vec![(&self.base, base), (&self.thinner, thinner)];
        tins.extend(self.hardener.as_ref().map(|h| (h, hardener)));

        let by_volume =
            |value: fn(&Component) -> f64| tins.iter().map(|(c, share)| value(c) * share).sum::<f64>();
        let viscosity = self.viscosity(mix);
        let paint = Paint {
            id: self.id.clone(),
            name: self.name.clone(),
            density: by_volume(|c| c.density),
            volume_solids: by_volume(|c| c.volume_solids),
            viscosity,
            flow_index: self.flow_index,
            viscosity_high_shear: viscosity * self.high_shear_share,
            surface_tension: self.surface_tension,
            film_viscosity: self.film_viscosity * viscosity / self.viscosity(&self.usual),
            setting_time: self.setting_time,
            yield_stress: self.yield_stress,
            solvents: blend(&tins),
            isocyanate: self.isocyanate,
            dry_film_per_coat: self.dry_film_per_coat,
            temperature: TWENTY_C,
        };
        paint.check()?;
        Ok(paint)
    }

    /// Viscosity of a mix [Pa s].
    fn viscosity(&self, mix: &Mix) -> f64 {
        let [base, hardener, thinner] = mix.shares();
        let of_hardener = self.hardener.as_ref().map_or(0.0, |h| ln(h.viscosity) * hardener);
        exp(ln(self.base.viscosity) * base + ln(self.thinner.viscosity) * thinner + of_hardener)
    }
}

/// Solvents of all tins, those of one name together, in order of first mention.
fn blend(tins: &[(&Component, f64)]) -> Vec<Solvent> {
    let mut all: Vec<Solvent> = Vec::new();
    for (tin, share) in tins.iter().filter(|(_, share)| *share > 0.0) {
        for s in &tin.solvents {
            match all.iter_mut().find(|known| known.name == s.name) {
                Some(known) => known.volume_share += s.volume_share * share,
                None => all.push(Solvent { name: s.name.clone(), volume_share: s.volume_share * share }),
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::recipe;

    #[test]
    fn thinning_of_the_mix_and_of_the_base_are_two_things() {
        let clear = recipe("two-pack-clear").unwrap();
        let dry = clear.mixed(&Mix { thinning: 0.0, ..clear.usual }).unwrap();
        let of_mix = clear.mixed(&Mix { thinning: 0.30, ..clear.usual }).unwrap();
        let of_base =
            clear.mixed(&Mix { thinning: 0.30, thinning_of: ThinningOf::Base, ..clear.usual }).unwrap();
        // VS' = VS/(1 + r); 30 % of the base of 2:1 is 20 % of the mix.
        assert!((of_mix.volume_solids - dry.volume_solids / 1.3).abs() < 1e-12);
        assert!((of_base.volume_solids - dry.volume_solids / 1.2).abs() < 1e-12);
        assert!(of_mix.viscosity < of_base.viscosity && of_base.viscosity < dry.viscosity);
        assert!(of_mix.density < dry.density);
    }

    #[test]
    fn typical_paints_come_out_as_the_trade_knows_them() {
        // Density kg/m3, volume solids, DIN 4 seconds (common practice): ready to spray.
        for (id, density, solids, seconds) in [
            ("two-pack-clear", [980.0, 1020.0], [0.40, 0.50], [15.0, 20.0]),
            ("solvent-basecoat", [960.0, 1200.0], [0.10, 0.20], [14.0, 18.0]),
        ] {
            let p = crate::catalogue::paint(id).unwrap();
            let t = crate::flow_cup::Cup::Din4.seconds(p.kinematic_viscosity()).unwrap().value;
            assert!((density[0]..=density[1]).contains(&p.density), "{id} {}", p.density);
            assert!((solids[0]..=solids[1]).contains(&p.volume_solids), "{id} {}", p.volume_solids);
            assert!((seconds[0]..=seconds[1]).contains(&t), "{id} {t} s");
        }
    }

    #[test]
    fn warmth_and_shear_thin_and_a_cup_reading_sets() {
        let p = crate::catalogue::paint("two-pack-clear").unwrap();
        let warm = p.clone().at_temperature(p.temperature + 1.0).unwrap();
        assert!((warm.viscosity / p.viscosity - 0.96).abs() < 1e-12);
        assert!(
            (warm.clone().at_temperature(p.temperature).unwrap().viscosity / p.viscosity - 1.0).abs() < 1e-12
        );
        let read = p.clone().with_kinematic_viscosity(80e-6).unwrap();
        assert!((read.kinematic_viscosity() - 80e-6).abs() < 1e-12);
        assert!(
            (read.viscosity_high_shear / read.viscosity - p.viscosity_high_shear / p.viscosity).abs() < 1e-12
        );
        let mut last = f64::INFINITY;
        for rate in [1.0, 100.0, 1e3, 1e4, 1e5, 1e6, 1e9] {
            let mu = p.viscosity_at(rate);
            assert!(mu <= last && mu >= p.viscosity_high_shear);
            last = mu;
        }
        assert!(p.clone().at_temperature(f64::NAN).is_err() && p.with_kinematic_viscosity(0.0).is_err());
    }

    #[test]
    fn mixes_that_make_no_sense_are_refused() {
        assert_eq!(Mix::parts("2:1"), Ok([2.0, 1.0]));
        assert_eq!(Mix::parts(" 4 : 1.5 "), Ok([4.0, 1.5]));
        for text in ["", "2", "2:1:1", "2:x", "2:-1", "nan:1", "inf:1", "0:1"] {
            let e = Mix::parts(text).unwrap_err();
            assert!(e.key == "paint.mix" && e.value.contains(text), "{text}");
        }
        let clear = recipe("two-pack-clear").unwrap();
        assert!(clear.mixed(&Mix { hardener: 0.0, ..clear.usual }).is_err());
        assert!(clear.mixed(&Mix { thinning: f64::NAN, ..clear.usual }).is_err());
        let base = recipe("solvent-basecoat").unwrap();
        assert!(base.mixed(&Mix { hardener: 1.0, ..base.usual }).is_err());
    }
}
