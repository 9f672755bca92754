//! What a wet film is made of, and what a cell holds of it.

use super::QUANTA;
use super::age::FINE;
use crate::film::DryingLaws;

/// What a film is made of and where it lies.
#[derive(Debug, Clone, PartialEq)]
pub struct WetLaws {
    /// How it dries and stiffens.
    pub drying: DryingLaws,
    /// Density [kg/m3].
    pub density: f64,
    /// Surface tension [N/m].
    pub surface_tension: f64,
    /// Viscosity on landing, at the booth's temperature [Pa s].
    pub viscosity: f64,
    /// Yield stress on landing [Pa]; rises with the viscosity.
    pub yield_stress: f64,
    /// Time of an e-fold of the viscosity [s].
    pub setting_time: f64,
    /// Loss of solvents of each face, over that of the laws [-].
    pub airs: Vec<f64>,
    /// What runs gathers into tears.
    pub tears: bool,
}

impl WetLaws {
    /// A paint that neither dries nor stiffens, of this density [kg/m3] and viscosity [Pa s], on one face; it is looked at at least every
    /// `every` [s].
    #[must_use]
    pub fn unchanging(density: f64, viscosity: f64, every: f64) -> Self {
        let drying = DryingLaws {
            per_unit: 1.0,
            loss: vec![0.0; 2],
            diffusivity: vec![0.0; 2],
            stiffness: vec![0.0; 2],
            landed: 0.0,
            thinning: 1.0,
        };
        Self {
            drying,
            density,
            surface_tension: 0.0,
            viscosity,
            yield_stress: 0.0,
            setting_time: every / FINE,
            airs: vec![1.0],
            tears: false,
        }
    }
}

/// Film in one cell.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct WetCell {
    /// Solids that flow [in quanta].
    pub solids: u64,
    /// Solvents with them [in quanta].
    pub solvents: u64,
    /// Solids of earlier coats that have set, underneath [in quanta].
    pub under: u64,
    /// Solvents in those [in quanta].
    pub under_solvents: u64,
    /// Wet film that landed [in quanta].
    pub landed: u64,
    /// Solids of it [in quanta].
    pub landed_solids: u64,
    /// Wet film that has slid in from other cells [in quanta].
    pub slid_in: u64,
    /// Way that the surface of the coat that flows has slid here [m].
    pub slid: f64,
    /// The most that one of the coats beneath has slid [m].
    pub slid_before: f64,
    /// Solvents over solids that do not count towards its stiffness: it landed wetter than usual [-].
    pub uncounted: f64,
    /// 1 over viscosity [1/(Pa s)].
    pub mobility: f64,
    /// Film whose droplet marks are levelling [m].
    pub ripple: f64,
    /// Integral of dt over viscosity since it landed [1/Pa].
    pub thinness: f64,
    /// The same of film times dt over viscosity [m/Pa].
    pub thick_thinness: f64,
}

impl WetCell {
    /// Film that flows [m].
    #[must_use]
    pub fn film(&self) -> f64 {
        (self.solids + self.solvents) as f64 / QUANTA
    }

    /// All solids: the dry film [m].
    #[must_use]
    pub fn dry(&self) -> f64 {
        (self.solids + self.under) as f64 / QUANTA
    }

    /// Film as a mean over its levelling [m]; none where nothing levelled.
    #[must_use]
    pub fn levelling_film(&self) -> Option<f64> {
        (self.thinness > 0.0).then(|| self.thick_thinness / self.thinness)
    }

    /// All that it holds, what has set too [quanta].
    pub(super) fn held(&self) -> u64 {
        self.solids + self.solvents + self.under + self.under_solvents
    }

    /// Solvents over solids of what flows [-].
    pub(super) fn ratio(&self) -> f64 {
        self.solvents as f64 / (self.solids as f64).max(1.0)
    }

    /// Solids that come to those that flow, with what of their solvents does not count.
    pub(super) fn mix_in(&mut self, solids: u64, uncounted: f64) {
        let (here, more) = (self.solids as f64, solids as f64);
        if more > 0.0 && (uncounted > 0.0 || self.uncounted > 0.0) {
            self.uncounted = (here * self.uncounted + more * uncounted) / (here + more);
        }
    }
}
