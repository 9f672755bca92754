//! The film on each member of a frame.

use super::figures::Spread;
use crate::film::FilmMap;
use crate::judge::wanted;
use crate::run::Run;
use crate::tally::{GROUPS, standard_error};
use serde::Serialize;

/// The film on one tube, over what of it is meant to be painted.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MemberFigures {
    /// Its name.
    pub name: String,
    /// Dry film as landed; thinnest and thickest cell where a cell is counted well enough [um].
    pub dry_um: Spread,
    /// Standard error of the mean [um].
    pub standard_error_um: f64,
    /// Share of its area in the film wanted [%].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_band_percent: Option<f64>,
    /// Paint on it, as sprayed, what flew past its neighbours included [mL].
    pub on_it_ml: f64,
    /// Share of its area that lies inside another tube, where they join: not modelled, left out of all figures [%].
    pub joined_percent: f64,
}

/// Members that strokes go along, in the frame's order; none of other parts. `cells` where a cell's counting error is small enough for
/// ends and shares.
pub(super) fn members(run: &Run, film: &FilmMap, cells: bool) -> Option<Vec<MemberFigures>> {
    run.prepared().frame.as_ref()?;
    let band = wanted(&run.prepared().job);
    let solids = run.prepared().spray.volume_solids;
    let n = film.len();
    let of = |face: &crate::film::Face| {
        let meant: Vec<usize> = face.cells().filter(|&cell| !film.is_hidden(cell)).collect();
        let count = meant.len() as f64;
        if meant.is_empty() {
            return None;
        }
        let mean = |h: &dyn Fn(usize) -> f64| meant.iter().map(|&cell| h(cell)).sum::<f64>() / count;
        let groups: [f64; GROUPS] = core::array::from_fn(|g| mean(&|cell| film.groups[g * n + cell]));
        let end = |pick: fn(f64, f64) -> f64| meant.iter().map(|&cell| film.dry[cell]).reduce(pick);
        let ends = |pick| end(pick).filter(|_| cells).map(|h| h.max(0.0) * 1e6);
        let whole: f64 = film.dry[face.cells()].iter().sum();
        Some(MemberFigures {
            name: face.name.clone(),
            dry_um: Spread {
                mean: mean(&|cell| film.dry[cell]) * 1e6,
                model_low: None,
                model_high: None,
                min: ends(f64::min),
                max: ends(f64::max),
            },
            standard_error_um: standard_error(&groups) * 1e6,
            in_band_percent: band.filter(|_| cells).map(|(low, high)| {
                100.0 * mean(&|cell| f64::from(u8::from((low..=high).contains(&film.dry[cell]))))
            }),
            on_it_ml: whole * face.cell_area() / solids * 1e6,
            joined_percent: 100.0 * (1.0 - count / face.len() as f64),
        })
    };
    Some(film.faces().iter().filter_map(of).collect())
}

/// What the painter should be told of a frame.
pub(super) fn warnings(run: &Run) -> Vec<String> {
    let prepared = run.prepared();
    let (Some(frame), crate::job::PartShape::Frame(shape)) = (&prepared.frame, &prepared.job.part) else {
        return Vec::new();
    };
    let mut all = vec![
        "not modelled: joints, insides of corners, ends of tubes and their insides; where tubes join look at the part".into(),
    ];
    let tight: Vec<&str> = frame.tight().iter().map(|&member| shape.members[member].name.as_str()).collect();
    if !tight.is_empty() {
        all.push(format!(
            "the gun has no room everywhere it should stand, another tube is in its way: along {}; go nearer, or turn the frame",
            tight.join("; ")
        ));
    }
    let step = frame.step();
    if step > LONGEST_STEP {
        all.push(format!(
            "too few droplets for so long a way: the gun is looked at only every {:.0} mm; about {:.0} droplets would do",
            step * 1e3,
            (prepared.job.run.droplets as f64 * step / LONGEST_STEP).ceil()
        ));
    }
    let crowded = frame.crowded();
    if crowded > 0.01 {
        all.push(format!(
            "along {:.0} % of the way more than {} other tubes stand in the spray: those in the thinnest are flown through",
            crowded * 100.0,
            crate::rod::MOST_RODS
        ));
    }
    all
}

/// Longest step of the gun that leaves no gaps [m]: a near-round spot is 40 mm wide.
const LONGEST_STEP: f64 = 12e-3;
