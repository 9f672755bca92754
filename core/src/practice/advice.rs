//! What to do otherwise at the next try: each fault's cost, found by laying the track again without it.

use super::mend::{Fault, mended, others};
use super::{Aim, Figures, HandPass};
use crate::in_order::InOrder;
use crate::stroke::Track;

/// Least share of the panel that a mended fault must bring into the film wanted, to be spoken of.
pub const LEAST_GAIN: f64 = 0.01;
/// Most pieces of advice for a try.
pub const MOST_ADVICE: usize = 3;

/// A row so far off is a fault [share of the spacing].
const ROW_OFF: f64 = 0.12;
/// So much wider or closer than planned, all along.
const SPACING_OFF: f64 = 0.08;
/// So much off in pace, all along; one pass against the others; the slowest bit of a pass against its mean.
const PACE_OFF: f64 = 0.04;
const PASS_PACE_OFF: f64 = 0.1;
const UNEVEN: f64 = 1.2;
/// So much off in distance, all along; one pass against the others.
const DISTANCE_OFF: f64 = 0.04;
const PASS_DISTANCE_OFF: f64 = 0.08;
/// So far from square [rad].
const TILTED: f64 = 0.05;
/// So long a stop [s].
const STOOD: f64 = 0.15;
/// A trigger pulled less than this is not home.
const PULLED: f64 = 0.97;

/// A fault and the track without it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// The fault.
    pub fault: Fault,
    /// Where it shows: along and up from the panel's middle [m].
    pub place: [f64; 2],
    /// The track with this one fault mended.
    pub track: Track,
}

/// A fault that costs film.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// The fault.
    pub fault: Fault,
    /// Where it shows: along and up from the panel's middle [m].
    pub place: [f64; 2],
    /// Share of the panel that comes into the film wanted when it alone is mended.
    pub gain: f64,
}

/// The faults found in a track, each with its mended track, to be laid.
#[must_use]
pub fn trials(track: &Track, figures: &Figures, aim: &Aim) -> Vec<Trial> {
    faults(track, figures, aim)
        .into_iter()
        .filter_map(|fault| {
            let track = mended(&fault, track, figures, aim)?;
            Some(Trial { place: place(&fault, figures, aim), fault, track })
        })
        .collect()
}

/// Those that cost film, the dearest first. `right` is the share of the panel with the film wanted as it is, and beside
/// each trial as its track leaves it.
#[must_use]
pub fn advise(right: f64, laid: Vec<(Trial, f64)>) -> Vec<Advice> {
    let mut out: Vec<Advice> = laid
        .into_iter()
        .map(|(trial, then)| Advice { fault: trial.fault, place: trial.place, gain: then - right })
        .filter(|advice| advice.gain >= LEAST_GAIN)
        .collect();
    out.in_order(|a, b| b.gain.total_cmp(&a.gain));
    out.truncate(MOST_ADVICE);
    out
}

fn faults(track: &Track, figures: &Figures, aim: &Aim) -> Vec<Fault> {
    let mut out = Vec::new();
    out.extend(row(figures, aim));
    out.extend(spacing(figures, aim));
    out.extend(missing(figures, aim));
    out.extend(extra(figures, aim));
    let stood = most(figures, |p| p.still).filter(|(_, s)| *s >= STOOD);
    out.extend(stood.map(|(pass, seconds)| Fault::Still { pass, seconds }));
    out.extend(pace(figures, aim));
    out.extend(distance(figures, aim));
    if !figures.lead_short.is_empty() {
        out.push(Fault::LeadIn { passes: figures.lead_short.clone() });
    }
    if !figures.run_out_short.is_empty() {
        out.push(Fault::RunOut { passes: figures.run_out_short.clone() });
    }
    let pulled = track.open_seconds() / track.seconds().max(f64::MIN_POSITIVE);
    if pulled < PULLED {
        out.push(Fault::Trigger { mean: pulled });
    }
    out
}

/// The pass of which a figure is largest.
fn most(figures: &Figures, of: impl Fn(&HandPass) -> f64) -> Option<(usize, f64)> {
    let values = figures.passes.iter().map(of).enumerate();
    values.fold(None, |best: Option<(usize, f64)>, (i, v)| match best {
        Some((_, b)) if b >= v => best,
        _ => Some((i, v)),
    })
}

