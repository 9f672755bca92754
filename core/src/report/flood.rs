//! The flood test: cap turned a quarter so that the fan lies flat, trigger held for some seconds on an upright card, and the runs
//! read. An even curtain, a long middle or two tails: how the paint lies along the fan, without measuring a film.
//!
//! The film runs down as on a part (`film::WetFilm`): thin film on an upright wall, flux rho g h^3/(3 mu) a width (Nusselt's film; exact
//! for a long even film), whole quanta, so that no paint is lost. Paint lands evenly over the trigger time. Viscosity as sprayed, at
//! low shear; what dries meanwhile (minutes) is left out, as are the single tears that an even curtain falls into.

use super::pattern::ends;
use crate::film::{FilmMap, WetFilm, WetLaws};
use crate::run::{CardMap, CardTally, MAP_CELL, MAP_CELLS};
use crate::spray::Spray;

/// Cells below the map that runs may reach.
const BELOW: usize = 200;
/// Time the runs are watched after the trigger [s]. Ours.
pub const WATCHED: f64 = 4.0;
/// Thickness from which paint that has run is seen [m]. Ours.
const SEEN: f64 = 20e-6;
/// Longest time between two landings [s].
const STEP: f64 = 0.05;
/// Trigger time that is taken [s].
pub const SECONDS: [f64; 2] = [0.5, 10.0];
/// Shorter runs than this are none [m].
const NO_RUN: f64 = 0.02;
/// Middle over the shorter tail below which there are two tails [-]. Ours.
const TAILS: f64 = 0.95;
/// Width of the curtain at half its longest run over that at a tenth, below which the middle is long [-]. Ours, see
/// `docs/methods/pattern.md`.
const PEAKED: f64 = 0.672;

/// What the runs say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CurtainKind {
    /// Runs of like length: balanced.
    Even,
    /// Longest in the middle: heavy centre.
    LongMiddle,
    /// Two long tails: split.
    TwoTails,
    /// Nothing ran: too little paint or too thick.
    NoRuns,
}

/// The runs of a flood test, column by column from left to right of the fan (its upper end right).
#[derive(Debug, Clone, PartialEq)]
pub struct Curtain {
    /// Width of a column [m].
    pub column: f64,
    /// Run of each column below its wet edge [m].
    pub lengths: Vec<f64>,
    /// Lowest wet place of each column below the fan's middle at the end [m]; none where the card is dry.
    pub lowest: Vec<Option<f64>>,
    /// Wet film, column by column, from `top` down in steps of `column` [m].
    pub film: Vec<Vec<f64>>,
    /// Place of the first cell of a column over the fan's middle [m].
    pub top: f64,
    /// What they say.
    pub reading: CurtainKind,
}

fn lowest(film: impl DoubleEndedIterator<Item = f64> + ExactSizeIterator) -> Option<usize> {
    film.enumerate().rev().find(|(_, h)| *h >= SEEN).map(|(i, _)| i)
}

