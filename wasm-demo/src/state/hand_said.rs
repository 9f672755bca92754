//! A try in words: figures with their units, and what to do at the next.

use mistcoat::units::{Quantity, System};

use crate::figures::{THIN, of_100, said, seconds};
use crate::task::practising::{Plan, Spoken};
use crate::words::hand::HandWords;
use crate::words::{fill, words};

/// A pace: "2.2 s per m", or for each foot.
#[must_use]
pub fn pace(pace: f64, system: System) -> String {
    match system {
        System::Metric => fill(words().hand.per_metre, &[&format!("{pace:.1}{THIN}s")]),
        System::Us => fill(words().hand.per_foot, &[&format!("{:.2}{THIN}s", pace * 0.3048)]),
    }
}

/// A length.
#[must_use]
pub fn length(m: f64, system: System) -> String {
    said(Quantity::Length, m, system)
}

/// Two lengths, "34–78 mm"; one where they read the same.
#[must_use]
pub fn range(low: f64, high: f64, system: System) -> String {
    let (a, b) = (length(low, system), length(high, system));
    match a.split_once(THIN) {
        _ if a == b => b,
        Some((number, unit)) if b.ends_with(unit) => format!("{number}–{b}"),
        _ => format!("{a}–{b}"),
    }
}

/// "Pass 3", "Passes 3, 5 and 6".
fn named(passes: &[usize], w: &HandWords) -> String {
    match passes {
        [] => String::new(),
        [one] => capital(w.pass) + &format!(" {one}"),
        [first @ .., last] => {
            let first: Vec<String> = first.iter().map(usize::to_string).collect();
            fill(w.passes_and, &[&format!("{} and {last}", first.join(", "))])
        }
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|c| c.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// A piece of advice as a sentence; empty where there is none for it.
#[must_use]
pub fn advice(spoken: &Spoken, plan: &Plan, w: &HandWords, system: System) -> String {
    let Some((_, sentence)) = w.advice.iter().find(|(what, _)| *what == spoken.what) else {
        return String::new();
    };
    let figure = match spoken.what.as_str() {
        "still" => seconds(spoken.figure),
        "pace" | "pass-pace" | "uneven" => pace(spoken.figure, system),
        "tilt" => format!("{:.0}°", spoken.figure.to_degrees()),
        "trigger" => of_100(spoken.figure),
        _ => length(spoken.figure, system),
    };
    let pass = spoken.passes.first().map(usize::to_string).unwrap_or_default();
    let count = format!("{:.0}", spoken.figure);
    [
        ("{p}", pass.as_str()),
        ("{P}", &named(&spoken.passes, w)),
        ("{f}", &figure),
        ("{n}", &(if count == "1" { format!("{count} pass") } else { format!("{count} passes") })),
        ("{spacing}", &length(plan.spacing, system)),
        ("{pace}", &pace(plan.pace, system)),
        ("{distance}", &length(plan.distance, system)),
    ]
    .iter()
    .fold((*sentence).to_string(), |out, (hole, words)| out.replace(hole, words))
}

/// The word of a gap between passes that is off: more than a fifth of the plan's spacing.
#[must_use]
pub fn gap(gap: f64, spacing: f64, w: &HandWords) -> Option<&str> {
    let off = gap.abs() / spacing.max(1e-6) - 1.0;
    if off > 0.2 {
        Some(w.wide)
    } else if off < -0.2 {
        Some(w.close)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::hand::ENGLISH;

    fn plan() -> Plan {
        Plan {
            size: [0.6, 0.4],
            rows: vec![0.2, 0.146],
            across: Vec::new(),
            pace: 2.2,
            spacing: 0.054,
            distance: 0.2,
            lead: 0.06,
            band: None,
            best: None,
        }
    }

    #[test]
    fn advice_reads_as_a_foreman_says_it() {
        let say = |what: &str, passes: &[usize], figure: f64| {
            let spoken =
                Spoken { what: what.into(), passes: passes.to_vec(), figure, place: [0.0; 2], gain: 0.1 };
            advice(&spoken, &plan(), &ENGLISH, System::Metric).replace(THIN, " ")
        };
        assert_eq!(say("low", &[5], 0.024), "Pass 5 went 24 mm too low. Come down 54 mm each pass.");
        assert_eq!(
            say("still", &[6], 0.6),
            "Let go of the trigger past the edge: pass 6 stood still for 0.6 s."
        );
        assert_eq!(say("lead-in", &[3], 1.0), "Pass 3: trigger on before the panel.");
        assert_eq!(say("run-out", &[2, 4, 5], 3.0), "Passes 2, 4 and 5: trigger off past the panel.");
        assert_eq!(say("missing-below", &[], 1.0), "1 pass more below the last: go on to the foot.");
        assert_eq!(say("pace", &[], 3.04), "You took 3.0 s per m. Take 2.2 s per m.");
    }

    #[test]
    fn every_fault_has_its_sentence_without_a_hole_or_a_shout() {
        for (what, sentence) in ENGLISH.advice.iter().filter(|(what, _)| !what.is_empty()) {
            let spoken =
                Spoken { what: (*what).into(), passes: vec![1], figure: 0.1, place: [0.0; 2], gain: 0.1 };
            let said = advice(&spoken, &plan(), &ENGLISH, System::Us);
            assert!(!said.contains('{') && !said.contains('!') && !sentence.is_empty(), "{said}");
        }
    }

    #[test]
    fn ranges_share_their_unit() {
        assert_eq!(range(0.034, 0.078, System::Metric).replace(THIN, " "), "34–78 mm");
        assert_eq!(range(0.18, 0.18, System::Metric).replace(THIN, " "), "180 mm");
        assert_eq!((gap(0.078, 0.054, &ENGLISH), gap(0.034, 0.054, &ENGLISH)), (Some("wide"), Some("close")));
    }
}
