//! The class hour: exercises as jobs, their questions and marks in words, results from links.

use mistcoat::catalogue;
use mistcoat::class_hour::{Exercise, Mark, SPOILED, Unit};
use mistcoat::job::{Job, JobError, KitSource, link, with_key, without_key};
use mistcoat::practice::spread;
use mistcoat::run::{CardTally, Prepared};
use mistcoat::set_up::{air_answer, gun_air};
use mistcoat::units::{Quantity, System};

use super::hand::practice_job;
use super::{CHAIR_LEG, TABLE_TOP, WORKSHOP, side};
use crate::figures::{THIN, of_100, said, seconds};
use crate::words::class_hour::ClassWords;
use crate::words::fill;

/// Most results of a table.
pub const MOST: usize = 10;
/// A chair: what is mixed for.
const CHAIR: &str = include_str!("../../../core/examples/jobs/chair-frame.toml");
/// Outer diameters of the tubes that a fan is looked for [mm].
pub const TUBES: [u32; 2] = [22, 42];
/// The two guns to choose between.
const BOXES: &str = r#"[{ kit = "conventional-gravity-1.7" }, { kit = "lvlp-gravity-1.2" }]"#;
/// Keys whose change is a turn of a knob.
const KNOBS: [&str; 4] = ["gun.fan", "gun.fluid", "gun.air_knob", "gun.inlet_pressure"];

/// The job of an exercise in its first form.
///
/// # Errors
/// None but those of the presets.
pub fn exercise(word: &str) -> Result<String, JobError> {
    form(word, 0)
}

/// Forms that an exercise comes in.
#[must_use]
pub fn forms(word: &str) -> usize {
    match word {
        "balance" => SPOILED.len(),
        "fan-for-tube" => TUBES.len(),
        _ => 1,
    }
}

/// The job of an exercise in one of its forms.
///
/// # Errors
/// None but those of the presets.
pub fn form(word: &str, number: usize) -> Result<String, JobError> {
    let text = match word {
        "balance" => {
            let knobs = SPOILED[number.min(SPOILED.len() - 1)].knobs;
            let name = format!("balance, pattern {} of {}", number + 1, SPOILED.len());
            let text = with_key(TABLE_TOP, "name", &name)?;
            knobs.iter().try_fold(text, |text, (key, value)| with_key(&text, key, value))?
        }
        "fan-for-tube" => {
            let diameter = TUBES[number.min(TUBES.len() - 1)];
            let text = with_key(CHAIR_LEG, "name", &format!("a fan for a tube of {diameter} mm"))?;
            let text = with_key(&text, "part.tube.diameter", &format!("{diameter} mm"))?;
            with_key(&text, "gun.fan", "1.0")?
        }
        "wall-pressure" => WORKSHOP.to_string(),
        "mix-for-six" => {
            let text = with_key(CHAIR, "name", "mix for six chairs")?;
            let text = with_key(&text, "run.droplets", "20000")?;
            with_key(&text, "mix.parts", "6")?
        }
        "two-boxes" => {
            let text = with_key(side::WHICH_GUN, "name", "two boxes, one compressor")?;
            let text = with_key(&text, "supply.compressor", "workshop-1.1kW")?;
            let text = with_key(&text, "run.droplets", "4000")?;
            with_key(&text, "compare.kits", BOXES)?
        }
        _ => practice_job(),
    };
    with_key(&text, "practice.exercise", word)
}

/// The text after a step of its own at a key: where a pattern is to be balanced, a knob's turn is counted.
#[must_use]
pub fn with_turn(text: &str, key: &str) -> String {
    let balance = |job: &Job| job.practice.exercise.as_deref() == Some(Exercise::Balance.word());
    match Job::from_toml(text) {
        Ok(job) if KNOBS.contains(&key) && balance(&job) => {
            let turns = (job.practice.turns + 1).min(999).to_string();
            with_key(text, "practice.turns", &turns).unwrap_or_else(|_| text.into())
        }
        _ => text.into(),
    }
}

/// The text that is no exercise any more.
#[must_use]
pub fn left(text: &str) -> String {
    ["practice.exercise", "practice.answer", "practice.turns"]
        .iter()
        .fold(text.to_string(), |text, key| without_key(&text, key).unwrap_or(text))
}