/// The flood test of a flown card: its spray held for `seconds` [s] (0.5..=10, else held inside) on an upright card, fan flat.
#[must_use]
pub fn flood_test(card: &CardTally, spray: &Spray, seconds: f64) -> Curtain {
    let seconds = seconds.clamp(SECONDS[0], SECONDS[1]);
    let scale = spray.volume_flow * seconds / card.fates.total().max(1) as f64 / (MAP_CELL * MAP_CELL);
    let map = FilmMap::bare(MAP_CELLS, MAP_CELLS + BELOW, MAP_CELL, MAP_CELL);
    let mut landing = vec![0.0; map.len()];
    for column in 0..MAP_CELLS {
        // The fan's upper end lies right, the right of the fan down: a row of the map is a column of the card.
        for i in 0..MAP_CELLS {
            landing[(MAP_CELLS + BELOW - 1 - i) * MAP_CELLS + column] = card.map.wet(i, column) * scale;
        }
    }
    let mut film = WetFilm::new(map.faces(), WetLaws::unchanging(spray.density, spray.viscosity, STEP));
    let landings = (seconds / STEP).ceil();
    for number in 0..landings as u32 {
        film.wait(seconds * (f64::from(number) + 0.5) / landings);
        film.land(&landing, &landing, 1.0 / landings);
    }
    film.wait(seconds + WATCHED);
    let falling = |values: &dyn Fn(usize) -> f64, column: usize| -> Vec<f64> {
        (0..MAP_CELLS + BELOW).map(|i| values((MAP_CELLS + BELOW - 1 - i) * MAP_CELLS + column)).collect()
    };
    let mut curtain = Curtain {
        column: MAP_CELL,
        lengths: Vec::with_capacity(MAP_CELLS),
        lowest: Vec::with_capacity(MAP_CELLS),
        film: Vec::with_capacity(MAP_CELLS),
        top: -CardMap::middle(0),
        reading: CurtainKind::NoRuns,
    };
    for column in 0..MAP_CELLS {
        let edge = lowest(falling(&|cell| landing[cell], column).into_iter());
        let fallen = falling(&|cell| film.cells()[cell].film(), column);
        let reached = lowest(fallen.iter().copied());
        let cells = |i: usize| i as f64 * MAP_CELL;
        curtain.lengths.push(match (edge, reached) {
            (Some(edge), Some(reached)) => cells(reached.saturating_sub(edge)),
            _ => 0.0,
        });
        curtain.lowest.push(reached.map(|i| cells(i) - curtain.top));
        curtain.film.push(fallen);
    }
    curtain.reading = read(&curtain.lengths);
    curtain
}

/// Runs smoothed over five columns: what one tear more or less does.
fn smooth(lengths: &[f64]) -> Vec<f64> {
    (0..lengths.len())
        .map(|i| {
            let part = &lengths[i.saturating_sub(2)..(i + 3).min(lengths.len())];
            part.iter().sum::<f64>() / part.len() as f64
        })
        .collect()
}

/// Middle over the shorter of the two tails [-], and width at half the longest run over that at a tenth [-]; none where nothing ran.
#[must_use]
pub fn curtain_shape(lengths: &[f64]) -> Option<(f64, f64)> {
    let runs = smooth(lengths);
    let longest = runs.iter().copied().fold(0.0, f64::max);
    if longest < NO_RUN {
        return None;
    }
    let (low, high) = ends(&runs, 0.1)?;
    let (half_low, half_high) = ends(&runs, 0.5)?;
    let (first, last) = (low.max(0.0) as usize, (high.max(0.0) as usize).min(runs.len() - 1));
    let middle = usize::midpoint(first, last);
    let best = |part: &[f64]| part.iter().copied().fold(0.0, f64::max);
    let tail = best(&runs[first..=middle]).min(best(&runs[middle..=last]));
    Some((runs[middle] / tail.max(1e-9), (half_high - half_low) / (high - low).max(1.0)))
}

fn read(lengths: &[f64]) -> CurtainKind {
    match curtain_shape(lengths) {
        None => CurtainKind::NoRuns,
        Some((middle, _)) if middle < TAILS => CurtainKind::TwoTails,
        Some((_, width)) if width < PEAKED => CurtainKind::LongMiddle,
        Some(_) => CurtainKind::Even,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shapes_are_told_apart() {
        let runs = |f: &dyn Fn(f64) -> f64| -> Vec<f64> {
            (0..60).map(|i| 0.1 * f((f64::from(i) - 29.5) / 25.0).max(0.0)).collect()
        };
        assert_eq!(read(&runs(&|s| if s.abs() < 1.0 { 1.0 } else { 0.0 })), CurtainKind::Even);
        assert_eq!(read(&runs(&|s| 1.0 - s.abs())), CurtainKind::LongMiddle);
        assert_eq!(read(&runs(&|s| 1.0 - 3.0 * (s.abs() - 0.6).abs())), CurtainKind::TwoTails);
        assert_eq!(read(&runs(&|_| 0.0)), CurtainKind::NoRuns);
    }
}
