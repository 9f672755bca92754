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
