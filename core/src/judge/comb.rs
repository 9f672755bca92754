//! The wet-film comb of ASTM D4414 and ISO 2808.
//!
//! The true wet film lies between the last tooth that came out wet and the next one that stayed dry: a bracket, no reading between.
//! Teeth of the metric comb: each 13 um to 150, 25 um to 250, 50 um to 750, 125 um above, to 2000 um (D4414-95(2020) 7.1.2 and
//! procedure A: seen). The inch comb has 0.5, 1, 2 and 5 mil for the same steps, to 80 mil, of which the metric figures are the
//! rounding. Read at once after the last coat: it meets all that is still wet, of coats before too, by then drier than it landed; not
//! a coat that has set so far that the next one lay on it (`film::WetFilm`). Read along a tube, not across it; "neither accurate nor sensitive", and no proof of
//! volume solids (seen). A tooth as high as the film counts as wetted.

use super::Film;
use super::gauge::{cell_at, cells};
use super::place::{At, PlaceOnPart};
use crate::units::System;
use serde::{Deserialize, Serialize};

/// Half of what a comb's foot covers [m]: common practice, no source.
const FOOT: f64 = 10e-3;
/// Rounding that does not leave a tooth dry [m].
const HAIR: f64 = 1e-12;
/// One mil [m].
const MIL: f64 = 25.4e-6;

/// A comb.
#[derive(Debug, Clone, PartialEq)]
pub struct Comb {
    /// Gaps under its teeth, rising [m].
    pub teeth: Vec<f64>,
}

impl Comb {
    /// The comb in use where these units are.
    #[must_use]
    pub fn of(system: System) -> Self {
        // (up to, step), in the comb's own unit.
        let (unit, steps) = match system {
            System::Metric => (1e-6, [(150.0, 13.0), (250.0, 25.0), (750.0, 50.0), (2000.0, 125.0)]),
            System::Us => (MIL, [(6.0, 0.5), (10.0, 1.0), (30.0, 2.0), (80.0, 5.0)]),
        };
        let (mut teeth, mut at) = (Vec::new(), 0.0);
        for (up_to, step) in steps {
            let mut next = at + step;
            while next < up_to {
                teeth.push(next * unit);
                next += step;
            }
            teeth.push(up_to * unit);
            at = up_to;
        }
        Self { teeth }
    }

    /// The bracket of a wet film [m]: last wetted tooth (0 below the first) and next one; the next is none past the last tooth.
    #[must_use]
    pub fn bracket(&self, wet: f64) -> (f64, Option<f64>) {
        let wetted = self.teeth.partition_point(|&tooth| tooth <= wet + HAIR);
        let reading = if wetted == 0 { 0.0 } else { self.teeth[wetted - 1] };
        (reading, self.teeth.get(wetted).copied())
    }
}

/// What a comb reads, at once after the last coat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CombReading {
    /// Where it is set down.
    #[serde(flatten)]
    pub place: PlaceOnPart,
    /// Film that is wet there just after the last coat, as the model has it [um].
    pub wet_um: f64,
    /// Its standard error from counting [um].
    pub standard_error_um: f64,
    /// Last wetted tooth [um]; 0 when none is.
    pub reading_um: f64,
    /// Next tooth, dry [um]; none past the comb's last.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub next_um: Option<f64>,
    /// The counting error may move the reading by a tooth.
    pub unsure: bool,
    /// Solids of that film over it [-]: what the bracket leaves when dry.
    pub dry_share: f64,
    /// It must be set along the tube.
    pub along: bool,
}

/// A comb in the middle of the part's first face that can be reached there: a tube's front.
pub fn at_the_middle(film: Film<'_>) -> Option<CombReading> {
    let map = film.landed;
    if map.is_empty() || film.fresh_wet.len() != map.len() || film.fresh_dry.len() != map.len() {
        return None;
    }
    let middle = |face| At { face, x: 0.0, y: 0.0 };
    let at = (0..map.faces().len()).map(middle).find(|at| !map.is_hidden(cell_at(map, *at)))?;
    let under = cells(map, at, FOOT);
    let n = under.len() as f64;
    let mean = |of: &[f64]| under.iter().map(|&c| of[c]).sum::<f64>() / n;
    let (wet, solids, dry) = (mean(film.fresh_wet), mean(film.fresh_dry), mean(&map.dry));
    let groups = core::array::from_fn(|g| mean(map.group(g)));
    let ratio = if dry > 0.0 { wet / dry } else { 0.0 };
    let error = crate::tally::standard_error(&groups) * ratio;
    let comb = Comb::of(System::Metric);
    let (reading, next) = comb.bracket(wet);
    let doubt = super::sure::sure(1) * error;
    let unsure = comb.bracket((wet - doubt).max(0.0)).0 != reading || comb.bracket(wet + doubt).0 != reading;
    let face = &map.faces()[at.face];
    Some(CombReading {
        place: PlaceOnPart::of(map, at),
        wet_um: wet * 1e6,
        standard_error_um: error * 1e6,
        reading_um: reading * 1e6,
        next_um: next.map(|t| t * 1e6),
        unsure,
        dry_share: if wet > 0.0 { solids / wet } else { 0.0 },
        along: face.closed || face.place.radius > 0.0,
    })
}
