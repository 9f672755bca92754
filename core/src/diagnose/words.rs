//! A diagnosis in words, for a terminal: what is wrong and where, the likeliest cause, what to turn and what it gives.

use super::Lever;
use super::advice::{Advice, Step};
use super::complaint::Complaint;
use super::diagnosis::Answer;
use super::measure::Measure;
use crate::job::Job;
use crate::units::turns_shown;

/// The diagnosis as one reads it; `job` is the job it is of.
#[must_use]
pub fn words(answer: &Answer, job: &Job) -> String {
    let mut lines = vec![answer.name.clone()];
    if answer.complaints.is_empty() {
        lines.push("Nothing to complain of.".into());
    }
    lines.extend(answer.advices.iter().map(|advice| sentence(advice, answer, job)));
    for complaint in answer.unmended() {
        lines.push(format!("{} Nothing to turn here mends it for certain.", complaint_words(complaint)));
    }
    for note in answer.advices.first().map_or(&[][..], |a| &a.outside) {
        lines.push(format!("As it is now: {note}."));
    }
    lines.join("\n")
}

/// "Thin along the lower edge: 18 of 100 of the area. Likeliest: ... Overlap 50 of 100: thin area 18 to 4 of 100, likely 3 to 6; 6 mL
/// more."
#[must_use]
pub fn sentence(advice: &Advice, answer: &Answer, job: &Job) -> String {
    let wrong = answer.complaints.iter().find(|c| c.measure == advice.measure).map(complaint_words);
    let what: Vec<_> = advice.steps.iter().map(|step| amount(step, advice, job)).collect();
    let why = advice.steps.first().map_or("", |step| cause(step.lever, step.more));
    format!(
        "{} Likeliest: {why}. {}: {} {} to {} {}, likely {} to {}{}.",
        wrong.unwrap_or_default(),
        capital(&what.join(", and ")),
        figure_words(advice.measure),
        said(advice.before),
        said(advice.after),
        advice.unit,
        said(advice.after_low),
        said(advice.after_high),
        besides(advice)
    )
}

/// What an advice does besides: paint, time, other figures.
fn besides(advice: &Advice) -> String {
    let mut all = Vec::new();
    let [before, after] = advice.sprayed_ml;
    let ml = after - before;
    if ml.abs() > 0.03 * before {
        all.push(format!("{} mL {}", said(ml.abs()), if ml > 0.0 { "more" } else { "less" }));
    }
    let [before, after] = advice.trigger_s;
    let s = after - before;
    if s.abs() > 0.05 * before {
        all.push(format!("{} s {}", said(s.abs()), if s > 0.0 { "longer" } else { "shorter" }));
    }
    all.extend(advice.sides.iter().map(|side| {
        format!("{} {} to {} {}", figure_words(side.measure), said(side.before), said(side.after), side.unit)
    }));
    if all.is_empty() { String::new() } else { format!("; {}", all.join(", ")) }
}

/// A complaint in words: "Too thin along the lower edge: 18 of 100 of the area."
#[must_use]
pub fn complaint_words(complaint: &Complaint) -> String {
    let value = said(complaint.value);
    let at = place_words(&complaint.place);
    let face = if complaint.face.is_empty() { String::new() } else { format!(" on the {}", complaint.face) };
    let at = format!("{face}{at}");
    match complaint.measure {
        Measure::Thin => format!("Too thin{at}: {value} of 100 of the area."),
        Measure::Thick => format!("Too thick{at}: {value} of 100 of the area."),
        Measure::Uneven => format!("Uneven{at}: the film varies by {value} of 100."),
        Measure::Runs => format!("It runs{at}: {value} of 100 of the area."),
        Measure::Dry => format!("Dry spray{at}: {value} of 100 of the area."),
        Measure::Bare => format!("Bare{at}: {value} of 100 of the area."),
        Measure::Paint => format!("Much is wasted: {value} of 100 are not on the part."),
        Measure::Split => format!("The pattern is split: its middle lacks {value} of 100."),
        Measure::HeavyCentre => {
            format!("The pattern is heavy in the middle: half way out it lacks {value} of 100.")
        }
        Measure::HeavyEnd => "The pattern has a heavy end.".into(),
        Measure::Starved => "The pattern is starved.".into(),
        Measure::Bent => "The pattern is a crescent.".into(),
        Measure::Spat => format!("The gun spits: {value} of 100 are in coarse drops."),
        Measure::Drops | Measure::OverCap => match &complaint.warning {
            Some(warning) => format!("{}.", capital(warning)),
            None => format!("The spray is coarse: droplets of {value} um."),
        },
        Measure::AirShort => format!("Your air does not hold it: {value} L/min short."),
    }
}

/// The figure that is promised.
fn figure_words(measure: Measure) -> &'static str {
    match measure {
        Measure::Thin => "thin area",
        Measure::Thick => "thick area",
        Measure::Uneven => "unevenness",
        Measure::Runs => "area that runs",
        Measure::Dry => "dry area",
        Measure::Bare => "bare area",
        Measure::Paint => "paint for a part with the film wanted",
        Measure::Split => "the middle lacks",
        Measure::HeavyCentre => "half way out it lacks",
        Measure::HeavyEnd => "skewness",
        Measure::Starved => "film a second lacks",
        Measure::Bent => "bend",
        Measure::Spat => "coarse drops",
        Measure::Drops => "droplets",
        Measure::OverCap => "over the cap's limit",
        Measure::AirShort => "air lacking",
    }
}

