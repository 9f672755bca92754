//! `[paint]`: a paint of the catalogue mixed and thinned, the file's own figures laid over it, brought to its
//! temperature, and last the viscosity as measured.

use super::document::Document;
use super::error::JobError;
use super::value::Value;
use crate::catalogue;
use crate::flow_cup::Cup;
use crate::paint::{Mix, Paint, Recipe, Solvent, ThinningOf};

/// Hardener more or less than usual that is worth a note [-]: ours; products of one class differ as much.
const OFF_RATIO: f64 = 0.25;

/// Paint as it is in the cup, and how it was mixed. What is worth saying about it goes into `notes`.
pub(super) fn paint(
    doc: &Document<'_>,
    room: f64,
    notes: &mut Vec<String>,
) -> Result<(Paint, Mix), JobError> {
    let id = doc.word("paint.kind").ok_or_else(|| doc.missing("paint.kind"))?;
    let recipe = catalogue::recipe(id).map_err(|e| doc.parameter(&e))?;
    let mix = mix(doc, &recipe, notes)?;
    let mut paint = recipe.mixed(&mix).map_err(|e| doc.parameter(&e))?;
    lay_over(doc, &mut paint)?;
    let temperature = doc.number("paint.temperature").unwrap_or(room);
    let paint = paint.at_temperature(temperature).map_err(|e| doc.parameter(&e))?;
    let paint = measured(doc, paint, notes)?;
    paint.check().map_err(|e| doc.parameter(&e))?;
    Ok((paint, mix))
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
    // Unless the file gives it too, the high-shear viscosity keeps its proportion.
    if let Some(viscosity) = doc.number("paint.viscosity") {
        paint.viscosity_high_shear *= viscosity / paint.viscosity;
    }
    for (path, field) in [
        ("paint.density", &mut paint.density),
        ("paint.viscosity", &mut paint.viscosity),
        ("paint.flow_index", &mut paint.flow_index),
        ("paint.viscosity_high_shear", &mut paint.viscosity_high_shear),
        ("paint.surface_tension", &mut paint.surface_tension),
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
    volatiles(doc, paint);
    Ok(())
}

/// Solids and volatiles: whichever of the two the file gives, the volatiles fill what the solids leave.
fn volatiles(doc: &Document<'_>, paint: &mut Paint) {
    let solids = doc.number("paint.volume_solids").unwrap_or(paint.volume_solids);
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
    paint.volume_solids = solids;
    paint.solvents = given
        .into_iter()
        .map(|(name, share)| Solvent { name, volume_share: share * (1.0 - solids) })
        .collect();
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
    paint.with_kinematic_viscosity(reading.value).map_err(|e| {
        let problem = format!("that is {:.1} mm2/s", reading.value * 1e6);
        doc.refuse(path, &problem, &format!("seconds that give {}", e.allowed))
    })
}
