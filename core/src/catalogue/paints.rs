//! The paints: generic classes, typical, to be replaced by the product's data sheet.

mod one_pack;
mod thinners;
mod two_pack;
mod water;

#[cfg(test)]
mod tests;

use super::{ComponentData, Figure, PaintData, SettingData, SheetData};

const UM: f64 = 1e-6;
const MM: f64 = 1e-3;
const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;

const TYPICAL: &str = "common practice for the class";
const SEEN_FILM: &str = "common practice for the class; inside a range seen on data sheets";
const READY: &str = "ours: gives the class's usual density and solids ready to spray (common practice)";
const CUP: &str = "ours: gives the class's usual cup seconds ready to spray (common practice)";
const SHEAR: &str = "ours: order of magnitude, no measured curve found";
const SHEAR_INDEX: &str =
    "ours: grows more shear-thinning with pigment and flow agents; no measured curve found";
const TENSION: &str = "common practice: close to its solvents', 24-32 mN/m";
const WATER_TENSION: &str =
    "common practice: 25-32 mN/m, far below water's because of surfactant and co-solvent";
const FILM: &str =
    "common practice: 0.1-1 Pa s on landing, more with pigment and flow agents; no measured table found";
const SETTING: &str =
    "ours: so that a common coat stands upright and about half as much again runs (common practice)";
const YIELD: &str =
    "common practice: 0.2-2 Pa where it is thixotropic, 0 where it flows out; no measured table found";

const fn f(value: f64, origin: &'static str) -> Figure {
    Figure { value, origin }
}

/// A tin: density [kg/m3], volume solids, viscosity [Pa s] and solvents.
const fn tin(
    density: f64,
    solids: f64,
    viscosity: f64,
    solvents: &'static [(&'static str, f64)],
) -> ComponentData {
    ComponentData {
        density: f(density, READY),
        volume_solids: f(solids, READY),
        viscosity: f(viscosity, CUP),
        solvents,
    }
}

/// Film of the usual mix on landing: viscosity [Pa s], time of an e-fold rise [s], yield stress [Pa].
const fn setting(viscosity: f64, time: f64, yield_stress: f64) -> SettingData {
    SettingData {
        film_viscosity: f(viscosity, FILM),
        setting_time: f(time, SETTING),
        yield_stress: f(yield_stress, YIELD),
    }
}

/// Window of the class's data sheets: tip [mm], seconds DIN 4, coats, flash and pot life [s].
const fn sheet(
    tip: [f64; 2],
    cup_seconds: [f64; 2],
    coats: u32,
    flash: f64,
    pot_life: Option<f64>,
) -> SheetData {
    SheetData { tip: [tip[0] * MM, tip[1] * MM], cup_seconds, coats, flash, pot_life, origin: TYPICAL }
}

/// The paints.
pub(super) const ALL: &[PaintData] = &[
    two_pack::CLEAR,
    one_pack::SOLVENT_BASECOAT,
    water::BASECOAT,
    two_pack::EPOXY_PRIMER,
    two_pack::PRIMER_SURFACER,
    two_pack::SINGLE_STAGE_ENAMEL,
    two_pack::SEALER,
    two_pack::ZINC_RICH_PRIMER,
    one_pack::ALKYD_ENAMEL,
    one_pack::WOOD_LACQUER,
    water::WOOD_LACQUER,
    one_pack::STAIN,
];
