//! A try in figures.

use super::{Aim, HandPass, passes};
use crate::in_order::InOrder;
use crate::stroke::Track;

/// Shorter than this past the edge a lead-in or run-out is short [m]: the trigger went on, or off, on the panel.
const ON_THE_PANEL: f64 = 0.0;

/// What the hand did. Passes are counted from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// Passes, in order of time.
    pub passes: Vec<HandPass>,
    /// Mean pace with the trigger on, stops left out [s/m].
    pub pace: f64,
    /// The same of the slowest third of the way [s/m].
    pub slowest_third: f64,
    /// From each pass down to the next [m]; negative: the next one lies higher.
    pub spacing: Vec<f64>,
    /// Nearest and farthest distance with the trigger on, over the panel [m].
    pub distance: [f64; 2],
    /// Trigger on, gun still [s].
    pub still: f64,
    /// Passes whose trigger went on over the panel.
    pub lead_short: Vec<usize>,
    /// Passes whose trigger went off over the panel.
    pub run_out_short: Vec<usize>,
    /// Longest time that the edge of a pass waited for the next pass, at any place along it [s].
    pub longest_wait: Option<f64>,
    /// Paint [m3].
    pub paint: f64,
    /// Paint of the plan as a machine lays it [m3].
    pub best_paint: f64,
    /// From the first trigger pull to the last release [s].
    pub seconds: f64,
}

/// A track in figures; none where it has no pass over the panel.
#[must_use]
pub fn figures(track: &Track, aim: &Aim) -> Option<Figures> {
    let passes = passes(track, aim);
    let (first, last) = (passes.first()?, passes.last()?);
    let seconds = last.to - first.from;
    let way: f64 = passes.iter().map(|p| p.way).sum();
    let time: f64 = passes.iter().map(|p| p.pace * p.way).sum();
    let short = |end: usize| {
        let short = |p: &HandPass| p.leads(aim.size[0])[end] < ON_THE_PANEL;
        passes.iter().enumerate().filter(|(_, p)| short(p)).map(|(i, _)| i).collect::<Vec<_>>()
    };
    let near = passes.iter().map(|p| p.distance[0]).fold(f64::INFINITY, f64::min);
    let far = passes.iter().map(|p| p.distance[1]).fold(0.0, f64::max);
    Some(Figures {
        pace: time / way,
        slowest_third: slowest_third(&passes),
        spacing: passes.windows(2).map(|w| w[0].y - w[1].y).collect(),
        distance: [near, far],
        still: passes.iter().map(|p| p.still).sum(),
        lead_short: short(0),
        run_out_short: short(1),
        longest_wait: longest_wait(track, &passes, aim),
        paint: track.open_seconds() * aim.flow,
        best_paint: aim.paint(),
        seconds,
        passes,
    })
}

/// Pace of the slowest third of the way [s/m].
pub(super) fn slowest_third(passes: &[HandPass]) -> f64 {
    let mut bits: Vec<_> = passes.iter().flat_map(|p| p.bits.iter().copied()).collect();
    bits.in_order(|a, b| (b.time / b.way).total_cmp(&(a.time / a.way)));
    let third = bits.iter().map(|b| b.way).sum::<f64>() / 3.0;
    let (mut way, mut time) = (0.0, 0.0);
    for bit in bits {
        let take = bit.way.min(third - way);
        if take <= 0.0 {
            break;
        }
        way += take;
        time += bit.time * take / bit.way;
    }
    if way > 0.0 { time / way } else { 0.0 }
}

/// Longest wait between two passes that follow each other at the same place along the panel [s].
fn longest_wait(track: &Track, passes: &[HandPass], aim: &Aim) -> Option<f64> {
    let (moments, half) = (track.moments(), 0.5 * aim.size[0]);
    let places = 40;
    passes
        .windows(2)
        .flat_map(|pair| {
            (0..=places).filter_map(move |k| {
                let x = half * (2.0 * f64::from(k) / f64::from(places) - 1.0);
                Some(pair[1].when(moments, x)? - pair[0].when(moments, x)?)
            })
        })
        .fold(None, |longest: Option<f64>, wait| Some(longest.map_or(wait, |l| l.max(wait))))
}
