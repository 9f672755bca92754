//! Generic kits and paints: data, no makers' names. Every figure says where it comes from.

mod compressors;
mod kit_data;
mod kits;
mod paint_data;
mod paints;

pub use compressors::CompressorData;
pub use kit_data::KitData;
pub use paint_data::{ComponentData, PaintData, SettingData, SheetData};

use crate::error::ParameterError;
use crate::gun::{Feed, Kit};
use crate::paint::{Paint, Recipe};
use crate::supply::Compressor;

/// What is said beside every paint of the catalogue.
pub const PAINT_NOTE: &str = "typical, replace by the product's data sheet";

/// A figure and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Value, SI.
    pub value: f64,
    /// Source, or "ours" with the reason.
    pub origin: &'static str,
}

/// All kits of the catalogue.
#[must_use]
pub fn kits() -> &'static [KitData] {
    &kits::ALL
}

/// All paints of the catalogue.
#[must_use]
pub fn paints() -> &'static [PaintData] {
    paints::ALL
}

/// All compressors of the catalogue, by delivered air.
#[must_use]
pub fn compressors() -> &'static [CompressorData] {
    compressors::ALL
}

/// The compressor of an id such as "workshop-2kW".
///
/// # Errors
/// Unknown id: the error names the nearest known one and lists all.
pub fn compressor(id: &str) -> Result<Compressor, ParameterError> {
    let found = compressors::ALL.iter().find(|c| c.id == id);
    let known = compressors::ALL.iter().map(|c| c.id);
    found.map(CompressorData::compressor).ok_or_else(|| unknown("supply.compressor", id, known))
}

/// The kit of an id such as "hvlp-gravity-1.3".
///
/// # Errors
/// Unknown id: the error names the nearest known one and lists all.
pub fn kit(id: &str) -> Result<Kit, ParameterError> {
    let found = kits::ALL.iter().find(|k| k.id == id);
    found.map(KitData::kit).ok_or_else(|| unknown("gun.kit", id, kits::ALL.iter().map(|k| k.id)))
}

/// Gives a kit another feed, with the cup or pot that the catalogue's kits of that feed have: those of its class where there are
/// any. Does nothing where the kit has that feed already.
pub fn refeed(kit: &mut Kit, feed: Feed) {
    if kit.feed == feed {
        return;
    }
    let of_feed = || kits().iter().filter(|k| k.feed == feed);
    if let Some(like) = of_feed().find(|k| k.class == kit.class).or_else(|| of_feed().next()) {
        let like = like.kit();
        kit.feed = feed;
        kit.cup_head = like.cup_head;
        kit.cup_depth = like.cup_depth;
        kit.cup_volume = like.cup_volume;
        kit.residue = like.residue;
        kit.paint_tube_bore = like.paint_tube_bore;
        kit.paint_tube_length = like.paint_tube_length;
        kit.rated_pot_pressure = like.rated_pot_pressure;
    }
}

/// The tins of a class of paint, to be mixed and thinned.
///
/// # Errors
/// Unknown id: the error names the nearest known one and lists all.
pub fn recipe(id: &str) -> Result<Recipe, ParameterError> {
    let found = paints::ALL.iter().find(|p| p.id == id);
    found.map(PaintData::recipe).ok_or_else(|| unknown("paint.kind", id, paints::ALL.iter().map(|p| p.id)))
}

/// The paint of an id such as "two-pack-clear", mixed and thinned as usual, at 20 C.
///
/// # Errors
/// As `recipe`.
pub fn paint(id: &str) -> Result<Paint, ParameterError> {
    let recipe = recipe(id)?;
    recipe.mixed(&recipe.usual)
}

fn unknown(key: &str, id: &str, known: impl Iterator<Item = &'static str> + Clone) -> ParameterError {
    let nearest = known.clone().max_by(|a, b| {
        let near = |k| strsim::jaro_winkler(id, k);
        near(a).total_cmp(&near(b))
    });
    let hint =
        nearest.filter(|k| strsim::jaro_winkler(id, k) > 0.7).map(|k| format!(" (did you mean \"{k}\"?)"));
    let list: Vec<_> = known.collect();
    ParameterError::new(key, format!("\"{id}\""), format!("{}{}", list.join(", "), hint.unwrap_or_default()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_entry_is_sound_and_says_where_its_figures_come_from() {
        for data in kits() {
            let kit = kit(data.id).unwrap();
            kit.check().unwrap();
            for (key, figure) in data.figures() {
                assert!(figure.origin.len() > 3, "{} {key}", data.id);
            }
            assert!(data.rated_paint.1.len() > 3, "{}", data.id);
            paint(&kit.rated_paint).unwrap();
            assert_eq!(
                data.id.split('-').collect::<Vec<_>>(),
                [kit.class.id(), kit.feed.id(), &format!("{:.1}", kit.tip_bore * 1e3)]
            );
        }
        for data in paints() {
            let paint = paint(data.id).unwrap();
            paint.check().unwrap();
            for (key, figure) in data.figures() {
                assert!(figure.origin.len() > 3, "{} {key}", data.id);
            }
        }
    }

    #[test]
    fn ids_are_unique() {
        let mut ids: Vec<_> = kits().iter().map(|k| k.id).chain(paints().iter().map(|p| p.id)).collect();
        let all = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), all);
    }

    #[test]
    fn an_unknown_id_gets_the_nearest_known_one() {
        let e = kit("hvlp-gravty-1.3").unwrap_err().to_string();
        assert!(e.contains("gun.kit") && e.contains("did you mean \"hvlp-gravity-1.3\"?"), "{e}");
        let e = paint("two-pack-claer").unwrap_err().to_string();
        assert!(e.contains("paint.kind") && e.contains("did you mean \"two-pack-clear\"?"), "{e}");
        assert!(!kit("qqq").unwrap_err().to_string().contains("did you mean"));
    }
}
