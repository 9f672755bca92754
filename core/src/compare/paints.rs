//! Which paints a kit can do: classes of the catalogue, ready to spray, that it flows and atomises well (`Model::can_spray`)
//! and whose data sheets usually ask for such a tip.

use serde::Serialize;

use crate::catalogue;
use crate::gun::{Feed, Kit};
use crate::job::Job;
use crate::paint::Paint;
use crate::set_up::Model;

/// What paints are for; a kit that does primers has the wide tip for them.
pub const USES: [&str; 3] = ["bases and stains", "clears and enamels", "primers"];

/// Use of a paint of the catalogue, in [`USES`].
fn use_of(id: &str) -> usize {
    match id {
        _ if id.contains("primer") || id.contains("sealer") => 2,
        _ if id.contains("basecoat") || id.contains("stain") => 0,
        _ => 1,
    }
}

/// Paints that a kit can do.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Paints {
    /// Some paint of each of [`USES`].
    pub uses: [bool; 3],
    /// Catalogue ids of the paints.
    pub kinds: Vec<&'static str>,
    /// It sprays the job's paint well as rated, whatever its data sheet says of tips.
    pub this_paint: bool,
}

impl Paints {
    /// Paints of a kit in the job's booth.
    #[must_use]
    pub fn of(job: &Job, kit: &Kit) -> Self {
        let model = Model::default();
        let can = |paint: &Paint| model.can_spray(kit, paint, &job.booth).unwrap_or(false);
        let mut paints = Self { this_paint: can(&job.paint), ..Self::default() };
        for data in catalogue::paints() {
            if !tip_does(kit, data.sheet.tip) {
                continue;
            }
            if catalogue::paint(data.id).is_ok_and(|paint| can(&paint)) {
                paints.kinds.push(data.id);
                paints.uses[use_of(data.id)] = true;
            }
        }
        paints
    }
}

/// Whether data sheets that ask for these tips [m] mean this kit: they speak of gravity guns, a suction gun takes the same
/// or a little more, and a pot pushes the paint through smaller ones.
pub(super) fn tip_does(kit: &Kit, [low, high]: [f64; 2]) -> bool {
    let wider = if kit.feed == Feed::Suction { 0.2e-3 } else { 0.0 };
    let low = if kit.feed == Feed::Pressure { 0.5 * low } else { low };
    (low - 1e-6..=high + wider + 1e-6).contains(&kit.tip_bore)
}
