//! The gun in the job's text: another kit, a gun from its box, and what is to be told beside which control.

use mistcoat::gun::Warning;
use mistcoat::job::{Job, JobError, with_key, without_key};
use mistcoat::set_up;

/// Keys that belong to one gun: another comes as it is rated.
const OF_ONE_GUN: [&str; 8] = [
    "gun.kit",
    "gun.box",
    "gun.matched",
    "gun.inlet_pressure",
    "gun.fluid",
    "gun.air_knob",
    "gun.pot_pressure",
    "gun.name",
];

/// The same job with a kit of the catalogue, as it is rated; fan and cup stay.
///
/// # Errors
/// `JobError` when the id is unknown or the text is no job with it.
pub fn with_kit(text: &str, id: &str) -> Result<String, JobError> {
    let text = with_key(&bare(text)?, "gun.kit", id)?;
    Job::from_toml(&text)?;
    Ok(text)
}

/// The same job with a gun from its box, as it is rated: keys of `gun.box` with their values, an empty one left out.
///
/// # Errors
/// `JobError` by the key that is missing, refused, or cannot be met.
pub fn with_box(text: &str, figures: &[(&str, String)]) -> Result<String, JobError> {
    let mut text = bare(text)?;
    for (key, value) in figures.iter().filter(|(_, value)| !value.trim().is_empty()) {
        text = with_key(&text, key, value.trim())?;
    }
    Job::from_toml(&text)?;
    Ok(text)
}

fn bare(text: &str) -> Result<String, JobError> {
    let text = OF_ONE_GUN.iter().try_fold(text.to_string(), |text, key| without_key(&text, key))?;
    // Class and feed may have been given for a gun from its box.
    ["gun.class", "gun.feed"].iter().try_fold(text, |text, key| without_key(&text, key))
}

/// A control beside which something is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Air knob.
    Air,
    /// Fluid knob and trigger.
    Fluid,
    /// Gauge at the gun.
    Gauge,
    /// Cup or pot.
    Cup,
}

/// Where a warning is told; none for those of faults, which the card tells.
pub fn place(warning: &Warning) -> Option<Place> {
    match warning {
        Warning::OverHvlpLimit(_) | Warning::WeakAir(..) => Some(Place::Gauge),
        Warning::AirShut => Some(Place::Air),
        Warning::NeedleShut | Warning::Flooded(_) | Warning::Coarse(_) | Warning::TooThick(_) => {
            Some(Place::Fluid)
        }
        Warning::CupDry | Warning::NoPaint | Warning::RunsDry(..) | Warning::CupOverhead(_) => {
            Some(Place::Cup)
        }
        _ => None,
    }
}

/// What the gun as set has to be told of, each with its place. `seconds` is the job's trigger time, where a run has told it.
pub fn told(job: &Job, seconds: Option<f64>) -> Vec<(Place, Warning)> {
    let Ok(state) = set_up::state(&job.kit, &job.gun, &job.paint, &job.booth) else { return Vec::new() };
    let mut all = state.warnings.clone();
    all.extend(Warning::overhead(&job.kit, job.lean));
    all.extend(seconds.and_then(|s| Warning::runs_dry(&job.kit, job.gun.cup_level, state.paint_flow, s)));
    // A knob half shut behind a good gauge: the knob is what to turn.
    let knob = job.gun.air_knob < 1.0;
    let at = |w: &Warning| match (place(w)?, w) {
        (_, Warning::WeakAir(..)) if knob => Some(Place::Air),
        (place, _) => Some(place),
    };
    all.iter().filter_map(|w| Some((at(w)?, *w))).collect()
}

#[cfg(test)]
mod tests {
    use super::super::{CHAIR_LEG, TABLE_TOP};
    use super::*;

    fn figures(air: &str) -> Vec<(&'static str, String)> {
        [("gun.box.air", air), ("gun.box.at", "2.0 bar"), ("gun.box.tip", "1.3 mm"), ("gun.box.fan", "")]
            .map(|(key, value)| (key, value.to_string()))
            .to_vec()
    }

    #[test]
    fn another_kit_comes_as_it_is_rated() {
        for kit in mistcoat::catalogue::kits() {
            let job = Job::from_toml(&with_kit(CHAIR_LEG, kit.id).unwrap()).unwrap();
            assert_eq!(job.kit.id, kit.id);
            assert_eq!(job.gun.inlet_pressure, kit.rated_pressure.value);
            assert_eq!(job.gun.pot_pressure, kit.rated_pot_pressure.value);
            assert_eq!(job.part, Job::from_toml(CHAIR_LEG).unwrap().part);
        }
    }

    #[test]
    fn a_gun_from_its_box_and_back() {
        let text = with_box(TABLE_TOP, &figures("280 L/min")).unwrap();
        let job = Job::from_toml(&text).unwrap();
        assert!(job.kit.id == "from-box" && !job.neighbours.is_empty());
        let back = with_kit(&text, "touchup-gravity-0.8").unwrap();
        assert_eq!(Job::from_toml(&back).unwrap().kit.id, "touchup-gravity-0.8");
        assert_eq!(with_box(TABLE_TOP, &figures("")).unwrap_err().key, "gun.box.air");
        assert_eq!(with_box(TABLE_TOP, &figures("2 bar")).unwrap_err().key, "gun.box.air");
    }

    #[test]
    fn each_warning_stands_by_what_puts_it_right() {
        let at = |key: &str, value: &str, seconds| {
            let text = with_key(TABLE_TOP, key, value).unwrap();
            told(&Job::from_toml(&text).unwrap(), seconds)
                .into_iter()
                .map(|(place, _)| place)
                .collect::<Vec<_>>()
        };
        assert_eq!(at("gun.fan", "1", None), []);
        assert_eq!(at("gun.inlet_pressure", "3.5 bar", None), [Place::Gauge]);
        assert_eq!(at("gun.air_knob", "0.15", None), [Place::Air]);
        assert_eq!(at("gun.fluid", "0", None), [Place::Fluid]);
        assert_eq!(at("gun.cup_level", "0", None), [Place::Cup]);
        assert_eq!(at("part.stands", "overhead", None), [Place::Cup]);
        assert_eq!(at("gun.fan", "1", Some(600.0)), [Place::Cup]);
    }
}
