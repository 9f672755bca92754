//! Sentences of the library, which are written in metric units, in the reader's units.

use super::{Quantity, System, show};

/// Units that stand in sentences: what they measure, and what brings a figure to SI.
const UNITS: [(&str, Quantity, f64); 7] = [
    ("mm", Quantity::Length, 1e-3),
    ("um", Quantity::Film, 1e-6),
    ("bar", Quantity::Pressure, 1e5),
    ("mL", Quantity::Volume, 1e-6),
    ("L/min", Quantity::AirFlow, 1.0 / 60_000.0),
    ("mm/s", Quantity::Speed, 1e-3),
    ("m/s", Quantity::Speed, 1.0),
];

/// What stands before and behind a figure or a unit.
const ROUND: [char; 7] = ['(', ')', ',', ';', ':', '.', '+'];

/// A sentence with its metric figures, ranges too ("20 to 35 um"), said in a system; one with a US figure behind it in brackets gives way
/// to that. What is no figure with a known unit stays as it is.
#[must_use]
pub fn in_units(text: &str, system: System) -> String {
    if system == System::Metric {
        return text.into();
    }
    let mut out: Vec<String> = Vec::new();
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        let unit = word.trim_end_matches(ROUND);
        let behind = &word[unit.len()..];
        let known = UNITS.iter().find(|known| known.0 == unit);
        let (Some(&(_, quantity, scale)), Some((before, figure))) =
            (known, out.last().and_then(|last| figure(last)).map(|(front, v)| (front.to_string(), v)))
        else {
            out.push(word.into());
            continue;
        };
        out.pop();
        let shown = show(quantity, figure * scale, system);
        let (number, unit) = shown.split_once(' ').unwrap_or((&shown, ""));
        // The lower end of a range has no unit of its own.
        if let [.., low, to] = &mut out[..]
            && to == "to"
            && let Some((front, value)) = self::figure(low)
        {
            let said = show(quantity, value * scale, system);
            let number = said.split(' ').next().unwrap_or_default();
            *low = format!("{front}{number}");
        }
        let mut tail = behind.to_string();
        // "0.69 bar (10 psi)": once is enough.
        if behind.is_empty() && quantity == Quantity::Pressure {
            let mut ahead = words.clone();
            let bracket = ahead.next().is_some_and(|w| w.starts_with('('));
            if let Some(end) = ahead.next().filter(|w| bracket && w.starts_with("psi)")) {
                tail = end["psi)".len()..].into();
                words.nth(1);
            }
        }
        out.push(format!("{before}{number} {unit}{tail}"));
    }
    out.join(" ")
}

/// A figure and the bracket before it.
fn figure(word: &str) -> Option<(&str, f64)> {
    let number = word.trim_start_matches('(');
    let before = &word[..word.len() - number.len()];
    number.parse::<f64>().ok().filter(|v| v.is_finite()).map(|v| (before, v))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_and_ranges_are_said_in_us_units() {
        let us = |text: &str| in_units(text, System::Us);
        assert_eq!(us("slid more than 1.6 mm before it set"), "slid more than 0.063 in before it set");
        assert_eq!(us("film 20 to 35 um on 90 of 100"), "film 0.79 to 1.4 mil on 90 of 100");
        assert_eq!(
            us("cap 1.10 bar is above the 0.69 bar (10 psi) of HVLP"),
            "cap 16 psi is above the 10 psi of HVLP"
        );
        assert_eq!(us("about 50 mm, in 3 s; (25.4 mm)"), "about 2.0 in, in 3 s; (1.0 in)");
        assert_eq!(us("no figure in mm here, bar none"), "no figure in mm here, bar none");
        assert_eq!(in_units("1.6 mm", System::Metric), "1.6 mm");
    }
}
