//! When the next coat may go on: the data sheet's flash, brought to this air, part, thinner and film.
//!
//! The next coat may go on when this film holds as little solvent per solids as the data sheet's film does after its flash. The sheet's film: the
//! class's usual coat and usual mix, with the same share lost in flight, at the sheet's temperature in half-damp air of 0.3 m/s along
//! 0.4 m. This film: the mean coat as landed, its thinner, the part's temperature, the booth's humidity and air, the faces'
//! lengths. Both dry by the film's own laws (`film::drying`). That equal solvent is equally ready is ours; the touch test decides.

use super::Film;
use crate::evaporation::{FilmAir, film_drying};
use crate::film::DryingLaws;
use crate::job::{Booth, Job};
use crate::run::wet_laws;
use serde::{Deserialize, Serialize};

/// Humidity that data sheets are taken to mean [-], and length of their panel along the air [m].
const SHEET_HUMIDITY: f64 = 0.5;
const SHEET_LENGTH: f64 = 0.4;
/// Steps in which a film dries from landing to its end.
const STEPS: u32 = 400;
/// Longest that a film is given [s]: three days.
const LONGEST: f64 = 259_200.0;

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
    /// Times as long, for warmth, damp, air, thinner and mix together [-].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub air_and_thinner_times: Option<f64>,
    /// Times as long for the film laid and the part's shape [-].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub film_times: Option<f64>,
    /// The job's wait, where it has more than one coat [s].
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub plan_s: Option<f64>,
    /// What that comes to.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub plan: Option<Plan>,
}

/// A film that dries: solids [m], and solvents over solids on landing.
#[derive(Clone, Copy)]
struct Drying<'a> {
    laws: &'a DryingLaws,
    solids: f64,
    landed: f64,
    /// Loss to the air over that of the laws.
    air: f64,
}

impl Drying<'_> {
    /// Time in which solvents over solids fall by `step` from `from` [s].
    fn time(&self, from: f64, step: f64) -> f64 {
        let r = from - 0.5 * step;
        let mut at = self.laws.at(r);
        at.loss *= self.air;
        step * self.solids / crate::film::drying_flux(&at, self.solids, r * self.solids)
    }

    /// Solvents over solids after a time [s].
    fn after(&self, seconds: f64) -> f64 {
        let step = self.landed / f64::from(STEPS);
        let (mut r, mut time) = (self.landed, 0.0);
        for _ in 0..STEPS {
            let next = self.time(r, step);
            if !(next.is_finite() && time + next <= seconds) {
                // The rest of the step in proportion.
                let rest =
                    if next.is_finite() { step * ((seconds - time) / next).clamp(0.0, 1.0) } else { 0.0 };
                return r - rest;
            }
            time += next;
            r -= step;
        }
        0.0
    }

    /// Time until solvents over solids have fallen to `to` [s]; none where they do not in three days.
    fn until(&self, to: f64) -> Option<f64> {
        if self.landed <= to {
            return Some(0.0);
        }
        let step = (self.landed - to) / f64::from(STEPS);
        let mut time = 0.0;
        for k in 0..STEPS {
            time += self.time(self.landed - f64::from(k) * step, step);
            if !(time.is_finite() && time <= LONGEST) {
                return None;
            }
        }
        Some(time)
    }
}

/// Volatile over dry volume.
fn volatile_over_dry(solids: f64) -> f64 {
    (1.0 - solids) / solids.max(1e-3)
}

