//! The text of a job file as a list of known keys with their values and places.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::error::JobError;
use super::keys::Key;
use super::value::{Value, nearest, read};
use super::{KEYS, LONGEST_TEXT, LONGEST_WITH_TRACK};
use crate::error::ParameterError;
use crate::part::Frame;

/// One key that the file gives.
pub(super) struct Entry {
    pub value: Value,
    pub span: Range<usize>,
    /// As the user wrote it, without the quotes.
    pub written: String,
}

/// All keys that the file gives, each known and in its range.
pub(super) struct Document<'t> {
    pub text: &'t str,
    entries: BTreeMap<&'static str, Entry>,
    /// Tables of the file and where they begin.
    tables: BTreeMap<String, Range<usize>>,
}

impl<'t> Document<'t> {
    /// Reads the text.
    ///
    /// # Errors
    /// The first fault of the text: too long, no TOML, an unknown key, a value of the wrong kind or out of range.
    pub fn parse(text: &'t str) -> Result<Self, JobError> {
        let longest = if text.contains("track") { LONGEST_WITH_TRACK } else { LONGEST_TEXT };
        if text.len() > longest {
            let problem = "the text is too long";
            let value = format!("{} bytes", text.len());
            return Err(JobError::at(text, 0..0, "", &value, problem, &format!("at most {longest} bytes")));
        }
        let root = DeTable::parse(text).map_err(|error| syntax(text, &error))?;
        let mut document = Self { text, entries: BTreeMap::new(), tables: BTreeMap::new() };
        let mut errors = Vec::new();
        document.walk(root.get_ref(), "", &mut errors);
        match errors.into_iter().min_by_key(|e| (e.line, e.column)) {
            Some(first) => Err(first),
            None => Ok(document),
        }
    }

    fn walk(&mut self, table: &DeTable<'_>, prefix: &str, errors: &mut Vec<JobError>) {
        for (name, value) in table {
            let path = join(prefix, name.get_ref());
            let is_table_name =
                KEYS.iter().any(|k| k.path.strip_prefix(&*path).is_some_and(|r| r.starts_with('.')));
            match (Key::find(&path), value.get_ref()) {
                // A name that stands for a catalogue entry or for the keys of one's own.
                (Some(_), DeValue::Table(inner)) if is_table_name => {
                    self.tables.insert(path.clone(), value.span());
                    self.walk(inner, &path, errors);
                }
                (Some(key), leaf) => match read(key, leaf) {
                    Ok(read) => {
                        let written = written(self.text, value);
                        self.entries.insert(key.path, Entry { value: read, span: value.span(), written });
                    }
                    Err((problem, hint)) => {
                        let error = JobError::at(
                            self.text,
                            value.span(),
                            &path,
                            &written(self.text, value),
                            &problem,
                            &key.allowed(),
                        );
                        errors.push(hint.into_iter().fold(error, JobError::hint));
                    }
                },
                (None, DeValue::Table(inner)) if is_table_name => {
                    self.tables.insert(path.clone(), value.span());
                    self.walk(inner, &path, errors);
                }
                (None, _) if is_table_name => errors.push(JobError::at(
                    self.text,
                    value.span(),
                    &path,
                    &written(self.text, value),
                    "it is a group of keys, not a value",
                    &format!("a table with {}", children(&path).join(", ")),
                )),
                (None, _) => errors.push(unknown(self.text, name.span(), prefix, &path)),
            }
        }
    }

    /// The entry of a key, if the file gives it.
    pub fn get(&self, path: &str) -> Option<&Entry> {
        self.entries.get(path)
    }

    /// Whether the file gives a key, or a table, of this path.
    pub fn has(&self, path: &str) -> bool {
        self.entries.contains_key(path) || self.tables.contains_key(path)
    }

