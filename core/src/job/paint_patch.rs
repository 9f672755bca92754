//! `[paint]`: a paint of the catalogue mixed and thinned, the file's own figures laid over it, brought to its
//! temperature, and last the viscosity as measured.

use super::document::Document;
use super::error::JobError;
use super::sheet_patch;
use super::value::Value;
use crate::catalogue;
use crate::evaporation::Volatile;
use crate::flow_cup::Cup;
use crate::paint::film_arithmetic::solids_by_volume;
use crate::paint::{Mix, Paint, Recipe, Sheet, Solvent, ThinnerSpeed, ThinningOf};

/// Hardener more or less than usual that is worth a note [-]: ours; products of one class differ as much.
const OFF_RATIO: f64 = 0.25;

/// A paint as the file has it.
pub(super) struct Mixed {
    pub paint: Paint,
    pub mix: Mix,
    pub recipe: Recipe,
    pub sheet: Sheet,
    /// Keys that the file gives; `paint.thinning` also where a third part of the mix says it.
    pub given: Vec<&'static str>,
}

/// Paint as it is in the cup, how it was mixed and what its data sheet says. What is worth saying about it goes into `notes`.
pub(super) fn paint(doc: &Document<'_>, room: f64, notes: &mut Vec<String>) -> Result<Mixed, JobError> {
    let id = doc.word("paint.kind").ok_or_else(|| doc.missing("paint.kind"))?;
    let recipe = tins(doc, catalogue::recipe(id).map_err(|e| doc.parameter(&e))?)?;
    let mix = mix(doc, &recipe, notes)?;
    let mut paint = recipe.mixed(&mix).map_err(|e| doc.parameter(&e))?;
    lay_over(doc, &mut paint)?;
    let sheet = sheet_patch::sheet(doc, &recipe, &mut paint)?;
    let temperature = doc.number("paint.temperature").unwrap_or(room);
    let paint = paint.at_temperature(temperature).map_err(|e| doc.parameter(&e))?;
    let mut paint = measured(doc, paint, notes)?;
    if let Some(viscosity) = doc.number("paint.film_viscosity") {
        paint.film_viscosity = viscosity;
    }
    paint.check().map_err(|e| doc.parameter(&e))?;
    let mut given = doc.keys();
    if matches!(doc.get("paint.mix").map(|e| &e.value), Some(Value::Mix(parts)) if parts.len() == 3) {
        given.push("paint.thinning");
    }
    Ok(Mixed { paint, mix, recipe, sheet, given })
}

/// The tins, with the thinner and the densities that the file names.
fn tins(doc: &Document<'_>, recipe: Recipe) -> Result<Recipe, JobError> {
    let speed = doc.word("paint.thinner").and_then(ThinnerSpeed::of).unwrap_or_default();
    let mut recipe = recipe.thinned_with(speed);
    let density = |path: &str, field: &mut f64| {
        if let Some(x) = doc.number(path) {
            *field = x;
        }
    };
    density("paint.base_density", &mut recipe.base.density);
    density("paint.thinner_density", &mut recipe.thinner.density);
    match &mut recipe.hardener {
        Some(hardener) => density("paint.hardener_density", &mut hardener.density),
        None if doc.has("paint.hardener_density") => {
            let allowed = format!("only with a two-pack paint; {} has no hardener", recipe.id);
            return Err(doc.refuse("paint.hardener_density", "this paint takes no hardener", &allowed));
        }
        None => {}
    }
    Ok(recipe)
}

/// The usual mix of the paint, changed where the file says so.
fn mix(doc: &Document<'_>, recipe: &Recipe, notes: &mut Vec<String>) -> Result<Mix, JobError> {
    let usual = recipe.usual;
    let mut mix = usual;
    if let Some(thinning) = doc.number("paint.thinning") {
        mix.thinning = thinning;
        mix.thinning_of = ThinningOf::Mix;
    }
    match doc.word("paint.thinning_of") {
        Some("base") => mix.thinning_of = ThinningOf::Base,
        Some(_) => mix.thinning_of = ThinningOf::Mix,
        None => {}
    }
    if let Some(Value::Mix(parts)) = doc.get("paint.mix").map(|e| &e.value) {
        if recipe.hardener.is_none() {
            let allowed = format!(
                "no mix for a one-pack paint such as {}; its thinner goes into paint.thinning",
                recipe.id
            );
            return Err(doc.refuse("paint.mix", "this paint takes no hardener", &allowed));
        }
        (mix.base, mix.hardener) = (parts[0], parts[1]);
        let off = mix.hardener * usual.base / (mix.base * usual.hardener);
        if !(1.0 - OFF_RATIO..=1.0 + OFF_RATIO).contains(&off) {
            notes.push(format!(
                "paint.mix: {}:{} is far from the {}:{} usual for {}; a two-pack paint off its data sheet's ratio does not cure well",
                mix.base, mix.hardener, usual.base, usual.hardener, recipe.id
            ));
        }
        if let Some(thinner) = parts.get(2) {
            if doc.has("paint.thinning") {
                let allowed = "one of paint.thinning, a third part of paint.mix";
                return Err(doc.refuse("paint.mix", "the thinner is given twice", allowed));
            }
            mix.thinning = thinner / (mix.base + mix.hardener);
            mix.thinning_of = ThinningOf::Mix;
        }
    }
    Ok(mix)
}