/// The next coat on this film; none for a film that is not there, or a paint without volatiles.
pub fn next_coat(film: Film<'_>, job: &Job) -> Option<NextCoat> {
    let map = film.landed;
    let coats = f64::from(job.stroke.coats.max(1));
    let (dry, wet) = (map.mean_dry().0, map.mean_wet());
    if dry <= 0.0 || wet <= dry {
        return None;
    }
    let usual = job.recipe.clone().mixed(&job.recipe.usual).ok()?;
    let landed = wet / dry - 1.0;
    let in_cup = volatile_over_dry(job.paint.volume_solids);
    let [low, high] = job.recipe.dry_film_per_coat;
    let air = |temperature, humidity, speed| FilmAir { temperature, humidity, speed, length: SHEET_LENGTH };
    let at_sheet = air(job.sheet.temperature, SHEET_HUMIDITY, Booth::AIR);
    let sheet_laws = film_drying(&usual, &usual.solvents, &at_sheet).ok()?;
    let sheet = Drying {
        laws: &sheet_laws,
        solids: 0.5 * (low + high),
        landed: landed / in_cup.max(1e-6) * volatile_over_dry(usual.volume_solids),
        air: 1.0,
    };
    let here = air(job.part_temperature, job.booth.humidity, job.booth.air);
    let laws = film_drying(&job.paint, &usual.solvents, &here).ok()?;
    let airs = wet_laws(job, map.faces()).ok()?.airs;
    let of_face = |i: usize| map.faces()[i].len() as f64 * map.faces()[i].cell_area();
    let all: f64 = (0..map.faces().len()).map(of_face).sum();
    let mean_air =
        airs.iter().enumerate().map(|(i, a)| a * of_face(i)).sum::<f64>() / all.max(f64::MIN_POSITIVE);
    let ready = sheet.after(job.sheet.flash);
    let like_sheet = Drying { laws: &laws, landed, air: 1.0, ..sheet }.until(ready);
    let earliest = Drying { laws: &laws, solids: dry / coats, landed, air: mean_air }.until(ready);
    let times = like_sheet.filter(|_| job.sheet.flash > 0.0).map(|t| t / job.sheet.flash);
    let film_times = earliest.zip(like_sheet).filter(|(_, like)| *like > 0.0).map(|(e, like)| e / like);
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
    use crate::film::FilmMap;
    use crate::job::with_key;

    /// Earliest [s] for a clear's coat of this dry film [um] under keys of the job, landed with nine tenths of its solvents.
    fn earliest(keys: &[(&str, &str)], um: f64) -> Option<f64> {
        let mut text = String::from(
            "version = 1\n[gun]\nkit = \"hvlp-gravity-1.3\"\n[paint]\nkind = \"two-pack-clear\"\n[part]\npanel = { width = \"400 mm\", \
             height = \"400 mm\" }\n[stroke]\ndistance = \"180 mm\"\nspeed = \"450 mm/s\"\n",
        );
        for (key, value) in keys {
            text = with_key(&text, key, value).expect("a key");
        }
        let job = Job::from_toml(&text).expect("a job");
        let mut map = FilmMap::bare(80, 80, 5e-3, 5e-3);
        map.dry.fill(um * 1e-6);
        let wet = um * 1e-6 * (1.0 + 0.9 * volatile_over_dry(job.paint.volume_solids));
        map.wet.fill(wet);
        let dry = map.dry.clone();
        let film =
            Film { landed: &map, dry: &dry, fresh_wet: &map.wet, fresh_dry: &map.dry, droplets: 1 << 20 };
        next_coat(film, &job).expect("a coat").earliest_s
    }

    #[test]
    fn the_sheets_own_coat_needs_the_sheets_own_flash() {
        let job = crate::catalogue::recipe("two-pack-clear").expect("a recipe");
        let [low, high] = job.dry_film_per_coat;
        let usual = 0.5 * (low + high) * 1e6;
        let flash = earliest(&[], usual).expect("it dries");
        assert!((flash / job.sheet.flash - 1.0).abs() < 0.02, "{flash} of {}", job.sheet.flash);
    }

    #[test]
    fn warmth_air_and_fast_thinner_shorten_it_and_film_lengthens_it() {
        let plain = earliest(&[], 28.0).expect("it dries");
        let of = |key, value| earliest(&[(key, value)], 28.0).expect("it dries");
        assert!(
            of("part.temperature", "28 C") < 0.85 * plain && of("part.temperature", "14 C") > 1.15 * plain
        );
        assert!(of("booth.air", "1 m/s") < plain && of("booth.air", "0 m/s") > plain);
        assert!(of("paint.thinner", "fast") <= plain && of("paint.thinner", "slow") >= plain);
        assert!(earliest(&[], 40.0).expect("it dries") > 1.2 * plain);
        assert!(of("paint.sheet.flash", "20 min") > 1.5 * plain);
        assert!(
            of("paint.sheet.temperature", "25 C") > plain,
            "a flash told for a warm shop is longer in a cool one"
        );
    }

    #[test]
    fn water_waits_for_the_damp_to_go() {
        let wet =
            |humidity| earliest(&[("paint.kind", "waterborne-basecoat"), ("booth.humidity", humidity)], 10.0);
        let (dry, damp) = (wet("30 %").expect("it dries"), wet("80 %").expect("it dries"));
        assert!(damp > 1.5 * dry, "{damp} {dry}");
        assert_eq!(wet("100 %"), None);
    }
}
