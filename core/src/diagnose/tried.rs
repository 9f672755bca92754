//! Changes that were flown, which of them mend a complaint, and which are worth a flight in full.

use super::Lever;
use super::change::Move;
use super::complaint::Complaint;
use super::judge::sides;
use super::measure::Measure;
use super::readout::Readout;
use crate::in_order::InOrder;

/// What one more thing to change counts [grades].
const ONE_MORE: f64 = 0.5;
/// Changes for the worst complaint that are flown in full.
const FOR_WORST: usize = 3;
/// All changes flown in full.
const IN_ALL: usize = 6;
/// Counting errors that a trial's side effects are given.
const SLACK: f64 = 3.0;
/// What counts that goes with a fan knob.
const ALONG: f64 = 0.1;

/// A change that was flown.
pub(super) struct Tried {
    /// What was moved.
    pub moves: Vec<Move>,
    /// What came out.
    pub readout: Readout,
    /// How bad it is, with what the change itself counts.
    pub badness: f64,
}

/// What the changes beyond the first count [grades]. Pressure and fluid that a fan knob brings with it are set in any case.
pub(super) fn more(moves: &[Move]) -> f64 {
    let fan = moves.first().is_some_and(|m| m.lever == Lever::Fan);
    let each = |m: &Move| if fan && m.lever != Lever::Speed { ALONG } else { ONE_MORE };
    moves.iter().skip(1).map(each).sum()
}

/// Changes that mend a complaint and spoil nothing, best first, by their place in the list.
pub(super) fn ranking(first: &Readout, all: &[Tried], measure: Measure) -> Vec<usize> {
    let Some(before) = first.figures.get(&measure) else { return Vec::new() };
    let mends = |tried: &Tried| {
        let gain = tried.readout.figures.get(&measure).map(|after| before.to(after));
        gain.is_some_and(|g| g.value > super::advice::worth(measure, g.before))
            && sides(first, &tried.readout, measure, SLACK).is_some()
    };
    let mut places: Vec<usize> = (0..all.len()).filter(|&i| mends(&all[i])).collect();
    places.in_order(|&a, &b| all[a].badness.total_cmp(&all[b].badness));
    places
}

/// Changes that are worth a flight in full, each with the complaint it is for (by its place in the list).
pub(super) fn chosen(first: &Readout, all: &[Tried], complaints: &[Complaint]) -> Vec<(usize, Vec<Move>)> {
    let mut chosen: Vec<(usize, Vec<Move>)> = Vec::new();
    let lever = |moves: &[Move]| moves.first().map(|m| (m.lever, moves.len() > 1 && m.lever != Lever::Speed));
    for (i, complaint) in complaints.iter().enumerate() {
        let most = if i == 0 { FOR_WORST } else { 1 };
        let mut taken = 0;
        for at in ranking(first, all, complaint.measure) {
            if taken >= most || chosen.len() >= IN_ALL {
                break;
            }
            let moves = &all[at].moves;
            // Of a lever alone and with the pace the better one; a change stands for one complaint.
            let known = chosen.iter().any(|(_, c)| {
                lever(c).map(|l| l.0) == lever(moves).map(|l| l.0) && (c.len() > 2) == (moves.len() > 2)
            });
            if !known {
                chosen.push((i, moves.clone()));
                taken += 1;
            }
        }
    }
    chosen
}
