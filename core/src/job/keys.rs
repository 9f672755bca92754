//! What a key of the job file is: its kind, range, default and meaning. The list itself is in `key_list.rs`.

use crate::units::{self, Quantity};

/// What a key's value is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// Text with a number and a unit.
    Quantity(Quantity),
    /// Two quantities, lower and upper, in brackets.
    Band(Quantity),
    /// A bare number, or text with "%".
    Share,
    /// Up to ten shares, in brackets.
    Shares,
    /// A bare number.
    Number,
    /// A whole number.
    Count,
    /// true or false.
    Flag,
    /// Free text of one line, at most 120 characters.
    Text,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// Any of these words, in brackets.
    Words(&'static [&'static str]),
    /// Id of a kit of the catalogue.
    KitId,
    /// Id of a paint of the catalogue.
    PaintId,
    /// Id of a flow cup.
    CupId,
    /// Parts by volume, "2:1" or "4:1:1".
    Mix,
    /// Id of a compressor of the catalogue; a table of its own keys may stand in its place.
    CompressorId,
    /// Others on the tank: `[{ name = "air-fed mask", air = "170 L/min" }, ...]`.
    AirUsers,
    /// Volatiles: `[{ name = "n-butyl acetate", share = "60 %" }, ...]`, shares of the volatile part.
    Solvents,
    /// Kits to compare with: `[{ kit = "lvlp-gravity-1.2", price = 240 }, ...]`.
    Kits,
    /// A frame of our own by its word, or `{ tubes = [{ from = [...], to = [...], diameter = "22 mm", name = "leg" }, ...] }`.
    Frame,
    /// Names, in brackets: free text of one line each.
    Names,
    /// Moments of a track: `[[0.0, -300, 0, 180, 0, 0, 1], ...]`.
    Moments,
}

impl Kind {
    /// Name of the kind, short ("length", "share").
    #[must_use]
    pub fn name(self) -> String {
        let bare = |q: Quantity| q.name().split_once(' ').map_or("", |(_, name)| name);
        match self {
            Kind::Quantity(q) => bare(q).into(),
            Kind::Band(q) => format!("two of {}", bare(q)),
            Kind::Share => "share".into(),
            Kind::Number => "number".into(),
            Kind::Count => "whole number".into(),
            Kind::Flag => "true or false".into(),
            Kind::Text => "text".into(),
            Kind::Choice(_) => "word".into(),
            Kind::Words(_) => "words".into(),
            Kind::Names => "names".into(),
            Kind::Frame => "word or table".into(),
            Kind::KitId => "kit".into(),
            Kind::PaintId => "paint".into(),
            Kind::CupId => "cup".into(),
            Kind::Mix => "parts".into(),
            Kind::CompressorId => "compressor".into(),
            Kind::Solvents | Kind::AirUsers | Kind::Kits | Kind::Shares | Kind::Moments => "list".into(),
        }
    }
}

/// One key of the job file: the one source for reading, error hints, docs and the page's controls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Key {
    /// Dotted key.
    pub path: &'static str,
    /// What its value is.
    pub kind: Kind,
    /// Lowest and highest value as one would write them; empty where the kind has no range.
    pub range: (&'static str, &'static str),
    /// What holds when the key is left out, in words; "required" when it may not be.
    pub default: &'static str,
    /// Meaning, one line.
    pub meaning: &'static str,
}