/// The file's own figures, as sprayed and at 20 C, over those of the mix.
fn lay_over(doc: &Document<'_>, paint: &mut Paint) -> Result<(), JobError> {
    // Unless the file gives it too, the high-shear viscosity keeps its proportion, and the film's too.
    if let Some(viscosity) = doc.number("paint.viscosity") {
        paint.viscosity_high_shear *= viscosity / paint.viscosity;
        paint.film_viscosity *= viscosity / paint.viscosity;
    }
    for (path, field) in [
        ("paint.density", &mut paint.density),
        ("paint.viscosity", &mut paint.viscosity),
        ("paint.flow_index", &mut paint.flow_index),
        ("paint.viscosity_high_shear", &mut paint.viscosity_high_shear),
        ("paint.surface_tension", &mut paint.surface_tension),
        ("paint.setting_time", &mut paint.setting_time),
        ("paint.yield_stress", &mut paint.yield_stress),
    ] {
        if let Some(x) = doc.number(path) {
            *field = x;
        }
    }
    if paint.viscosity_high_shear > paint.viscosity {
        let allowed =
            format!("at most the viscosity of this mix at 20 C, {:.1} mPa s", paint.viscosity * 1e3);
        return Err(doc.refuse("paint.viscosity_high_shear", "shear never thickens a paint here", &allowed));
    }
    if let Some(name) = doc.word("paint.name") {
        paint.name = name.into();
    }
    if let Some(band) = doc.band("paint.dry_film_per_coat") {
        paint.dry_film_per_coat = band;
    }
    if let Some(Value::Flag(flag)) = doc.get("paint.isocyanate").map(|e| &e.value) {
        paint.isocyanate = *flag;
    }
    volatiles(doc, paint)
}

/// Solids and volatiles: whichever of the two the file gives, the volatiles fill what the solids leave.
fn volatiles(doc: &Document<'_>, paint: &mut Paint) -> Result<(), JobError> {
    let given = match doc.get("paint.solvents").map(|e| &e.value) {
        Some(Value::Solvents(list)) => list.clone(),
        _ => {
            let all: f64 = paint.solvents.iter().map(|s| s.volume_share).sum();
            paint
                .solvents
                .iter()
                .filter(|s| s.volume_share > 0.0)
                .map(|s| (s.name.clone(), s.volume_share / all))
                .collect()
        }
    };
    let solids = match (doc.number("paint.volume_solids"), doc.number("paint.mass_solids")) {
        (Some(_), Some(_)) => {
            let allowed = "one of paint.volume_solids, paint.mass_solids";
            return Err(doc.refuse("paint.mass_solids", "the solids are given twice", allowed));
        }
        (Some(solids), None) => solids,
        (None, Some(mass)) => by_mass(doc, mass, paint.density, &given)?,
        (None, None) => paint.volume_solids,
    };
    paint.volume_solids = solids;
    paint.solvents = given
        .into_iter()
        .map(|(name, share)| Solvent { name, volume_share: share * (1.0 - solids) })
        .collect();
    Ok(())
}

/// Volume solids from solids by mass and the density of these volatiles.
fn by_mass(
    doc: &Document<'_>,
    mass: f64,
    density: f64,
    volatiles: &[(String, f64)],
) -> Result<f64, JobError> {
    let mut volatile = 0.0;
    for (name, share) in volatiles {
        volatile += share * Volatile::named(name).map_err(|e| doc.parameter(&e))?.density;
    }
    solids_by_volume(density, mass, volatile).map_err(|e| doc.parameter(&e))
}

/// The viscosity as measured with a cup or otherwise, at the paint's temperature.
fn measured(doc: &Document<'_>, paint: Paint, notes: &mut Vec<String>) -> Result<Paint, JobError> {
    let ways = ["paint.viscosity", "paint.cup", "paint.kinematic_viscosity"];
    let given: Vec<_> = ways.into_iter().filter(|path| doc.has(path)).collect();
    if let [.., last] = given[..]
        && given.len() > 1
    {
        let allowed = format!("one of {}", ways.join(", "));
        return Err(doc.refuse(last, "the viscosity is given twice", &allowed));
    }
    if let Some(measured) = doc.number("paint.kinematic_viscosity") {
        return paint
            .with_kinematic_viscosity(measured)
            .map_err(|e| doc.refuse("paint.kinematic_viscosity", "it is not possible", &e.allowed));
    }
    if !doc.has("paint.cup") {
        return Ok(paint);
    }
    let path = "paint.cup.seconds";
    let standard = doc.word("paint.cup.standard").ok_or_else(|| doc.missing("paint.cup.standard"))?;
    let seconds = doc.number(path).ok_or_else(|| doc.missing(path))?;
    let cup = Cup::from_id(standard).map_err(|e| doc.parameter(&e))?;
    let reading = cup.viscosity(seconds).map_err(|e| doc.parameter(&e))?;
    if !reading.in_range {
        let [low, high] = cup.range();
        notes.push(format!(
            "{path}: {seconds} s is outside the {low} to {high} s that the formula of {standard} was made for; it is used all the same"
        ));
    }
    let in_use = paint.temperature;
    let taken_at = doc.number("paint.cup.temperature").unwrap_or(in_use);
    let paint = paint.at_temperature(taken_at).map_err(|e| doc.parameter(&e))?;
    let paint = paint.with_kinematic_viscosity(reading.value).map_err(|e| {
        let problem = format!("that is {:.1} mm2/s", reading.value * 1e6);
        doc.refuse(path, &problem, &format!("seconds that give {}", e.allowed))
    })?;
    paint.at_temperature(in_use).map_err(|e| doc.parameter(&e))
}
