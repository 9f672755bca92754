//! A search's answer in words, the answer first.

use super::answer::{Answer, Found};
use super::lever::Lever;
use super::limits::HAND;
use super::stop::{Stop, What};
use super::told::{capital, exact, name, turn};
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
    lines.extend(bounds(answer, system));
    if answer.front.len() > 1 {
        let one = |f: &super::answer::FrontPoint| {
            format!("{} in {:.1} s", show(Quantity::Volume, f.ml * 1e-6, system), f.seconds)
        };
        let all: Vec<String> = answer.front.iter().map(one).collect();
        lines.push(format!("Paint against time, the best of each (few droplets): {}.", all.join("; ")));
    }
    lines.push(for_whom(answer, system));
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
        let why: Vec<String> = best.stops.iter().map(|s| stop(s, best, answer, system)).collect();
        return format!(
            "No set-up was found that keeps to all that is asked. The nearest takes {figures}, {range}; what stops it: {}.",
            why.join("; ")
        );
    }
    if !best.unsure.is_empty() {
        let why: Vec<String> = best.unsure.iter().map(|s| doubt(s, best, answer)).collect();
        return format!(
            "No set-up was found that surely keeps to all that is asked. The nearest takes {figures}, {range}; what is not sure: {}.",
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
            let why: Vec<String> = now.stops.iter().map(|s| stop(s, now, answer, system)).collect();
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

/// Two ends of a quantity: "20 to 35 um".
fn ends(quantity: Quantity, [low, high]: [f64; 2], system: System) -> String {
    let (low, high) = (show(quantity, low, system), show(quantity, high, system));
    match (low.rsplit_once(' '), high.rsplit_once(' ')) {
        (Some((number, a)), Some((_, b))) if a == b => format!("{number} to {high}"),
        _ => format!("{low} to {high}"),
    }
}

/// The film wanted.
fn band(answer: &Answer, system: System) -> String {
    ends(Quantity::Film, answer.band_um.map(|um| um * 1e-6), system)
}

/// For whom it is.
#[must_use]
pub fn for_whom(answer: &Answer, system: System) -> String {
    let hand = match answer.hand.as_str() {
        "machine" => "Found for a machine's hand".to_string(),
        "own" => "Found for the hand that the job gives".to_string(),
        other if answer.by_default => format!("Found for a {other} hand, since the job names none"),
        other => format!("Found for the job's hand ({other})"),
    };
    let usual = if answer.usual_band { ", the paint's usual coat, since the job names no film" } else { "" };
    let runs = if machine(answer) { "no runs" } else { "runs on fewer than one part in ten" };
    format!(
        "{hand}: film {}{usual} on {:.0} of 100 of the area, thinnest spot at least {:.0} of 100 of the mean, {runs}.",
        band(answer, system),
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
pub fn bounds(answer: &Answer, system: System) -> Vec<String> {
    let Some(best) = &answer.best else { return Vec::new() };
    let mut all = Vec::new();
    match best.bound {
        What::Fast => all.push(format!(
            "The gun goes as fast as a hand keeps ({}): faster would take less paint.",
            show(Quantity::Speed, HAND[1], system)
        )),
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
            // A fan that lies one way can only be turned the other way.
            let turned = match flat.lever {
                Lever::Axis if less == (flat.at < 0.5) => continue,
                Lever::Axis if less => "Fan across the stroke".to_string(),
                Lever::Axis => "Fan along the stroke".to_string(),
                Lever::Sides => format!("{} sides", if less { "Fewer" } else { "More" }),
                lever => format!("{} {}", if less { "Less" } else { "More" }, name(lever)),
            };
            let what = match end.what {
                What::Sheet => match answer.sheet_bar {
                    Some(bar) => {
                        let window = ends(Quantity::Pressure, bar.map(|b| b * 1e5), system);
                        format!("the data sheet's window ends there ({window})")
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
                What::Runs if !machine(answer) => "some parts run".to_string(),
                What::Dry if !machine(answer) => "some parts dry before they flow out".to_string(),
                other => reason(other).to_string(),
            };
            all.push(format!("{turned}: {what}."));
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
pub fn stop(stop: &Stop, found: &Found, answer: &Answer, system: System) -> String {
    match (stop.what, stop.parts) {
        (what, Some([bad, parts])) => format!("{} on {bad} of {parts} parts", mark(what)),
        (What::Band, _) => format!(
            "the film is too uneven or too thick for {} (standard deviation {:.0} of 100, {:.0} of 100 of the area right)",
            band(answer, system),
            found.uneven_percent,
            found.right_percent
        ),
        (What::Thin, _) => {
            format!("the film is too thin ({:.0} of 100 of the area right)", found.right_percent)
        }
        (What::Thinnest, _) => {
            format!("the thinnest spot has {:.0} of 100 of the mean film", 100.0 * found.thinnest)
        }
        (What::Runs, _) => {
            format!("it runs (up to {} wet)", show(Quantity::Film, found.wettest_um * 1e-6, system))
        }
        (What::Dry, _) => format!("dry spray on {:.0} of 100 of the area", 100.0 * stop.by.min(1.0)),
        (other, _) => reason(other).into(),
    }
}

/// What it keeps to here, by too little to be sure of it on other parts.
fn doubt(stop: &Stop, found: &Found, answer: &Answer) -> String {
    match (stop.what, stop.parts) {
        (what, Some([bad, parts])) => format!("{} on {bad} of {parts} parts", mark(what)),
        (What::Thinnest, _) => format!(
            "the thinnest spot has {:.0} of 100 of the mean film, {:.0} asked",
            100.0 * found.thinnest,
            100.0 * answer.thinnest
        ),
        _ => format!(
            "{:.1} of 100 of the area is right, {:.0} asked",
            found.right_percent, answer.right_on_percent
        ),
    }
}

/// What is told part by part.
fn mark(what: What) -> &'static str {
    match what {
        What::Runs => "runs",
        What::Dry => "dry spray",
        _ => "bare spots",
    }
}

/// It is for a machine: every part comes out alike.
fn machine(answer: &Answer) -> bool {
    answer.hand == "machine"
}
