//! The drying curve of a paint, worked out once at set-up in f64.
//!
//! Spalding mass transfer with Stefan flow, each volatile by ln(1+B)/B (Y_s - Y_inf)/(1 - Y_s) of the whole vapour, heat by the
//! same film theory, film properties by the 1/3 rule, Sh = Nu taken out (Ranz & Marshall 1952): droplet and temperature then
//! depend on exposure s = integral (Sh/2) dt / d0^2 alone. Cooling is transient: it takes as long as a flight. Activity:
//! mole share of the volatiles times Flory-Huggins phi exp(phi_r + chi phi_r^2). Skin: diffusion inside the droplet, linear driving
//! force, as a series resistance. Limits: vapour of the spray around and water from the air onto solvent paint are left out.

use super::EvaporationCurve;
use super::solvent::{MOLAR_GAS_CONSTANT, Volatile};
use crate::air::{MOLAR_MASS, ROOM_PRESSURE, conductivity, water_saturation};
use crate::error::{ParameterError, within};
use crate::math::{cbrt, exp, ln, pow};
use crate::paint::{MOST_SOLVENTS, Paint};

/// Flory-Huggins interaction of resin and solvent [-]: 0.3-0.5 for good solvents (from memory).
const INTERACTION: f64 = 0.4;
/// Diffusivity of a solvent in itself [m2/s]; order of magnitude for thin liquids.
const INNER_DIFFUSIVITY: f64 = 1e-9;
/// Decades of diffusivity lost from pure solvent to pure resin, times resin share squared [-]. Ours: 1e-10 at half
/// resin, 6e-13 at 0.9, as solvents in polymers go.
const INNER_DECADES: f64 = 4.0;
/// Specific heat of solids [J/(kg K)] and their density [kg/m3] where only their heat counts.
const SOLIDS_HEAT: f64 = 1500.0 * 1150.0;
/// Exposure at which the curve ends at the latest [s/m2]: 0.4 s of a 10 um droplet.
const LONGEST: f64 = 4e9;
/// Error allowed in one step, of volume share and of temperature over 100 K.
const TOLERANCE: f64 = 1e-6;
/// Error of a straight line between knots that is allowed, as a share of the first volume.
const STRAIGHT: f64 = 9e-4;
/// Knots kept at most.
const KNOTS: usize = 160;

/// Share of the pure volatiles' vapour pressure over a mix with this share of resin by volume [-].
pub(super) fn activity(resin: f64) -> f64 {
    (1.0 - resin) * exp(resin + INTERACTION * resin * resin)
}

/// Diffusivity of the volatiles in it [m2/s].
pub(super) fn inner_diffusivity(resin: f64) -> f64 {
    INNER_DIFFUSIVITY * pow(10.0, -INNER_DECADES * resin * resin)
}

/// Air around the droplets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingAir {
    /// Temperature [K], -10..=60 C.
    pub temperature: f64,
    /// Relative humidity, 0..=1.
    pub humidity: f64,
}

/// A droplet on its way: concentration of each volatile [kg per m3 of first volume], temperature [K].
#[derive(Debug, Clone, Copy)]
struct Droplet {
    mass: [f64; MOST_SOLVENTS],
    temperature: f64,
}

impl Droplet {
    fn plus(&self, rate: &Self, h: f64) -> Self {
        let mut next = *self;
        for (m, r) in next.mass.iter_mut().zip(rate.mass) {
            *m = (*m + r * h).max(0.0);
        }
        next.temperature += rate.temperature * h;
        next
    }
}

/// A paint's drying: `new` checks, `curve` runs.
#[derive(Debug, Clone)]
pub struct Drying {
    volatiles: Vec<Volatile>,
    start: [f64; MOST_SOLVENTS],
    solids: f64,
    first_temperature: f64,
    air: DryingAir,
    vapour_mass_share: f64,
}

