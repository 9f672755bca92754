//! What the Paint view shows of a job: choosing a paint, the data sheet's fields as text, cups, thinners, and how much to mix.

use mistcoat::evaporation::{Drying, DryingAir, Volatile};
use mistcoat::flow_cup::Cup;
use mistcoat::job::{Job, JobError, KEYS, with_key, without_key};
use mistcoat::paint::{MixPlan, ThinnerSpeed, film_arithmetic};
use mistcoat::report::{Efficiency, mix_plan};
use mistcoat::units::{Quantity, System};

use super::RunView;
use crate::figures::{THIN, parted, said, with_unit};

const TABLE_TOPS: &str = include_str!("../../../core/examples/jobs/table-tops-to-mix.toml");

/// Six café table tops to mix for, the data sheet still to be copied: what "How much do I mix?" opens.
pub fn to_mix() -> String {
    without_key(TABLE_TOPS, "paint.sheet").unwrap_or_else(|_| TABLE_TOPS.to_string())
}

/// The same job with another class of paint: what was copied from the old paint's data sheet goes, and a film wanted for each
/// coat becomes the new class's.
///
/// # Errors
/// `JobError` when the class is not known or the text is no job.
pub fn with_paint(text: &str, id: &str) -> Result<String, JobError> {
    let mut text = with_key(text, "paint.kind", id)?;
    for key in KEYS.iter().filter(|k| k.path.starts_with("paint.")) {
        if !["paint.kind", "paint.temperature"].contains(&key.path) {
            text = without_key(&text, key.path)?;
        }
    }
    let job = Job::from_toml(&text)?;
    if job.spec.is_some_and(|spec| spec.per_coat) {
        let um = job.paint.dry_film_per_coat.map(|film| (film * 1e6).round());
        text = with_key(&text, "spec.dry_film", &format!("[\"{} um\", \"{} um\"]", um[0], um[1]))?;
    }
    Ok(text)
}

/// Two ends as they are shown: "1.2–1.4 mm".
pub fn band_shown(quantity: Quantity, [low, high]: [f64; 2], system: System) -> String {
    let ((low, unit), (high, same)) = (parted(quantity, low, system), parted(quantity, high, system));
    if unit == same {
        format!("{low}–{high}{THIN}{unit}")
    } else {
        format!("{low}{THIN}{unit}–{high}{THIN}{same}")
    }
}

/// Two ends as typed ("1.2 to 1.4 mm", "1.2-1.4", "1.2 mm – 1.4 mm") as the list that the job file wants.
pub fn band_literal(typed: &str, quantity: Quantity, system: System) -> String {
    let text = typed.replace(THIN, " ").replace(" to ", "–").replace(" - ", "–");
    // A plain hyphen parts two figures too; the one of an exponent does not.
    let text = if text.contains('–') { text } else { text.replacen('-', "–", 1) };
    let ends: Vec<String> = match text.split_once('–') {
        Some((low, high)) => {
            let high = with_unit(high, quantity, system);
            let unit = high.trim_start_matches(|c: char| !c.is_alphabetic() && c != 'µ').to_string();
            let bare = mistcoat::units::parse_number(low.trim()).is_ok();
            let low = if bare { format!("{} {unit}", low.trim()) } else { with_unit(low, quantity, system) };
            vec![low, high]
        }
        None => vec![with_unit(&text, quantity, system)],
    };
    let quoted: Vec<String> = ends.iter().map(|end| format!("\"{}\"", end.replace('"', ""))).collect();
    format!("[{}]", quoted.join(", "))
}

/// A time span as one says it: "2 h", "90 min", "45 s"; reads back as a quantity.
pub fn span(seconds: f64) -> String {
    let round = |v: f64| format!("{}", (v * 10.0).round() / 10.0);
    match seconds {
        s if !s.is_finite() => "-".into(),
        s if s >= 7200.0 => format!("{}{THIN}h", round(s / 3600.0)),
        s if s >= 120.0 => format!("{}{THIN}min", round(s / 60.0)),
        s => format!("{}{THIN}s", round(s)),
    }
}

