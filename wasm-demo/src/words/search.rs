//! Words of "What should I set?".

/// The words. Places for figures are `{}`.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs, reason = "a field's text is its meaning")]
pub struct SearchWords {
    pub title: &'static str,
    pub what_it_does: &'static str,
    pub find: &'static str,
    pub find_again: &'static str,
    pub changed: &'static str,
    pub busy: &'static str,
    pub refused: &'static str,
    pub so_far: &'static str,
    pub set: &'static str,
    pub now: &'static str,
    pub to: &'static str,
    pub exact: &'static str,
    pub set_it: &'static str,
    pub limits: &'static str,
    pub trade: &'static str,
    pub no_trade: &'static str,
    pub best: &'static str,
    pub takes: &'static str,
    pub nearest: &'static str,
    pub for_a_part: &'static str,
    pub trade_says: &'static str,
    pub paint: &'static str,
    pub time: &'static str,
    pub stays: &'static str,
}

/// English.
pub const ENGLISH: SearchWords = SearchWords {
    title: "What should I set?",
    what_it_does: "Flies some hundred set-ups of your gun on your part and finds the one that takes the least paint with the film inside the film wanted, without runs or dry spray. For a steady hand, where the job names none.",
    find: "Find it",
    find_again: "Find it again",
    changed: "The job has been changed since.",
    busy: "Flying set-ups: {} of 100",
    refused: "This cannot be searched:",
    so_far: "Best so far, from few droplets:",
    set: "Set",
    now: "now",
    to: "to",
    exact: "as good within 1 %",
    set_it: "Set it so",
    limits: "What keeps it from less",
    trade: "Paint against time",
    no_trade: "Nothing to choose: what takes the least paint is also the quickest.",
    best: "best",
    takes: "Set right:",
    nearest: "The nearest:",
    for_a_part: "{} for a part, in {}.",
    trade_says: "Each spot is a set-up that no other beats in both; few droplets.",
    paint: "paint for a part",
    time: "trigger on",
    stays: "stays",
};
