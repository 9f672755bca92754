//! The paints: generic classes, typical, to be replaced by the product's data sheet.

use super::{ComponentData, Figure, PaintData};
use crate::paint::ThinningOf;

const UM: f64 = 1e-6;

const TYPICAL: &str = "common practice for the class";
const READY: &str = "ours: gives the class's usual density and solids ready to spray (common practice)";
const CUP: &str = "ours: gives the class's usual cup seconds ready to spray (common practice)";
const THINNER: &str = "computed from its solvents' handbook values at 20 C";
const SHEAR: &str = "ours: order of magnitude, no measured curve found";

const fn f(value: f64, origin: &'static str) -> Figure {
    Figure { value, origin }
}

/// The paints.
pub(super) const ALL: &[PaintData] = &[
    PaintData {
        // Ready to spray: 18 s DIN 4, 45 % solids, 1.0 kg/L.
        id: "two-pack-clear",
        name: "two-pack clear",
        base: ComponentData {
            density: f(985.0, READY),
            volume_solids: f(0.43, READY),
            viscosity: f(0.104, CUP),
            solvents: &[("n-butyl acetate", 0.65), ("o-xylene", 0.25), ("2-heptanone", 0.10)],
        },
        hardener: Some(ComponentData {
            density: f(1060.0, READY),
            volume_solids: f(0.62, READY),
            viscosity: f(0.065, CUP),
            solvents: &[("n-butyl acetate", 1.0)],
        }),
        thinner: ComponentData {
            density: f(875.0, THINNER),
            volume_solids: f(0.0, "thinner has no solids"),
            viscosity: f(0.7e-3, THINNER),
            solvents: &[("n-butyl acetate", 0.70), ("o-xylene", 0.20), ("2-heptanone", 0.10)],
        },
        usual: (2.0, 1.0, 0.10, ThinningOf::Mix),
        flow_index: f(
            0.88,
            "ours: slightly shear-thinning; 0.58 of the cup's viscosity at the tip's 1e4 1/s",
        ),
        high_shear_share: f(0.45, SHEAR),
        surface_tension: f(0.028, "common practice: 25-29 mN/m, close to its solvents'"),
        isocyanate: true,
        dry_film_low: f(22.0 * UM, TYPICAL),
        dry_film_high: f(35.0 * UM, TYPICAL),
    },
    PaintData {
        // Ready to spray: 16 s DIN 4, 14 % solids, 0.98 kg/L.
        id: "solvent-basecoat",
        name: "solvent basecoat",
        base: ComponentData {
            density: f(1030.0, READY),
            volume_solids: f(0.21, READY),
            viscosity: f(0.347, CUP),
            solvents: &[("n-butyl acetate", 0.65), ("o-xylene", 0.22), ("ethyl acetate", 0.13)],
        },
        hardener: None,
        thinner: ComponentData {
            density: f(884.0, THINNER),
            volume_solids: f(0.0, "thinner has no solids"),
            viscosity: f(0.69e-3, THINNER),
            solvents: &[("n-butyl acetate", 0.60), ("o-xylene", 0.20), ("ethyl acetate", 0.20)],
        },
        usual: (1.0, 0.0, 0.50, ThinningOf::Base),
        flow_index: f(0.86, "ours: shear-thinning by its flow agents"),
        high_shear_share: f(0.60, SHEAR),
        surface_tension: f(0.026, "common practice: 24-28 mN/m"),
        isocyanate: false,
        dry_film_low: f(8.0 * UM, TYPICAL),
        dry_film_high: f(15.0 * UM, TYPICAL),
    },
];
