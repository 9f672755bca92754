//! A try of several coats, along the panel or across it: each coat is read along the way it runs.
//!
//! A coat across is mirrored about the panel's falling diagonal, (x, y) to (-y, -x): from left to right then reads as from the top down, and
//! all that is known of passes along holds for it. The mirror is its own way back.

use super::figures::{Figures, figures, slowest_third};
use super::{Aim, Fault, HandPass, Trial, trials};
use crate::stroke::{Moment, Track};
use core::ops::Range;

/// Trigger off for so long parts two coats [s]; a turn takes a second or two.
const FLASHED: f64 = 20.0;

/// One coat of a try.
#[derive(Debug, Clone, PartialEq)]
pub struct Coat {
    /// Its moments in the try's track.
    pub moments: Range<usize>,
    /// Its passes run up and down the panel.
    pub across: bool,
    /// What it was to be, along its own way.
    pub aim: Aim,
    /// What the hand did, along its own way.
    pub figures: Figures,
    track: Track,
}

/// A try, coat by coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The coats that have a pass over the panel, in order of time.
    pub coats: Vec<Coat>,
    /// The whole try: passes and their numbers through all coats, each along its own way; a spacing where two passes of a coat follow one
    /// another, so one fewer a coat than passes.
    pub figures: Figures,
}

fn mirrored(m: &Moment) -> Moment {
    Moment { x: -m.y, y: -m.x, heel: -m.swing, swing: -m.heel, ..*m }
}

/// Moments of each coat: from its first with the trigger on to its last.
fn parts(moments: &[Moment]) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    for i in (0..moments.len().saturating_sub(1)).filter(|&i| moments[i].trigger > 0.0) {
        match out.last_mut().filter(|part| moments[i].time - moments[part.end - 1].time < FLASHED) {
            Some(part) => part.end = i + 2,
            None => out.push(i..i + 2),
        }
    }
    out
}

/// Whether more of the way with the trigger on runs up and down than along.
fn runs_across(moments: &[Moment]) -> bool {
    let way = |of: fn(&Moment) -> f64| -> f64 {
        moments.windows(2).filter(|w| w[0].trigger > 0.0).map(|w| (of(&w[1]) - of(&w[0])).abs()).sum()
    };
    way(|m| m.y) > way(|m| m.x)
}

/// A try in figures, coat by coat; none where it has no pass over the panel.
#[must_use]
pub fn tried(track: &Track, aim: &Aim) -> Option<Tried> {
    let coats: Vec<Coat> = parts(track.moments())
        .into_iter()
        .filter_map(|range| {
            let moments = &track.moments()[range.clone()];
            let across = runs_across(moments);
            let (moments, aim) = if across {
                (moments.iter().map(mirrored).collect(), aim.across())
            } else {
                (moments.to_vec(), aim.clone())
            };
            let track = Track::new(moments).ok()?;
            let figures = figures(&track, &aim)?;
            Some(Coat { moments: range, across, aim, figures, track })
        })
        .collect();
    let figures = together(&coats, track, aim)?;
    Some(Tried { coats, figures })
}

fn together(coats: &[Coat], track: &Track, aim: &Aim) -> Option<Figures> {
    let mut all = coats.first()?.figures.clone();
    if coats.len() == 1 {
        // Paint outside the passes is paint, too.
        all.paint = track.open_seconds() * aim.flow;
        let from = coats[0].moments.start;
        all.passes.iter_mut().for_each(|pass| shift(pass, from));
        return Some(all);
    }
    (all.passes, all.spacing, all.lead_short, all.run_out_short) = Default::default();
    (all.still, all.longest_wait, all.best_paint, all.seconds) = (0.0, None, 0.0, 0.0);
    for coat in coats {
        let (f, before) = (&coat.figures, all.passes.len());
        all.passes.extend(f.passes.iter().cloned().map(|mut pass| {
            shift(&mut pass, coat.moments.start);
            pass
        }));
        all.spacing.extend(&f.spacing);
        all.lead_short.extend(f.lead_short.iter().map(|p| p + before));
        all.run_out_short.extend(f.run_out_short.iter().map(|p| p + before));
        all.distance = [all.distance[0].min(f.distance[0]), all.distance[1].max(f.distance[1])];
        all.still += f.still;
        all.longest_wait = [all.longest_wait, f.longest_wait].into_iter().flatten().reduce(f64::max);
        all.best_paint += f.best_paint;
        all.seconds += f.seconds;
    }
    let way: f64 = all.passes.iter().map(|p| p.way).sum();
    all.pace = all.passes.iter().map(|p| p.pace * p.way).sum::<f64>() / way;
    all.slowest_third = slowest_third(&all.passes);
    all.paint = track.open_seconds() * aim.flow;
    Some(all)
}

fn shift(pass: &mut HandPass, by: usize) {
    pass.segments = pass.segments.start + by..pass.segments.end + by;
}

impl Tried {
    /// The faults of each coat, each with the whole try's track without it: the coats after it follow as they did.
    #[must_use]
    pub fn trials(&self, track: &Track) -> Vec<Trial> {
        let (mut out, mut before) = (Vec::new(), 0);
        for coat in &self.coats {
            for trial in trials(&coat.track, &coat.figures, &coat.aim) {
                let own = trial.track.moments();
                let own: Vec<Moment> =
                    if coat.across { own.iter().map(mirrored).collect() } else { own.to_vec() };
                let all = track.moments();
                let late = match (own.last(), all.get(coat.moments.end - 1)) {
                    (Some(new), Some(old)) => new.time - old.time,
                    _ => 0.0,
                };
                let after = all[coat.moments.end..].iter().map(|m| Moment { time: m.time + late, ..*m });
                let moments = all[..coat.moments.start].iter().copied().chain(own).chain(after).collect();
                let Ok(track) = Track::new(moments) else { continue };
                let [x, y] = trial.place;
                let place = if coat.across { [-y, -x] } else { trial.place };
                out.push(Trial { fault: trial.fault.counted_from(before), place, track });
            }
            before += coat.figures.passes.len();
        }
        out
    }

