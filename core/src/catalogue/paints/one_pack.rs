//! One-pack paints in solvent.

use super::super::PaintData;
use super::thinners::{ACETATE, LACQUER, WHITE_SPIRIT, thinner};
use super::{MINUTE, SHEAR, SHEAR_INDEX, TENSION, TYPICAL, UM, f, setting, sheet, tin};
use crate::paint::ThinningOf;

/// Ready to spray: 16 s DIN 4, 14 % solids, 0.98 kg/L.
pub(super) const SOLVENT_BASECOAT: PaintData = PaintData {
    id: "solvent-basecoat",
    name: "solvent basecoat",
    base: tin(1030.0, 0.21, 0.347, &[("n-butyl acetate", 0.65), ("o-xylene", 0.22), ("ethyl acetate", 0.13)]),
    hardener: None,
    thinner: thinner(
        884.0,
        0.69e-3,
        &[("n-butyl acetate", 0.60), ("o-xylene", 0.20), ("ethyl acetate", 0.20)],
    ),
    fast: ACETATE.fast,
    slow: ACETATE.slow,
    usual: (1.0, 0.0, 0.50, ThinningOf::Base),
    flow_index: f(0.86, "ours: shear-thinning by its flow agents"),
    high_shear_share: f(0.60, SHEAR),
    surface_tension: f(0.026, "common practice: 24-28 mN/m"),
    setting: setting(0.3, 17.0, 0.0),
    isocyanate: false,
    dry_film_low: f(8.0 * UM, TYPICAL),
    dry_film_high: f(15.0 * UM, TYPICAL),
    sheet: sheet([1.2, 1.4], [14.0, 18.0], 2, 8.0 * MINUTE, None),
};

/// Ready to spray: 25 s DIN 4, 42 % solids, 1.05 kg/L.
pub(super) const ALKYD_ENAMEL: PaintData = PaintData {
    id: "alkyd-enamel",
    name: "alkyd enamel",
    base: tin(1098.0, 0.483, 0.204, &[("n-decane", 0.80), ("o-xylene", 0.20)]),
    hardener: None,
    thinner: WHITE_SPIRIT.medium,
    fast: WHITE_SPIRIT.fast,
    slow: WHITE_SPIRIT.slow,
    usual: (1.0, 0.0, 0.15, ThinningOf::Base),
    flow_index: f(0.82, SHEAR_INDEX),
    high_shear_share: f(0.40, SHEAR),
    surface_tension: f(0.027, TENSION),
    setting: setting(0.8, 45.0, 0.0),
    isocyanate: false,
    dry_film_low: f(25.0 * UM, TYPICAL),
    dry_film_high: f(35.0 * UM, TYPICAL),
    sheet: sheet([1.4, 1.8], [20.0, 30.0], 2, 30.0 * MINUTE, None),
};

/// Nitrocellulose or acrylic lacquer. Ready to spray: 20 s DIN 4, 20 % solids, 0.93 kg/L.
pub(super) const WOOD_LACQUER: PaintData = PaintData {
    id: "wood-lacquer-solvent",
    name: "wood lacquer, solvent",
    base: tin(945.0, 0.26, 0.260, &[("n-butyl acetate", 0.50), ("toluene", 0.30), ("ethyl acetate", 0.20)]),
    hardener: None,
    thinner: LACQUER.medium,
    fast: LACQUER.fast,
    slow: LACQUER.slow,
    usual: (1.0, 0.0, 0.30, ThinningOf::Base),
    flow_index: f(0.90, SHEAR_INDEX),
    high_shear_share: f(0.55, SHEAR),
    surface_tension: f(0.026, TENSION),
    setting: setting(0.4, 23.0, 0.0),
    isocyanate: false,
    dry_film_low: f(15.0 * UM, TYPICAL),
    dry_film_high: f(25.0 * UM, TYPICAL),
    sheet: sheet([1.4, 1.8], [18.0, 25.0], 2, 30.0 * MINUTE, None),
};

/// Ready to spray: 11-13 s DIN 4, 12 % solids, 0.88 kg/L.
pub(super) const STAIN: PaintData = PaintData {
    id: "stain",
    name: "wood stain, solvent",
    base: tin(
        880.0,
        0.132,
        0.0164,
        &[("n-butyl acetate", 0.40), ("1-methoxy-2-propanol", 0.30), ("ethanol", 0.30)],
    ),
    hardener: None,
    thinner: LACQUER.medium,
    fast: LACQUER.fast,
    slow: LACQUER.slow,
    usual: (1.0, 0.0, 0.10, ThinningOf::Base),
    flow_index: f(1.0, "ours: too thin to thin further by shear"),
    high_shear_share: f(1.0, "as the flow index"),
    surface_tension: f(0.025, TENSION),
    setting: setting(0.06, 3.5, 0.0),
    isocyanate: false,
    dry_film_low: f(3.0 * UM, TYPICAL),
    dry_film_high: f(8.0 * UM, TYPICAL),
    sheet: sheet([0.8, 1.3], [10.5, 13.0], 1, 15.0 * MINUTE, None),
};