/// " along the lower edge".
fn place_words(place: &str) -> String {
    match place.split_once('-') {
        Some(("edge", side)) => format!(" along the {side} edge"),
        Some(("end", side)) => format!(" at the {side} end"),
        _ => match place {
            "all-over" => " all over",
            "stripes" => " in stripes along the passes",
            "edges" => " along both edges",
            "ends" => " at both ends",
            "behind" => " behind",
            "in-places" => " in places",
            _ => "",
        }
        .into(),
    }
}

/// Why a lever that way helps: the likeliest cause.
#[must_use]
pub fn cause(lever: Lever, more: bool) -> &'static str {
    match (lever, more) {
        (Lever::Speed, true) => "the gun goes too slowly",
        (Lever::Speed, false) => "the gun goes too fast",
        (Lever::Overlap, true) => "the passes lie too far apart",
        (Lever::Overlap, false) => "the passes lie too close together",
        (Lever::Lead, true) => "the trigger opens and shuts too near the edges",
        (Lever::Lead, false) => "the trigger is on too far past the edges",
        (Lever::Sides, true) => "sprayed from too few sides",
        (Lever::Sides, false) => "sprayed from more sides than needed",
        (Lever::Axis, _) => "the fan lies the wrong way",
        (Lever::Distance, true) => "the gun is too close",
        (Lever::Distance, false) => "the gun is too far off",
        (Lever::Fan, true) => "the fan is too narrow",
        (Lever::Fan, false) => "the fan is too wide",
        (Lever::Fluid, true) => "too little paint for this fan",
        (Lever::Fluid, false) => "too much paint",
        (Lever::AirKnob, true) => "the air knob throttles the gun",
        (Lever::AirKnob | Lever::Pressure, false) => "too much air",
        (Lever::Pressure, true) => "too little air pressure",
        (Lever::Thinning, true) => "the paint is too thick",
        (Lever::Thinning, false) => "too much thinner",
        (Lever::Thinner, true) => "the thinner is too fast",
        (Lever::Thinner, false) => "the thinner is too slow",
        (Lever::Coats, true) => "too few coats",
        (Lever::Coats, false) => "too many coats",
        (Lever::Hand, _) => "the hand is unsteady",
        (Lever::Faults, _) => "a fault of the gun",
    }
}

/// What to do, in the trade's units.
#[must_use]
pub fn amount(step: &Step, advice: &Advice, job: &Job) -> String {
    let turns = |knob: &str| {
        let way = if step.more { "out" } else { "in" };
        format!(
            "{knob} {way} by {}, to {} turns out",
            turns_shown((step.to - step.from).abs()),
            turns_shown(step.to)
        )
    };
    let mm = |v: f64| format!("{:.0} mm", v * 1e3);
    match step.lever {
        Lever::Speed => {
            let way = if step.more { "faster" } else { "slower" };
            format!(
                "go {way}, {} a second instead of {}: {:.1} s a metre",
                mm(step.to),
                mm(step.from),
                1.0 / step.to
            )
        }
        Lever::Overlap => format!(
            "overlap {:.0} of 100 instead of {:.0}: {:.0} mm down each pass",
            step.to * 100.0,
            step.from * 100.0,
            advice.fan_mm * (1.0 - step.to)
        ),
        Lever::Lead => format!("trigger on {} past the edges instead of {}", mm(step.to), mm(step.from)),
        Lever::Sides => format!("spray from {:.0} sides instead of {:.0}", step.to, step.from),
        Lever::Axis => {
            format!(
                "turn the cap so that the fan lies {} the stroke",
                if step.more { "along" } else { "across" }
            )
        }
        Lever::Distance => {
            let way = if step.more { "farther off" } else { "closer" };
            format!("hold the gun {} {way}, at {}", mm((step.to - step.from).abs()), mm(step.to))
        }
        Lever::Fan => turns("fan knob"),
        Lever::Fluid => turns("fluid knob"),
        Lever::AirKnob => turns("air knob"),
        Lever::Pressure => {
            let way = if step.more { "up" } else { "down" };
            format!(
                "pressure at the gun {way} by {:.2} bar, to {:.2} bar with the trigger pulled",
                (step.to - step.from).abs() * 1e-5,
                step.to * 1e-5
            )
        }
        Lever::Thinning => {
            let of = if job.mix.thinning_of == crate::paint::ThinningOf::Base { "base" } else { "mix" };
            let way = if step.more { "more" } else { "less" };
            format!(
                "{:.0} mL {way} thinner to a litre of {of}, {:.0} of 100 in all",
                (step.to - step.from).abs() * 1e3,
                step.to * 100.0
            )
        }
        Lever::Thinner => format!("take the {} thinner", step.value),
        Lever::Coats => format!("{:.0} coats instead of {:.0}", step.to, step.from),
        Lever::Hand => "hold it steadier: 10 mm beside the line, 7 of 100 in speed, 10 mm in distance".into(),
        Lever::Faults => {
            let all: Vec<_> = job.gun.faults.iter().map(|f| f.word().replace('-', " ")).collect();
            format!("clear it ({})", all.join(", "))
        }
    }
}

fn said(value: f64) -> String {
    if value.abs() >= 9.95 {
        format!("{value:.0}")
    } else if value.abs() >= 0.995 {
        format!("{value:.1}")
    } else {
        format!("{value:.2}")
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|c| c.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
