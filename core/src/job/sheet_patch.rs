//! `[paint.sheet]`: the product's data sheet over what is typical for its class.

use super::document::Document;
use super::error::JobError;
use crate::flow_cup::Cup;
use crate::paint::{Paint, Recipe, Sheet};

/// The data sheet; its dry film goes into the paint's film of one coat.
pub(super) fn sheet(doc: &Document<'_>, recipe: &Recipe, paint: &mut Paint) -> Result<Sheet, JobError> {
    let mut sheet = recipe.sheet.clone();
    if let Some(tip) = doc.band("paint.sheet.tip") {
        sheet.tip = tip;
    }
    sheet.pressure = doc.band("paint.sheet.pressure");
    if let Some(coats) = doc.number("paint.sheet.coats") {
        sheet.coats = coats as u32;
    }
    if let Some(flash) = doc.number("paint.sheet.flash") {
        sheet.flash = flash;
    }
    if let Some(temperature) = doc.number("paint.sheet.temperature") {
        sheet.temperature = temperature;
    }
    sheet.recoat_within = doc.number("paint.sheet.recoat_within");
    if sheet.recoat_within.is_some_and(|latest| latest <= sheet.flash) {
        let allowed = format!("longer than the flash of {} s", sheet.flash);
        return Err(doc.refuse(
            "paint.sheet.recoat_within",
            "the next coat's latest time is before its earliest",
            &allowed,
        ));
    }
    cup(doc, &mut sheet)?;
    if let Some(life) = doc.number("paint.sheet.pot_life") {
        if recipe.hardener.is_none() {
            let allowed = format!("only with a two-pack paint; {} has no hardener", recipe.id);
            return Err(doc.refuse("paint.sheet.pot_life", "a one-pack paint has no pot life", &allowed));
        }
        sheet.pot_life = Some(life);
    }
    let coats = f64::from(sheet.coats);
    match doc.band("paint.sheet.dry_film_total") {
        Some(_) if doc.has("paint.dry_film_per_coat") => {
            let allowed = "one of paint.dry_film_per_coat, paint.sheet.dry_film_total";
            return Err(doc.refuse("paint.sheet.dry_film_total", "the dry film is given twice", allowed));
        }
        Some(total) => {
            sheet.dry_film_total = total;
            paint.dry_film_per_coat = total.map(|film| film / coats);
        }
        None => sheet.dry_film_total = paint.dry_film_per_coat.map(|film| film * coats),
    }
    Ok(sheet)
}

/// Cup and seconds. A cup alone turns the typical seconds into its own.
fn cup(doc: &Document<'_>, sheet: &mut Sheet) -> Result<(), JobError> {
    let typical = sheet.cup;
    if let Some(id) = doc.word("paint.sheet.cup") {
        sheet.cup = Cup::from_id(id).map_err(|e| doc.parameter(&e))?;
    }
    if let Some(seconds) = doc.band("paint.sheet.cup_seconds") {
        for (at, end) in seconds.into_iter().zip(["shortest", "longest"]) {
            sheet.cup.viscosity(at).map_err(|e| {
                doc.refuse("paint.sheet.cup_seconds", &format!("the {end} gives no viscosity"), &e.allowed)
            })?;
        }
        sheet.cup_seconds = seconds;
        return Ok(());
    }
    if sheet.cup == typical {
        return Ok(());
    }
    for seconds in &mut sheet.cup_seconds {
        let reading = typical.viscosity(*seconds).and_then(|nu| sheet.cup.seconds(nu.value));
        *seconds = reading
            .map_err(|e| {
                let problem = "this paint does not flow out of that cup in time";
                doc.refuse("paint.sheet.cup", problem, &e.allowed)
            })?
            .value;
    }
    Ok(())
}
