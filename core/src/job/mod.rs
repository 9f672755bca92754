//! A job: everything one run needs, checked once.

mod build;
mod catalogue_ids;
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
mod patch;
mod practising;
mod sheet_patch;
mod sheet_window;
mod stroke_patch;
mod supply_patch;
mod track_list;
mod value;

use crate::gun::{GunSetting, Kit};
use crate::paint::{Mix, Paint, Recipe, Sheet};
use crate::part::Frame;
use crate::set_up::{BoxFigures, Neighbour};
use crate::stroke::{Hand, Track};
use crate::supply::Supply;
use std::sync::Arc;

pub use edit::{as_written, with_key, without_key};
pub use error::JobError;
pub use judging::{Judging, Method};
pub use key_list::KEYS;
pub use keys::{Key, Kind};
pub use mixing::{Mixing, Origin};
pub use part::drawn_tubes;
pub use practising::Practising;

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
}

impl Job {
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

/// Prices of changes to the air supply, by their keys; any money.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AirPrices(pub Vec<(&'static str, f64)>);

impl AirPrices {
    /// The price of a key such as "supply.price.hose".
    #[must_use]
    pub fn of(&self, key: &str) -> Option<f64> {
        self.0.iter().find(|(k, _)| *k == key).map(|(_, price)| *price)
    }
}

/// Air in the booth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Booth {
    /// Air temperature [K].
    pub temperature: f64,
    /// Relative humidity, 0..=1.
    pub humidity: f64,
    /// Speed of the air past the part [m/s], 0..=3.
    pub air: f64,
    /// Where it comes from.
    pub from: AirFrom,
}

impl Booth {
    /// Speed of the air where a job says nothing [m/s]: a down-draught booth's mean, EN 12215 (from memory).
    pub const AIR: f64 = 0.3;

    /// Air of a temperature [K] and a humidity, from above at the usual speed.
    #[must_use]
    pub const fn at(temperature: f64, humidity: f64) -> Self {
        Self { temperature, humidity, air: Self::AIR, from: AirFrom::Above }
    }
}

/// Where the booth's air comes from, as the painter stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AirFrom {
    /// From the ceiling.
    Above,
    /// From behind the painter.
    Behind,
    /// From the left.
    Left,
    /// From the right.
    Right,
}

/// The part's shape.
#[derive(Debug, Clone, PartialEq)]
pub enum PartShape {
    /// Flat panel.
    Panel {
        /// Along the strokes [m].
        width: f64,
        /// Across the strokes [m].
        height: f64,
    },
    /// Straight tube; strokes run along it.
    Tube {
        /// Outer diameter [m].
        diameter: f64,
        /// Length [m].
        length: f64,
    },
    /// Panel curved outwards about an axis along the strokes, as a lying barrel is.
    Curved {
        /// Outward radius of its face [m].
        radius: f64,
        /// Along the strokes and the axis of its curve [m].
        width: f64,
        /// Across the strokes, measured over the face [m].
        height: f64,
    },
    /// Frame of straight tubes; strokes run along each.
    Frame(Arc<Frame>),
}

impl PartShape {
    /// The fan may lie along the strokes or across them and matters: before tubes.
    #[must_use]
    pub fn is_of_tubes(&self) -> bool {
        matches!(self, Self::Tube { .. } | Self::Frame(_))
    }
}

/// The fan's long axis against the stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FanAxis {
    /// Across the stroke (usual).
    Across,
    /// Along the stroke.
    Along,
}

/// How the gun is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokePlan {
    /// Tip to the part's nearest face [m].
    pub distance: f64,
    /// Gun speed [m/s].
    pub speed: f64,
    /// Overlap of neighbouring passes, share of the fan height at this distance, 0..=0.95.
    pub overlap: f64,
    /// Trigger on past each edge [m].
    pub lead: f64,
    /// Coats, 1..=10.
    pub coats: u32,
    /// Fan's long axis.
    pub fan_axis: FanAxis,
    /// Tubes: passes from this many directions, evenly round it, 1..=12.
    pub sides: u32,
    /// Trigger off between two passes [s].
    pub turn: f64,
    /// Wait between two coats [s].
    pub flash: f64,
    /// Trigger on, gun held still at the middle [s]; then there are no passes.
    pub burst: Option<f64>,
    /// In what order the passes of a panel go.
    pub order: PassOrder,
    /// Who moves the gun.
    pub hand: Hand,
    /// Gun held tipped up all the way [rad], its aim on the line.
    pub heel: f64,
    /// Gun held swung along x all the way [rad].
    pub swing: f64,
    /// Way over which the trigger is eased open and shut at the ends of a pass [m].
    pub feather: f64,
}

