//! A job: everything one run needs, checked once.

mod booth;
mod build;
mod catalogue_ids;
mod compare;
mod document;
mod edit;
mod error;
mod frame_list;
mod judging;
mod key_list;
mod keys;
mod kit_list;
pub mod link;
mod measured;
mod mixing;
mod paint_patch;
mod part;
mod part_shape;
mod patch;
mod practising;
mod reading;
mod run_setting;
mod sheet_patch;
mod sheet_window;
mod spec_band;
mod stroke_patch;
mod stroke_plan;
mod supply_patch;
mod track_list;
mod value;

use crate::gun::{GunSetting, Kit};
use crate::paint::{Mix, Paint, Recipe, Sheet};
use crate::set_up::Neighbour;
use crate::stroke::{Hand, Track};
use crate::supply::Supply;
use std::sync::Arc;

pub use booth::{AirFrom, AirPrices, Booth};
pub use compare::{Compare, KitSource, KitToCompare};
pub use edit::{as_written, with_key, without_key};
pub use error::JobError;
pub use judging::{Judging, Method};
pub use key_list::KEYS;
pub use keys::{Key, Kind};
pub use mixing::{Mixing, Origin};
pub use part::drawn_tubes;
pub use part_shape::PartShape;
pub use practising::Practising;
pub use reading::{Measurement, Reading};
pub use run_setting::RunSetting;
pub use spec_band::SpecBand;
pub use stroke_plan::{FanAxis, PassOrder, StrokePlan};

/// Longest text of a job file, and of what a link holds [bytes].
pub const LONGEST_TEXT: usize = 64 * 1024;
/// Longest text of a job file with a recorded track [bytes]; no link holds it.
pub const LONGEST_WITH_TRACK: usize = 2 * 1024 * 1024;

/// Everything one run needs, in SI; the text it was read from is kept beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// Name the user gave it.
    pub name: String,
    /// Air supply; without one the inlet pressure is simply held.
    pub supply: Option<Supply>,
    /// What changes of the supply would cost.
    pub air_prices: AirPrices,
    /// Gun and nozzle set, overrides of the file applied.
    pub kit: Kit,
    /// Kits that the gun's box might as well stand for; none for a kit of the catalogue.
    pub neighbours: Vec<Neighbour>,
    /// Knobs and air.
    pub gun: GunSetting,
    /// Paint, mix, thinning and cup seconds applied.
    pub paint: Paint,
    /// How it was mixed and thinned.
    pub mix: Mix,
    /// The tins it was mixed of, with the thinner in use.
    pub recipe: Recipe,
    /// The data sheet's window and times; typical where the file is silent (`paint_origin`).
    pub sheet: Sheet,
    /// How many parts the paint is mixed for, and what goes with it.
    pub mixing: Mixing,
    /// Booth air.
    pub booth: Booth,
    /// What is painted.
    pub part: PartShape,
    /// Surface of the part before it is painted [K].
    pub part_temperature: f64,
    /// Lean of the part's face against level [rad]: 0 flat, pi/2 upright, pi overhead.
    pub lean: f64,
    /// Strokes.
    pub stroke: StrokePlan,
    /// What was recorded of a hand, instead of passes.
    pub track: Option<Arc<Track>>,
    /// Film wanted.
    pub spec: Option<SpecBand>,
    /// How it is judged.
    pub judging: Judging,
    /// What was measured on a card sprayed with this gun; may be empty.
    pub card: Vec<Reading>,
    /// Kits to set beside this gun, and the prices that go with them.
    pub compare: Compare,
    /// By hand and the class hour: exercise, goal, tries so far.
    pub practice: Practising,
    /// Droplets and seed.
    pub run: RunSetting,
    /// What the user should know about the file though it is good: keys that are not used, a cup out of its range.
    pub notes: Vec<String>,
    /// Every key that the file gives.
    pub given: Vec<&'static str>,
    /// The text it was read from, as the user wrote it.
    pub text: String,
}

impl Job {
    /// Reads the text of a job file (`docs/job-file.md`).
    ///
    /// # Errors
    /// `JobError` names key, line, value and what is allowed: no TOML, longer than 64 KiB (2 MiB with a track), an unknown key, a value of
    /// the wrong kind or out of range, a required key that is missing, keys that exclude each other.
    pub fn from_toml(text: &str) -> Result<Self, JobError> {
        build::build(&document::Document::parse(text)?)
    }

    /// The same job by a machine's hand, square on, in plain passes: what guns are held against each other with.
    #[must_use]
    pub fn by_machine(&self) -> Self {
        let mut job = self.clone();
        let own = &mut job.stroke;
        (own.hand, own.order) = (Hand::default(), PassOrder::Raster);
        (own.heel, own.swing, own.feather) = (0.0, 0.0, 0.0);
        if let (Some(track), true) = (job.track.take(), own.speed <= 0.0) {
            own.speed = track.mean_speed();
        }
        job
    }
}
