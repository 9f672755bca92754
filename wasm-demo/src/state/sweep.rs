//! What a sweep is asked, how its job is flown, and how its figures are said.

use mistcoat::job::{Job, PartShape, with_key, without_key};
use mistcoat::report::chart::{CurvePoint, short};
use mistcoat::sweep::{Answer, Axis, Plan, Point, Value, curve_points};
use mistcoat::units::{Quantity, System, unit_shown, value_shown};

use super::{CHAIR_LEG, TABLE_TOP};

/// Figures kept of each point: those that the view shows, in its order.
pub const FIGURES: [&str; 7] = [
    "transfer_efficiency.value",
    "film.cv_percent.value",
    "film.thinnest_over_mean",
    "film.dry_um.mean",
    "paint.sprayed_ml",
    "paint.seconds",
    "spray.sauter_um",
];

/// The wanted error of a point where the job names none, of a curve and of a map.
const WANTED: [&str; 2] = ["1 %", "2 %"];

/// Droplets of a point where a hand's flight is shared: its poses hang on how many there are, so that no point may stop by itself.
const OF_A_HAND: &str = "50000";

/// A first question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Preset {
    /// Fan opening against tube diameter.
    FanAndTube,
    /// Distance.
    Distance,
    /// Overlap for a machine, a steady hand, a beginner.
    Overlap,
    /// Pressure.
    Pressure,
    /// Tip size.
    Tip,
    /// Speed.
    Speed,
}

impl Preset {
    /// All, in the order shown.
    pub const ALL: [Self; 6] =
        [Self::FanAndTube, Self::Distance, Self::Overlap, Self::Pressure, Self::Tip, Self::Speed];

    /// A word for it in the page's attributes.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::FanAndTube => "fan-tube",
            Self::Distance => "distance",
            Self::Overlap => "overlap",
            Self::Pressure => "pressure",
            Self::Tip => "tip",
            Self::Speed => "speed",
        }
    }

    /// The job it is flown for: the one on the desk, or where the question makes no sense for that part one of ours.
    #[must_use]
    pub fn job(self, desk: &str) -> (String, bool) {
        let Ok(job) = Job::from_toml(desk) else { return (CHAIR_LEG.into(), false) };
        let passes = job.stroke.burst.is_none() && job.track.is_none();
        let fits = match self {
            Self::FanAndTube => passes && matches!(job.part, PartShape::Tube { .. }),
            Self::Overlap => passes && matches!(job.part, PartShape::Panel { .. }),
            Self::Speed => passes,
            Self::Distance | Self::Pressure | Self::Tip => job.track.is_none(),
        };
        let ours = if self == Self::Overlap { TABLE_TOP } else { CHAIR_LEG };
        if fits { (desk.to_string(), true) } else { (ours.to_string(), false) }
    }

    /// Only the knob is to speak, not the hand.
    #[must_use]
    pub fn by_machine(self) -> bool {
        self != Self::Overlap
    }

    /// Keys and values, round about what the job has.
    #[must_use]
    pub fn axes(self, job: &Job) -> Vec<(&'static str, String)> {
        let list = |values: Vec<f64>, unit: &str| {
            let mut values: Vec<String> =
                values.into_iter().map(|v| format!("{} {unit}", short(v))).collect();
            values.dedup();
            values.join(",")
        };
        let steps = |low: f64, high: f64, n: usize, grain: f64| -> Vec<f64> {
            let at = |i: usize| low + (high - low) * i as f64 / (n - 1) as f64;
            (0..n).map(|i| (at(i) / grain).round() * grain).collect()
        };
        match self {
            Self::FanAndTube => vec![
                ("gun.fan", "0,0.2,0.4,0.6,0.8,1".into()),
                ("part.tube.diameter", "10,16,22,30,42,60,90 mm".into()),
            ],
            Self::Distance => vec![("stroke.distance", "100..300 mm:9".into())],
            Self::Overlap => vec![
                ("stroke.hand", "machine,steady,beginner".into()),
                ("stroke.overlap", "0.2..0.8:7".into()),
            ],
            Self::Pressure => {
                let rated = job.kit.rated_pressure * 1e-5;
                vec![("gun.inlet_pressure", list(steps(0.5 * rated, 1.6 * rated, 9, 0.05), "bar"))]
            }
            Self::Tip => {
                let bore = job.kit.tip_bore * 1e3;
                vec![("gun.tip_bore", list(steps(0.7 * bore, 1.5 * bore, 7, 0.05), "mm"))]
            }
            Self::Speed => {
                let speed = if job.stroke.speed > 0.0 { job.stroke.speed * 1e3 } else { 400.0 };
                vec![("stroke.speed", list(steps(0.4 * speed, 2.0 * speed, 9, 10.0), "mm/s"))]
            }
        }
    }
}

