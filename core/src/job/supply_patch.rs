//! `[supply]`: compressor, line and others on the tank.

use super::document::Document;
use super::error::JobError;
use super::{AirPrices, Booth, KEYS};
use crate::catalogue;
use crate::supply::{Compressor, Coupling, FREE_AIR, Hose, Line, OtherUser, ReferenceState, Supply};

/// Rise of the tank's air over the intake where the file gives no temperature [K]. Ours: a small machine at work.
const TANK_RISE: f64 = 15.0;

/// What is said to a file that gives displacement.
pub(super) const DISPLACEMENT: &str = "displacement is what the pistons sweep; it is larger than what comes out and is not \
                                       used: give supply.compressor.delivered_air, from the data sheet or from the time \
                                       the tank takes to fill";

/// The supply, where the file has one.
pub(super) fn supply(doc: &Document<'_>, booth: &Booth) -> Result<Option<Supply>, JobError> {
    if !doc.has("supply") {
        return Ok(None);
    }
    let reference = doc.word("supply.reference").and_then(ReferenceState::find).unwrap_or(&FREE_AIR);
    let free = |air: f64| air * reference.factor_to(&FREE_AIR);
    let intake = doc.number("supply.intake_temperature").unwrap_or(booth.temperature);
    let also = doc.air_users("supply.also").unwrap_or_default();
    let supply = Supply {
        compressor: compressor(doc, free)?,
        line: Line {
            regulator: doc.number("supply.regulator"),
            hose: Hose {
                bore: doc.number("supply.hose.bore").unwrap_or(0.008),
                length: doc.number("supply.hose.length").unwrap_or(10.0),
            },
            couplings: doc.number("supply.couplings").map_or(2, |x| x as u32),
            coupling: match doc.word("supply.coupling") {
                Some("full-bore") => Coupling::FullBore,
                _ => Coupling::Standard,
            },
            temperature: booth.temperature,
        },
        also: also.iter().map(|(name, air)| OtherUser { name: name.clone(), air: free(*air) }).collect(),
        intake_temperature: intake,
        intake_humidity: doc.number("supply.intake_humidity").unwrap_or(booth.humidity),
        tank_temperature: doc.number("supply.tank_temperature").unwrap_or(intake + TANK_RISE),
    };
    supply.check().map_err(|e| doc.parameter(&e))?;
    Ok(Some(supply))
}

/// Prices that the file gives.
pub(super) fn prices(doc: &Document<'_>) -> AirPrices {
    let keys = KEYS.iter().map(|k| k.path).filter(|path| path.starts_with("supply.price."));
    AirPrices(keys.filter_map(|path| doc.number(path).map(|price| (path, price))).collect())
}

fn compressor(doc: &Document<'_>, free: impl Fn(f64) -> f64) -> Result<Compressor, JobError> {
    let id = doc.word("supply.compressor").or_else(|| doc.word("supply.compressor.like"));
    let like = id.map(catalogue::compressor).transpose().map_err(|e| doc.parameter(&e))?;
    if like.is_none() && !doc.has("supply.compressor") {
        return Err(doc.missing("supply.compressor"));
    }
    let figure = |path: &str, like: Option<f64>| doc.number(path).or(like).ok_or_else(|| doc.missing(path));
    let given = doc.number("supply.compressor.delivered_air").map(free);
    let compressor = Compressor {
        delivered_air: match (given, like) {
            (Some(air), _) => air,
            (None, like) => figure("supply.compressor.delivered_air", like.map(|c| c.delivered_air))?,
        },
        tank: figure("supply.compressor.tank", like.map(|c| c.tank))?,
        cut_in: doc.number("supply.compressor.cut_in").or(like.map(|c| c.cut_in)).unwrap_or(6e5),
        cut_out: doc.number("supply.compressor.cut_out").or(like.map(|c| c.cut_out)).unwrap_or(8e5),
    };
    if compressor.cut_in >= compressor.cut_out {
        let given = doc.has("supply.compressor.cut_in");
        let path = if given { "supply.compressor.cut_in" } else { "supply.compressor.cut_out" };
        let allowed = if given {
            format!("below the cut-out of {:.2} bar", compressor.cut_out * 1e-5)
        } else {
            format!("above the cut-in of {:.2} bar", compressor.cut_in * 1e-5)
        };
        return Err(doc.refuse(path, "cut-in is not below cut-out", &allowed));
    }
    Ok(compressor)
}
