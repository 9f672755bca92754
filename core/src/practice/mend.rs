//! The same track with one fault mended.

use super::passes::{stands, stops};
use super::{Aim, Figures};
use crate::stroke::{Moment, Track};

/// Step of a pass that is put in [s].
const STEP: f64 = 0.05;

/// One thing that the hand did otherwise than the plan. Passes are counted from 0.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// One pass lies off its place between its neighbours.
    Row {
        /// The pass.
        pass: usize,
        /// How far too low [m]; negative: too high.
        low: f64,
    },
    /// All passes lie too wide or too close.
    Spacing {
        /// Mean distance between them [m].
        mean: f64,
    },
    /// The plan has more passes above the first or below the last.
    Missing {
        /// How many.
        rows: usize,
        /// Below the last.
        below: bool,
    },
    /// A pass too many, close by the one before it.
    Extra {
        /// The pass.
        pass: usize,
    },
    /// Trigger on, gun still.
    Still {
        /// Where it was longest.
        pass: usize,
        /// How long there [s].
        seconds: f64,
    },
    /// All passes too fast or too slow.
    Pace {
        /// Mean pace [s/m].
        mean: f64,
    },
    /// One pass faster or slower than the others.
    PassPace {
        /// The pass.
        pass: usize,
        /// Its pace [s/m].
        pace: f64,
    },
    /// Pace changes along a pass.
    Uneven {
        /// Where most.
        pass: usize,
        /// Pace there at its slowest [s/m].
        pace: f64,
    },
    /// Gun too near or too far all along.
    Distance {
        /// Mean distance [m].
        mean: f64,
    },
    /// One pass nearer or farther than the others.
    PassDistance {
        /// The pass.
        pass: usize,
        /// Its mean distance [m].
        mean: f64,
    },
    /// Gun not square to the face: swung in an arc, or heeled.
    Tilt {
        /// Where most.
        pass: usize,
        /// Swing or heel there [rad].
        most: f64,
    },
    /// Trigger on only over the panel.
    LeadIn {
        /// The passes.
        passes: Vec<usize>,
    },
    /// Trigger off already over the panel.
    RunOut {
        /// The passes.
        passes: Vec<usize>,
    },
    /// Trigger not pulled home.
    Trigger {
        /// Mean pull while on, 0..=1.
        mean: f64,
    },
}

/// The track with the fault mended; none where that gives no track.
pub(super) fn mended(fault: &Fault, track: &Track, figures: &Figures, aim: &Aim) -> Option<Track> {
    let mut moments = track.moments().to_vec();
    let on = |i: usize, moments: &[Moment]| moments[i].trigger > 0.0;
    match fault {
        Fault::Row { pass, low } => shift(&mut moments, figures, *pass, *low),
        Fault::Spacing { mean } => {
            let (first, step) = (figures.passes[0].y, aim.spacing().copysign(*mean));
            for (i, pass) in figures.passes.iter().enumerate() {
                shift(&mut moments, figures, i, first - step * i as f64 - pass.y);
            }
        }
        Fault::Missing { rows, below } => add(&mut moments, figures, aim, *rows, *below),
        Fault::Extra { pass } => {
            let segments = figures.passes[*pass].segments.clone();
            moments[segments].iter_mut().for_each(|m| m.trigger = 0.0);
        }
        Fault::Still { .. } => {
            let all: Vec<_> =
                figures.passes.iter().flat_map(|p| stops(&moments, p.segments.clone(), aim)).collect();
            // As long as the way there takes at the planned pace.
            retime(&mut moments, |i, a, b| {
                let stop = all.iter().any(|stop| stop.contains(&i));
                if stop { (b.x - a.x).abs() * aim.pace } else { b.time - a.time }
            });
        }
        Fault::Pace { mean } => {
            let factor = aim.pace / mean;
            let old = moments.clone();
            retime(&mut moments, |i, a, b| {
                let moves = on(i, &old) && !stands(a, b, aim);
                (b.time - a.time) * if moves { factor } else { 1.0 }
            });
        }
        Fault::PassPace { pass, pace } => {
            let (segments, factor) = (figures.passes[*pass].segments.clone(), figures.pace / pace);
            retime(&mut moments, |i, a, b| {
                let moves = segments.contains(&i) && !stands(a, b, aim);
                (b.time - a.time) * if moves { factor } else { 1.0 }
            });
        }
        Fault::Uneven { .. } => {
            for pass in &figures.passes {
                let segments = pass.segments.clone();
                retime(&mut moments, |i, a, b| {
                    let moves = segments.contains(&i) && !stands(a, b, aim);
                    if moves { (b.x - a.x).abs() * pass.pace } else { b.time - a.time }
                });
            }
        }
        Fault::Distance { mean } => {
            let nearer = aim.distance - mean;
            moments.iter_mut().for_each(|m| m.distance = (m.distance + nearer).max(0.03));
        }
        Fault::PassDistance { pass, mean } => {
            let others = others(figures, *pass, |p| p.mean_distance);
            let segments = figures.passes[*pass].segments.clone();
            moments[segments.start..=segments.end]
                .iter_mut()
                .for_each(|m| m.distance = (m.distance + others - mean).max(0.03));
        }
        Fault::Tilt { .. } => moments.iter_mut().for_each(|m| {
            // Where the gun was aimed, square on, at the distance of the plan.
            m.x += m.distance * crate::math::tan(m.swing);
            m.y += m.distance * crate::math::tan(m.heel);
            (m.swing, m.heel, m.distance) = (0.0, 0.0, aim.distance);
        }),
        Fault::LeadIn { passes } => {
            passes.iter().rev().for_each(|&pass| lengthen(&mut moments, figures, aim, pass, true));
        }
        Fault::RunOut { passes } => {
            passes.iter().rev().for_each(|&pass| lengthen(&mut moments, figures, aim, pass, false));
        }
        Fault::Trigger { .. } => {
            moments.iter_mut().filter(|m| m.trigger > 0.0).for_each(|m| m.trigger = 1.0);
        }
    }
    Track::new(moments).ok()
}