/// What is flown: the plan, and the job text that a point is loaded from.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The points.
    pub plan: Plan,
    /// The text that is flown: the job's, its error wanted for a sweep.
    pub flown: String,
    /// The job's own text.
    pub base: String,
}

/// Plans a sweep of a job text; `by_machine` where a hand's errors would only blur the answer.
///
/// # Errors
/// The key at fault and why, in words.
pub fn ask(base: &str, axes: &[(&str, &str)], by_machine: bool) -> Result<Asked, (String, String)> {
    let refuse = |e: mistcoat::error::ParameterError| (e.key.clone(), e.to_string());
    let axes: Vec<Axis> =
        axes.iter().map(|(key, values)| Axis::new(key, values)).collect::<Result<_, _>>().map_err(refuse)?;
    let mut flown = base.to_string();
    for section in ["card", "compare", "practice"] {
        flown = without_key(&flown, section).unwrap_or(flown);
    }
    if by_machine {
        flown = super::with_hand(&flown, "machine").unwrap_or(flown);
    }
    let own = flown.clone();
    let read = |text: &str| Job::from_toml(text).map_err(|e| (e.key.clone(), e.problem().to_string()));
    let job = read(&flown)?;
    let hand = !job.stroke.is_swept() || axes.iter().any(|axis| axis.key == "stroke.hand");
    let shared = Plan::new(&job, axes.clone(), &FIGURES)
        .is_ok_and(|plan| plan.flights(0..plan.len()).len() < plan.len());
    if hand && shared {
        flown = without_key(&flown, "run.standard_error").unwrap_or(flown);
        flown = with_key(&flown, "run.droplets", OF_A_HAND).unwrap_or(flown);
    } else if job.run.standard_error.is_none() {
        flown = with_key(&flown, "run.standard_error", WANTED[usize::from(axes.len() > 1)]).unwrap_or(flown);
    }
    let job = read(&flown).or_else(|_| read(&own))?;
    let plan = Plan::new(&job, axes, &FIGURES).map_err(refuse)?;
    Ok(Asked { flown: job.text.clone(), plan, base: base.to_string() })
}

impl Asked {
    /// The job's text at a point, to be put on the desk.
    #[must_use]
    pub fn text(&self, point: usize) -> Option<String> {
        let settings = self.plan.settings(point);
        let mut keys = self.plan.axes().iter().zip(settings);
        keys.try_fold(self.base.clone(), |text, (axis, value)| with_key(&text, &axis.key, value).ok())
    }
}

/// The quantity of a figure, and what makes SI of it; none where its unit is the same everywhere.
fn quantity(path: &str) -> Option<(Quantity, f64)> {
    match path {
        "film.dry_um.mean" => Some((Quantity::Film, 1e-6)),
        "paint.sprayed_ml" => Some((Quantity::Volume, 1e-6)),
        _ => None,
    }
}

/// A figure's number as it is shown.
#[must_use]
pub fn shown(path: &str, value: f64, system: System) -> f64 {
    match quantity(path) {
        Some((quantity, si)) => value_shown(quantity, value * si, system),
        None if path == "transfer_efficiency.value" || path == "film.thinnest_over_mean" => value * 100.0,
        None => value,
    }
}