/// A volume as one measures it; US pints beside fluid ounces from one pint up.
pub fn volume(m3: f64, system: System) -> String {
    let text = said(Quantity::Volume, m3, system);
    let pints = m3 / 473.176_473e-6;
    if system == System::Us && pints >= 0.995 { format!("{text} ({pints:.1}{THIN}pt)") } else { text }
}

/// How much to mix for the job in hand, out of what a run sprayed.
///
/// # Errors
/// Why it cannot be said.
pub fn mix_of(run: &RunView, job: &Job) -> Result<MixPlan, String> {
    let number = |path: &str| run.number(path).ok_or_else(|| format!("the run does not say {path}"));
    let landed = run.bar("transfer_efficiency").ok_or("the run does not say how much landed")?;
    let landed = Efficiency {
        value: landed.value,
        standard_error: None,
        model_low: landed.low,
        model_high: landed.high,
    };
    let (sprayed, seconds) = (number("paint.sprayed_ml")? * 1e-6, number("paint.seconds")?);
    let flow = number("gun.fluid_ml_min")? * 1e-6 / 60.0;
    mix_plan(job, sprayed, seconds, flow, &landed).map_err(|error| error.to_string())
}

/// A thinner of one speed in this job.
#[derive(Debug, Clone, PartialEq)]
pub struct Thinner {
    /// Its speed.
    pub speed: ThinnerSpeed,
    /// What it stands for: solvents and their shares of 100.
    pub solvents: Vec<(String, f64)>,
    /// Relative rate of evaporation, n-butyl acetate 1.
    pub rate: f64,
    /// Solids by volume of a 30 um droplet after 20 ms in still air of the booth.
    pub landing: f64,
}

/// Exposure of a 30 um droplet after 20 ms in still air [s/m2].
const ON_ITS_WAY: f64 = 0.020 / (30e-6 * 30e-6);

/// The three thinners in this job's paint and booth.
pub fn thinners(text: &str) -> Vec<Thinner> {
    let one = |speed: ThinnerSpeed| {
        let job = Job::from_toml(&with_key(text, "paint.thinner", speed.word()).ok()?).ok()?;
        let tin = &job.recipe.thinner;
        let air = DryingAir { temperature: job.booth.temperature, humidity: job.booth.humidity };
        let left = Drying::new(&job.paint, air).ok()?.curve().volume_at(ON_ITS_WAY);
        let rate = |name: &str| Volatile::named(name).map_or(0.0, |v| v.relative_rate);
        let rate = tin.solvents.iter().map(|s| s.volume_share * rate(&s.name)).sum();
        let solvents = tin.solvents.iter().map(|s| (s.name.clone(), s.volume_share)).collect();
        Some(Thinner { speed, solvents, rate, landing: job.paint.volume_solids / left })
    };
    ThinnerSpeed::ALL.into_iter().filter_map(one).collect()
}

/// Seconds of the job's paint out of every cup, at its temperature; none where it does not flow out in time.
pub fn all_cups(job: &Job) -> Vec<(Cup, Option<(f64, bool)>)> {
    let nu = job.paint.kinematic_viscosity();
    Cup::all().map(|cup| (cup, cup.seconds(nu).ok().map(|r| (r.value, r.in_range)))).collect()
}

