//! A search's answer in words, the answer first.

use super::answer::{Answer, Found};
use super::flat::{End, Flat};
use super::lever::Lever;
use super::setup::Change;
use super::stop::{Stop, What};
use crate::units::{Quantity, System, show};

/// The answer as one reads it at a terminal.
#[must_use]
pub fn words(answer: &Answer, system: System) -> String {
    let mut lines = vec![answer.name.clone(), sentence(answer, system)];
    let Some(best) = &answer.best else { return lines.join("\n") };
    for change in &best.changes {
        let flat = answer.flat.iter().find(|f| f.lever == change.lever);
        let within = flat.map_or(String::new(), |f| format!("; {}", exact(f, system)));
        lines.push(format!("  {}{within}", turn(change, system)));
    }
    for flat in answer.flat.iter().filter(|f| best.changes.iter().all(|c| c.lever != f.lever)) {
        lines.push(format!("  {} stays: {}", capital(name(flat.lever)), exact(flat, system)));
    }
    lines.push(film(best, system));
    lines.extend(bounds(answer));
    if answer.front.len() > 1 {
        let one = |f: &super::answer::FrontPoint| {
            format!("{} in {:.1} s", show(Quantity::Volume, f.ml * 1e-6, system), f.seconds)
        };
        let all: Vec<String> = answer.front.iter().map(one).collect();
        lines.push(format!("Paint against time, the best of each (few droplets): {}.", all.join("; ")));
    }
    lines.push(for_whom(answer));
    lines.join("\n")
}

/// "14 mL and 9 s for a part instead of 19 mL and 7 s, likely 13 to 16 mL."
#[must_use]
pub fn sentence(answer: &Answer, system: System) -> String {
    let Some(best) = &answer.best else {
        return answer.why_none.as_ref().map_or_else(
            || "Nothing is known yet.".into(),
            |why| format!("No setting of this gun can be used here: {why}."),
        );
    };
    let ml = |v: f64| show(Quantity::Volume, v * 1e-6, system);
    let figures = format!("{} and {:.1} s for a part", ml(best.ml), best.seconds);
    let range = format!("likely {} to {}", ml(best.ml_low), ml(best.ml_high));
    if !best.stops.is_empty() {
        let why: Vec<String> = best.stops.iter().map(|s| stop(s, best, answer)).collect();
        return format!(
            "No set-up was found that keeps to all that is asked. The nearest takes {figures}, {range}; what stops it: {}.",
            why.join("; ")
        );
    }
    match &answer.now {
        _ if best.changes.is_empty() => {
            format!("As it is set it takes {figures}, {range}: no better was found.")
        }
        Some(now) if now.stops.is_empty() => {
            let thinner = best.mean_um < 0.97 * now.mean_um;
            let film = if thinner { ", the film nearer to the low end of the film wanted" } else { "" };
            format!(
                "{} instead of {} and {:.1} s, {range}{film}.",
                capital(&figures),
                ml(now.ml),
                now.seconds
            )
        }
        Some(now) => {
            let why: Vec<String> = now.stops.iter().map(|s| stop(s, now, answer)).collect();
            format!(
                "{}, {range}. As it is set it takes {} and {:.1} s, and does not do: {}.",
                capital(&figures),
                ml(now.ml),
                now.seconds,
                why.join("; ")
            )
        }
        None => format!("{}, {range}.", capital(&figures)),
    }
}

/// For whom it is.
#[must_use]
pub fn for_whom(answer: &Answer) -> String {
    let hand = match answer.hand.as_str() {
        "machine" => "Found for a machine's hand".to_string(),
        "own" => "Found for the hand that the job gives".to_string(),
        other if answer.by_default => format!("Found for a {other} hand, since the job names none"),
        other => format!("Found for the job's hand ({other})"),
    };
    let band = if answer.usual_band { ", the paint's usual coat, since the job names no film" } else { "" };
    format!(
        "{hand}: film {:.0} to {:.0} um{band} on {:.0} of 100 of the area, thinnest spot at least {:.0} of 100 of the mean, no runs.",
        answer.band_um[0],
        answer.band_um[1],
        answer.right_on_percent,
        100.0 * answer.thinnest
    )
}

/// The film of a set-up.
#[must_use]
pub fn film(found: &Found, system: System) -> String {
    format!(
        "Dry film {} in the mean, {:.0} of 100 of the area right, thinnest spot {:.0} of 100 of the mean; {:.0} of 100 of the solids stay on the part.",
        show(Quantity::Film, found.mean_um * 1e-6, system),
        found.right_percent,
        100.0 * found.thinnest,
        100.0 * found.landed
    )
}

/// What keeps the best from less paint, a sentence each.
#[must_use]
pub fn bounds(answer: &Answer) -> Vec<String> {
    let Some(best) = &answer.best else { return Vec::new() };
    let mut all = Vec::new();
    match best.bound {
        What::Fast => all.push(
            "The gun goes as fast as a hand keeps (0.8 m/s): faster would take less paint.".to_string(),
        ),
        What::Thinnest => all.push("The thinnest spot is at its limit.".to_string()),
        _ => {
            all.push("The film lies at the low end of what is asked: faster, and it is too thin.".to_string())
        }
    }
    for flat in &answer.flat {
        for (end, less) in [(&flat.low, true), (&flat.high, false)] {
            let there = (end.value - flat.at).abs() < 1e-6 * flat.at.abs().max(1e-3);
            if !there || flat.lever == Lever::Speed {
                continue;
            }
            let way = if less { "Less" } else { "More" };
            let what = match end.what {
                What::Sheet => match answer.sheet_bar {
                    Some([low, high]) => {
                        format!("the data sheet's window ends there ({low:.1} to {high:.1} bar)")
                    }
                    None => continue,
                },
                What::Gun if flat.lever == Lever::Pressure && less => {
                    "the droplets get too coarse, or the gun is made for more".to_string()
                }
                What::Gun if flat.lever == Lever::Pressure => "the gun is not made for more".to_string(),
                What::Gun => "the knob ends there, or the spray will not do".to_string(),
                What::Reach => "that is where the usual range ends".to_string(),
                What::Paint | What::Fast => continue,
                other => reason(other).to_string(),
            };
            all.push(format!("{way} {}: {what}.", name(flat.lever)));
        }
    }
    all
}

