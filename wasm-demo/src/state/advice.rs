//! A diagnosis in the page's words and units.

use mistcoat::diagnose::{Advice, Answer, Complaint, Lever, Measure, Step};
use mistcoat::job::Job;
use mistcoat::paint::ThinningOf;
use mistcoat::units::{Quantity, System};

use crate::figures::{drop_size, of_100, said, seconds, turns};
use crate::words::{AdviceWords, fill, words};

/// Shares of paint and time below which a change is not told.
const NO_CHANGE: f64 = 0.03;
/// A foot [m].
const FOOT: f64 = 0.3048;

/// What a key of the words stands for.
fn word<T: Copy>(list: &[(&'static str, T)], key: &str) -> Option<T> {
    list.iter().find(|(k, _)| *k == key).map(|(_, word)| *word)
}

/// An answer as the worker tells it.
pub fn read(answer: &str) -> Option<Answer> {
    serde_json::from_str(answer).ok()
}

/// A figure of a measure, without its unit where that is "of 100".
fn figure(measure: Measure, value: f64, system: System) -> String {
    match measure {
        Measure::Paint => said(Quantity::Volume, value * 1e-6, system),
        Measure::Drops => drop_size(value),
        Measure::OverCap => said(Quantity::Pressure, value * 1e5, system),
        Measure::AirShort => said(Quantity::AirFlow, value / 60_000.0, system),
        _ => of_100(value / 100.0),
    }
}

/// The unit of a promised figure where the figure itself has none.
fn unit(measure: Measure) -> &'static str {
    match measure {
        Measure::Paint | Measure::Drops | Measure::OverCap | Measure::AirShort => "",
        _ => words().of_100,
    }
}

/// "Too thin along the lower edge: 18 of 100 of the area."
pub fn complaint(complaint: &Complaint, system: System) -> String {
    let w = words().advice;
    if let Some(warning) = &complaint.warning {
        let mut letters = warning.chars();
        return letters
            .next()
            .map(|c| c.to_uppercase().chain(letters).collect::<String>() + ".")
            .unwrap_or_default();
    }
    let face = if complaint.face.is_empty() { String::new() } else { fill(w.on_face, &[&complaint.face]) };
    let place = word(&w.places, &complaint.place).unwrap_or_default();
    // Waste is a share, though its cure is told in paint.
    let value = match complaint.measure {
        Measure::Paint => of_100(complaint.value / 100.0),
        measure => figure(measure, complaint.value, system),
    };
    let said = word(&w.complaints, complaint.measure.word()).unwrap_or("{}{}");
    fill(said, &[&format!("{face}{place}"), &value])
}

fn of_lever(list: &[(&'static str, &'static str, &'static str)], step: &Step) -> &'static str {
    let key = lever_word(step.lever);
    let found = list.iter().find(|(k, ..)| *k == key);
    found.map_or("", |(_, more, less)| if step.more { more } else { less })
}

fn lever_word(lever: Lever) -> &'static str {
    match lever {
        Lever::Speed => "speed",
        Lever::Overlap => "overlap",
        Lever::Lead => "lead",
        Lever::Sides => "sides",
        Lever::Axis => "axis",
        Lever::Distance => "distance",
        Lever::Fan => "fan",
        Lever::Fluid => "fluid",
        Lever::AirKnob => "air-knob",
        Lever::Pressure => "pressure",
        Lever::Thinning => "thinning",
        Lever::Thinner => "thinner",
        Lever::Coats => "coats",
        Lever::Faults => "faults",
        Lever::Hand => "hand",
    }
}

/// "Likeliest: the passes lie too far apart."
pub fn cause(advice: &Advice) -> String {
    let w = words().advice;
    advice.steps.first().map(|step| fill(w.likeliest, &[of_lever(&w.causes, step)])).unwrap_or_default()
}

/// What to do, one step after the other, each with its amount.
pub fn steps(advice: &Advice, job: &Job, system: System) -> String {
    let all: Vec<_> = advice.steps.iter().map(|step| one(step, advice, job, system)).collect();
    let text = all.join(words().advice.then);
    let mut letters = text.chars();
    letters.next().map(|c| c.to_uppercase().chain(letters).collect::<String>() + ".").unwrap_or_default()
}

fn one(step: &Step, advice: &Advice, job: &Job, system: System) -> String {
    let w: AdviceWords = words().advice;
    let says = of_lever(&w.steps, step);
    let length = |v: f64| said(Quantity::Length, v, system);
    let count = |v: f64| format!("{v:.0}");
    let share = |v: f64| of_100(v);
    match step.lever {
        Lever::Speed => {
            let us = system == System::Us;
            let (way, pace) = if us { (FOOT, w.pace[1]) } else { (1.0, w.pace[0]) };
            let at = |v: f64| fill(pace, &[&format!("{:.1}", way / v)]);
            fill(says, &[&at(step.to), &format!("{:.1}", way / step.from)])
        }
        Lever::Overlap => {
            let down = length(advice.fan_mm * 1e-3 * (1.0 - step.to));
            fill(says, &[&share(step.to), &share(step.from), &down])
        }
        Lever::Lead | Lever::Distance => fill(says, &[&length(step.to), &length(step.from)]),
        Lever::Sides | Lever::Coats => fill(says, &[&count(step.to), &count(step.from)]),
        Lever::Axis | Lever::Hand => says.into(),
        Lever::Fan | Lever::Fluid | Lever::AirKnob => {
            fill(says, &[&turns((step.to - step.from).abs()), &turns(step.to)])
        }
        Lever::Pressure => fill(says, &[&pressure(step.to, system), &pressure(step.from, system)]),
        Lever::Thinning => {
            let of = if job.mix.thinning_of == ThinningOf::Base { w.of_base } else { w.of_mix };
            fill(says, &[&said(Quantity::Volume, (step.to - step.from).abs() * 1e-3, system), of])
        }
        Lever::Thinner => fill(says, &[word(&w.thinners, &step.value).unwrap_or_default()]),
        Lever::Faults => {
            let all = words().faults.faults;
            let named = |f: mistcoat::gun::Fault| all.iter().find(|a| a.0 == f.word()).map(|a| a.1);
            let names: Vec<_> = job.gun.faults.iter().filter_map(named).collect();
            fill(says, &[&names.join(", ").to_lowercase()])
        }
    }
}

/// Steps of the gauge are a twentieth of a bar: one digit more than the page says elsewhere.
fn pressure(pascal: f64, system: System) -> String {
    let bar = pascal * 1e-5;
    if system == System::Metric && ((bar * 10.0) - (bar * 10.0).round()).abs() > 1e-6 {
        format!("{bar:.2}{}bar", crate::figures::THIN)
    } else {
        said(Quantity::Pressure, pascal, system)
    }
}

/// What an advice promises: the figure's name, before, after with its unit, and its likely range.
pub struct Promise {
    /// What is promised.
    pub name: &'static str,
    /// Before.
    pub before: String,
    /// After.
    pub after: String,
    /// "of 100", or nothing.
    pub unit: &'static str,
    /// "likely 3 to 6".
    pub likely: String,
}

/// The promise of an advice.
pub fn promise(advice: &Advice, system: System) -> Promise {
    let w = words().advice;
    let of = |v: f64| figure(advice.measure, v, system);
    let (low, high) = (of(advice.after_low), of(advice.after_high));
    Promise {
        name: word(&w.figures, advice.measure.word()).unwrap_or_default(),
        before: of(advice.before),
        after: of(advice.after),
        unit: unit(advice.measure),
        likely: fill(w.likely, &[&low, &high]),
    }
}

/// What it does besides: paint, time, other figures; empty where nothing to speak of.
pub fn besides(advice: &Advice, system: System) -> String {
    let w = words().advice;
    let mut all = Vec::new();
    let mut change = |[before, after]: [f64; 2], more: &str, less: &str, say: &dyn Fn(f64) -> String| {
        let change = after - before;
        if change.abs() > NO_CHANGE * before {
            all.push(fill(if change > 0.0 { more } else { less }, &[&say(change.abs())]));
        }
    };
    change(advice.sprayed_ml, w.more_ml, w.less_ml, &|ml| said(Quantity::Volume, ml * 1e-6, system));
    change(advice.trigger_s, w.longer, w.shorter, &|s| seconds(s));
    all.extend(advice.sides.iter().map(|side| {
        let name = word(&w.figures, side.measure.word()).unwrap_or_default();
        let of = |v: f64| figure(side.measure, v, system);
        fill(w.side, &[name, &of(side.before), &format!("{} {}", of(side.after), unit(side.measure))])
    }));
    let text = all.join(", ").trim().to_string();
    let mut letters = text.chars();
    letters.next().map(|c| c.to_uppercase().chain(letters).collect::<String>() + ".").unwrap_or_default()
}

/// The job's text with an advice taken.
///
/// # Errors
/// A key that cannot be set beside what the file has there.
pub fn taken(text: &str, advice: &Advice) -> Result<String, mistcoat::job::JobError> {
    let set = |text: String, step: &Step| mistcoat::job::with_key(&text, &step.key, &step.value);
    advice.steps.iter().try_fold(text.to_string(), set)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn advice() -> Advice {
        Advice {
            measure: Measure::Thin,
            face: String::new(),
            place: "edge-lower".into(),
            steps: vec![
                Step {
                    lever: Lever::Overlap,
                    more: true,
                    from: 0.3,
                    to: 0.5,
                    key: "stroke.overlap".into(),
                    value: "0.5".into(),
                },
                Step {
                    lever: Lever::Fan,
                    more: false,
                    from: 1.5,
                    to: 1.125,
                    key: "gun.fan".into(),
                    value: "0.75".into(),
                },
            ],
            before: 18.0,
            after: 4.2,
            after_low: 3.0,
            after_high: 6.0,
            gain: 13.8,
            gain_low: 12.0,
            gain_high: 15.0,
            standard_error: 0.4,
            unit: "of 100".into(),
            enough: false,
            also: vec![],
            sides: vec![],
            sprayed_ml: [30.0, 36.0],
            trigger_s: [12.0, 12.1],
            film_um: [24.0, 26.0],
            fan_mm: 184.0,
            outside: vec![],
        }
    }

    #[test]
    fn an_advice_is_said_in_the_trades_amounts() {
        let job = Job::from_toml(crate::state::TABLE_TOP).unwrap();
        let advice = advice();
        let said = steps(&advice, &job, System::Metric);
        assert_eq!(
            said,
            "Overlap 50 of 100 instead of 30: 92\u{202f}mm down each pass, and fan knob in by ⅜ turn, to 1⅛ out."
        );
        assert_eq!(cause(&advice), "Likeliest: the passes lie too far apart.");
        let promise = promise(&advice, System::Metric);
        assert_eq!((promise.before.as_str(), promise.after.as_str(), promise.unit), ("18", "4", "of 100"));
        assert_eq!(promise.likely, "likely 3 to 6");
        assert_eq!(besides(&advice, System::Metric), "6.0\u{202f}mL more paint.");
        let text = taken(crate::state::TABLE_TOP, &advice).unwrap();
        let after = Job::from_toml(&text).unwrap();
        assert_eq!((after.stroke.overlap, after.gun.fan), (0.5, 0.75));
    }

    #[test]
    fn every_measure_and_lever_has_its_words() {
        let w = words().advice;
        for measure in Measure::ALL {
            assert!(word(&w.complaints, measure.word()).is_some(), "{measure:?}");
            assert!(word(&w.figures, measure.word()).is_some(), "{measure:?}");
        }
        for lever in Lever::ALL {
            let key = lever_word(lever);
            assert!(w.causes.iter().any(|c| c.0 == key) && w.steps.iter().any(|s| s.0 == key), "{lever:?}");
        }
    }
}
