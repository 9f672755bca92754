//! A judgement in words. Figures come from the judgement; nothing here decides.

use super::band::BandShares;
use super::verdict::{Decision, FilmVerdict, Judgement, Rule, Source, Unit, Verdict};
use super::{Comb, CombReading, Dew, NextCoat, Plan};
use crate::job::{Method, PartShape};
use crate::units::{Quantity, System, show};

/// Of a nominal film that the standard is not made for, metric and US.
pub const THIN_NOMINAL: [&str; 2] = [
    "ISO 19840 is not made for nominal films below 40 um: there the gauge's error and the steel's profile are no longer small \
     against the film. The verdict only indicates.",
    "ISO 19840 is not made for nominal films below 1.6 mil: there the gauge's error and the steel's profile are no longer small \
     against the film. The verdict only indicates.",
];
/// Of an area that fails on a part without room for what follows, metric and US.
pub const NO_ROOM: [&str; 2] = [
    "The standard would now measure spots each 1.5 m outwards, in eight directions, to find how far the wrong film reaches. \
     This part has no room for that: the whole of it is the area that fails.",
    "The standard would now measure spots each 5 ft outwards, in eight directions, to find how far the wrong film reaches. \
     This part has no room for that: the whole of it is the area that fails.",
];

/// A verdict's note in these units; the verdict holds it metric.
#[must_use]
pub fn note(metric: &str, system: System) -> String {
    let known = [THIN_NOMINAL, NO_ROOM].into_iter().find(|both| both[0] == metric && system == System::Us);
    known.map_or(metric, |both| both[1]).into()
}

/// What a part is called.
pub fn part(shape: &PartShape) -> &'static str {
    match shape {
        PartShape::Panel { .. } => "panel",
        PartShape::Tube { .. } => "tube",
        PartShape::Curved { .. } => "curved panel",
        PartShape::Frame(_) => "frame",
    }
}

/// That more droplets are needed.
pub fn needs(droplets: f64) -> String {
    let mut unit = 1.0;
    while droplets / unit >= 100.0 {
        unit *= 10.0;
    }
    format!(
        "A cell's counting error is too large to say; about {:.0} droplets would do.",
        (droplets / unit).ceil() * unit
    )
}

fn film(um: f64, system: System) -> String {
    show(Quantity::Film, um * 1e-6, system)
}

/// "17 to 24 um": the unit once.
fn range(low: f64, high: f64, system: System) -> String {
    let (low, high) = (film(low, system), film(high, system));
    if low == high {
        return high;
    }
    format!("{} to {high}", low.split(' ').next().unwrap_or(&low))
}

/// Whole hundredths; a part of one is not nothing, and just short of all is not all.
fn of_100(percent: f64) -> String {
    match percent {
        p if p > 0.0 && p < 0.95 => format!("{p:.1}"),
        p if (99.5..100.0).contains(&p) => format!("{:.1}", p.min(99.9)),
        p => format!("{p:.0}"),
    }
}

/// A decision's figure or limit with its unit.
pub fn figure(value: f64, unit: Unit, system: System) -> String {
    match unit {
        Unit::Um => film(value, system),
        Unit::Percent => format!("{} of 100", of_100(value)),
    }
}

/// The name of the method.
pub fn method(verdict: &FilmVerdict) -> String {
    match (Method::of(&verdict.method), verdict.level) {
        (Some(Method::Pa2), Some(level)) => format!("SSPC-PA 2, level {level}"),
        (Some(Method::Pa2 | Method::Pa2Panel), _) => "SSPC-PA 2, test panel".into(),
        (Some(Method::Iso19840), _) => "ISO 19840".into(),
        _ => "the band".into(),
    }
}

/// A rule in words, with its limit.
#[must_use]
pub fn rule(decision: &Decision, system: System) -> String {
    let limit = figure(decision.limit, decision.unit, system);
    match decision.rule {
        Rule::RightOn => format!("right on at least {limit} of the area"),
        Rule::SpotLow => format!("each spot at least {limit}"),
        Rule::SpotHigh => format!("each spot at most {limit}"),
        Rule::AreaLow => format!("each area at least {limit}"),
        Rule::AreaHigh => format!("each area at most {limit}"),
        Rule::ReadingLow => format!("each reading at least {limit}"),
        Rule::ReadingHigh => format!("each reading at most {limit}"),
        Rule::MeanLow => format!("mean at least {limit}"),
        Rule::MeanHigh => format!("mean at most {limit}"),
        Rule::ShareUnder => format!("at most {limit} readings below the nominal film"),
    }
}

