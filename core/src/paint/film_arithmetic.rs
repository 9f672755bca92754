//! Film, coverage and solids by arithmetic: what is on a data sheet turned into what is in the cup and on the part.
//!
//! Wet film = volume on the part over area; dry film = wet film times volume solids; thinning by r makes VS/(1 + r). Coverage =
//! VS/dry film. ASTM D4414 (wet to dry ratio follows the volatiles, thinner included: seen); ft2 per US gallon is 231 in3 over
//! mil and ft2: exact. All arguments SI and inside their ranges; shares 0..=1.

use crate::error::{ParameterError, within};

/// Square feet per US gallon of one square metre per cubic metre: 3.785411784e-3 / 0.09290304, exact definitions.
const SQUARE_FEET_PER_GALLON: f64 = 3.785_411_784e-3 / 0.092_903_04;

/// Wet film [m] of a volume [m3] on the part, not sprayed, over an area [m2].
#[must_use]
pub fn wet_film(volume: f64, area: f64) -> f64 {
    volume / area
}

/// Dry film [m] of a wet film [m] of paint with these volume solids.
#[must_use]
pub fn dry_film(wet: f64, volume_solids: f64) -> f64 {
    wet * volume_solids
}

/// Wet film [m] that dries to a dry film [m].
#[must_use]
pub fn wet_film_for(dry: f64, volume_solids: f64) -> f64 {
    dry / volume_solids
}

/// Volume solids after adding thinner, `thinning` parts to one part of paint.
#[must_use]
pub fn thinned_solids(volume_solids: f64, thinning: f64) -> f64 {
    volume_solids / (1.0 + thinning)
}

/// Volume solids of what lands when a share of the volatiles is lost on the way.
#[must_use]
pub fn solids_at_panel(volume_solids: f64, lost: f64) -> f64 {
    volume_solids / (volume_solids + (1.0 - volume_solids) * (1.0 - lost))
}

/// Volume solids from solids by mass: density of the paint and of its volatiles [kg/m3], no change of volume on mixing.
///
/// Measured values are usually a little above (seen); not valid where pigment is more than its binder can wet.
///
/// # Errors
/// Shares or densities that leave no solids, or nothing but solids.
pub fn solids_by_volume(
    density: f64,
    mass_solids: f64,
    volatile_density: f64,
) -> Result<f64, ParameterError> {
    within("paint.mass_solids", mass_solids, 0.0, 1.0, "")?;
    within("paint.density", density, 500.0, 5000.0, "kg/m3")?;
    let solids = 1.0 - density * (1.0 - mass_solids) / volatile_density;
    if solids > 0.0 && solids <= 1.0 {
        return Ok(solids);
    }
    let most = 1.0 - volatile_density / density;
    let allowed = format!("above {most:.3}: below, the solvents alone would weigh more than the paint does");
    Err(ParameterError::new("paint.mass_solids", mass_solids, allowed))
}

/// Density of the dry film [kg/m3].
#[must_use]
pub fn dry_density(density: f64, mass_solids: f64, volume_solids: f64) -> f64 {
    density * mass_solids / volume_solids
}

/// Area per volume [m2/m3] that a dry film [m] covers when all that is sprayed lands.
#[must_use]
pub fn coverage(volume_solids: f64, dry: f64) -> f64 {
    volume_solids / dry
}

/// Coverage [m2/m3] when a share lands (`efficiency`) and a share is wasted in cup, hose and mixing vessel.
#[must_use]
pub fn practical_coverage(volume_solids: f64, dry: f64, efficiency: f64, waste: f64) -> f64 {
    coverage(volume_solids, dry) * efficiency * (1.0 - waste)
}

/// Paint [m3] for an area [m2] and a dry film [m].
///
/// # Errors
/// Solids, efficiency or waste at which no paint would ever reach.
pub fn paint_for(
    area: f64,
    dry: f64,
    volume_solids: f64,
    efficiency: f64,
    waste: f64,
) -> Result<f64, ParameterError> {
    within("volume solids", volume_solids, 1e-3, 1.0, "")?;
    within("transfer efficiency", efficiency, 1e-3, 1.0, "")?;
    within("waste", waste, 0.0, 0.99, "")?;
    Ok(area / practical_coverage(volume_solids, dry, efficiency, waste))
}

/// Coverage in square feet per US gallon of one in m2/m3.
#[must_use]
pub fn square_feet_per_gallon(coverage: f64) -> f64 {
    coverage * SQUARE_FEET_PER_GALLON
}
