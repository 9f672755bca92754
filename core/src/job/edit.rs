//! Setting or taking out one key of a job text; all the rest of the text stays as the user wrote it.

use std::ops::Range;

use toml::de::{DeTable, DeValue};

use super::KEYS;
use super::document::{children, syntax, unknown, written};
use super::error::JobError;
use super::keys::{Key, Kind};
use super::value;
use crate::units;

/// The text with one key set to a value.
///
/// The value is given as one would say it, without quotes ("2.0 bar", "0.4", "50 %"); lists as TOML
/// (`["20 um", "35 um"]`). A key that is there keeps its place and its comment; one that is not is put at the end of
/// its table. The value itself is checked, the rest of the file is not.
///
/// # Errors
/// `JobError` when the text is no TOML, the key is unknown, or the value is of the wrong kind or out of range.
pub fn with_key(text: &str, path: &str, value: &str) -> Result<String, JobError> {
    let key = Key::find(path).ok_or_else(|| no_such_key(text, path))?;
    let literal = literal(key.kind, value);
    let root = DeTable::parse(text).map_err(|error| syntax(text, &error))?;
    let place = place(text, root.get_ref(), path);
    let at = place.at.start + place.before.len();
    let new = format!(
        "{}{}{literal}{}{}",
        &text[..place.at.start],
        place.before,
        place.after,
        &text[place.at.end..]
    );
    let span = at..at + literal.len();
    let refuse = |problem: &str, hint: Option<String>| {
        let error = JobError::at(&new, span.clone(), path, value, problem, &key.allowed());
        hint.into_iter().fold(error, JobError::hint)
    };
    let parsed = DeValue::parse(&literal).map_err(|e| refuse(e.message(), None))?;
    value::read(key, parsed.get_ref()).map_err(|(problem, hint)| refuse(&problem, hint))?;
    if DeTable::parse(&new).is_err() {
        return Err(refuse("it cannot be set beside what the file has there", None));
    }
    Ok(new)
}

/// A value without its quotes, read by its key's kind; what is wrong with it, in words.
pub(super) fn read_value(key: &Key, value: &str) -> Result<value::Value, String> {
    let literal = literal(key.kind, value);
    let parsed = DeValue::parse(&literal).map_err(|e| e.message().to_string())?;
    value::read(key, parsed.get_ref()).map_err(|(problem, hint)| match hint {
        Some(hint) => format!("{problem}; {hint}"),
        None => problem,
    })
}

/// The text without a key, or without a whole table ("part.panel"). A key that is not there changes nothing.
///
/// # Errors
/// `JobError` when the text is no TOML, the key is unknown, or the text would be none without it.
pub fn without_key(text: &str, path: &str) -> Result<String, JobError> {
    let is_table = KEYS.iter().any(|k| k.path.strip_prefix(path).is_some_and(|r| r.starts_with('.')));
    if Key::find(path).is_none() && !is_table {
        return Err(no_such_key(text, path));
    }
    let root = DeTable::parse(text).map_err(|error| syntax(text, &error))?;
    let mut cuts = Vec::new();
    cut(text, root.get_ref(), path, false, &mut cuts);
    cuts.sort_by_key(|c: &Range<usize>| std::cmp::Reverse(c.start));
    let mut new = text.to_string();
    for c in cuts {
        new.replace_range(c, "");
    }
    match DeTable::parse(&new) {
        Ok(_) => Ok(new),
        Err(error) => Err(syntax(&new, &error)),
    }
}

/// A key's value as it stands in the text, without its quotes; `None` where the text does not give the key.
///
/// # Errors
/// `JobError` when the text is no TOML or the key is unknown. The value is not checked.
pub fn as_written(text: &str, path: &str) -> Result<Option<String>, JobError> {
    if Key::find(path).is_none() {
        return Err(no_such_key(text, path));
    }
    let root = DeTable::parse(text).map_err(|error| syntax(text, &error))?;
    let (mut table, mut rest) = (root.get_ref(), path);
    loop {
        let (name, deeper) = rest.split_once('.').map_or((rest, None), |(name, deeper)| (name, Some(deeper)));
        let found = table.iter().find(|(k, _)| k.get_ref() == name).map(|(_, value)| value);
        match (found, deeper) {
            (Some(value), None) => return Ok(Some(written(text, value))),
            (Some(value), Some(deeper)) => match value.get_ref() {
                DeValue::Table(inner) => (table, rest) = (inner, deeper),
                _ => return Ok(None),
            },
            (None, _) => return Ok(None),
        }
    }
}

fn no_such_key(text: &str, path: &str) -> JobError {
    let inside = children(path);
    if !inside.is_empty() {
        let allowed = format!("one of its keys: {}", inside.join(", "));
        return JobError::at(text, 0..0, path, "", "it is a group of keys, not a value", &allowed);
    }
    unknown(text, 0..0, path.rsplit_once('.').map_or("", |(table, _)| table), path)
}

/// A value as TOML.
fn literal(kind: Kind, value: &str) -> String {
    let value = value.trim();
    let bare = match kind {
        Kind::Share | Kind::Number | Kind::Count => units::parse_number(value).is_ok(),
        Kind::Flag => matches!(value, "true" | "false"),
        Kind::Band(_)
        | Kind::Shares
        | Kind::Solvents
        | Kind::Kits
        | Kind::AirUsers
        | Kind::Words(_)
        | Kind::Names
        | Kind::Moments => value.starts_with('['),
        Kind::Frame => value.starts_with('{'),
        _ => false,
    };
    match (bare, value.parse::<f64>()) {
        // ".5" and "5." are numbers to people, not to TOML.
        (true, Ok(number)) if DeValue::parse(value).is_err() => format!("{number:?}"),
        (true, _) => value.to_string(),
        (false, _) => toml::Value::String(value.into()).to_string(),
    }
}