/// Where a rule comes from, in words.
#[must_use]
pub fn source(source: Source) -> &'static str {
    match source {
        Source::Seen => "read in accounts of the standard",
        Source::FromMemory => "from memory, check the standard",
        Source::Ours => "ours, no standard",
    }
}

/// The verdict in a sentence.
#[must_use]
pub fn sentence(verdict: &FilmVerdict, system: System) -> String {
    if Method::of(&verdict.method) == Some(Method::Band) {
        return match &verdict.shares {
            Some(shares) => band(verdict, shares, system),
            None => format!("Cannot tell how much of the {} is right: too few droplets.", verdict.part),
        };
    }
    let name = method(verdict);
    match verdict.verdict {
        Verdict::Pass => format!("Passes {name}: {}.", kept(verdict, system)),
        Verdict::Fail => {
            let broken = verdict.decisions.iter().find(|d| d.verdict == Verdict::Fail);
            format!("Fails {name}: {}.", broken.map(|d| missed(verdict, d, system)).unwrap_or_default())
        }
        Verdict::CannotTell => {
            let open = verdict.decisions.iter().find(|d| d.verdict == Verdict::CannotTell);
            let why = open.map(|d| {
                format!(
                    "{}; the limit is {}, and counting alone leaves {} either way",
                    what_is(verdict, d, system),
                    figure(d.limit, d.unit, system),
                    figure(2.0 * d.standard_error, d.unit, system)
                )
            });
            format!("Cannot tell by {name}: {}.", why.unwrap_or_else(|| "too few droplets".into()))
        }
    }
}

fn band(verdict: &FilmVerdict, shares: &BandShares, system: System) -> String {
    let [low, high] = verdict.wanted_um;
    let open = match verdict.verdict {
        Verdict::CannotTell => " Whether that is enough, counting cannot tell yet.",
        _ => "",
    };
    if shares.thin_percent <= 0.0 && shares.thick_percent <= 0.0 {
        let ends = range(shares.thinnest_um, shares.thickest_um, system);
        return format!("Right all over the {}: {ends}.{open}", verdict.part);
    }
    let mut said = format!("Right on {} of 100 of the {}", of_100(shares.right_percent), verdict.part);
    if shares.thin_percent > 0.0 {
        said += &format!(
            "; thinnest {} {}: {} under",
            film(shares.thinnest_um, system),
            shares.thinnest_at.place,
            film(low - shares.thinnest_um, system)
        );
    }
    if shares.thick_percent > 0.0 {
        said += &format!(
            "; thickest {} {}: {} over",
            film(shares.thickest_um, system),
            shares.thickest_at.place,
            film(shares.thickest_um - high, system)
        );
    }
    format!("{said}.{open}")
}

/// What was found, of a method that is kept.
fn kept(verdict: &FilmVerdict, system: System) -> String {
    let ends = |all: &mut dyn Iterator<Item = f64>| {
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), um| (a.min(um), b.max(um)))
    };
    let mut said = Vec::new();
    if !verdict.areas.is_empty() {
        let (low, high) = ends(&mut verdict.areas.iter().map(|a| a.um));
        let one = if verdict.areas.len() == 1 { "area mean" } else { "area means" };
        said.push(format!("{one} {}", range(low, high, system)));
    } else if let Some(mean) = verdict.decisions.iter().find(|d| d.rule == Rule::MeanLow) {
        said.push(format!("mean {}", film(mean.found, system)));
    }
    let (low, high) = ends(&mut verdict.spots.iter().map(|s| s.um));
    let one = if verdict.areas.is_empty() { "readings" } else { "spots" };
    said.push(format!("{one} {}", range(low, high, system)));
    said.join(", ")
}

/// "spot 4 at the lower left edge has 15 um".
fn what_is(verdict: &FilmVerdict, decision: &Decision, system: System) -> String {
    let found = figure(decision.found, decision.unit, system);
    let spot = decision.at.and_then(|at| verdict.spots.get(at.checked_sub(1)?));
    let number = decision.at.map_or(String::new(), |at| format!(" {at}"));
    match decision.rule {
        Rule::SpotLow | Rule::SpotHigh | Rule::ReadingLow | Rule::ReadingHigh => {
            let name =
                if matches!(decision.rule, Rule::SpotLow | Rule::SpotHigh) { "spot" } else { "reading" };
            let place = spot.map_or(String::new(), |s| format!(" {}", s.place.place));
            format!("{name}{number}{place} has {found}")
        }
        Rule::AreaLow | Rule::AreaHigh => format!("area{number} has {found}"),
        Rule::MeanLow | Rule::MeanHigh => format!("the mean is {found}"),
        Rule::ShareUnder => format!("{found} readings are below the nominal film"),
        Rule::RightOn => format!("{found} of the area are right"),
    }
}

