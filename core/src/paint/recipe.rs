//! From tins to cup: mixing ratio and thinning.
//!
//! Volumes add; solids, density and solvents follow by volume. Viscosity: ln mu = sum of volume share times ln mu
//! (Arrhenius' mixing rule, from memory: right trend, within 30 % for paints; a cup reading overrides it).

use super::{Paint, Solvent, TWENTY_C};
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
    /// Thinner.
    pub thinner: Component,
    /// The usual mix.
    pub usual: Mix,
    /// Power-law index above the cup's shear rate [-].
    pub flow_index: f64,
    /// High-shear viscosity over the cup's [-].
    pub high_shear_share: f64,
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Hardener with isocyanate.
    pub isocyanate: bool,
    /// Usual dry film of one coat [m], lowest and highest.
    pub dry_film_per_coat: [f64; 2],
}

impl Mix {
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
    /// The paint in the cup at 20 C, mixed and thinned so.
    ///
    /// # Errors
    /// Hardener for a one-pack paint or none for a two-pack one, parts or thinning out of range, more than three
    /// different solvents.
    pub fn mixed(&self, mix: &Mix) -> Result<Paint, ParameterError> {
        within("paint.mix: base", mix.base, 0.01, 1000.0, "parts")?;
        within("paint.thinning", mix.thinning, 0.0, 2.0, "")?;
        match &self.hardener {
            Some(_) => within("paint.mix: hardener", mix.hardener, 0.01, 1000.0, "parts")?,
            None => within("paint.mix: hardener (one-pack paint)", mix.hardener, 0.0, 0.0, "parts")?,
        };
        let counted = match mix.thinning_of {
            ThinningOf::Mix => mix.base + mix.hardener,
            ThinningOf::Base => mix.base,
        };
        let thinner = mix.thinning * counted;
        let total = mix.base + mix.hardener + thinner;
        let mut tins = vec![(&self.base, mix.base / total), (&self.thinner, thinner / total)];
        tins.extend(self.hardener.as_ref().map(|h| (h, mix.hardener / total)));

        let by_volume =
            |value: fn(&Component) -> f64| tins.iter().map(|(c, share)| value(c) * share).sum::<f64>();
        let viscosity = exp(by_volume(|c| ln(c.viscosity)));
        let paint = Paint {
            id: self.id.clone(),
            name: self.name.clone(),
            density: by_volume(|c| c.density),
            volume_solids: by_volume(|c| c.volume_solids),
            viscosity,
            flow_index: self.flow_index,
            viscosity_high_shear: viscosity * self.high_shear_share,
            surface_tension: self.surface_tension,
            solvents: blend(&tins),
            isocyanate: self.isocyanate,
            dry_film_per_coat: self.dry_film_per_coat,
            temperature: TWENTY_C,
        };
        paint.check()?;
        Ok(paint)
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
