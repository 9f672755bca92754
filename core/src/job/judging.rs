//! `[spec]`: the film wanted, and how it is judged.

use super::document::Document;
use super::error::JobError;
use super::{PartShape, SpecBand};

/// How a dry film is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Share of the area inside the film wanted; ours, no standard.
    Band,
    /// SSPC-PA 2: spots and areas.
    Pa2,
    /// SSPC-PA 2's appendix for a test panel.
    Pa2Panel,
    /// ISO 19840: single readings.
    Iso19840,
}

impl Method {
    /// Its words in the job file.
    pub const WORDS: [&'static str; 4] = ["band", "pa-2", "pa-2-panel", "iso-19840"];
    const ALL: [Self; 4] = [Self::Band, Self::Pa2, Self::Pa2Panel, Self::Iso19840];

    /// Its word in the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }

    /// The method of a word; none for any other.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|method| method.word() == word)
    }
}

/// How a film is judged, by the keys of `[spec]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judging {
    /// The method.
    pub method: Method,
    /// Band: share of the area that must be right, 0.5..=1.
    pub right_on: f64,
    /// Search: thinnest spot over the mean film at least, 0.1..=0.95.
    pub thinnest: f64,
    /// SSPC-PA 2: restriction level, 1 strictest to 5.
    pub level: u8,
    /// ISO 19840: 90/10 in place of its own 80/20.
    pub ninety_ten: bool,
    /// ISO 19840: the nominal film [m], for each coat or in all as the film wanted; none: the lower end of the film wanted.
    pub nominal: Option<f64>,
    /// ISO 19840: taken off every reading for the profile under the film [m].
    pub profile_correction: f64,
}

/// Thinnest spot over the mean film that a search allows, where the file is silent [-]. Ours: what a steady hand leaves at half overlap.
pub const THINNEST: f64 = 0.6;
/// Smallest and largest panel of the test-panel appendix [m2] (from memory).
const TEST_PANEL: [f64; 2] = [0.0116, 0.0930];

/// Keys that say how, each with the methods that use it.
const HOW: [(&str, &[Method]); 6] = [
    ("spec.judge", &[Method::Band, Method::Pa2, Method::Pa2Panel, Method::Iso19840]),
    ("spec.right_on", &[Method::Band]),
    ("spec.level", &[Method::Pa2]),
    ("spec.rule", &[Method::Iso19840]),
    ("spec.nominal", &[Method::Iso19840]),
    ("spec.profile_correction", &[Method::Iso19840]),
];

/// The film wanted.
pub(super) fn spec(doc: &Document<'_>) -> Result<Option<SpecBand>, JobError> {
    if let Some([low, high]) = doc.band("spec.dry_film") {
        return Ok(Some(SpecBand { low, high, per_coat: doc.word("spec.per") != Some("total") }));
    }
    if doc.has("spec.per") || doc.has("spec.thinnest") || HOW.iter().any(|(key, _)| doc.has(key)) {
        return Err(doc.missing("spec.dry_film"));
    }
    Ok(None)
}

/// How it is judged.
pub(super) fn judging(
    doc: &Document<'_>,
    part: &PartShape,
    notes: &mut Vec<String>,
) -> Result<Judging, JobError> {
    let method = doc.word("spec.judge").and_then(Method::of).unwrap_or(Method::Band);
    if method == Method::Pa2Panel {
        let allowed = "only with part.panel of 116 to 930 cm2";
        match part {
            PartShape::Panel { width, height } => {
                let area = width * height;
                if !(TEST_PANEL[0]..=TEST_PANEL[1]).contains(&area) {
                    let problem = format!("the panel has {:.0} cm2, no test panel's size", area * 1e4);
                    return Err(doc.refuse("spec.judge", &problem, allowed));
                }
            }
            _ => return Err(doc.refuse("spec.judge", "the part is no test panel", allowed)),
        }
    }
    for (key, methods) in HOW {
        if doc.has(key) && !methods.contains(&method) {
            notes.push(format!("{key} is not used: the film is judged by \"{}\"", method.word()));
        }
    }
    let nominal = doc.number("spec.nominal");
    if let (Some(nominal), Some([low, high])) = (nominal, doc.band("spec.dry_film"))
        && !(low..=high).contains(&nominal)
    {
        let allowed = "inside spec.dry_film, its ends included";
        return Err(doc.refuse("spec.nominal", "not inside the film wanted", allowed));
    }
    Ok(Judging {
        method,
        nominal,
        right_on: doc.number("spec.right_on").unwrap_or(0.9),
        thinnest: doc.number("spec.thinnest").unwrap_or(THINNEST),
        level: doc.number("spec.level").map_or(3, |level| level as u8),
        ninety_ten: doc.word("spec.rule") == Some("90-10"),
        profile_correction: doc.number("spec.profile_correction").unwrap_or(0.0),
    })
}