/// The same with how far it is off.
fn missed(verdict: &FilmVerdict, decision: &Decision, system: System) -> String {
    let off = (decision.found - decision.limit).abs();
    let what = what_is(verdict, decision, system);
    match decision.unit {
        Unit::Percent => format!("{what}, where {} may be", figure(decision.limit, decision.unit, system)),
        Unit::Um => {
            let side = if decision.found < decision.limit { "under" } else { "over" };
            format!("{what}: {} {side} the limit of {}", film(off, system), film(decision.limit, system))
        }
    }
}

/// What the comb of these units says.
#[must_use]
pub fn comb(reading: &CombReading, system: System) -> String {
    let (wetted, next) = Comb::of(system).bracket(reading.wet_um * 1e-6);
    let bracket = |share: f64| match next {
        Some(next) => range(wetted * share * 1e6, next * share * 1e6, system),
        None => format!("more than {}", film(wetted * share * 1e6, system)),
    };
    let along = if reading.along { ", set along its straight way," } else { "" };
    let unsure = if reading.unsure { "; counting may move it by a tooth" } else { "" };
    let dry = if reading.dry_share > 0.0 {
        format!(", so {} dry", bracket(reading.dry_share))
    } else {
        String::new()
    };
    format!("A comb read at once {}{along} says {} wet{dry}{unsure}.", reading.place.place, bracket(1.0))
}

/// Minutes as one says them: "45 s", "8 min", "1 h 20 min".
#[must_use]
pub fn clock(seconds: f64) -> String {
    let whole = seconds.round();
    if whole < 90.0 {
        return format!("{whole:.0} s");
    }
    let minutes = (seconds / 60.0).round();
    if minutes < 90.0 {
        return format!("{minutes:.0} min");
    }
    let (hours, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    if hours >= 48.0 {
        format!("{:.0} days", (hours / 24.0).round())
    } else if rest < 0.5 {
        format!("{hours:.0} h")
    } else {
        format!("{hours:.0} h {rest:.0} min")
    }
}

/// When the next coat may go on.
#[must_use]
pub fn next_coat(next: &NextCoat) -> String {
    let mut said = match next.earliest_s {
        Some(earliest) => format!("Next coat after {}", clock(earliest)),
        None => "No next coat: in this air the film does not dry".into(),
    };
    if let Some(latest) = next.latest_s {
        said += &format!(", within {}", clock(latest));
    }
    if let (Some(wait), Some(plan)) = (next.plan_s, next.plan) {
        said += &match plan {
            Plan::Right => format!("; the plan waits {}", clock(wait)),
            Plan::TooEarly => format!("; the plan waits only {}", clock(wait)),
            Plan::TooLate => format!("; the plan waits {}: too long, sand first", clock(wait)),
        };
    }
    said + ". The touch test decides."
}

/// Dew point and surface.
#[must_use]
pub fn dew(dew: &Dew, system: System) -> String {
    let at = |c: f64| show(Quantity::Temperature, c + 273.15, system);
    let apart = match system {
        System::Metric => format!("{:.0} C", dew.above_c.abs()),
        System::Us => format!("{:.0} F", dew.above_c.abs() * 1.8),
    };
    let least = match system {
        System::Metric => "3 C",
        System::Us => "5 F",
    };
    let side = if dew.above_c < 0.0 { "below" } else { "above" };
    let verdict = match dew.verdict {
        Verdict::Pass => format!("clear of it; at least {least} above is asked"),
        _ => format!("too near: at least {least} above is asked; warm the part or dry the air"),
    };
    let damp = if dew.damp { "; most data sheets refuse air above 85 % humidity" } else { "" };
    format!(
        "Dew point {}, part {}, {apart} {side} it: {verdict}{damp}.",
        at(dew.dew_point_c),
        at(dew.surface_c)
    )
}

/// All of it in lines, the verdict first.
#[must_use]
pub fn lines(judgement: &Judgement, system: System) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(film) = &judgement.film {
        lines.push(sentence(film, system));
        lines.extend(film.notes.iter().map(|text| note(text, system)));
    }
    lines.extend(judgement.comb.as_ref().map(|c| comb(c, system)));
    lines.extend(judgement.next_coat.as_ref().map(next_coat));
    lines.extend(judgement.dew.as_ref().map(|d| dew(d, system)));
    lines
}
