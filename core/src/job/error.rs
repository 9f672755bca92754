//! One refused job file: where, which key, which value, what is allowed.

use std::fmt;
use std::ops::Range;

/// Why a job file was refused, with the place in its text.
///
/// `Display` is the whole message on several lines, with the line of the file and a caret under the value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobError {
    /// Dotted key, "gun.inlet_pressure"; empty when the text has no key there.
    pub key: String,
    /// Line in the text, from 1.
    pub line: usize,
    /// Column in the line in characters, from 1.
    pub column: usize,
    /// The value as the user wrote it; empty when there is none.
    pub value: String,
    /// What is allowed, in words with units.
    pub allowed: String,
    /// What to try, where there is something near.
    pub hint: Option<String>,
    /// Apart and boxed: a result that carries this error stays small.
    detail: Box<Detail>,
}

/// What only the message needs.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Detail {
    problem: String,
    /// The line of the text.
    source: String,
    /// How many of its characters the value takes.
    width: usize,
}

/// Characters of a line or a value that a message repeats.
const SHOWN: usize = 160;

impl JobError {
    /// An error at a place of the text.
    pub(super) fn at(
        text: &str,
        span: Range<usize>,
        key: &str,
        value: &str,
        problem: &str,
        allowed: &str,
    ) -> Self {
        let start = floor_boundary(text, span.start);
        let end = floor_boundary(text, span.end).max(start);
        let line_start = text[..start].rfind('\n').map_or(0, |i| i + 1);
        let line = text[line_start..].lines().next().unwrap_or("");
        let on_line = text[start..end].lines().next().unwrap_or("");
        Self {
            key: clean(key),
            line: text[..start].matches('\n').count() + 1,
            column: text[line_start..start].chars().count() + 1,
            value: clean(value),
            allowed: allowed.into(),
            hint: None,
            detail: Box::new(Detail {
                problem: problem.into(),
                source: clean(line),
                width: on_line.chars().count().max(1),
            }),
        }
    }

    /// What is wrong with the value, in words.
    #[must_use]
    pub fn problem(&self) -> &str {
        &self.detail.problem
    }

    /// The same with a hint.
    pub(super) fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

/// Largest character boundary of `text` at or below `index`.
fn floor_boundary(text: &str, index: usize) -> usize {
    let mut index = index.min(text.len());
    while !text.is_char_boundary(index) {
        index -= 1;
    }
    index
}

/// Cut to a length that a message can bear, control characters made visible.
fn clean(text: &str) -> String {
    let mut out: String =
        text.chars().take(SHOWN).map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect();
    if text.chars().nth(SHOWN).is_some() {
        out.push_str("...");
    }
    out
}

impl fmt::Display for JobError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let key = if self.key.is_empty() { "job file" } else { &self.key };
        if self.value.is_empty() {
            writeln!(f, "{key}: {}", self.detail.problem)?;
        } else {
            writeln!(f, "{key}: {} ({})", self.detail.problem, self.value)?;
        }
        let number = self.line.to_string();
        let margin = " ".repeat(number.len());
        writeln!(f, "{margin} --> line {}, column {}", self.line, self.column)?;
        if self.column <= SHOWN {
            let indent = " ".repeat(self.column - 1);
            let carets = "^".repeat(self.detail.width.min(SHOWN + 1 - self.column));
            writeln!(f, "{margin} |\n{number} | {}\n{margin} | {indent}{carets}", self.detail.source)?;
        }
        write!(f, "allowed: {}", self.allowed)?;
        match &self.hint {
            Some(hint) => write!(f, "\nhint: {hint}"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for JobError {}
