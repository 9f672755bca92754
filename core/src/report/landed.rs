//! What follows from a film as it lies, and from the strokes that laid it: how much of the paint is on the part.

use crate::film::FilmMap;
use crate::spray::Spray;
use crate::stroke::Strokes;

/// Shares and amounts of a film as it lies.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Landed {
    /// Paint sprayed [m3].
    pub sprayed: f64,
    /// Trigger on [s].
    pub seconds: f64,
    /// Mean dry film and its standard error [m].
    pub dry: (f64, f64),
    /// Share of the solids sprayed that is on the part [-].
    pub share: f64,
    /// Its standard error [-].
    pub error: f64,
}

impl Landed {
    /// Of a film that these strokes laid.
    pub fn new(film: &FilmMap, strokes: &Strokes, spray: &Spray) -> Self {
        Self::of_mean(film.mean_dry(), film.area(), strokes, spray)
    }

    /// The same where the mean dry film with its standard error [m] and the area [m2] are at hand.
    pub fn of_mean(dry: (f64, f64), area: f64, strokes: &Strokes, spray: &Spray) -> Self {
        let sprayed = spray.volume_flow * strokes.open_seconds();
        let solids_sprayed = (sprayed * spray.volume_solids).max(1e-18);
        Self {
            sprayed,
            seconds: strokes.seconds(),
            dry,
            share: (dry.0 * area / solids_sprayed).min(1.0),
            error: dry.1 * area / solids_sprayed,
        }
    }
}

/// Said where a cell is not counted well enough.
pub(crate) fn left_out(droplets: f64) -> String {
    format!(
        "thinnest, thickest, in-band and finish figures are left out: a cell's counting error is too large; they need \
         about {} droplets",
        round_up(droplets)
    )
}

/// Two leading digits, upwards: "1200000", not "1134217".
fn round_up(value: f64) -> u64 {
    let mut unit = 1.0;
    while value / unit >= 100.0 {
        unit *= 10.0;
    }
    ((value / unit).ceil() * unit) as u64
}