impl Key {
    /// The key of this dotted path.
    #[must_use]
    pub fn find(path: &str) -> Option<&'static Key> {
        super::KEYS.iter().find(|k| k.path == path)
    }

    /// Lowest and highest value in SI (bare number, share and count as they are); `None` where there is no range.
    #[must_use]
    pub fn limits(&self) -> Option<(f64, f64)> {
        let read = |text| match self.kind {
            Kind::Quantity(q) | Kind::Band(q) => units::parse(q, text).ok(),
            Kind::Share | Kind::Shares => units::parse_share(text).ok(),
            Kind::Number | Kind::Count => units::parse_number(text).ok(),
            _ => None,
        };
        Some((read(self.range.0)?, read(self.range.1)?))
    }

    /// Whether a value, written without quotes, is of the key's kind, in or out of its range; what is wrong with it where it is not.
    ///
    /// # Errors
    /// What is wrong, in words.
    pub fn check_kind(&self, value: &str) -> Result<(), String> {
        let number = match self.kind {
            Kind::Quantity(q) => units::parse(q, value),
            Kind::Share => units::parse_share(value),
            Kind::Number | Kind::Count => units::parse_number(value),
            _ => return super::edit::read_value(self, value).map(|_| ()),
        };
        match number {
            Ok(x) if self.kind == Kind::Count && x != x.trunc() => Err("it is not a whole number".into()),
            Ok(_) => Ok(()),
            Err(error) => Err(error.to_string()),
        }
    }

    /// The range in words: "0.2 to 8 bar"; the words of a choice; empty where there is neither.
    #[must_use]
    pub fn range_text(&self) -> String {
        let (low, high) = self.range;
        if let Kind::Choice(words) | Kind::Words(words) = self.kind {
            return words.iter().map(|w| format!("\"{w}\"")).collect::<Vec<_>>().join(" or ");
        }
        if low == high {
            return low.into();
        }
        let unit = |text: &'static str| text.split_once(' ').map_or("", |(_, unit)| unit);
        if !unit(low).is_empty() && unit(low) == unit(high) {
            let number = low.split_once(' ').map_or(low, |(number, _)| number);
            format!("{number} to {high}")
        } else {
            format!("{low} to {high}")
        }
    }

    /// What is allowed, in words with units.
    #[must_use]
    pub fn allowed(&self) -> String {
        match self.kind {
            Kind::Quantity(q) => {
                format!("{}, as text with a unit ({})", self.range_text(), q.unit_names().join(", "))
            }
            Kind::Band(q) => format!(
                "two values, lower first, each {}, such as [\"20 um\", \"35 um\"] (units {})",
                self.range_text(),
                q.unit_names().join(", ")
            ),
            Kind::Share => format!("{}, as a bare number or as text with %", self.range_text()),
            Kind::Shares => {
                format!("a list of up to {} shares, each {}", super::value::MOST_SHARES, self.range_text())
            }
            Kind::Number => format!("{}, a bare number", self.range_text()),
            Kind::Count => format!("{}, a whole number", self.range_text()),
            Kind::Flag => "true or false".into(),
            Kind::Text => "text of one line, at most 120 characters".into(),
            Kind::Choice(_) => self.range_text(),
            Kind::Words(_) => format!("a list, each word once, of {}", self.range_text()),
            Kind::KitId => format!("a kit of the catalogue: {}", super::catalogue_ids::kits().join(", ")),
            Kind::PaintId => {
                format!("a paint of the catalogue: {}", super::catalogue_ids::paints().join(", "))
            }
            Kind::CupId => format!("a flow cup: {}", super::catalogue_ids::cups().join(", ")),
            Kind::CompressorId => format!(
                "a compressor of the catalogue: {}",
                super::catalogue_ids::compressors().join(", ")
            ),
            Kind::AirUsers => {
                "up to eight of { name = \"air-fed mask\", air = \"170 L/min\" }, air 0.1 to 20000 L/min".into()
            }
            Kind::Mix => {
                "parts by volume of base and hardener, and of thinner if there are three, each 0.01 to 100, such as \"2:1\" or \"4:1:1\"".into()
            }
            Kind::Names => "a list of names, each once".into(),
            Kind::Frame => super::frame_list::allowed(),
            Kind::Kits => format!(
                "up to {} of {{ kit = \"...\", price = 240 }} or {{ box = {{ air = \"280 L/min\", at = \"2.0 bar\", tip = \"1.3 mm\" }}, price = \
                 240 }}, price and name may be left out, a box may give fan with fan_at, class, feed; kits: {}",
                crate::compare::MOST_KITS,
                super::catalogue_ids::kits().join(", ")
            ),
            Kind::Moments => format!(
                "2 to {} rows of seven numbers, time rising: s, x, y, distance in mm, heel, swing in deg, trigger 0 to 1; an eighth: gun \
                 turned about its axis, or side of a tube, in deg",
                crate::stroke::MOST_MOMENTS
            ),
            Kind::Solvents => format!(
                "one to three of {{ name = \"...\", share = \"60 %\" }}, shares of the volatile part that sum to 100 %; names: {}",
                super::catalogue_ids::solvents().join(", ")
            ),
        }
    }
}