/// Mean of a figure over all passes but one.
pub(super) fn others(figures: &Figures, pass: usize, of: impl Fn(&super::HandPass) -> f64) -> f64 {
    let rest = figures.passes.iter().enumerate().filter(|(i, _)| *i != pass);
    let (sum, n) = rest.fold((0.0, 0.0), |(sum, n), (_, p)| (sum + of(p), n + 1.0));
    if n > 0.0 { sum / n } else { of(&figures.passes[pass]) }
}

/// Lifts a pass.
fn shift(moments: &mut [Moment], figures: &Figures, pass: usize, up: f64) {
    let segments = figures.passes[pass].segments.clone();
    moments[segments.start..=segments.end].iter_mut().for_each(|m| m.y += up);
}

/// Gives each segment another length of time.
fn retime(moments: &mut [Moment], took: impl Fn(usize, &Moment, &Moment) -> f64) {
    let times: Vec<f64> =
        moments.windows(2).enumerate().map(|(i, w)| took(i, &w[0], &w[1]).max(0.0)).collect();
    for (i, took) in times.into_iter().enumerate() {
        moments[i + 1].time = moments[i].time + took;
    }
}

/// Passes of the plan after the last, or before the first in place though later in time.
fn add(moments: &mut Vec<Moment>, figures: &Figures, aim: &Aim, rows: usize, below: bool) {
    let heights = figures.passes.iter().map(|p| p.y);
    let edge =
        if below { heights.fold(f64::INFINITY, f64::min) } else { heights.fold(f64::NEG_INFINITY, f64::max) };
    let step = if below { -aim.spacing() } else { aim.spacing() };
    if let Some(last) = moments.last_mut() {
        last.trigger = 0.0;
    }
    let mut time = moments.last().map_or(0.0, |m| m.time) + aim.turn.max(0.05);
    for k in 1..=rows {
        let pass = aim.pass(time, edge + step * k as f64, k % 2 == 0, STEP);
        time = pass.last().map_or(time, |m| m.time) + aim.turn.max(0.05);
        moments.extend(pass);
    }
}

/// Draws a pass out past the edge of the panel, at the plan's pace.
fn lengthen(moments: &mut Vec<Moment>, figures: &Figures, aim: &Aim, pass: usize, begin: bool) {
    let pass = &figures.passes[pass];
    let side = if pass.rightward() == begin { -1.0 } else { 1.0 };
    let at = if begin { pass.segments.start } else { pass.segments.end };
    let to = side * aim.reach();
    let took = (to - moments[at].x).abs() * aim.pace;
    let mut outer = Moment { x: to, ..moments[at] };
    if begin {
        outer.trigger = 1.0;
        moments[at..].iter_mut().for_each(|m| m.time += took);
        moments.insert(at, outer);
    } else {
        outer.time += took;
        outer.trigger = moments[at].trigger;
        moments[at].trigger = moments[at.saturating_sub(1)].trigger;
        moments[at + 1..].iter_mut().for_each(|m| m.time += took);
        moments.insert(at + 1, outer);
    }
}
