//! When the next coat may go on: the data sheet's flash, brought to this part's warmth, thinner and film.
//!
//! earliest = flash x t(now)/t(sheet) x film, where t is the time in which four fifths of the volatiles leave a still film: each
//! solvent at the rate D^(2/3) (x p(T) - humidity p(T) for water) M/(rho T), its mole fraction x falling as it goes (Raoult, the
//! Chilton-Colburn power of the diffusivity; the resin's own resistance left out), and film is the volatile volume laid over that
//! of the usual coat with the usual mix. "sheet" is the class's usual mix and medium thinner at the sheet's own temperature and
//! half-damp air. The four fifths, and that the ratio carries over to touch-dry, are ours. The touch test decides.

use super::Film;
use crate::error::ParameterError;
use crate::evaporation::Volatile;
use crate::job::Job;
use crate::math::pow;
use crate::paint::Solvent;
use serde::{Deserialize, Serialize};

/// Share of the volatile volume that is to leave [-].
const LEAVES: f64 = 0.8;
/// Steps of the time in which it leaves.
const STEPS: u32 = 400;
/// Humidity that data sheets are taken to mean [-].
const SHEET_HUMIDITY: f64 = 0.5;

/// What the job's own wait comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Plan {
    /// Between earliest and latest.
    Right,
    /// Before the earliest.
    TooEarly,
    /// After the latest.
    TooLate,
}

/// When the next coat may go on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct NextCoat {
    /// Earliest [s]; none where this air keeps the film from drying.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub earliest_s: Option<f64>,
    /// Latest without sanding, where the data sheet says [s].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub latest_s: Option<f64>,
    /// The data sheet's flash [s].
    pub sheet_s: f64,
    /// Temperature it is of [C].
    pub sheet_c: f64,
    /// Times as long, for warmth, damp, thinner and mix together [-].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub air_and_thinner_times: Option<f64>,
    /// Times as long for the film laid [-].
    pub film_times: f64,
    /// The job's wait, where it has more than one coat [s].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub plan_s: Option<f64>,
    /// What that comes to.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub plan: Option<Plan>,
}

/// Time in which `LEAVES` of the volatiles go [in a unit of its own]; none where they do not.
fn drying_time(solvents: &[Solvent], temperature: f64, humidity: f64) -> Result<Option<f64>, ParameterError> {
    let mut moles = Vec::new();
    for s in solvents.iter().filter(|s| s.volume_share > 0.0) {
        let v = Volatile::named(&s.name)?;
        moles.push((v, s.volume_share * v.density / v.molar_mass));
    }
    let volume = |(v, n): &(Volatile, f64)| n * v.molar_mass / v.density;
    let all: f64 = moles.iter().map(volume).sum();
    let step = all * LEAVES / f64::from(STEPS);
    let mut time = 0.0;
    for _ in 0..STEPS {
        let total: f64 = moles.iter().map(|(_, n)| n).sum();
        // Moles a unit of time; damp air gives no water back to a paint.
        let rates: Vec<f64> = moles
            .iter()
            .map(|(v, n)| {
                let p = v.pressure(temperature);
                let outside = if v.name == "water" { humidity * p } else { 0.0 };
                let rate = (n / total * p - outside).max(0.0) * pow(v.diffusivity(temperature), 2.0 / 3.0);
                rate / temperature
            })
            .collect();
        let by_volume: f64 = moles.iter().zip(&rates).map(|((v, _), r)| r * v.molar_mass / v.density).sum();
        if by_volume <= 0.0 {
            return Ok(None);
        }
        // So long that this step's volume goes, but no solvent more than once.
        let dt = step / by_volume;
        let mut gone = 0.0;
        for ((v, n), r) in moles.iter_mut().zip(&rates) {
            let out = (r * dt).min(*n);
            *n -= out;
            gone += out * v.molar_mass / v.density;
        }
        if gone <= 0.0 {
            return Ok(None);
        }
        time += dt;
    }
    Ok((time.is_finite()).then_some(time))
}

/// Volatile over dry volume.
fn volatile_over_dry(solids: f64) -> f64 {
    (1.0 - solids) / solids.max(1e-3)
}

/// The next coat on this film; none for a film that is not there, or a paint without volatiles.
pub fn next_coat(film: Film<'_>, job: &Job) -> Option<NextCoat> {
    let coats = f64::from(job.stroke.coats.max(1));
    let dry = film.landed.mean_over_area(|cell| film.dry[cell]) / coats;
    let usual_mix = job.recipe.clone().mixed(&job.recipe.usual).ok()?;
    let [low, high] = job.recipe.dry_film_per_coat;
    let usual = 0.5 * (low + high) * volatile_over_dry(usual_mix.volume_solids);
    if dry <= 0.0 || usual <= 0.0 {
        return None;
    }
    let film_times = dry * volatile_over_dry(job.paint.volume_solids) / usual;
    let sheet = drying_time(&usual_mix.solvents, job.sheet.temperature, SHEET_HUMIDITY).ok()??;
    let now = drying_time(&job.paint.solvents, job.part_temperature, job.booth.humidity).ok()?;
    let times = now.map(|t| t / sheet);
    let earliest = times.map(|t| job.sheet.flash * t * film_times);
    let latest = job.sheet.recoat_within;
    let plan_s = (job.stroke.coats > 1).then_some(job.stroke.flash);
    let plan = plan_s.map(|wait| match (earliest, latest) {
        (Some(earliest), _) if wait < earliest => Plan::TooEarly,
        (None, _) => Plan::TooEarly,
        (_, Some(latest)) if wait > latest => Plan::TooLate,
        _ => Plan::Right,
    });
    Some(NextCoat {
        earliest_s: earliest,
        latest_s: latest,
        sheet_s: job.sheet.flash,
        sheet_c: job.sheet.temperature - 273.15,
        air_and_thinner_times: times,
        film_times,
        plan_s,
        plan,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn time(solvents: &[(&str, f64)], c: f64, humidity: f64) -> Option<f64> {
        let list: Vec<Solvent> = solvents
            .iter()
            .map(|&(name, share)| Solvent { name: name.into(), volume_share: share })
            .collect();
        drying_time(&list, 273.15 + c, humidity).unwrap()
    }

    #[test]
    fn one_solvent_dries_as_its_vapour_pressure_lets_it() {
        let butyl = time(&[("n-butyl acetate", 0.5)], 20.0, 0.5).unwrap();
        let warm = time(&[("n-butyl acetate", 0.5)], 25.0, 0.5).unwrap();
        let v = Volatile::named("n-butyl acetate").unwrap();
        // Rate ~ p D^(2/3)/T with D ~ T^1.75.
        let t = 298.15_f64 / 293.15;
        let expected = v.pressure_20 / v.pressure_25 * t / pow(t, 1.75 * 2.0 / 3.0);
        assert!((warm / butyl - expected).abs() < 1e-3, "{}", warm / butyl);
    }

    #[test]
    fn damp_air_holds_water_back_and_slow_tails_hold_the_blend() {
        let dry = time(&[("water", 1.0)], 20.0, 0.2).unwrap();
        let damp = time(&[("water", 1.0)], 20.0, 0.8).unwrap();
        assert!((damp / dry - 4.0).abs() < 1e-6, "{}", damp / dry);
        assert!(time(&[("water", 1.0)], 20.0, 1.0).is_none());
        let fast = time(&[("acetone", 0.8), ("n-butyl acetate", 0.2)], 20.0, 0.5).unwrap();
        let slow = time(&[("acetone", 0.8), ("2-butoxyethanol", 0.2)], 20.0, 0.5).unwrap();
        assert!(slow > fast);
    }
}
