//! A wet film that gravity pulls along a slope.
//!
//! Thin film on a wall (lubrication: the standard result): wall stress P h with P = density times gravity along the slope; tau = tau0 + K rate^n:
//! it stands up to h0 = tau0/P, and above that its surface moves at n/(n+1) (P/K)^(1/n) (h - h0)^((n+1)/n) (seen). Newtonian, K = mu:
//! surface P h^2/(2 mu), mean P h^2/(3 mu), flux a width P h^3/(3 mu). While viscosity rises as mu0 exp(t/tau_v) the surface slides
//! P (h - h0)^2 tau_v/(2 mu0) in all. Comparison: a film sags visibly where its surface would move faster than 400-600 um/s,
//! which fits an anti-sag index within 2 mil (Wang, Chapelle, Carreau & Heuzey, Prog. Org. Coat. 153 (2021) 106139: abstract seen).

use crate::math::{cbrt, pow};

/// Standard gravity [m/s2].
pub const GRAVITY: f64 = 9.806_65;
/// Way a film slides before one sees it [m]: the gap between the stripes of an anti-sag test, 1/16 in (ASTM D4400, seen).
pub const RUN: f64 = 1.6e-3;
/// Surface speed from which a film is said to sag [m/s]: the middle of 400-600 um/s (seen).
pub const CRITICAL_SPEED: f64 = 500e-6;
/// Spacing of the tears of a run over (h l^2)^(1/3), l^2 = surface tension over P: the fastest growing wave of a film's lower edge
/// (Troian, Herbolzheimer, Safran & Joanny, Europhys. Lett. 10 (1989) 25, from memory: 14 h (3 Ca)^(-1/3); the viscosity drops out).
const TEAR_SPACING: f64 = 14.0;

/// A film and its slope; viscosity K rate^(n-1) above a yield stress.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slide {
    /// Density times gravity along the slope [N/m3]; above 0.
    pub pull: f64,
    /// Consistency K [Pa s^n]; the viscosity where `index` is 1.
    pub consistency: f64,
    /// Flow index n [-].
    pub index: f64,
    /// Yield stress [Pa].
    pub yield_stress: f64,
}

impl Slide {
    /// A Newtonian film of this viscosity [Pa s].
    #[must_use]
    pub fn newtonian(pull: f64, viscosity: f64) -> Self {
        Self { pull, consistency: viscosity, index: 1.0, yield_stress: 0.0 }
    }

    /// Stress at the wall under a film [Pa].
    #[must_use]
    pub fn wall_stress(&self, film: f64) -> f64 {
        self.pull * film
    }

    /// Thickest film that stands still for ever [m].
    #[must_use]
    pub fn stands(&self) -> f64 {
        self.yield_stress / self.pull
    }

    /// Speed of the surface [m/s].
    #[must_use]
    pub fn surface_speed(&self, film: f64) -> f64 {
        let above = (film - self.stands()).max(0.0);
        let n = self.index;
        n / (n + 1.0) * pow(self.pull / self.consistency, 1.0 / n) * pow(above, (n + 1.0) / n)
    }

    /// Flux a width [m2/s] of a film with `index` 1.
    #[must_use]
    pub fn flux(&self, film: f64) -> f64 {
        flux(self.pull / self.consistency, self.stands(), film)
    }

    /// Mean speed over the thickness [m/s] of a film with `index` 1.
    #[must_use]
    pub fn mean_speed(&self, film: f64) -> f64 {
        self.flux(film) / film
    }

    /// How far the surface of a film with `index` 1 slides in all [m], its viscosity rising e-fold every `setting` [s].
    #[must_use]
    pub fn slides(&self, film: f64, setting: f64) -> f64 {
        self.surface_speed(film) * setting
    }

    /// Film whose surface moves at `speed` [m/s]: the limit of sagging by the critical speed [m].
    #[must_use]
    pub fn limit(&self, speed: f64) -> f64 {
        let n = self.index;
        let above = speed * (n + 1.0) / n * pow(self.consistency / self.pull, 1.0 / n);
        pow(above, n / (n + 1.0)) + self.stands()
    }

    /// Distance between the tears of a run [m] of paint with this surface tension [N/m].
    #[must_use]
    pub fn tear_spacing(&self, film: f64, surface_tension: f64) -> f64 {
        TEAR_SPACING * cbrt(film * surface_tension / self.pull)
    }
}

/// Flux a width [m2/s] of a film [m] with a yield thickness [m]; `mobility` is pull over viscosity [1/(m s)].
#[must_use]
pub fn flux(mobility: f64, stands: f64, film: f64) -> f64 {
    let above = (film - stands).max(0.0);
    mobility * above * above * (2.0 * film + stands) / 6.0
}
