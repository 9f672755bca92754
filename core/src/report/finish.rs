//! How the film set: runs, dry spray, bare places, texture.

use super::figures::Spread;
use crate::film::{CRITICAL_SPEED, Face, FilmMap, Mark, RUN, SetFilm, Slide, WetLaws};
use serde::Serialize;

/// The film after it set. Areas are shares of the area meant to be painted; a place has one mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FinishFigures {
    /// Area that ran [%].
    pub run_area_percent: f64,
    /// Area of dry spray [%].
    pub dry_area_percent: f64,
    /// Area without film to speak of [%].
    pub bare_area_percent: f64,
    /// Orange peel: waviness of the dry film from 0.5 to 11 mm, root mean square, mean over the area [um]. Engineering criterion, ours.
    pub orange_peel_um: f64,
    /// Dry spray: share of a droplet mark of 1 mm that is left, mean over the painted area, 0..1. Engineering criterion, ours.
    pub dry_spray_index: f64,
    /// Farthest that the film slid [mm].
    pub longest_slide_mm: f64,
    /// Longest run [mm]: the farthest slide where it is seen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub longest_run: Option<RunPlace>,
    /// Wet film that would sag at once by the critical speed of 500 um/s on the steepest place [um]; a comparison. None where nothing
    /// pulls.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sag_limit_um: Option<f64>,
    /// Dry film after it ran [um]; the film as landed stands in `film.dry_um`.
    pub set_um: Spread,
    /// What is wrong, why, how much of it, and where it is worst.
    pub marks: Vec<MarkFigures>,
}

/// Where the longest run is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunPlace {
    /// Its length [mm].
    pub mm: f64,
    /// Where it starts.
    #[serde(flatten)]
    pub at: PlaceFigures,
    /// Distance of its tears [mm].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tears_mm: Option<f64>,
}

/// A place of the part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlaceFigures {
    /// Member of a part of several.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub member: String,
    /// Along the strokes, from its middle [mm].
    pub x_mm: f64,
    /// Across them, or round a tube over its surface, from its middle line [mm].
    pub y_mm: f64,
}

/// One thing that is wrong with the film.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkFigures {
    /// "run", "dry" or "bare".
    pub mark: &'static str,
    /// Why.
    pub reason: &'static str,
    /// Area [%].
    pub area_percent: f64,
    /// The worst place of it.
    pub at: PlaceFigures,
}

fn place(face: &Face, index: usize) -> PlaceFigures {
    let at = index - face.first;
    PlaceFigures {
        member: face.name.clone(),
        x_mm: face.x(at % face.nx) * 1e3,
        y_mm: face.y(at / face.nx) * 1e3,
    }
}

impl FinishFigures {
    /// Of a set film; `laws` and `steepest` [N/m3] for the comparison.
    #[must_use]
    pub fn new(set: &SetFilm, laws: &WetLaws, steepest: f64) -> Self {
        let percent = |word| set.share(word) * 100.0;
        let painted = 1.0 - set.share("bare");
        let wet = |value: fn(&crate::film::SetCell) -> f64| {
            let sum = set.mean_over_area(|c| if c.mark == Mark::Bare { 0.0 } else { value(c) });
            if painted > 0.0 { sum / painted } else { 0.0 }
        };
        let meant = || set.faces.iter().flat_map(|face| set.meant(face)).map(|cell| set.cells[cell].dry);
        let longest = worst(set, |c| c.slid);
        let longest_slide = longest.as_ref().map_or(0.0, |(slid, _)| *slid);
        let slide = Slide {
            pull: steepest,
            consistency: laws.viscosity,
            index: 1.0,
            yield_stress: laws.yield_stress,
        };
        Self {
            run_area_percent: percent("run"),
            dry_area_percent: percent("dry"),
            bare_area_percent: percent("bare"),
            orange_peel_um: wet(|c| c.waviness) * 1e6,
            dry_spray_index: wet(|c| c.dryness),
            longest_slide_mm: longest_slide * 1e3,
            longest_run: longest.filter(|(slid, _)| *slid > RUN).map(|(slid, at)| RunPlace {
                mm: slid * 1e3,
                at,
                tears_mm: set.tear_spacing.map(|spacing| spacing * 1e3),
            }),
            sag_limit_um: (steepest > 0.0).then(|| slide.limit(CRITICAL_SPEED) * 1e6),
            set_um: Spread {
                mean: set.mean_over_area(|c| c.dry) * 1e6,
                model_low: None,
                model_high: None,
                min: Some(meant().fold(f64::INFINITY, f64::min) * 1e6).filter(|min| min.is_finite()),
                max: Some(meant().fold(0.0, f64::max) * 1e6),
            },
            marks: Mark::ALL.iter().filter_map(|&mark| figures(set, mark)).collect(),
        }
    }
}

impl FinishFigures {
    /// Standard errors of the shares of the area, by path in the report [%]; `film` as it landed.
    #[must_use]
    pub fn area_errors(set: &SetFilm, film: &FilmMap) -> [(&'static str, f64); 3] {
        let [run, dry, bare] = set.share_errors(film).map(|share| share * 100.0);
        [
            ("finish.run_area_percent", run),
            ("finish.dry_area_percent", dry),
            ("finish.bare_area_percent", bare),
        ]
    }
}

/// The cell that has most of something: how much, and where.
fn worst(set: &SetFilm, of: impl Fn(&crate::film::SetCell) -> f64) -> Option<(f64, PlaceFigures)> {
    let mut found: Option<(f64, &Face, usize)> = None;
    for face in &set.faces {
        for index in set.meant(face) {
            let value = of(&set.cells[index]);
            if found.is_none_or(|(most, ..)| value > most) {
                found = Some((value, face, index));
            }
        }
    }
    found.map(|(value, face, index)| (value, place(face, index)))
}

fn figures(set: &SetFilm, mark: Mark) -> Option<MarkFigures> {
    let word = mark.word()?;
    let area = set.mean_over_area(|c| f64::from(u8::from(c.mark == mark)));
    if area <= 0.0 {
        return None;
    }
    let (_, at) = worst(set, |c| match mark {
        _ if c.mark != mark => f64::NEG_INFINITY,
        Mark::Bare | Mark::Scattered => -c.dry,
        Mark::Slid => c.slid,
        Mark::Unlevelled => c.dryness,
        _ => c.dry,
    })?;
    Some(MarkFigures { mark: word, reason: mark.reason(), area_percent: area * 100.0, at })
}
