//! Paints in water.

use super::super::PaintData;
use super::thinners::WATER;
use super::{MINUTE, SHEAR_INDEX, TYPICAL, UM, WATER_TENSION, f, setting, sheet, tin};
use crate::paint::ThinningOf;

const WATER_SHEAR: &str = "20-30 mPa s at 1e4 1/s seen for waterborne paints; an order of magnitude";

/// Ready to spray: 31 s DIN 4 at the cup's shear, 62 mPa s at 1e3 1/s (60-120, common practice), 16 % solids, 1.03 kg/L.
pub(super) const BASECOAT: PaintData = PaintData {
    id: "waterborne-basecoat",
    name: "waterborne basecoat",
    base: tin(1033.0, 0.176, 0.212, &[("water", 0.88), ("2-butoxyethanol", 0.12)]),
    hardener: None,
    thinner: WATER.medium,
    fast: WATER.fast,
    slow: WATER.slow,
    usual: (1.0, 0.0, 0.10, ThinningOf::Base),
    flow_index: f(0.68, WATER_SHEAR),
    high_shear_share: f(0.20, WATER_SHEAR),
    surface_tension: f(0.028, WATER_TENSION),
    setting: setting(1.2, 65.0, 0.3),
    isocyanate: false,
    dry_film_low: f(7.0 * UM, TYPICAL),
    dry_film_high: f(13.0 * UM, TYPICAL),
    sheet: sheet([1.2, 1.3], [25.0, 35.0], 2, 8.0 * MINUTE, None),
};

/// Ready to spray: 29 s DIN 4, 30 % solids, 1.03 kg/L.
pub(super) const WOOD_LACQUER: PaintData = PaintData {
    id: "wood-lacquer-water",
    name: "wood lacquer, water",
    base: tin(1032.0, 0.315, 0.152, &[("water", 0.92), ("2-butoxyethanol", 0.08)]),
    hardener: None,
    thinner: WATER.medium,
    fast: WATER.fast,
    slow: WATER.slow,
    usual: (1.0, 0.0, 0.05, ThinningOf::Base),
    flow_index: f(0.75, SHEAR_INDEX),
    high_shear_share: f(0.30, WATER_SHEAR),
    surface_tension: f(0.030, WATER_TENSION),
    setting: setting(0.8, 45.0, 0.1),
    isocyanate: false,
    dry_film_low: f(25.0 * UM, TYPICAL),
    dry_film_high: f(35.0 * UM, TYPICAL),
    sheet: sheet([1.3, 1.6], [25.0, 35.0], 2, 40.0 * MINUTE, None),
};