/// What of the text is replaced, and what goes round the value.
struct Place {
    at: Range<usize>,
    before: String,
    after: &'static str,
}

/// How a table is written.
#[derive(PartialEq)]
enum Form {
    /// `{ ... }`
    Inline,
    /// `[name]`
    Header,
    /// Only through dotted keys or headers of its own tables.
    Implied,
}

fn form(text: &str, span: &Range<usize>) -> Form {
    match text.as_bytes().get(span.start) {
        Some(b'{') => Form::Inline,
        Some(b'[') => Form::Header,
        _ => Form::Implied,
    }
}

fn place(text: &str, root: &DeTable<'_>, path: &str) -> Place {
    let (mut table, mut rest) = (root, path);
    // The innermost table that has a body of its own: its span, itself, and the path inside it.
    let mut home: (Option<Range<usize>>, &DeTable<'_>, &str) = (None, root, path);
    loop {
        let (name, deeper) = rest.split_once('.').map_or((rest, None), |(name, deeper)| (name, Some(deeper)));
        match (table.iter().find(|(k, _)| k.get_ref() == name), deeper) {
            (Some((_, value)), None) => return Place { at: value.span(), before: String::new(), after: "" },
            (Some((_, value)), Some(deeper)) => match value.get_ref() {
                DeValue::Table(inner) => {
                    (table, rest) = (inner, deeper);
                    if form(text, &value.span()) != Form::Implied {
                        home = (Some(value.span()), inner, deeper);
                    }
                }
                // A plain value where a table belongs: put the table in its place.
                _ => return Place { at: value.span(), before: format!("{{ {deeper} = "), after: " }" },
            },
            (None, _) => break,
        }
    }
    let (span, table, rest) = home;
    let last = last_end(text, table);
    match span {
        Some(span) if form(text, &span) == Form::Inline => match last {
            Some(end) => Place { at: end..end, before: format!(", {rest} = "), after: "" },
            None => Place { at: span.start + 1..span.start + 1, before: format!(" {rest} = "), after: " " },
        },
        Some(span) => new_line(text, last.unwrap_or(span.end), rest),
        None => match rest.split_once('.') {
            // A table that the file does not have: a new one at the end.
            Some((section, name)) if !root.iter().any(|(k, _)| k.get_ref() == section) => {
                let gap = if text.is_empty() || text.ends_with('\n') { "" } else { "\n" };
                let before = format!("{gap}\n[{section}]\n{name} = ");
                Place { at: text.len()..text.len(), before, after: "\n" }
            }
            _ => match last {
                Some(end) => new_line(text, end, rest),
                None => Place { at: 0..0, before: format!("{rest} = "), after: "\n" },
            },
        },
    }
}

/// A new line after the line that holds `end`.
fn new_line(text: &str, end: usize, rest: &str) -> Place {
    let at = line_end(text, end);
    let gap = if text[..at].ends_with('\n') { "" } else { "\n" };
    Place { at: at..at, before: format!("{gap}{rest} = "), after: "\n" }
}

fn line_end(text: &str, from: usize) -> usize {
    text[from..].find('\n').map_or(text.len(), |i| from + i + 1)
}

fn line_start(text: &str, from: usize) -> usize {
    text[..from].rfind('\n').map_or(0, |i| i + 1)
}

/// Where the last value of a table's own body ends; tables and lists with a header of their own are not in it.
fn last_end(text: &str, table: &DeTable<'_>) -> Option<usize> {
    table
        .iter()
        .filter_map(|(_, value)| {
            let span = value.span();
            match value.get_ref() {
                DeValue::Table(inner) => match form(text, &span) {
                    Form::Inline => Some(span.end),
                    Form::Header => None,
                    Form::Implied => last_end(text, inner),
                },
                DeValue::Array(_) if text[span.start..].starts_with("[[") => None,
                _ => Some(span.end),
            }
        })
        .max()
}

/// Collects what must go for a key, or for all of a table.
fn cut(text: &str, table: &DeTable<'_>, path: &str, inline: bool, cuts: &mut Vec<Range<usize>>) {
    let (name, deeper) = path.split_once('.').map_or((path, None), |(name, deeper)| (name, Some(deeper)));
    let Some((key, value)) = table.iter().find(|(k, _)| k.get_ref() == name) else {
        return;
    };
    let span = value.span();
    match (value.get_ref(), deeper) {
        (DeValue::Table(inner), Some(deeper)) => {
            cut(text, inner, deeper, inline || form(text, &span) == Form::Inline, cuts);
        }
        (DeValue::Table(inner), None) if form(text, &span) != Form::Inline => {
            if form(text, &span) == Form::Header {
                cuts.push(line_start(text, span.start)..line_end(text, span.end));
            }
            for (name, _) in inner {
                cut(text, inner, name.get_ref(), inline, cuts);
            }
        }
        (_, None) if inline => {
            let before = table.iter().map(|(_, v)| v.span().end).filter(|e| *e <= key.span().start).max();
            let after = table.iter().map(|(k, _)| k.span().start).filter(|s| *s >= span.end).min();
            cuts.push(match (before, after) {
                (Some(before), _) => before..span.end,
                (None, Some(after)) => key.span().start..after,
                (None, None) => key.span().start..span.end,
            });
        }
        (_, None) => cuts.push(line_start(text, key.span().start)..line_end(text, span.end)),
        (_, Some(_)) => {}
    }
}
