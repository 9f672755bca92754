//! The judgement on the page: sentence and method on the clipboard, rules and spots in a table, comb, next coat, dew point.

mod by;
mod comb;
mod dew;
mod marks;
mod next_coat;
mod section;
mod spots;

pub use by::VerdictLine;
pub use dew::DewBlock;
pub use marks::SpotMarks;
pub use section::Judged;

use leptos::prelude::*;
use mistcoat::judge::{Judgement, Verdict};

use super::desk::Desk;
use crate::words::words;

/// The judgement of the last finished run.
fn judged(desk: Desk) -> Memo<Option<Judgement>> {
    Memo::new(move |_| desk.run.with(|run| run.as_ref().and_then(|r| crate::state::judgement(r))))
}

/// A verdict in a word.
fn verdict_word(verdict: Verdict) -> &'static str {
    let [kept, broken, open] = words().judge.verdicts;
    match verdict {
        Verdict::Pass => kept,
        Verdict::Fail => broken,
        Verdict::CannotTell => open,
    }
}

/// The library's words as the page sets them: units never parted from their number.
fn set(sentence: &str) -> String {
    let mut out = sentence.to_string();
    for (from, to) in [
        (" um", "\u{202f}µm"),
        (" mil", "\u{202f}mil"),
        (" min", "\u{202f}min"),
        (" C", "\u{202f}C"),
        (" F", "\u{202f}F"),
    ] {
        let mut parts = out.split(from);
        let mut joined = parts.next().unwrap_or_default().to_string();
        for part in parts {
            // Only behind a figure, and only as a whole word.
            let unit =
                joined.ends_with(|c: char| c.is_ascii_digit()) && !part.starts_with(char::is_alphanumeric);
            joined += if unit { to } else { from };
            joined += part;
        }
        out = joined;
    }
    out
}

#[cfg(test)]
mod tests {
    #[test]
    fn units_stay_with_their_numbers() {
        assert_eq!(super::set("thinnest 17 um at the edge"), "thinnest 17\u{202f}µm at the edge");
        assert_eq!(
            super::set("Next coat after 8 min. 3 Cats, a mild day"),
            "Next coat after 8\u{202f}min. 3 Cats, a mild day"
        );
    }
}