impl Drying {
    /// Drying of a paint in this air.
    ///
    /// # Errors
    /// Air or paint out of range, unknown solvent, more than `MOST_SOLVENTS`.
    pub fn new(paint: &Paint, air: DryingAir) -> Result<Self, ParameterError> {
        within("booth.temperature", air.temperature - 273.15, -10.0, 60.0, "C")?;
        within("booth.humidity", air.humidity, 0.0, 1.0, "")?;
        paint.check()?;
        let volatiles: Vec<_> =
            paint.solvents.iter().map(|s| Volatile::named(&s.name)).collect::<Result<_, _>>()?;
        let mut start = [0.0; MOST_SOLVENTS];
        for (m, (v, s)) in start.iter_mut().zip(volatiles.iter().zip(&paint.solvents)) {
            *m = v.density * s.volume_share;
        }
        let x = air.humidity * water_saturation(air.temperature) / ROOM_PRESSURE;
        let water = x * 0.018_015;
        Ok(Self {
            volatiles,
            start,
            solids: paint.volume_solids,
            first_temperature: paint.temperature,
            air,
            vapour_mass_share: water / (water + (1.0 - x) * MOLAR_MASS),
        })
    }

    fn volume(&self, d: &Droplet) -> f64 {
        let liquid: f64 = self.volatiles.iter().zip(d.mass).map(|(v, m)| m / v.density).sum();
        self.solids + liquid
    }

    /// Rate of change per exposure.
    fn rate(&self, d: &Droplet) -> Droplet {
        let volume = self.volume(d);
        let diameter = cbrt(volume);
        let resin = (self.solids / volume).min(1.0);
        let moles: f64 = self.volatiles.iter().zip(d.mass).map(|(v, m)| m / v.molar_mass).sum();
        let mut out = Droplet { mass: [0.0; MOST_SOLVENTS], temperature: 0.0 };
        if moles <= 0.0 {
            return out;
        }
        // Vapour at the surface: mole shares, then mass shares.
        let activity = activity(resin);
        let mut surface = [0.0; MOST_SOLVENTS];
        for (y, (v, m)) in surface.iter_mut().zip(self.volatiles.iter().zip(d.mass)) {
            *y = m / v.molar_mass / moles * activity * v.pressure(d.temperature) / ROOM_PRESSURE;
        }
        let sum: f64 = surface.iter().sum();
        let scale = if sum > 0.95 { 0.95 / sum } else { 1.0 };
        let mut total = (1.0 - sum * scale) * MOLAR_MASS;
        for (y, v) in surface.iter_mut().zip(&self.volatiles) {
            *y *= scale * v.molar_mass;
            total += *y;
        }
        let far = |v: &Volatile| if v.name == "water" { self.vapour_mass_share } else { 0.0 };
        let (mut near, mut away) = (0.0, 0.0);
        for (y, v) in surface.iter_mut().zip(&self.volatiles) {
            *y /= total;
            near += *y;
            away += far(v);
        }
        let b = (near - away) / (1.0 - near);
        let stefan = if b.abs() < 1e-6 { 1.0 - 0.5 * b } else { ln(1.0 + b) / b };

        // 1/3 rule: film temperature and gas density.
        let film = d.temperature + (self.air.temperature - d.temperature) / 3.0;
        let mut per_mole = 1.0 - (2.0 * near + away) / 3.0;
        per_mole /= MOLAR_MASS;
        for (y, v) in surface.iter().zip(&self.volatiles) {
            per_mole += (2.0 * y + far(v)) / 3.0 / v.molar_mass;
        }
        let gas_density = ROOM_PRESSURE / (MOLAR_GAS_CONSTANT * film * per_mole);

        let inner = inner_diffusivity(resin);
        let (mut cooling, mut carried) = (0.0, 0.0);
        for (i, v) in self.volatiles.iter().enumerate() {
            // Mass flux times 6/pi: 12 = (6/pi) 2 pi.
            let gas = 12.0 * diameter * gas_density * v.diffusivity(film) * stefan * (surface[i] - far(v))
                / (1.0 - near);
            let limit = 60.0 * diameter * inner * d.mass[i] / volume;
            let flux = if gas > 0.0 && resin > 0.0 { gas * limit / (limit + resin * gas) } else { gas };
            out.mass[i] = -flux;
            cooling += flux * v.heat_at(d.temperature);
            carried += flux * v.vapour_specific_heat;
        }
        let heat = 12.0 * diameter * conductivity(film);
        let blow = carried / heat;
        let film_factor = if blow.abs() < 1e-6 { 1.0 - 0.5 * blow } else { blow / (exp(blow) - 1.0) };
        let mut capacity = self.solids * SOLIDS_HEAT;
        for (v, m) in self.volatiles.iter().zip(d.mass) {
            capacity += m * v.liquid_specific_heat;
        }
        out.temperature =
            (heat * film_factor * (self.air.temperature - d.temperature) - cooling) / capacity.max(1.0);
        out
    }