/// Area that a volume of this paint covers [m2/m3], at the middle of the usual film of a coat: when all stays on it, and when this
/// share does.
pub fn covers(job: &Job, landed: f64) -> (f64, f64, f64) {
    let [low, high] = job.paint.dry_film_per_coat;
    let film = 0.5 * (low + high);
    let solids = job.paint.volume_solids;
    let all = film_arithmetic::coverage(solids, film);
    (film, all, film_arithmetic::practical_coverage(solids, film, landed, 0.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::{CHAIR_LEG, TABLE_TOP};
    use mistcoat::job::Origin;

    #[test]
    fn any_class_can_be_chosen_from_any_job_and_back() {
        for text in [CHAIR_LEG.to_string(), TABLE_TOP.to_string(), to_mix(), TABLE_TOPS.to_string()] {
            for data in mistcoat::catalogue::paints() {
                let changed = with_paint(&text, data.id).unwrap_or_else(|e| panic!("{}: {e}", data.id));
                let job = Job::from_toml(&changed).unwrap();
                assert_eq!(job.paint.id, data.id);
                assert_eq!(job.paint_origin("paint.sheet.pot_life"), Origin::Typical);
                let spec = job.spec.unwrap();
                assert!((spec.high - data.dry_film_high.value).abs() < 1e-9, "{}", data.id);
                let back = Job::from_toml(&with_paint(&changed, "two-pack-clear").unwrap()).unwrap();
                assert_eq!(back.mix, Job::from_toml(&text).unwrap().mix);
            }
        }
    }

    #[test]
    fn the_preset_has_a_sheet_to_copy() {
        let job = Job::from_toml(&to_mix()).unwrap();
        assert_eq!((job.mixing.parts, job.stroke.coats), (6, 2));
        assert_eq!(job.paint_origin("paint.sheet.tip"), Origin::Typical);
    }

    #[test]
    fn two_ends_as_people_type_them() {
        let metric = |text: &str| band_literal(text, Quantity::Length, System::Metric);
        for text in ["1.2 to 1.4 mm", "1.2-1.4 mm", "1.2 – 1.4", "1.2 mm - 1.4 mm", "1.2–1.4\u{202f}mm"] {
            assert_eq!(metric(text), "[\"1.2 mm\", \"1.4 mm\"]", "{text}");
        }
        assert_eq!(metric("1.3"), "[\"1.3 mm\"]");
        assert_eq!(band_literal("26-32", Quantity::Pressure, System::Us), "[\"26 psi\", \"32 psi\"]");
        assert_eq!(band_literal("20–35\u{202f}µm", Quantity::Film, System::Metric), "[\"20 um\", \"35 um\"]");
        assert_eq!(band_shown(Quantity::Film, [20e-6, 35e-6], System::Metric), "20–35\u{202f}µm");
        // What is shown is taken when it is typed back.
        for quantity in [Quantity::Length, Quantity::Film, Quantity::Pressure] {
            for system in [System::Metric, System::Us] {
                let si = if quantity == Quantity::Pressure { [1.8e5, 2.2e5] } else { [20e-6, 35e-6] };
                let typed = band_literal(&band_shown(quantity, si, system), quantity, system);
                let key = match quantity {
                    Quantity::Film => "spec.dry_film",
                    Quantity::Pressure => "paint.sheet.pressure",
                    _ => continue,
                };
                assert!(with_key(TABLE_TOP, key, &typed).is_ok(), "{typed}");
            }
        }
    }

    #[test]
    fn spans_and_volumes_read_well() {
        for (s, text) in [(7200.0, "2 h"), (5400.0, "90 min"), (480.0, "8 min"), (45.0, "45 s")] {
            let shown = span(s).replace(THIN, " ");
            assert_eq!(shown, text);
            assert!((mistcoat::units::parse(Quantity::Time, &shown).unwrap() - s).abs() < 1e-9);
        }
        assert_eq!(volume(460e-6, System::Metric), "460\u{202f}mL");
        assert!(volume(946.4e-6, System::Us).ends_with("(2.0\u{202f}pt)"));
    }

    #[test]
    fn a_faster_thinner_lands_drier_in_every_class() {
        for data in mistcoat::catalogue::paints() {
            let all = thinners(&with_paint(TABLE_TOP, data.id).unwrap());
            assert_eq!(all.len(), 3);
            assert!(all.windows(2).all(|w| w[0].landing > w[1].landing && w[0].rate > w[1].rate), "{all:?}");
        }
    }
}
