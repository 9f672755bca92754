//! Thinners of three speeds, by the family of solvents that the paint takes.
//!
//! Density by volume and viscosity by Arrhenius' rule from the solvents' handbook values at 20 C (PM acetate 1.15, 1-butanol
//! 2.95, 2-butoxyethanol 3.2 mPa s from memory). The blends are ours: generic, none is a product's.

use super::super::ComponentData;
use super::f;

const COMPUTED: &str = "computed from its solvents' handbook values at 20 C";
const NO_SOLIDS: &str = "thinner has no solids";

/// Three speeds of one family.
pub(super) struct Family {
    pub fast: ComponentData,
    pub medium: ComponentData,
    pub slow: ComponentData,
}

/// Thinner of a density [kg/m3] and a viscosity [Pa s].
pub(super) const fn thinner(
    density: f64,
    viscosity: f64,
    solvents: &'static [(&'static str, f64)],
) -> ComponentData {
    ComponentData {
        density: f(density, COMPUTED),
        volume_solids: f(0.0, NO_SOLIDS),
        viscosity: f(viscosity, COMPUTED),
        solvents,
    }
}

/// Acetates: two-pack clears, enamels, surfacers, sealers.
pub(super) const ACETATE: Family = Family {
    fast: thinner(888.0, 0.62e-3, &[("ethyl acetate", 0.40), ("n-butyl acetate", 0.40), ("o-xylene", 0.20)]),
    medium: thinner(875.0, 0.70e-3, &[("n-butyl acetate", 0.70), ("o-xylene", 0.20), ("2-heptanone", 0.10)]),
    slow: thinner(878.0, 0.90e-3, &[("n-butyl acetate", 0.30), ("PM acetate", 0.40), ("2-heptanone", 0.30)]),
};

/// Ketone, aromatic and alcohol: epoxies.
pub(super) const EPOXY: Family = Family {
    fast: thinner(828.0, 0.76e-3, &[("MEK", 0.50), ("o-xylene", 0.30), ("1-butanol", 0.20)]),
    medium: thinner(874.0, 1.13e-3, &[("o-xylene", 0.60), ("1-butanol", 0.20), ("PM acetate", 0.20)]),
    slow: thinner(885.0, 1.23e-3, &[("o-xylene", 0.35), ("PM acetate", 0.45), ("1-butanol", 0.20)]),
};

/// Esters, ketone and toluene: lacquers and stains.
pub(super) const LACQUER: Family = Family {
    fast: thinner(845.0, 0.52e-3, &[("acetone", 0.35), ("n-butyl acetate", 0.35), ("toluene", 0.30)]),
    medium: thinner(881.0, 0.60e-3, &[("ethyl acetate", 0.25), ("n-butyl acetate", 0.40), ("toluene", 0.35)]),
    slow: thinner(891.0, 0.84e-3, &[("n-butyl acetate", 0.50), ("o-xylene", 0.25), ("PM acetate", 0.25)]),
};

/// White spirit, here n-decane: alkyds.
pub(super) const WHITE_SPIRIT: Family = Family {
    fast: thinner(805.0, 0.86e-3, &[("n-decane", 0.50), ("o-xylene", 0.50)]),
    medium: thinner(730.0, 0.92e-3, &[("n-decane", 1.0)]),
    slow: thinner(749.0, 1.10e-3, &[("n-decane", 0.85), ("2-butoxyethanol", 0.15)]),
};

/// Water with a little of a fast or a slow co-solvent; such mixtures are thicker than water (from memory).
pub(super) const WATER: Family = Family {
    fast: thinner(967.0, 1.5e-3, &[("water", 0.85), ("2-propanol", 0.15)]),
    medium: thinner(998.0, 1.0e-3, &[("water", 1.0)]),
    slow: thinner(984.0, 1.5e-3, &[("water", 0.90), ("2-butoxyethanol", 0.10)]),
};
