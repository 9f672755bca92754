//! A class of paint as it stands in the catalogue: each figure with its origin.

use super::Figure;
use crate::flow_cup::Cup;
use crate::paint::{Component, Mix, Recipe, Sheet, Solvent, ThinningOf};

/// A tin of the catalogue. SI; meanings as in `paint::Component`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ComponentData {
    /// Density [kg/m3].
    pub density: Figure,
    /// Volume solids [-].
    pub volume_solids: Figure,
    /// Viscosity in the cup [Pa s].
    pub viscosity: Figure,
    /// Solvents by name, with their share of the tin's volatile volume [-]; the shares sum to 1.
    pub solvents: &'static [(&'static str, f64)],
}

/// What data sheets of the class usually say. SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetData {
    /// Fluid tip of a gravity gun, smallest and largest [m].
    pub tip: [f64; 2],
    /// Seconds DIN 4 ready to spray, shortest and longest [s].
    pub cup_seconds: [f64; 2],
    /// Coats.
    pub coats: u32,
    /// Time between coats [s].
    pub flash: f64,
    /// Pot life [s]; none for one-pack paints.
    pub pot_life: Option<f64>,
    /// Where the window comes from.
    pub origin: &'static str,
}

/// How a film of a class stands and sets. SI; meanings as in `paint::Paint`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettingData {
    /// Viscosity of the film on landing [Pa s].
    pub film_viscosity: Figure,
    /// Time in which it rises e-fold [s].
    pub setting_time: Figure,
    /// Yield stress of the film on landing [Pa].
    pub yield_stress: Figure,
}

/// A class of paint of the catalogue.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PaintData {
    /// Catalogue id.
    pub id: &'static str,
    /// Plain name.
    pub name: &'static str,
    /// Base.
    pub base: ComponentData,
    /// Hardener of a two-pack paint.
    pub hardener: Option<ComponentData>,
    /// Medium thinner.
    pub thinner: ComponentData,
    /// Fast thinner.
    pub fast: ComponentData,
    /// Slow thinner.
    pub slow: ComponentData,
    /// Usual parts of base and hardener, thinning and what it is counted on.
    pub usual: (f64, f64, f64, ThinningOf),
    /// Power-law index [-].
    pub flow_index: Figure,
    /// High-shear viscosity over the cup's [-].
    pub high_shear_share: Figure,
    /// Surface tension [N/m].
    pub surface_tension: Figure,
    /// How a film of it stands and sets, in the usual mix.
    pub setting: SettingData,
    /// Hardener with isocyanate.
    pub isocyanate: bool,
    /// Usual dry film of one coat, lowest [m].
    pub dry_film_low: Figure,
    /// Usual dry film of one coat, highest [m].
    pub dry_film_high: Figure,
    /// What data sheets of the class usually say.
    pub sheet: SheetData,
}

impl ComponentData {
    fn component(&self) -> Component {
        let volatile = 1.0 - self.volume_solids.value;
        let solvent =
            |&(name, share): &(&str, f64)| Solvent { name: name.to_owned(), volume_share: share * volatile };
        Component {
            density: self.density.value,
            volume_solids: self.volume_solids.value,
            viscosity: self.viscosity.value,
            solvents: self.solvents.iter().map(solvent).collect(),
        }
    }
}

impl PaintData {
    /// The tins, without origins.
    #[must_use]
    pub fn recipe(&self) -> Recipe {
        let (base, hardener, thinning, thinning_of) = self.usual;
        Recipe {
            id: self.id.to_owned(),
            name: self.name.to_owned(),
            base: self.base.component(),
            hardener: self.hardener.as_ref().map(ComponentData::component),
            thinner: self.thinner.component(),
            fast: self.fast.component(),
            slow: self.slow.component(),
            usual: Mix { base, hardener, thinning, thinning_of },
            flow_index: self.flow_index.value,
            high_shear_share: self.high_shear_share.value,
            surface_tension: self.surface_tension.value,
            film_viscosity: self.setting.film_viscosity.value,
            setting_time: self.setting.setting_time.value,
            yield_stress: self.setting.yield_stress.value,
            isocyanate: self.isocyanate,
            dry_film_per_coat: [self.dry_film_low.value, self.dry_film_high.value],
            sheet: self.typical_sheet(),
        }
    }

    fn typical_sheet(&self) -> Sheet {
        let (data, coats) = (&self.sheet, f64::from(self.sheet.coats));
        Sheet {
            tip: data.tip,
            pressure: None,
            cup: Cup::Din4,
            cup_seconds: data.cup_seconds,
            coats: data.coats,
            flash: data.flash,
            temperature: crate::air::TWENTY_C,
            recoat_within: None,
            pot_life: data.pot_life,
            dry_film_total: [self.dry_film_low.value * coats, self.dry_film_high.value * coats],
        }
    }

    /// Every figure with its name.
    #[must_use]
    pub fn figures(&self) -> Vec<(&'static str, Figure)> {
        let mut all = vec![
            ("base.density", self.base.density),
            ("base.volume_solids", self.base.volume_solids),
            ("base.viscosity", self.base.viscosity),
            ("thinner.density", self.thinner.density),
            ("thinner.volume_solids", self.thinner.volume_solids),
            ("thinner.viscosity", self.thinner.viscosity),
            ("fast.density", self.fast.density),
            ("fast.viscosity", self.fast.viscosity),
            ("slow.density", self.slow.density),
            ("slow.viscosity", self.slow.viscosity),
            ("flow_index", self.flow_index),
            ("high_shear_share", self.high_shear_share),
            ("surface_tension", self.surface_tension),
            ("film_viscosity", self.setting.film_viscosity),
            ("setting_time", self.setting.setting_time),
            ("yield_stress", self.setting.yield_stress),
            ("dry_film_low", self.dry_film_low),
            ("dry_film_high", self.dry_film_high),
        ];
        if let Some(h) = &self.hardener {
            all.push(("hardener.density", h.density));
            all.push(("hardener.volume_solids", h.volume_solids));
            all.push(("hardener.viscosity", h.viscosity));
        }
        let of_sheet = |value| Figure { value, origin: self.sheet.origin };
        all.extend([
            ("sheet.tip_low", of_sheet(self.sheet.tip[0])),
            ("sheet.tip_high", of_sheet(self.sheet.tip[1])),
            ("sheet.cup_seconds_low", of_sheet(self.sheet.cup_seconds[0])),
            ("sheet.cup_seconds_high", of_sheet(self.sheet.cup_seconds[1])),
            ("sheet.coats", of_sheet(f64::from(self.sheet.coats))),
            ("sheet.flash", of_sheet(self.sheet.flash)),
        ]);
        all.extend(self.sheet.pot_life.map(|life| ("sheet.pot_life", of_sheet(life))));
        all
    }
}