    /// The coat of each pass, counted from 0, and whether it runs across.
    #[must_use]
    pub fn coat_of_passes(&self) -> Vec<(usize, bool)> {
        let of = |(i, coat): (usize, &Coat)| vec![(i, coat.across); coat.figures.passes.len()];
        self.coats.iter().enumerate().flat_map(of).collect()
    }
}

impl Fault {
    /// The same fault where `before` passes of earlier coats are counted too.
    fn counted_from(self, before: usize) -> Self {
        let all = |passes: Vec<usize>| passes.into_iter().map(|p| p + before).collect();
        match self {
            Self::Row { pass, low } => Self::Row { pass: pass + before, low },
            Self::Extra { pass } => Self::Extra { pass: pass + before },
            Self::Still { pass, seconds } => Self::Still { pass: pass + before, seconds },
            Self::PassPace { pass, pace } => Self::PassPace { pass: pass + before, pace },
            Self::Uneven { pass, pace } => Self::Uneven { pass: pass + before, pace },
            Self::PassDistance { pass, mean } => Self::PassDistance { pass: pass + before, mean },
            Self::Tilt { pass, most } => Self::Tilt { pass: pass + before, most },
            Self::LeadIn { passes } => Self::LeadIn { passes: all(passes) },
            Self::RunOut { passes } => Self::RunOut { passes: all(passes) },
            whole @ (Self::Spacing { .. }
            | Self::Missing { .. }
            | Self::Pace { .. }
            | Self::Distance { .. }
            | Self::Trigger { .. }) => whole,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn aim() -> Aim {
        Aim {
            size: [0.6, 0.4],
            rows: vec![0.2, 0.1, 0.0, -0.1, -0.2],
            pace: 2.0,
            distance: 0.18,
            lead: 0.06,
            turn: 1.0,
            flow: 3e-6,
        }
    }

    /// A coat along, ten minutes, a coat across.
    fn cross() -> Track {
        let along = aim().track(0.02).unwrap();
        let across = aim().across().track(0.02).unwrap();
        let later = along.moments().last().unwrap().time + 600.0;
        let across = across.moments().iter().map(mirrored).map(|m| Moment { time: m.time + later, ..m });
        Track::new(along.moments().iter().copied().chain(across).collect()).unwrap()
    }

    #[test]
    fn a_cross_coat_is_read_along_its_own_way_and_has_no_fault() {
        let (track, aim) = (cross(), aim());
        let tried = tried(&track, &aim).unwrap();
        assert_eq!(tried.coats.iter().map(|c| c.across).collect::<Vec<_>>(), [false, true]);
        // 0.6 m across by spacings of 0.1 m: seven passes, the outer two at the edges.
        assert_eq!(tried.figures.passes.len(), 5 + 7);
        assert!(tried.figures.spacing.iter().all(|s| (s - 0.1).abs() < 1e-9), "{:?}", tried.figures.spacing);
        assert!((tried.figures.pace - 2.0).abs() < 1e-6);
        assert!((tried.figures.paint / tried.figures.best_paint - 1.0).abs() < 1e-6);
        assert!(tried.figures.longest_wait.unwrap() < 10.0, "flash is no wait at the wet edge");
        assert!(tried.trials(&track).is_empty(), "{:?}", tried.trials(&track));
        let last = tried.figures.passes.last().unwrap();
        assert_eq!(last.segments.end, track.moments().len() - 1);
        assert_eq!(tried.coat_of_passes()[4..6], [(0, false), (1, true)]);
    }

    #[test]
    fn a_fault_of_the_second_coat_is_found_by_its_number_through_both_and_mended_there_alone() {
        let (track, aim) = (cross(), aim());
        let first = tried(&track, &aim).unwrap().coats[1].moments.clone();
        // The third pass across leans out by 40 mm, to the right.
        let whole = tried(&track, &aim).unwrap();
        let pass = whole.figures.passes[5 + 2].segments.clone();
        let mut moments = track.moments().to_vec();
        moments[pass.start..=pass.end].iter_mut().for_each(|m| m.x += 0.04);
        let spoiled = Track::new(moments).unwrap();
        let trials = tried(&spoiled, &aim).unwrap().trials(&spoiled);
        let row = trials.iter().find(|t| matches!(t.fault, Fault::Row { .. })).expect("a row off");
        let Fault::Row { pass, low } = row.fault else { unreachable!() };
        assert_eq!(pass, 5 + 2);
        assert!((low - 0.04).abs() < 2e-3, "{low}");
        assert_eq!(row.track.moments()[..first.start], spoiled.moments()[..first.start]);
        let mended = tried(&row.track, &aim).unwrap();
        assert!((mended.figures.passes[7].y - whole.figures.passes[7].y).abs() < 5e-3);
    }

    #[test]
    fn one_coat_along_is_what_it_was() {
        let (track, aim) = (aim().track(0.02).unwrap(), aim());
        let tried = tried(&track, &aim).unwrap();
        assert_eq!(Some(tried.figures), figures(&track, &aim));
    }
}
