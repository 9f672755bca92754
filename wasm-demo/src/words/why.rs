//! Words of "Why?": what makes one run take less paint than another.

/// The words. Places for figures are `{}`.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs, reason = "a field's text is its meaning")]
pub struct WhyWords {
    pub ask: &'static str,
    pub title: &'static str,
    pub about: &'static str,
    pub busy: &'static str,
    pub refused: &'static str,
    pub cause: &'static str,
    pub paint: &'static str,
    pub orders: &'static str,
    pub error: &'static str,
    pub whole: &'static str,
}

/// English.
pub const ENGLISH: WhyWords = WhyWords {
    ask: "Why?",
    title: "Why",
    about: "Paint as each run sprays it, each with its own film. From the kept run to the run in hand: one cause swapped at a time, in one order and the other way round, each flown. The bar is the mean of the two orders, the thin line what they span.",
    busy: "Swapping causes: {} of 100",
    refused: "This cannot be told:",
    cause: "cause",
    paint: "paint sprayed",
    orders: "by either order",
    error: "counting error",
    whole: "all of it",
};
