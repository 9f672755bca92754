//! How fast a film on a part gives off its solvents, and how far it has set: what a film needs to know of its paint.
//!
//! A film is told by two numbers: its solids and its solvents, both as volumes over the area. All laws hang on r = solvents over
//! solids, tabled once a job; the tables are made by `evaporation::film_drying`.

/// Tabled laws of a film, over r from 0 in even steps.
#[derive(Debug, Clone, PartialEq)]
pub struct DryingLaws {
    /// Steps of r in one [-].
    pub per_unit: f64,
    /// Loss of solvents that the air can take, as a volume over area and time [m/s], in the job's air.
    pub loss: Vec<f64>,
    /// Diffusivity of solvents in the film [m2/s].
    pub diffusivity: Vec<f64>,
    /// Natural logarithm of viscosity over that on landing, at the class's usual loss in flight [-].
    pub stiffness: Vec<f64>,
    /// r of a film as it lands after the class's usual loss in flight [-].
    pub landed: f64,
    /// Of solvent that a film lands with above that, the share that thins it as the tables say [-]: the paint's own rule of
    /// dilution over the steepness of `stiffness`.
    pub thinning: f64,
}

/// The laws at one r.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingPoint {
    /// See [`DryingLaws::loss`].
    pub loss: f64,
    /// See [`DryingLaws::diffusivity`].
    pub diffusivity: f64,
    /// See [`DryingLaws::stiffness`].
    pub stiffness: f64,
}

impl DryingLaws {
    /// The laws at r = solvents over solids; held past the last.
    #[must_use]
    pub fn at(&self, r: f64) -> DryingPoint {
        let last = self.loss.len() - 1;
        let place = (r * self.per_unit).clamp(0.0, last as f64);
        let i = (place as usize).min(last.saturating_sub(1));
        let t = place - i as f64;
        let between = |table: &[f64]| table[i] + (table[(i + 1).min(last)] - table[i]) * t;
        DryingPoint {
            loss: between(&self.loss),
            diffusivity: between(&self.diffusivity),
            stiffness: between(&self.stiffness),
        }
    }

    /// Solvents over solids of a film that lands at r which its stiffness does not count [-]: what is above the usual landing thins
    /// it by the paint's rule of dilution alone, and from there it stiffens by what it gives off.
    #[must_use]
    pub fn uncounted(&self, r: f64) -> f64 {
        (1.0 - self.thinning) * (r - self.landed).max(0.0)
    }

    /// Stiffness at r [-]; held past the ends.
    #[must_use]
    pub fn stiffness_at(&self, r: f64) -> f64 {
        self.at(r.max(0.0)).stiffness
    }

    /// Volume that a film of these solids and solvents [m] gives off over area and time [m/s]: what the air can take, and
    /// diffusion to the surface (linear driving force, 3 D/h) as a resistance that counts by the share of resin.
    #[must_use]
    pub fn flux(&self, solids: f64, solvents: f64) -> f64 {
        flux(&self.at(solvents / solids.max(1e-18)), solids, solvents)
    }
}

/// As [`DryingLaws::flux`], at laws that are at hand.
#[must_use]
pub fn flux(laws: &DryingPoint, solids: f64, solvents: f64) -> f64 {
    let film = solids + solvents;
    if film <= 0.0 || laws.loss <= 0.0 {
        return 0.0;
    }
    let inner = inner_flux(laws.diffusivity, solvents, film);
    laws.loss * inner / (inner + solids / film * laws.loss)
}

/// What diffusion can bring to the surface of a film [m/s].
#[must_use]
pub fn inner_flux(diffusivity: f64, solvents: f64, film: f64) -> f64 {
    3.0 * diffusivity * solvents / (film * film)
}
