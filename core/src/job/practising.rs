//! The class hour: an exercise, its goal, and what was reached.

use super::document::Document;

/// What `[practice]` says.
#[derive(Debug, Clone, PartialEq)]
pub struct Practising {
    /// The exercise's word, where the job is one.
    pub exercise: Option<String>,
    /// Share of the panel that is to have the film wanted, 0..=1.
    pub goal: f64,
    /// Largest spread between tries, 0..=1.
    pub spread: f64,
    /// Chalk ticks and a beat.
    pub chalk: bool,
    /// The gun hangs on an elbow.
    pub elbow: bool,
    /// Whose tries these are.
    pub who: Option<String>,
    /// Share with the film wanted, try by try, the last ten.
    pub tries: Vec<f64>,
    /// How often a knob was turned.
    pub turns: u32,
    /// What was answered: read by [`crate::class_hour::Marking`].
    pub answer: Option<String>,
}

pub(super) fn practising(doc: &Document<'_>) -> Practising {
    let word = |path: &str| doc.word(path).map(String::from);
    Practising {
        exercise: word("practice.exercise"),
        goal: doc.number("practice.goal").unwrap_or(0.85),
        spread: doc.number("practice.spread").unwrap_or(0.10),
        chalk: doc.word("practice.guide") != Some("none"),
        elbow: doc.flag("practice.elbow").unwrap_or(false),
        who: word("practice.who"),
        tries: doc.shares("practice.tries").to_vec(),
        turns: doc.number("practice.turns").map_or(0, |n| n as u32),
        answer: word("practice.answer"),
    }
}