/// The pass farthest from the middle of its neighbours; an end pass against its neighbour and the plan's spacing.
fn row(figures: &Figures, aim: &Aim) -> Option<Fault> {
    let y: Vec<f64> = figures.passes.iter().map(|p| p.y).collect();
    if y.len() < 3 {
        return None;
    }
    let last = y.len() - 1;
    let mean = (y[0] - y[last]) / last as f64;
    let step = aim.spacing().copysign(mean);
    let low = |i: usize| match i {
        0 => y[1] + step - y[0],
        i if i == last => y[last - 1] - step - y[last],
        i => 0.5 * (y[i - 1] + y[i + 1]) - y[i],
    };
    // Passes wide or close all along are no fault of one.
    let fair = (mean.abs() - aim.spacing()).abs() <= SPACING_OFF * aim.spacing();
    let candidates = if fair { 0..=last } else { 1..=last - 1 };
    let (pass, low) = candidates.map(|i| (i, low(i))).fold((0, 0.0_f64), |best, (i, off)| {
        // A displaced pass sets its neighbours off by half as much, and an end's neighbour in full.
        if off.abs() > best.1.abs() { (i, off) } else { best }
    });
    // An end's whole step is also its neighbour's: the interior one, where it is off by itself, comes first.
    let (pass, low) = match pass {
        0 if y.len() > 3 && (0.5 * (y[1] + y[3]) - y[2]).abs() < 0.25 * low.abs() => (pass, low),
        0 if y.len() > 3 => (1, 0.5 * (y[0] + y[2]) - y[1]),
        i if i == last
            && y.len() > 3
            && (0.5 * (y[last - 1] + y[last - 3]) - y[last - 2]).abs() >= 0.25 * low.abs() =>
        {
            (last - 1, 0.5 * (y[last] + y[last - 2]) - y[last - 1])
        }
        _ => (pass, low),
    };
    (low.abs() > ROW_OFF * aim.spacing()).then_some(Fault::Row { pass, low })
}

fn spacing(figures: &Figures, aim: &Aim) -> Option<Fault> {
    let n = figures.spacing.len();
    let mean = figures.spacing.iter().sum::<f64>() / n.max(1) as f64;
    let off = (mean.abs() - aim.spacing()).abs() / aim.spacing();
    (n > 1 && off > SPACING_OFF && off < 1.0).then_some(Fault::Spacing { mean })
}

fn missing(figures: &Figures, aim: &Aim) -> Option<Fault> {
    let fold = |list: &mut dyn Iterator<Item = f64>| {
        list.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| (low.min(y), high.max(y)))
    };
    let (low, high) = fold(&mut figures.passes.iter().map(|p| p.y));
    let (plan_low, plan_high) = fold(&mut aim.rows.iter().copied());
    let count = |gap: f64| (gap / aim.spacing()).round().clamp(0.0, aim.rows.len() as f64) as usize;
    let (below, above) = (count(low - plan_low), count(plan_high - high));
    match (below, above) {
        (0, 0) => None,
        (below, above) if below >= above => Some(Fault::Missing { rows: below, below: true }),
        (_, above) => Some(Fault::Missing { rows: above, below: false }),
    }
}

fn extra(figures: &Figures, aim: &Aim) -> Option<Fault> {
    if figures.passes.len() <= aim.rows.len() {
        return None;
    }
    let closest = figures.spacing.iter().map(|s| s.abs()).enumerate().min_by(|a, b| a.1.total_cmp(&b.1))?;
    (closest.1 < 0.5 * aim.spacing()).then_some(Fault::Extra { pass: closest.0 + 1 })
}