    /// Runs the drying and gives every accepted step: exposure [s/m2], volume share, temperature [K].
    ///
    /// Bogacki-Shampine 3(2) with step control; ends when a thousandth of the volatiles is left, or at `LONGEST`.
    #[must_use]
    pub fn history(&self) -> Vec<[f64; 3]> {
        let mut d = Droplet { mass: self.start, temperature: self.first_temperature };
        let (mut s, mut h): (f64, f64) = (0.0, 1e4);
        let end = self.solids + 1e-3 * (1.0 - self.solids);
        let mut steps = vec![[0.0, 1.0, d.temperature]];
        let mut k1 = self.rate(&d);
        // The count is a guard only: some 2,000 steps are usual.
        for _ in 0..200_000 {
            let volume = self.volume(&d);
            if volume <= end || s >= LONGEST {
                break;
            }
            h = h.min(LONGEST - s);
            let k2 = self.rate(&d.plus(&k1, 0.5 * h));
            let k3 = self.rate(&d.plus(&k2, 0.75 * h));
            let next = d.plus(&k1, 2.0 / 9.0 * h).plus(&k2, h / 3.0).plus(&k3, 4.0 / 9.0 * h);
            let k4 = self.rate(&next);
            let slope = |a: f64, b: f64, c: f64, e: f64| (-5.0 / 72.0 * a + b / 12.0 + c / 9.0 - e / 8.0) * h;
            let mut error =
                slope(k1.temperature, k2.temperature, k3.temperature, k4.temperature).abs() / 100.0;
            for (i, v) in self.volatiles.iter().enumerate() {
                error = error.max(slope(k1.mass[i], k2.mass[i], k3.mass[i], k4.mass[i]).abs() / v.density);
            }
            let change = (self.volume(&next) - volume).abs();
            if error <= TOLERANCE && change <= 0.005 && next.temperature > 100.0 {
                s += h;
                d = next;
                k1 = k4;
                steps.push([s, self.volume(&d), d.temperature]);
            }
            let grow = if error > 0.0 { 0.9 * cbrt(TOLERANCE / error) } else { 2.0 };
            let by_change = if change > 0.0 { 0.9 * 0.005 / change } else { 2.0 };
            h *= grow.min(by_change).clamp(0.2, 2.0);
        }
        steps
    }

    /// The curve for the flight.
    #[must_use]
    pub fn curve(&self) -> EvaporationCurve {
        let steps = self.history();
        let Some(last) = steps.last().copied() else { return EvaporationCurve::none() };
        if steps.len() < 2 {
            return EvaporationCurve::none();
        }
        let spacing = (1.0 - last[1]).abs() / (KNOTS - 2) as f64;
        let mut curve = EvaporationCurve { exposure: vec![0.0], volume: vec![1.0] };
        let mut at = 1.0;
        for step in &steps[1..] {
            if (step[1] - at).abs() >= spacing || step[0] == last[0] {
                at = step[1];
                curve.exposure.push(step[0]);
                curve.volume.push(at);
            }
        }
        // A slow last solvent bends the curve inside one spacing: a knot where a straight line would be furthest off.
        while curve.exposure.len() < KNOTS {
            let off = |s: &[f64; 3]| (curve.volume_at(s[0]) - s[1]).abs();
            let Some(worst) = steps.iter().max_by(|a, b| off(a).total_cmp(&off(b))) else { break };
            if off(worst) < STRAIGHT {
                break;
            }
            let i = curve.exposure.partition_point(|&e| e <= worst[0]);
            curve.exposure.insert(i, worst[0]);
            curve.volume.insert(i, worst[1]);
        }
        curve
    }
}

#[cfg(test)]
mod tests;
