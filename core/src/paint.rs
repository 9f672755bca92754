//! Paint as it is in the cup.

/// One volatile of a paint.
#[derive(Debug, Clone, PartialEq)]
pub struct Solvent {
    /// Name ("n-butyl acetate", "water").
    pub name: String,
    /// Share of the sprayed paint's volume [-].
    pub volume_share: f64,
}

/// A paint, mixed and thinned, at its temperature. Typical values: replace by the data sheet's.
#[derive(Debug, Clone, PartialEq)]
pub struct Paint {
    /// Catalogue id.
    pub id: String,
    /// Plain name for the screen.
    pub name: String,
    /// Density in the cup [kg/m3].
    pub density: f64,
    /// Volume solids in the cup [-].
    pub volume_solids: f64,
    /// Viscosity at the cup's shear rate (about 100 1/s) [Pa s].
    pub viscosity: f64,
    /// Power-law index above the cup's shear rate [-], 1 Newtonian.
    pub flow_index: f64,
    /// Viscosity that shear-thinning does not go below [Pa s].
    pub viscosity_high_shear: f64,
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Volatiles, at most three; their shares sum to 1 - volume_solids.
    pub solvents: Vec<Solvent>,
    /// Two-pack with isocyanate hardener: its cautions are shown.
    pub isocyanate: bool,
    /// Usual dry film of one coat [m], lowest and highest.
    pub dry_film_per_coat: [f64; 2],
    /// Paint temperature [K].
    pub temperature: f64,
}