/// The unit it is shown in.
#[must_use]
pub fn unit(path: &str, system: System) -> &'static str {
    match quantity(path) {
        Some((quantity, _)) => match unit_shown(quantity, system).0 {
            "um" => "\u{b5}m",
            unit => unit,
        },
        None => match path {
            "paint.seconds" => "s",
            "spray.sauter_um" => "\u{b5}m",
            "film.cv_percent.value" => "%",
            _ => "of 100",
        },
    }
}

/// A figure's curve in the units shown, and whether its settings are words.
#[must_use]
pub fn curve(answer: &Answer, path: &str, system: System) -> (Vec<CurvePoint>, bool) {
    let Some(column) = answer.column(path) else { return (Vec::new(), true) };
    let (mut points, by_name) = curve_points(answer, column);
    let scale = shown(path, 1.0, system);
    for point in &mut points {
        point.y = point.y.map(|y| y * scale);
        point.error = point.error.map(|e| e * scale);
        point.likely = point.likely.map(|l| l.map(|l| l * scale));
    }
    (points, by_name)
}

/// A point's figure in short words, without its unit; a dash where it is not known.
#[must_use]
pub fn figure(point: &Point, answer: &Answer, path: &str, system: System) -> String {
    let figure = answer.column(path).and_then(|column| point.figures.get(column));
    match figure.and_then(|f| f.value.as_ref()) {
        Some(Value::Number(number)) => short(shown(path, *number, system)),
        Some(Value::Word(word)) => word.clone(),
        Some(Value::Flag(flag)) => flag.to_string(),
        None => "\u{2013}".into(),
    }
}

/// A setting as it is said in a system: "180 mm", "50 of 100" for a bare share.
#[must_use]
pub fn setting(key: &str, value: &str, system: System) -> String {
    let share = mistcoat::job::Key::find(key).is_some_and(|k| k.kind == mistcoat::job::Kind::Share);
    match value.parse::<f64>() {
        Ok(number) if key == "gun.fan" && number <= 0.0 => crate::words::words().shut.into(),
        Ok(number) if key == "gun.fan" && number >= 1.0 => crate::words::words().wide_open.into(),
        Ok(number) if share => format!("{} of 100", short(100.0 * number)),
        _ => mistcoat::units::in_units(value, system).replace(' ', &crate::figures::THIN.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_preset_is_a_plan_for_every_job_of_ours() {
        for desk in [CHAIR_LEG, TABLE_TOP, "no job"] {
            for preset in Preset::ALL {
                let (base, own) = preset.job(desk);
                assert!(!(own && desk == "no job"));
                let job = Job::from_toml(&base).unwrap();
                let axes = preset.axes(&job);
                let axes: Vec<(&str, &str)> = axes.iter().map(|(k, v)| (*k, v.as_str())).collect();
                let asked =
                    ask(&base, &axes, preset.by_machine()).unwrap_or_else(|e| panic!("{preset:?}: {e:?}"));
                assert!((5..=60).contains(&asked.plan.len()), "{preset:?}: {}", asked.plan.len());
                let text = asked.text(0).unwrap();
                assert!(Job::from_toml(&text).is_ok() && !text.contains("standard_error"), "{text}");
            }
        }
    }

    #[test]
    fn what_is_wrong_is_told_by_its_key() {
        assert_eq!(
            ask(CHAIR_LEG, &[("stroke.distance", "1..2 bar:3")], false).unwrap_err().0,
            "stroke.distance"
        );
        assert_eq!(ask(CHAIR_LEG, &[], false).unwrap_err().0, "vary");
        assert_eq!(ask("version = 1", &[("gun.fan", "0,1")], true).unwrap_err().0, "gun.kit");
    }

    #[test]
    fn figures_in_both_systems() {
        assert_eq!(shown("transfer_efficiency.value", 0.456, System::Us), 45.6);
        assert!((shown("film.dry_um.mean", 25.4, System::Us) - 1.0).abs() < 1e-9);
        assert_eq!(unit("film.dry_um.mean", System::Us), "mil");
        assert_eq!(unit("paint.sprayed_ml", System::Metric), "mL");
        assert_eq!(setting("stroke.overlap", "0.35", System::Metric), "35 of 100");
        assert_eq!(setting("stroke.hand", "steady", System::Us), "steady");
    }
}
