//! Two-pack paints.

use super::super::{ComponentData, PaintData};
use super::thinners::{ACETATE, EPOXY};
use super::{HOUR, MINUTE, SEEN_FILM, SHEAR, SHEAR_INDEX, TENSION, TYPICAL, UM, f, setting, sheet, tin};
use crate::paint::ThinningOf;

/// Hardener of acrylic paints, with isocyanate.
const ISOCYANATE: ComponentData = tin(1060.0, 0.62, 0.065, &[("n-butyl acetate", 1.0)]);

/// Ready to spray: 18 s DIN 4, 45 % solids, 1.0 kg/L.
pub(super) const CLEAR: PaintData = PaintData {
    id: "two-pack-clear",
    name: "two-pack clear",
    base: tin(985.0, 0.43, 0.104, &[("n-butyl acetate", 0.65), ("o-xylene", 0.25), ("2-heptanone", 0.10)]),
    hardener: Some(ISOCYANATE),
    thinner: ACETATE.medium,
    fast: ACETATE.fast,
    slow: ACETATE.slow,
    usual: (2.0, 1.0, 0.10, ThinningOf::Mix),
    flow_index: f(0.88, "ours: slightly shear-thinning; 0.58 of the cup's viscosity at the tip's 1e4 1/s"),
    high_shear_share: f(0.45, SHEAR),
    surface_tension: f(0.028, "common practice: 25-29 mN/m, close to its solvents'"),
    setting: setting(0.5, 28.0, 0.0),
    isocyanate: true,
    dry_film_low: f(22.0 * UM, TYPICAL),
    dry_film_high: f(35.0 * UM, TYPICAL),
    sheet: sheet([1.2, 1.4], [15.0, 20.0], 2, 8.0 * MINUTE, Some(2.0 * HOUR)),
};

/// Ready to spray: 22 s DIN 4, 45 % solids, 1.35 kg/L (density and 37-53 % solids seen on data sheets). Amine hardener.
pub(super) const EPOXY_PRIMER: PaintData = PaintData {
    id: "epoxy-primer",
    name: "epoxy primer",
    base: tin(1507.0, 0.469, 0.155, &[("o-xylene", 0.60), ("1-butanol", 0.20), ("PM acetate", 0.20)]),
    hardener: Some(tin(960.0, 0.60, 0.25, &[("o-xylene", 0.70), ("1-butanol", 0.30)])),
    thinner: EPOXY.medium,
    fast: EPOXY.fast,
    slow: EPOXY.slow,
    usual: (4.0, 1.0, 0.10, ThinningOf::Mix),
    flow_index: f(0.78, SHEAR_INDEX),
    high_shear_share: f(0.30, SHEAR),
    surface_tension: f(0.030, TENSION),
    setting: setting(1.0, 55.0, 0.4),
    isocyanate: false,
    dry_film_low: f(25.0 * UM, SEEN_FILM),
    dry_film_high: f(40.0 * UM, SEEN_FILM),
    sheet: sheet([1.4, 1.8], [18.0, 25.0], 2, 15.0 * MINUTE, Some(8.0 * HOUR)),
};

/// Ready to spray: 24 s DIN 4, 45 % solids, 1.4 kg/L.
pub(super) const PRIMER_SURFACER: PaintData = PaintData {
    id: "primer-surfacer",
    name: "primer-surfacer (filler primer)",
    base: tin(1551.0, 0.464, 0.288, &[("n-butyl acetate", 0.60), ("o-xylene", 0.30), ("PM acetate", 0.10)]),
    hardener: Some(ISOCYANATE),
    thinner: ACETATE.medium,
    fast: ACETATE.fast,
    slow: ACETATE.slow,
    usual: (4.0, 1.0, 0.10, ThinningOf::Mix),
    flow_index: f(0.74, SHEAR_INDEX),
    high_shear_share: f(0.22, SHEAR),
    surface_tension: f(0.029, TENSION),
    setting: setting(1.5, 80.0, 0.8),
    isocyanate: true,
    dry_film_low: f(40.0 * UM, TYPICAL),
    dry_film_high: f(60.0 * UM, TYPICAL),
    sheet: sheet([1.6, 1.9], [20.0, 28.0], 2, 10.0 * MINUTE, Some(HOUR)),
};

