//! Which figures of the report a point keeps.

use crate::error::ParameterError;

/// A figure of the report that a sweep can keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Dotted path in the report.
    pub path: &'static str,
    /// What it is, in words.
    pub meaning: &'static str,
    /// Its unit; "share" for 0..1, empty for words.
    pub unit: &'static str,
    /// It may have a counting error.
    pub counted: bool,
    /// It has the model's likely range.
    pub ranged: bool,
    /// What of the job must be flown and done for it.
    pub(super) needs: Needs,
}

/// What a figure hangs on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Needs {
    /// The film as it landed.
    Film,
    /// The large card, too.
    Card,
    /// The film once it has set.
    Set,
}

const fn of(path: &'static str, meaning: &'static str, unit: &'static str, needs: Needs) -> Column {
    Column { path, meaning, unit, counted: false, ranged: false, needs }
}
const fn counted(path: &'static str, meaning: &'static str, unit: &'static str, needs: Needs) -> Column {
    Column { counted: true, ..of(path, meaning, unit, needs) }
}
const fn ranged(column: Column) -> Column {
    Column { ranged: true, ..column }
}

use Needs::{Card, Film, Set};

/// All of them, in the order of the report.
#[rustfmt::skip]
pub const COLUMNS: &[Column] = &[
    of("droplets", "droplets flown to the part", "", Film),
    ranged(counted("transfer_efficiency.value", "share of the paint that is on the part", "share", Film)),
    ranged(counted("large_panel_efficiency.value", "the same on a card of 1.2 m", "share", Card)),
    counted("fates.landed", "on the part", "share", Film),
    counted("fates.missed", "passed it by", "share", Film),
    counted("fates.bounced", "bounced back", "share", Film),
    counted("fates.drifted", "fog to the filters", "share", Film),
    counted("fates.dried", "met the part dry", "share", Film),
    of("gun.inlet_bar", "inlet pressure, trigger open", "bar", Film),
    of("gun.cap_bar", "cap pressure", "bar", Film),
    of("gun.free_air_l_min", "free air", "L/min", Film),
    of("gun.fluid_ml_min", "paint flow", "mL/min", Film),
    of("gun.air_liquid_ratio", "air over paint by mass", "", Film),
    of("gun.hvlp", "inside the definition of HVLP", "", Film),
    of("supply.verdict", "will the air do", "", Film),
    of("supply.gun_inlet_bar", "pressure that the line gives at the gun", "bar", Film),
    of("supply.margin_l_min", "air to spare", "L/min", Film),
    of("spray.sauter_um", "Sauter mean diameter", "um", Film),
    of("spray.volume_median_um", "volume median of the spray", "um", Film),
    counted("spray.overspray_volume_median_um", "volume median of the overspray", "um", Card),
    counted("pattern.length_mm", "fan height", "mm", Card),
    counted("pattern.width_mm", "fan thickness", "mm", Card),
    of("pattern.kind", "pattern", "", Card),
    counted("film.wet_um.mean", "wet film, mean", "um", Film),
    counted("film.wet_um.min", "wet film, thinnest", "um", Film),
    counted("film.wet_um.max", "wet film, thickest", "um", Film),
    ranged(counted("film.dry_um.mean", "dry film, mean", "um", Film)),
    counted("film.dry_um.min", "dry film, thinnest", "um", Film),
    counted("film.dry_um.max", "dry film, thickest", "um", Film),
    counted("film.thinnest_over_mean", "thinnest film over the mean", "share", Film),
    counted("film.cv_percent.value", "unevenness: standard deviation over mean", "%", Film),
    of("film.in_band_percent", "area with the film wanted", "%", Film),
    counted("finish.set_um.mean", "dry film once it has set, mean", "um", Set),
    of("finish.run_area_percent", "area that ran", "%", Set),
    of("finish.dry_area_percent", "area of dry spray", "%", Set),
    of("finish.bare_area_percent", "bare area", "%", Set),
    ranged(of("paint.sprayed_ml", "paint sprayed", "mL", Film)),
    counted("paint.on_part_ml", "paint on the part", "mL", Film),
    counted("paint.lost_ml", "paint lost", "mL", Film),
    of("paint.seconds", "trigger on", "s", Film),
    of("paint.kinematic_mm2_s", "viscosity in the cup", "mm2/s", Film),
];

/// What a point keeps where nothing else is asked for.
pub const DEFAULT_COLUMNS: &[&str] = &[
    "transfer_efficiency.value",
    "film.dry_um.mean",
    "film.dry_um.min",
    "film.thinnest_over_mean",
    "film.cv_percent.value",
    "film.in_band_percent",
    "finish.run_area_percent",
    "finish.dry_area_percent",
    "finish.bare_area_percent",
    "paint.sprayed_ml",
    "paint.seconds",
    "pattern.length_mm",
    "pattern.width_mm",
    "pattern.kind",
    "spray.sauter_um",
    "spray.volume_median_um",
];

impl Column {
    /// Paths of the ends of its likely range in the report, where it has one.
    pub(super) fn range_ends(&self) -> Option<[String; 2]> {
        let stem = self.path.strip_suffix(".value").or_else(|| self.path.strip_suffix(".mean"));
        let ends = ["low", "high"].map(|end| match stem {
            Some(stem) => format!("{stem}.model_{end}"),
            None => self.path.replace("_ml", &format!("_{end}_ml")),
        });
        self.ranged.then_some(ends)
    }

    /// The column of this dotted path.
    ///
    /// # Errors
    /// A path that is not in [`COLUMNS`], with the nearest one.
    pub fn find(path: &str) -> Result<&'static Self, ParameterError> {
        COLUMNS.iter().find(|c| c.path == path).ok_or_else(|| {
            let near = |c: &&Column| strsim::jaro_winkler(c.path, path);
            let best = COLUMNS.iter().max_by(|a, b| near(a).total_cmp(&near(b)));
            let hint = best.filter(|c| near(c) > 0.8).map(|c| format!(" (did you mean {}?)", c.path));
            let all: Vec<_> = COLUMNS.iter().map(|c| c.path).collect();
            let allowed = format!("figures of the report{}: {}", hint.unwrap_or_default(), all.join(", "));
            ParameterError::new("columns", path, allowed)
        })
    }
}