fn pace(figures: &Figures, aim: &Aim) -> Vec<Fault> {
    let mut out = Vec::new();
    // One slow pass is no fault of all: the middle one counts.
    let mut all: Vec<f64> = figures.passes.iter().map(|p| p.pace).collect();
    all.in_order(f64::total_cmp);
    let middle = all[all.len() / 2];
    if (middle / aim.pace - 1.0).abs() > PACE_OFF {
        out.push(Fault::Pace { mean: middle });
    }
    if figures.passes.len() > 1 {
        let off = |p: &HandPass| (p.pace / middle - 1.0).abs();
        if let Some((pass, _)) = most(figures, off).filter(|(_, off)| *off > PASS_PACE_OFF) {
            out.push(Fault::PassPace { pass, pace: figures.passes[pass].pace });
        }
    }
    let slowest = |p: &HandPass| p.bits.iter().map(|b| b.time / b.way).fold(0.0, f64::max) / p.pace;
    if let Some((pass, over)) = most(figures, slowest).filter(|(_, over)| *over > UNEVEN) {
        out.push(Fault::Uneven { pass, pace: over * figures.passes[pass].pace });
    }
    out
}

fn distance(figures: &Figures, aim: &Aim) -> Vec<Fault> {
    let mut out = Vec::new();
    if let Some((pass, _)) = most(figures, |p| p.tilt.abs()).filter(|(_, tilt)| *tilt > TILTED) {
        // An arc is far off at its ends because it swings.
        return vec![Fault::Tilt { pass, most: figures.passes[pass].tilt }];
    }
    let mut all: Vec<f64> = figures.passes.iter().map(|p| p.mean_distance).collect();
    all.in_order(f64::total_cmp);
    let mean = all[all.len() / 2];
    if (mean / aim.distance - 1.0).abs() > DISTANCE_OFF {
        out.push(Fault::Distance { mean });
    }
    if figures.passes.len() > 1 {
        let off = |i: usize| figures.passes[i].mean_distance / others(figures, i, |p| p.mean_distance) - 1.0;
        let worst = (0..figures.passes.len()).max_by(|&a, &b| off(a).abs().total_cmp(&off(b).abs()));
        if let Some(pass) = worst.filter(|&i| off(i).abs() > PASS_DISTANCE_OFF) {
            out.push(Fault::PassDistance { pass, mean: figures.passes[pass].mean_distance });
        }
    }
    out
}

/// Where a fault shows.
fn place(fault: &Fault, figures: &Figures, aim: &Aim) -> [f64; 2] {
    let [w, h] = aim.size;
    let y = |i: usize| figures.passes[i].y;
    let edge = |i: usize, begin: bool| {
        let side = if figures.passes[i].rightward() == begin { -0.5 } else { 0.5 };
        [side * 0.84 * w, y(i)]
    };
    let at = match fault {
        Fault::Row { pass, low } => {
            // In the gap that it left.
            let up = if (*low > 0.0) == (figures.spacing.iter().sum::<f64>() >= 0.0) {
                pass.checked_sub(1)
            } else {
                Some(pass + 1)
            };
            let beside = up.filter(|&i| i < figures.passes.len()).map_or(y(*pass), y);
            [0.0, 0.5 * (y(*pass) + beside)]
        }
        Fault::Spacing { .. } => [0.1 * w, 0.5 * (y(0) + y(1))],
        Fault::Missing { below, .. } => {
            let heights = figures.passes.iter().map(|p| p.y);
            let (low, high) = heights.fold((h, -h), |(a, b), y| (a.min(y), b.max(y)));
            [-0.1 * w, if *below { low - 0.8 * aim.spacing() } else { high + 0.8 * aim.spacing() }]
        }
        Fault::Still { pass, .. } => figures.passes[*pass].still_at,
        Fault::Pace { .. } | Fault::Distance { .. } | Fault::Trigger { .. } => [0.2 * w, y(0)],
        Fault::Extra { pass } | Fault::PassPace { pass, .. } | Fault::PassDistance { pass, .. } => {
            [-0.2 * w, y(*pass)]
        }
        Fault::Uneven { pass, .. } => {
            let bits = &figures.passes[*pass].bits;
            let slowest = bits.iter().max_by(|a, b| (a.time / a.way).total_cmp(&(b.time / b.way)));
            [slowest.map_or(0.0, |b| b.x), y(*pass)]
        }
        Fault::Tilt { pass, most } => [0.4 * w * most.signum(), y(*pass)],
        Fault::LeadIn { passes } => edge(passes[0], true),
        Fault::RunOut { passes } => edge(passes[0], false),
    };
    [at[0].clamp(-0.47 * w, 0.47 * w), at[1].clamp(-0.46 * h, 0.46 * h)]
}
