//! Why, in words and as a table.

use super::answer::{Answer, Part};
use super::cause::Cause;
use crate::in_order::InOrder;
use crate::units::{Quantity, System, show, unit_shown, value_shown};

/// Film that is the same [-].
const SAME_FILM: f64 = 0.03;

/// The answer as one reads it at a terminal: the sentence, then a row a cause.
#[must_use]
pub fn words(answer: &Answer, system: System) -> String {
    let mut lines = vec![sentence(answer, system), String::new()];
    let ml = |v: f64| format!("{v:+.2}");
    lines.push(format!(
        "{:<44}{:>10}{:>12}{:>12}{:>8}",
        "cause", "mL a part", "this order", "the other", "error"
    ));
    for part in &answer.parts {
        lines.push(format!(
            "{:<44}{:>10}{:>12}{:>12}{:>8.2}",
            name(part.cause),
            ml(part.ml),
            ml(part.ml_orders[0]),
            ml(part.ml_orders[1]),
            part.ml_standard_error
        ));
    }
    let [a, b] = &answer.sides;
    lines.push(format!("{:<44}{:>10}{:>32.2}", "all of it", ml(answer.ml), answer.ml_standard_error));
    for side in [a, b] {
        lines.push(format!(
            "{}: {} for a part, {:.0} of 100 stay on it, dry film {}",
            side.name,
            show(Quantity::Volume, side.ml * 1e-6, system),
            100.0 * side.landed,
            show(Quantity::Film, side.film_um * 1e-6, system)
        ));
    }
    lines.join("\n")
}

/// "Same film. Why? Of the 15 mL saved, 13 mL were aimed past the part, 1 mL ..."
#[must_use]
pub fn sentence(answer: &Answer, system: System) -> String {
    let [a, b] = &answer.sides;
    if !answer.complete {
        return "Nothing is known yet.".into();
    }
    let same = (b.film_um / a.film_um.max(1e-9) - 1.0).abs() < SAME_FILM;
    let film = if same { "Same film." } else { "Not the same film." };
    let amount = |v: f64| amount(v, system);
    if answer.ml.abs() < (2.0 * answer.ml_standard_error).max(0.005 * a.ml) {
        return format!("{film} Both take the same paint: {} for a part.", amount(a.ml));
    }
    let saved = answer.ml < 0.0;
    let mut parts: Vec<&Part> = answer.parts.iter().filter(|p| told(p, answer)).collect();
    parts.in_order(|x, y| y.ml.abs().total_cmp(&x.ml.abs()));
    let one = |p: &&Part| {
        let with = (p.ml < 0.0) == saved;
        let spread = if p.spread() > 0.25 * p.ml.abs() { " (the order matters)" } else { "" };
        let against = if with { "" } else { ", the other way," };
        format!("{}{against} {}{spread}", amount(p.ml), reason(p.cause, p.ml < 0.0))
    };
    let list = parts.iter().map(one).collect::<Vec<_>>().join("; ");
    let whole = if saved { "saved" } else { "more" };
    let rest = answer.ml - parts.iter().map(|p| p.ml).sum::<f64>();
    let rest = if parts.len() == answer.parts.len() || parts.is_empty() {
        String::new()
    } else {
        let way = if (rest < 0.0) == saved { "" } else { ", the other way" };
        format!("; the rest {}{way}", amount(rest))
    };
    format!("{film} Why? Of the {} {whole} for a part: {list}{rest}.", amount(answer.ml))
}

/// An amount of paint to three digits, so that parts can be added up.
fn amount(ml: f64, system: System) -> String {
    let value = value_shown(Quantity::Volume, ml.abs() * 1e-6, system);
    let places = if value >= 99.95 { 0 } else { 1 + usize::from(value < 9.995) };
    format!("{value:.places$} {}", unit_shown(Quantity::Volume, system).0)
}

/// Worth a word: beyond its error and a twentieth of the whole.
fn told(part: &Part, answer: &Answer) -> bool {
    part.ml.abs() > (2.0 * part.ml_standard_error).max(0.05 * answer.ml.abs())
}

/// What a cause is called.
#[must_use]
pub fn name(cause: Cause) -> &'static str {
    match cause {
        Cause::Size => "droplet size",
        Cause::Aim => "paint aimed past the part",
        Cause::Carried => "droplets carried past by the air",
        Cause::Evaporation => "evaporation in flight",
        Cause::Liquid => "the liquid: bounce-back, solids",
        Cause::Film => "the film laid",
    }
}

/// What a cause does where it saves paint, or takes more.
#[must_use]
pub fn reason(cause: Cause, saves: bool) -> &'static str {
    match (cause, saves) {
        (Cause::Size, true) => "less is lost as droplets too fine to land",
        (Cause::Size, false) => "more is lost as droplets too fine to land",
        (Cause::Aim, true) => "is no longer aimed past the part",
        (Cause::Aim, false) => "more is aimed past the part",
        (Cause::Carried, true) => "less is carried past by the air",
        (Cause::Carried, false) => "more is carried past by the air",
        (Cause::Evaporation, true) => "by what dries in flight: less is lost",
        (Cause::Evaporation, false) => "by what dries in flight: more is lost",
        (Cause::Liquid, true) => "by the liquid: less bounces or more of it is solids",
        (Cause::Liquid, false) => "by the liquid: more bounces or less of it is solids",
        (Cause::Film, true) => "by a thinner film",
        (Cause::Film, false) => "by a thicker film",
    }
}