/// Why a limit stops a set-up.
#[must_use]
pub fn reason(what: What) -> &'static str {
    match what {
        What::Band => "the film is too uneven or too thick for the film wanted",
        What::Thin => "the film is too thin",
        What::Thinnest => "the thinnest spot is too thin",
        What::Runs => "it runs",
        What::Dry => "it dries before it flows out",
        What::Slow => "it needs a slower stroke than a hand keeps",
        What::Fast => "it needs a faster stroke than a hand keeps",
        What::Air => "your air does not hold it",
        What::Pattern => "the pattern is split, lopsided or spat",
        What::Gun => "the gun does not spray well so",
        What::Sheet => "it is outside the data sheet's window",
        What::Reach => "that is where the usual range ends",
        What::Paint => "it takes more paint",
    }
}

/// A stop with its figure.
#[must_use]
pub fn stop(stop: &Stop, found: &Found, answer: &Answer) -> String {
    let [low, high] = answer.band_um;
    match stop.what {
        What::Band => format!(
            "the film is too uneven or too thick for {low:.0} to {high:.0} um (standard deviation {:.0} of 100, {:.0} of 100 of the area right)",
            found.uneven_percent, found.right_percent
        ),
        What::Thin => format!("the film is too thin ({:.0} of 100 of the area right)", found.right_percent),
        What::Thinnest => {
            format!("the thinnest spot has {:.0} of 100 of the mean film", 100.0 * found.thinnest)
        }
        What::Runs => format!("it runs (up to {:.0} um wet)", found.wettest_um),
        What::Dry => format!("dry spray on {:.0} of 100 of the area", 100.0 * stop.by.min(1.0)),
        other => reason(other).into(),
    }
}

/// What a lever is called.
#[must_use]
pub fn name(lever: Lever) -> &'static str {
    match lever {
        Lever::Fan => "fan knob",
        Lever::Fluid => "fluid knob",
        Lever::Pressure => "pressure",
        Lever::AirKnob => "air knob",
        Lever::Distance => "distance",
        Lever::Overlap => "overlap",
        Lever::Axis => "fan",
        Lever::Sides => "sides",
        Lever::Speed => "speed",
        Lever::Lead => "lead-in",
        _ => "setting",
    }
}

/// A value of a lever, as the trade says it.
#[must_use]
pub fn value(lever: Lever, value: f64, system: System) -> String {
    match lever {
        Lever::Fan | Lever::Fluid | Lever::AirKnob => format!("{} turns out", eighths(value)),
        Lever::Pressure => show(Quantity::Pressure, value, system),
        Lever::Distance | Lever::Lead => show(Quantity::Length, value, system),
        Lever::Overlap => format!("{:.0} of 100", 100.0 * value),
        Lever::Axis => if value > 0.5 { "along the stroke" } else { "across the stroke" }.into(),
        Lever::Speed => show(Quantity::Speed, value, system),
        _ => format!("{value:.0}"),
    }
}

/// "Fan knob from 1 1/2 to 7/8 turns out".
#[must_use]
pub fn turn(change: &Change, system: System) -> String {
    let (from, to) = (value(change.lever, change.from, system), value(change.lever, change.to, system));
    format!("{} {to} (now {from})", capital(name(change.lever)))
}

/// "150 to 190 mm takes at most 1 % more paint".
#[must_use]
pub fn exact(flat: &Flat, system: System) -> String {
    if matches!(flat.lever, Lever::Axis) {
        let other = flat.points.iter().find(|p| (p[0] - flat.at).abs() > 0.5);
        return other.map_or_else(
            || "the other way does not do".into(),
            |p| format!("the other way takes {:+.0} of 100 of the paint", p[1]),
        );
    }
    let side = |end: &End| value(flat.lever, end.value, system);
    let (low, high) = (side(&flat.low), side(&flat.high));
    if low == high {
        return format!("{low} and no other is within 1 %");
    }
    let unsure = |end: &End| (end.range[1] - end.range[0]).abs() > 0.02 * flat.at.abs().max(1e-9);
    let about = if unsure(&flat.low) || unsure(&flat.high) { "about " } else { "" };
    let short = match (low.split_once(' '), high.split_once(' ')) {
        (Some((number, a)), Some((_, b))) if a == b => number.to_string(),
        _ => low,
    };
    format!("{about}{short} to {high} is within 1 %")
}

/// "1 3/8": turns to the nearest eighth.
fn eighths(turns: f64) -> String {
    let all = (turns.max(0.0) * 8.0 + 0.5) as u32;
    let (whole, rest) = (all / 8, all % 8);
    let part = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"][rest as usize];
    match (whole, part) {
        (_, "") => whole.to_string(),
        (0, part) => part.into(),
        (whole, part) => format!("{whole} {part}"),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
