//! `[mix]`: how much paint is wanted; and whose each figure of the paint is.

use super::document::Document;
use super::{Job, build};

/// For how many parts the paint is mixed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixing {
    /// Parts like this one.
    pub parts: u32,
    /// Reserve, share of all the rest.
    pub reserve: f64,
    /// Spraying on test cards [s].
    pub test_card: f64,
    /// Trigger time over working time.
    pub duty: f64,
    /// The file has a key of [mix]: the report says how much to mix.
    pub asked: bool,
}

/// Whose a figure is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Typical for the class of paint: replace it by the product's data sheet.
    Typical,
    /// Given in the job file.
    Yours,
}

impl Origin {
    /// "typical" or "yours".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Typical => "typical",
            Self::Yours => "yours",
        }
    }
}

/// Keys that say the same thing in different ways.
const SAME: [&[&str]; 3] = [
    &["paint.viscosity", "paint.cup.seconds", "paint.cup", "paint.kinematic_viscosity"],
    &["paint.volume_solids", "paint.mass_solids"],
    &["paint.dry_film_per_coat", "paint.sheet.dry_film_total"],
];

impl Job {
    /// Whose the figure of a key of [paint] is: the file's own, given by this key or by another that says the same thing, or
    /// typical for the class.
    #[must_use]
    pub fn paint_origin(&self, path: &str) -> Origin {
        let given = |path: &str| self.given.contains(&path);
        let same = SAME.iter().find(|group| group.contains(&path));
        if given(path) || same.is_some_and(|group| group.iter().any(|p| given(p))) {
            Origin::Yours
        } else {
            Origin::Typical
        }
    }
}

/// The [mix] table.
pub(super) fn mixing(doc: &Document<'_>) -> Mixing {
    Mixing {
        parts: build::count(doc, "mix.parts", 1) as u32,
        reserve: doc.number("mix.reserve").unwrap_or(0.10),
        test_card: doc.number("mix.test_card").unwrap_or(5.0),
        duty: doc.number("mix.duty").unwrap_or(0.4),
        asked: doc.keys().iter().any(|key| key.starts_with("mix.")),
    }
}
