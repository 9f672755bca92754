//! The matched gun in a few lines of words.

use super::answer::{Agreement, Fitted, MatchedGun, Predicted};
use super::unknown::Unknown;
use crate::units::{Quantity, System, show};
use serde::Serialize;
use std::fmt;

/// One line of what the card has told.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// What it is about.
    pub name: &'static str,
    /// What is said of it.
    pub text: String,
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.name, self.text)
    }
}

/// What the card has told, as one would say it.
#[must_use]
pub fn words(gun: &MatchedGun, system: System) -> Vec<Line> {
    let line = |name, text| Line { name, text };
    if gun.agreement == Agreement::Contradiction {
        let far = farthest(gun);
        let text = format!(
            "they contradict each other, or this is no gun of this kit; the {far} is farthest off; nothing is taken over"
        );
        return vec![line("readings", text)];
    }
    let mut lines: Vec<Line> =
        gun.constants.iter().map(|c| line(c.unknown.name(), constant(gun, c, system))).collect();
    lines.push(line("air flow", "not told by this card; nothing on it measures air".into()));
    lines.extend(
        gun.readings.iter().filter(|r| r.kept_back).map(|r| line(plain(r.name), kept_back(r, system))),
    );
    if gun.agreement == Agreement::Doubtful {
        let far = farthest(gun);
        lines.push(line(
            "readings",
            format!("they go together less well than 95 of 100 cards; look at the {far} again"),
        ));
    }
    lines
}

fn constant(gun: &MatchedGun, c: &Fitted, system: System) -> String {
    if !c.told {
        return "not told by this card, left as in the catalogue".into();
    }
    let percent = 100.0 * (c.used - 1.0);
    let than = |more: &str, less: &str| match percent {
        p if p.abs() < 0.5 => "as the catalogue's".to_string(),
        p => format!("{:.0} % {} than the catalogue's", p.abs(), if p > 0.0 { more } else { less }),
    };
    let likely = format!("likely {:.2} to {:.2} times it", c.factor.low, c.factor.high);
    match c.unknown {
        Unknown::Fan => format!("opens {}, {likely}", than("wider", "narrower")),
        Unknown::Edge => format!("{}, {likely}", than("softer", "crisper")),
        Unknown::Suction | Unknown::Needle => {
            let flow = |ml_min: f64| show(Quantity::PaintFlow, ml_min / 6e7, system);
            format!(
                "paint flows at {} as set, the catalogue's gun gives {}",
                flow(gun.flow_ml_min),
                flow(gun.catalogue_flow_ml_min)
            )
        }
        Unknown::Droplets => {
            let size = |um: f64| show(Quantity::Film, um * 1e-6, system);
            let s = gun.sauter_um;
            format!(
                "about {} (Sauter mean), likely {} to {}; the catalogue's gun gives {}",
                size(s.value),
                size(s.low),
                size(s.high),
                size(gun.catalogue_sauter_um)
            )
        }
    }
}

fn kept_back(r: &Predicted, system: System) -> String {
    let say = |value| said(r.key, value, system);
    let verdict = if r.agrees() { "it agrees" } else { "it does not agree" };
    format!(
        "kept back to test the fit: measured {}, expected {} to {}: {verdict}",
        say(r.measured),
        say(r.expected.low_95),
        say(r.expected.high_95)
    )
}

/// Plain name of a reading.
pub fn plain(name: &str) -> &'static str {
    match name {
        "fan-height" => "fan height",
        "fan-thickness" => "fan thickness",
        "flow" => "paint flow",
        "film" => "film of a pass",
        _ => "second fan height",
    }
}

/// The reading farthest from what is expected.
fn farthest(gun: &MatchedGun) -> &'static str {
    let used = gun.readings.iter().filter(|r| !r.kept_back);
    used.max_by(|a, b| a.off.abs().total_cmp(&b.off.abs())).map_or("card", |r| plain(r.name))
}

/// A reading with its unit.
fn said(key: &str, value: f64, system: System) -> String {
    let quantity = match key {
        "card.weighed" => Quantity::Mass,
        "card.caught" => Quantity::Volume,
        "card.wet_film" | "card.dry_film" => Quantity::Film,
        _ => Quantity::Length,
    };
    show(quantity, value, system)
}