/// What an exercise that asks gives and asks for, in words; none where it does not ask or its job cannot be sprayed.
#[must_use]
pub fn question(job: &Job, w: &ClassWords, system: System) -> Option<String> {
    let say = |quantity, si| said(quantity, si, system);
    match Exercise::named(job.practice.exercise.as_deref()?)? {
        Exercise::WallPressure => {
            let supply = job.supply.as_ref()?;
            let air = air_answer(job, &[]).ok()??;
            let hose = &supply.line.hose;
            Some(fill(
                w.asked_pressure,
                &[
                    &say(Quantity::Pressure, air.wanted),
                    &say(Quantity::AirFlow, air.gun_air),
                    &say(Quantity::Length, hose.bore),
                    &long(hose.length, system),
                    &supply.line.couplings.to_string(),
                ],
            ))
        }
        Exercise::MixForSix => {
            let prepared = Prepared::new(job.clone()).ok()?;
            let trigger = prepared.strokes(&CardTally::default()).open_seconds();
            let mixing = &job.mixing;
            Some(fill(
                w.asked_mix,
                &[
                    &mixing.parts.to_string(),
                    &seconds(trigger),
                    &say(Quantity::PaintFlow, prepared.spray.volume_flow),
                    &seconds(mixing.test_card),
                    &say(Quantity::Volume, job.kit.residue),
                    &of_100(mixing.reserve),
                ],
            ))
        }
        Exercise::TwoBoxes => {
            let delivered = job.supply.as_ref()?.compressor.delivered_air;
            let kits: Vec<String> = job
                .compare
                .kits
                .iter()
                .map(|entry| match &entry.what {
                    KitSource::Catalogue(id) => {
                        let kit = catalogue::kit(id).ok()?;
                        let inlet = kit.rated_pressure;
                        let air = gun_air(&Job { kit: kit.clone(), ..job.clone() }, inlet);
                        let (air, inlet) = (say(Quantity::AirFlow, air), say(Quantity::Pressure, inlet));
                        Some(format!("{}, {air} at {inlet}", kit.name))
                    }
                    KitSource::Box(_) => None,
                })
                .collect::<Option<_>>()?;
            let delivered = say(Quantity::AirFlow, delivered);
            Some(fill(w.asked_boxes, &[&delivered, kits.first()?, kits.get(1)?]))
        }
        _ => None,
    }
}

/// A hose's length as one buys it.
fn long(m: f64, system: System) -> String {
    match system {
        System::Metric => format!("{m:.1}{THIN}m").replace(".0", ""),
        System::Us => format!("{:.0}{THIN}ft", m / 0.3048),
    }
}

/// A mark in words: what came out, and how far off that is.
#[must_use]
pub fn told(mark: &Mark, w: &ClassWords, patterns: &dyn Fn(&str) -> String, system: System) -> [String; 2] {
    let say = |v: f64| match mark.unit {
        Unit::Share => of_100(v),
        Unit::Turns => format!("{v:.0}"),
        Unit::Pressure => said(Quantity::Pressure, v, system),
        Unit::Volume => said(Quantity::Volume, v, system),
    };
    let figure = say(mark.figure);
    let wanted = mark.wanted.map(say).unwrap_or_default();
    let said_by = mark.said.clone().unwrap_or_default();
    let share = || fill(w.share_off, &[&of_100(mark.off)]);
    match Exercise::named(&mark.exercise) {
        Some(Exercise::FiveTries) => [fill(w.tried, &[&figure]), fill(w.tried_off, &[&of_100(mark.off)])],
        Some(Exercise::Balance) => [fill(w.balanced, &[&patterns(&said_by)]), fill(w.turns_off, &[&figure])],
        Some(Exercise::WallPressure) => {
            [fill(w.truth, &[&figure, &wanted]), said(Quantity::Pressure, mark.off, system)]
        }
        Some(Exercise::MixForSix) => [fill(w.truth, &[&figure, &wanted]), share()],
        Some(Exercise::TwoBoxes) if mark.figure <= 0.0 => [fill(w.cannot, &[&said_by]), String::new()],
        Some(Exercise::TwoBoxes) => [fill(w.chosen, &[&said_by, &figure, &wanted]), share()],
        _ => [fill(w.best, &[&figure, &wanted]), share()],
    }
}

/// How far the figures of one exercise lie apart over a class, in words; none for fewer than two, or for several exercises.
#[must_use]
pub fn over_class(marks: &[Mark], system: System) -> Option<String> {
    let first = marks.first()?;
    if marks.iter().any(|mark| mark.exercise != first.exercise) {
        return None;
    }
    let figures: Vec<f64> = marks.iter().map(|mark| mark.figure).collect();
    let apart = spread(&figures)?;
    Some(match first.unit {
        Unit::Share => fill("{} of 100", &[&of_100(apart)]),
        Unit::Turns => format!("{apart:.1}"),
        Unit::Pressure => said(Quantity::Pressure, apart, system),
        Unit::Volume => said(Quantity::Volume, apart, system),
    })
}

/// One pasted link.
#[derive(Debug, Clone, PartialEq)]
pub struct Pasted {
    /// Number of its line, from 1.
    pub line: usize,
    /// Whose, by what they like to be called, or the job's name.
    pub who: String,
    /// The exercise's word.
    pub exercise: String,
    /// The job's text, without a try's track: marks need none.
    pub text: String,
}