impl StrokePlan {
    /// A machine's plain passes, square on: laid by the exact sweep.
    #[must_use]
    pub fn is_swept(&self) -> bool {
        let square = self.heel == 0.0 && self.swing == 0.0;
        square && self.hand.is_machine() && self.order == PassOrder::Raster && self.feather == 0.0
    }
}

/// In what order the passes of a panel go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PassOrder {
    /// Pass by pass from the top down, every coat alike.
    #[default]
    Raster,
    /// Every second coat across, the fan turned a quarter.
    Cross,
    /// First a pass up and down each end, then rows from end to end without lead.
    Banded,
}

/// Film wanted, dry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpecBand {
    /// Lowest [m].
    pub low: f64,
    /// Highest [m].
    pub high: f64,
    /// The band is for each coat, not for all together.
    pub per_coat: bool,
}

/// What a reading is of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measurement {
    /// Fan height on a card [m], between its tenth-of-the-peak lines.
    FanHeight {
        /// Tip to card [m].
        distance: f64,
    },
    /// Fan thickness [m], likewise.
    FanThickness {
        /// Tip to card [m].
        distance: f64,
    },
    /// Paint that left a gun that was weighed before and after [kg].
    Weighed {
        /// Trigger on [s].
        seconds: f64,
    },
    /// Paint caught from the tip of a pressure gun, air shut [m3].
    Caught {
        /// Trigger on [s].
        seconds: f64,
    },
    /// Wet film in the middle of one pass [m].
    WetFilm {
        /// Tip to card [m].
        distance: f64,
        /// Gun speed [m/s].
        speed: f64,
    },
    /// Dry film there [m].
    DryFilm {
        /// Tip to card [m].
        distance: f64,
        /// Gun speed [m/s].
        speed: f64,
    },
}

/// One reading of the user's card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Its key in the job file.
    pub key: &'static str,
    /// Its name in `card.kept_back`.
    pub name: &'static str,
    /// What it is of.
    pub what: Measurement,
    /// Value, in the unit of `what`.
    pub value: f64,
    /// Relative uncertainty, one standard deviation [-].
    pub uncertainty: f64,
    /// It is kept out of the fit, to test it.
    pub kept_back: bool,
}

/// What a comparison of kits needs. Prices are the user's, in any one currency.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Compare {
    /// Kits beside your own, in their order.
    pub kits: Vec<KitToCompare>,
    /// Price of a litre of paint as sprayed.
    pub paint_price: Option<f64>,
    /// Parts that are going to be painted.
    pub parts: Option<f64>,
}

/// A kit beside your own.
#[derive(Debug, Clone, PartialEq)]
pub struct KitToCompare {
    /// Where its geometry comes from.
    pub what: KitSource,
    /// What the user calls it.
    pub name: Option<String>,
    /// Its price.
    pub price: Option<f64>,
}

/// Where a kit's geometry comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum KitSource {
    /// A kit of the catalogue, by its id.
    Catalogue(String),
    /// What is printed on the box.
    Box(BoxFigures),
}

/// How long to fly and with which streams.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunSetting {
    /// Droplets (equal-solids parcels), 1..=1e9.
    pub droplets: u64,
    /// Fly until the transfer efficiency's relative standard error is below this; `droplets` is then the ceiling.
    pub standard_error: Option<f64>,
    /// Seed.
    pub seed: u64,
}

impl RunSetting {
    /// A mean film with its standard error [m] reaches the error wanted; never where none is.
    pub(crate) fn is_reached(&self, (mean, error): (f64, f64)) -> bool {
        self.standard_error.is_some_and(|wanted| mean > 0.0 && error <= wanted * mean)
    }
}