    /// Every key that the file gives.
    pub fn keys(&self) -> Vec<&'static str> {
        self.entries.keys().copied().collect()
    }

    /// The number of a key, if the file gives it.
    pub fn number(&self, path: &str) -> Option<f64> {
        match self.get(path)?.value {
            Value::Number(x) => Some(x),
            _ => None,
        }
    }

    /// The text of a key, if the file gives it.
    pub fn word(&self, path: &str) -> Option<&str> {
        match &self.get(path)?.value {
            Value::Text(word) => Some(word),
            _ => None,
        }
    }

    /// The words of a list, none where the file does not give it.
    pub fn words(&self, path: &str) -> &[String] {
        match self.get(path).map(|entry| &entry.value) {
            Some(Value::Words(words)) => words,
            _ => &[],
        }
    }

    /// The shares of a list, none where the file does not give it.
    pub fn shares(&self, path: &str) -> &[f64] {
        match self.get(path).map(|entry| &entry.value) {
            Some(Value::Shares(list)) => list,
            _ => &[],
        }
    }

    /// True or false, if the file gives it.
    pub fn flag(&self, path: &str) -> Option<bool> {
        match self.get(path)?.value {
            Value::Flag(flag) => Some(flag),
            _ => None,
        }
    }

    /// The band of a key, if the file gives it.
    pub fn band(&self, path: &str) -> Option<[f64; 2]> {
        match self.get(path)?.value {
            Value::Band(band) => Some(band),
            _ => None,
        }
    }

    /// The others on the tank, if the file gives them.
    pub fn air_users(&self, path: &str) -> Option<&[(String, f64)]> {
        match &self.get(path)?.value {
            Value::AirUsers(list) => Some(list),
            _ => None,
        }
    }

    /// The kits of a key, if the file gives it.
    pub fn kits(&self, path: &str) -> Option<&[super::KitToCompare]> {
        match &self.get(path)?.value {
            Value::Kits(kits) => Some(kits),
            _ => None,
        }
    }

    /// The frame of a key, if the file gives it.
    pub fn frame(&self, path: &str) -> Option<&Arc<Frame>> {
        match &self.get(path)?.value {
            Value::Frame(frame) => Some(frame),
            _ => None,
        }
    }

    /// The track of a key, if the file gives it.
    pub fn track(&self, path: &str) -> Option<std::sync::Arc<crate::stroke::Track>> {
        match &self.get(path)?.value {
            Value::Track(track) => Some(track.clone()),
            _ => None,
        }
    }

    /// Refuses the value that the file gives for a key or table; where it gives none, names the nearest table.
    pub fn refuse(&self, path: &str, problem: &str, allowed: &str) -> JobError {
        if let Some(entry) = self.get(path) {
            return JobError::at(self.text, entry.span.clone(), path, &entry.written, problem, allowed);
        }
        let mut at = path;
        loop {
            if let Some(span) = self.tables.get(at) {
                return JobError::at(self.text, span.clone(), path, "", problem, allowed);
            }
            match at.rsplit_once('.') {
                Some((parent, _)) => at = parent,
                None => return JobError::at(self.text, 0..0, path, "", problem, allowed),
            }
        }
    }

    /// A value that a model refuses, at the key it names (what follows a colon there is a detail).
    pub fn parameter(&self, error: &ParameterError) -> JobError {
        let path = error.key.split(':').next().unwrap_or("");
        let problem = match self.get(path) {
            Some(_) => "it is not possible".to_string(),
            None => format!("{} comes to {}, which is not possible", error.key, error.value),
        };
        self.refuse(path, &problem, &error.allowed)
    }

    /// The error for a required key that is not there.
    pub fn missing(&self, path: &str) -> JobError {
        let allowed = Key::find(path).map_or_else(String::new, Key::allowed);
        self.refuse(path, "it is missing and has no default", &allowed)
    }
}

/// Path of a name inside a table; a name that holds a point is kept apart by quotes.
fn join(prefix: &str, name: &str) -> String {
    let name = if name.contains('.') || name.is_empty() { format!("\"{name}\"") } else { name.to_string() };
    if prefix.is_empty() { name } else { format!("{prefix}.{name}") }
}

/// The error for a key that this format does not have.
pub(super) fn unknown(text: &str, span: Range<usize>, prefix: &str, path: &str) -> JobError {
    let known = children(prefix);
    let word = path.rsplit('.').next().unwrap_or(path);
    let place = if prefix.is_empty() { "keys and tables".into() } else { format!("keys of {prefix}") };
    let allowed = format!("{place}: {}", known.join(", "));
    let error = JobError::at(text, span, path, "", "there is no such key", &allowed);
    if word == "displacement" {
        return error.hint(super::supply_patch::DISPLACEMENT);
    }
    let elsewhere = KEYS.iter().find(|k| k.path.rsplit('.').next() == Some(word));
    match (nearest(word, &known), elsewhere) {
        (_, Some(key)) => error.hint(format!("did you mean {}?", key.path)),
        (Some(near), None) => error.hint(format!("did you mean {}?", join(prefix, near))),
        (None, None) => error,
    }
}

/// Names directly inside a table of the format, in its order.
pub(super) fn children(prefix: &str) -> Vec<&'static str> {
    let mut names = Vec::new();
    for key in KEYS {
        let rest = if prefix.is_empty() {
            Some(key.path)
        } else {
            key.path.strip_prefix(prefix).and_then(|r| r.strip_prefix('.'))
        };
        if let Some(name) = rest.and_then(|r| r.split('.').next())
            && !names.contains(&name)
        {
            names.push(name);
        }
    }
    names
}

/// A value as written, text without its quotes.
pub(super) fn written(text: &str, value: &Spanned<DeValue<'_>>) -> String {
    match value.get_ref() {
        DeValue::String(s) => s.to_string(),
        _ => text.get(value.span()).unwrap_or("").to_string(),
    }
}

/// A fault of the TOML itself; its key is read off the line where it can be.
pub(super) fn syntax(text: &str, error: &toml::de::Error) -> JobError {
    let span = error.span().unwrap_or(0..0);
    let start = span.start.min(text.len());
    let before = text.get(..start).unwrap_or("");
    let line_start = before.rfind('\n').map_or(0, |i| i + 1);
    let line = text.get(line_start..).unwrap_or("").lines().next().unwrap_or("");
    let section = before[..line_start]
        .lines()
        .rev()
        .find_map(|l| l.trim().strip_prefix('[').and_then(|l| l.split(']').next()))
        .unwrap_or("");
    let (name, value) = line.split_once('=').map_or(("", line), |(name, value)| (name.trim(), value.trim()));
    let plain = |s: &str| !s.is_empty() && s.chars().all(|c| c.is_ascii_alphanumeric() || "_.-".contains(c));
    let key = match (plain(name), plain(section)) {
        (true, true) => format!("{section}.{name}"),
        (true, false) => name.to_string(),
        _ => String::new(),
    };
    JobError::at(text, span, &key, value, &format!("the text is no TOML: {}", error.message()), "TOML")
}