/// The results of pasted links, a line each, in that order; a line that is none comes with its number and why.
#[must_use]
pub fn pasted(text: &str) -> Vec<std::result::Result<Pasted, (usize, String)>> {
    let lines = text.lines().map(str::trim).enumerate().filter(|(_, line)| !line.is_empty());
    lines
        .take(MOST)
        .map(|(i, line)| {
            let wrong = |why: String| (i + 1, why);
            let packed = line.split_once("#job=").map_or(line, |(_, packed)| packed);
            let text = link::decode(packed).map_err(|e| wrong(e.to_string()))?;
            let job = Job::from_toml(&text).map_err(|e| wrong(e.problem().to_string()))?;
            let exercise = job.practice.exercise.clone().ok_or_else(|| wrong("no exercise in it".into()))?;
            let who = job.practice.who.clone().unwrap_or_else(|| job.name.clone());
            Ok(Pasted { line: i + 1, who, exercise, text: without_track(&text) })
        })
        .collect()
}

/// A result needs its figures, not its track.
#[must_use]
pub fn without_track(text: &str) -> String {
    without_key(text, "stroke.track").unwrap_or_else(|_| text.into())
}

/// What a mark depends on: neither a track nor whose it is.
#[must_use]
pub fn unnamed(text: &str) -> String {
    let text = without_track(text);
    without_key(&text, "practice.who").unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::class_hour::ENGLISH;

    #[test]
    fn every_exercise_is_a_job_in_each_of_its_forms() {
        for (word, _, _) in ENGLISH.exercises {
            for number in 0..forms(word) {
                let job = Job::from_toml(&form(word, number).unwrap()).unwrap();
                assert_eq!(job.practice.exercise.as_deref(), Some(word));
                let asks = Exercise::named(word).unwrap().asks();
                let question = question(&job, &ENGLISH, System::Metric);
                assert_eq!(question.is_some(), asks, "{word}: {question:?}");
                assert!(question.is_none_or(|q| !q.contains("{}")));
            }
        }
        assert_eq!(long(10.0, System::Metric).replace(THIN, " "), "10 m");
        assert_eq!(long(10.0, System::Us).replace(THIN, " "), "33 ft");
        assert_eq!(Job::from_toml(&left(&exercise("balance").unwrap())).unwrap().practice.exercise, None);
    }

    #[test]
    fn turns_of_knobs_are_counted_while_a_pattern_is_balanced() {
        let text = exercise("balance").unwrap();
        let once = with_turn(&text, "gun.fluid");
        let twice = with_turn(&with_turn(&once, "gun.fan"), "stroke.speed");
        assert_eq!(Job::from_toml(&twice).unwrap().practice.turns, 2);
        assert_eq!(with_turn(TABLE_TOP, "gun.fan"), TABLE_TOP);
    }

    #[test]
    fn results_come_back_from_links_in_the_order_pasted() {
        let of = |who: &str, tries: &str| {
            let text = with_key(&exercise("five-tries").unwrap(), "practice.who", who).unwrap();
            let text = with_key(&text, "practice.tries", tries).unwrap();
            format!("http://127.0.0.1/#job={}", link::encode(&text).unwrap())
        };
        let lines = format!("{}\n\n{}\nnothing\n", of("B", "[0.5, 0.9]"), of("A", "[0.7]"));
        let table = pasted(&lines);
        assert_eq!(table.len(), 3);
        let first = table[0].as_ref().unwrap();
        assert_eq!((first.line, first.who.as_str(), first.exercise.as_str()), (1, "B", "five-tries"));
        assert_eq!(table[1].as_ref().unwrap().who, "A");
        assert_eq!(table[2].as_ref().unwrap_err().0, 4);
        let none = format!("#job={}", link::encode(&practice_job()).unwrap());
        assert!(pasted(&none)[0].is_err());
    }

    #[test]
    fn marks_are_told_with_their_units_and_a_class_by_its_spread() {
        let mark = |figure: f64| Mark {
            exercise: "wall-pressure".into(),
            figure,
            wanted: Some(3.0e5),
            unit: Unit::Pressure,
            off: (figure - 3.0e5).abs(),
            goal: 0.3e5,
            said: None,
            reached: true,
        };
        let [result, off] = told(&mark(3.2e5), &ENGLISH, &|word: &str| word.to_string(), System::Metric);
        let plain = |s: &str| s.replace(crate::figures::THIN, " ");
        assert_eq!((plain(&result).as_str(), plain(&off).as_str()), ("3.2 bar; true 3.0 bar", "0.20 bar"));
        let apart = over_class(&[mark(3.0e5), mark(3.2e5)], System::Metric).unwrap();
        assert_eq!(plain(&apart), "0.14 bar");
        let other = Mark { exercise: "balance".into(), ..mark(2.0) };
        assert_eq!(over_class(&[mark(3e5), other], System::Metric), None);
    }
}