/// Ready to spray: 19 s DIN 4, 42 % solids, 1.08 kg/L.
pub(super) const SINGLE_STAGE_ENAMEL: PaintData = PaintData {
    id: "single-stage-enamel",
    name: "single-stage enamel, two-pack",
    base: tin(1121.0, 0.383, 0.138, &[("n-butyl acetate", 0.65), ("o-xylene", 0.25), ("PM acetate", 0.10)]),
    hardener: Some(ISOCYANATE),
    thinner: ACETATE.medium,
    fast: ACETATE.fast,
    slow: ACETATE.slow,
    usual: (2.0, 1.0, 0.10, ThinningOf::Mix),
    flow_index: f(0.85, SHEAR_INDEX),
    high_shear_share: f(0.45, SHEAR),
    surface_tension: f(0.028, TENSION),
    setting: setting(0.5, 28.0, 0.0),
    isocyanate: true,
    dry_film_low: f(25.0 * UM, TYPICAL),
    dry_film_high: f(35.0 * UM, TYPICAL),
    sheet: sheet([1.3, 1.4], [16.0, 22.0], 2, 12.0 * MINUTE, Some(3.0 * HOUR)),
};

/// Ready to spray: 18 s DIN 4, 38 % solids, 1.2 kg/L (density seen). Painted over wet on wet.
pub(super) const SEALER: PaintData = PaintData {
    id: "two-pack-sealer",
    name: "two-pack sealer, wet on wet",
    base: tin(1316.0, 0.415, 0.219, &[("n-butyl acetate", 0.65), ("o-xylene", 0.25), ("2-heptanone", 0.10)]),
    hardener: Some(ISOCYANATE),
    thinner: ACETATE.medium,
    fast: ACETATE.fast,
    slow: ACETATE.slow,
    usual: (4.0, 1.0, 0.20, ThinningOf::Mix),
    flow_index: f(0.84, SHEAR_INDEX),
    high_shear_share: f(0.45, SHEAR),
    surface_tension: f(0.028, TENSION),
    setting: setting(0.6, 32.0, 0.15),
    isocyanate: true,
    dry_film_low: f(15.0 * UM, SEEN_FILM),
    dry_film_high: f(35.0 * UM, SEEN_FILM),
    sheet: sheet([1.3, 1.4], [16.0, 20.0], 1, 15.0 * MINUTE, Some(HOUR)),
};

/// Ready to spray: 28 s DIN 4, 48 % solids, 2.4 kg/L: zinc dust in epoxy. Amine hardener; settles, keep it stirred.
pub(super) const ZINC_RICH_PRIMER: PaintData = PaintData {
    id: "zinc-rich-primer",
    name: "zinc-rich primer",
    base: tin(2953.0, 0.522, 0.517, &[("o-xylene", 0.60), ("1-butanol", 0.20), ("PM acetate", 0.20)]),
    hardener: Some(tin(950.0, 0.55, 0.30, &[("o-xylene", 0.70), ("1-butanol", 0.30)])),
    thinner: EPOXY.medium,
    fast: EPOXY.fast,
    slow: EPOXY.slow,
    usual: (4.0, 1.0, 0.10, ThinningOf::Mix),
    flow_index: f(0.65, SHEAR_INDEX),
    high_shear_share: f(0.12, SHEAR),
    surface_tension: f(0.030, TENSION),
    setting: setting(2.0, 105.0, 2.0),
    isocyanate: false,
    dry_film_low: f(40.0 * UM, TYPICAL),
    dry_film_high: f(75.0 * UM, TYPICAL),
    sheet: sheet([1.8, 2.2], [24.0, 35.0], 1, 20.0 * MINUTE, Some(8.0 * HOUR)),
};
