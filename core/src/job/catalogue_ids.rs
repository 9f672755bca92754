//! Ids that a job file may name.

use crate::catalogue;
use crate::evaporation::Volatile;
use crate::flow_cup::Cup;

/// Kits of the catalogue.
pub(super) fn kits() -> Vec<&'static str> {
    catalogue::kits().iter().map(|k| k.id).collect()
}

/// Paints of the catalogue.
pub(super) fn paints() -> Vec<&'static str> {
    catalogue::paints().iter().map(|p| p.id).collect()
}

/// Compressors of the catalogue.
pub(super) fn compressors() -> Vec<&'static str> {
    catalogue::compressors().iter().map(|c| c.id).collect()
}

/// Flow cups.
pub(super) fn cups() -> Vec<&'static str> {
    Cup::all().map(Cup::id).collect()
}

/// Volatiles whose drying is known.
pub(super) fn solvents() -> Vec<&'static str> {
    Volatile::all().map(|v| v.name).collect()
}
