//! One value of the job file, read by its key's kind.

use toml::de::DeValue;

use super::keys::{Key, Kind};
use crate::part::Frame;
use crate::units::{self, Quantity, UnitError};
use std::sync::Arc;

/// A value in SI.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    /// Quantity, share, number or count.
    Number(f64),
    /// Lower and upper.
    Band([f64; 2]),
    /// Shares of a list.
    Shares(Vec<f64>),
    /// Free text, choice or id.
    Text(String),
    /// Words of a list.
    Words(Vec<String>),
    /// True or false.
    Flag(bool),
    /// Parts by volume.
    Mix(Vec<f64>),
    /// Name and share of the volatile part.
    Solvents(Vec<(String, f64)>),
    /// Name and air [m3/s].
    AirUsers(Vec<(String, f64)>),
    /// Kits to compare with.
    Kits(Vec<super::KitToCompare>),
    /// A frame.
    Frame(Arc<Frame>),
    /// A track.
    Track(std::sync::Arc<crate::stroke::Track>),
}

/// What is wrong with a value, and a hint.
pub(super) type Refusal = (String, Option<String>);

pub(super) fn refuse<T>(problem: impl Into<String>) -> Result<T, Refusal> {
    Err((problem.into(), None))
}

/// A TOML number of either kind; `None` for everything else, and for numbers too large to hold.
fn number(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(i) if i.radix() == 10 => i.as_str().parse().ok(),
        DeValue::Integer(i) => i64::from_str_radix(i.as_str(), i.radix()).ok().map(|i| i as f64),
        DeValue::Float(x) => x.as_str().parse().ok(),
        _ => None,
    }
}

/// What a TOML value is, with its article.
pub(super) fn is_a(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

pub(super) fn from_units<T>(result: Result<T, UnitError>) -> Result<T, Refusal> {
    result.map_err(|error| {
        let hint = match &error {
            UnitError::UnknownUnit { nearest: Some(n), .. } => Some(format!("write it with \"{n}\"")),
            _ => None,
        };
        (error.to_string(), hint)
    })
}

pub(super) fn quantity(quantity: Quantity, value: &DeValue<'_>) -> Result<f64, Refusal> {
    match value {
        DeValue::String(text) => from_units(units::parse(quantity, text)),
        DeValue::Integer(_) | DeValue::Float(_) if number(value).is_some_and(f64::is_finite) => {
            let unit = quantity.unit_names()[0];
            let written = match value {
                DeValue::Integer(i) => i.as_str(),
                DeValue::Float(x) => x.as_str(),
                _ => "",
            };
            Err((
                "the unit is missing".into(),
                Some(format!("if {unit} is meant, write \"{written} {unit}\"")),
            ))
        }
        DeValue::Integer(_) | DeValue::Float(_) => refuse("the number is not finite"),
        other => refuse(format!("it is {}, where {} is needed", is_a(other), quantity.name())),
    }
}

pub(super) fn bare(value: &DeValue<'_>) -> Result<f64, Refusal> {
    match number(value) {
        Some(x) if x.is_finite() => Ok(x),
        Some(_) => refuse("the number is not finite"),
        None => refuse(format!("it is {}, where a bare number is needed", is_a(value))),
    }
}

pub(super) fn text<'a>(value: &'a DeValue<'_>) -> Result<&'a str, Refusal> {
    match value {
        DeValue::String(text) => Ok(text),
        other => refuse(format!("it is {}, where text is needed", is_a(other))),
    }
}

fn share(value: &DeValue<'_>) -> Result<f64, Refusal> {
    match value {
        DeValue::String(text) => from_units(units::parse_share(text)),
        other => bare(other),
    }
}

/// Most shares of a list.
pub(super) const MOST_SHARES: usize = 10;

fn shares(value: &DeValue<'_>) -> Result<Value, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("it is {}, where a list is needed", is_a(value)));
    };
    if list.len() > MOST_SHARES {
        return refuse(format!("it has {} entries", list.len()));
    }
    let mut out = Vec::new();
    for (i, item) in list.iter().enumerate() {
        match share(item.get_ref()) {
            Ok(x) if (0.0..=1.0).contains(&x) => out.push(x),
            Ok(_) => return refuse(format!("entry {} is outside 0 to 1", i + 1)),
            Err((problem, hint)) => return Err((format!("in entry {}, {problem}", i + 1), hint)),
        }
    }
    Ok(Value::Shares(out))
}

/// The word of a list, else a refusal with the nearest one.
pub(super) fn one_of(value: &DeValue<'_>, words: &[&str]) -> Result<Value, Refusal> {
    let word = text(value)?;
    if words.contains(&word) {
        return Ok(Value::Text(word.into()));
    }
    Err((
        "it is not one of those known".into(),
        nearest(word, words).map(|n| format!("did you mean \"{n}\"?")),
    ))
}

/// Words of a list, each known and there once.
fn list_of(value: &DeValue<'_>, words: &[&str]) -> Result<Value, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("it is {}, where a list is needed", is_a(value)));
    };
    let mut out: Vec<String> = Vec::new();
    for item in list {
        let Value::Text(word) =
            one_of(item.get_ref(), words).map_err(|(problem, hint)| match item.get_ref() {
                DeValue::String(word) => {
                    (format!("\"{}\" in it is not one of those known", short(word)), hint)
                }
                _ => (format!("in the list, {problem}"), hint),
            })?
        else {
            return refuse("an entry is no word");
        };
        if out.contains(&word) {
            return refuse(format!("\"{word}\" is there twice"));
        }
        out.push(word);
    }
    Ok(Value::Words(out))
}

/// At most 40 characters of a word, for a message.
fn short(word: &str) -> String {
    word.chars().take(40).collect()
}

/// The nearest of some words, when it is near.
pub(super) fn nearest<'a>(word: &str, words: &[&'a str]) -> Option<&'a str> {
    let word: String = word.chars().take(60).collect::<String>().to_lowercase();
    let near = |w: &&str| strsim::jaro_winkler(w, &word);
    let best = words.iter().copied().max_by(|a, b| near(a).total_cmp(&near(b)))?;
    (near(&best) > 0.82).then_some(best)
}

fn mix(value: &DeValue<'_>) -> Result<Value, Refusal> {
    let parts: Result<Vec<f64>, _> = text(value)?.split(':').map(units::parse_number).collect();
    match parts {
        Ok(parts) if (2..=3).contains(&parts.len()) && parts.iter().all(|p| (0.01..=100.0).contains(p)) => {
            Ok(Value::Mix(parts))
        }
        _ => refuse("it is no mix ratio"),
    }
}

fn solvents(value: &DeValue<'_>) -> Result<Value, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("it is {}, where a list is needed", is_a(value)));
    };
    if !(1..=3).contains(&list.len()) {
        return refuse(format!("it has {} entries", list.len()));
    }
    let mut out: Vec<(String, f64)> = Vec::new();
    for item in list {
        let DeValue::Table(table) = item.get_ref() else {
            return refuse(format!("an entry is {}, where a table is needed", is_a(item.get_ref())));
        };
        let (mut name, mut part) = (None, None);
        for (key, value) in table {
            match key.get_ref().as_ref() {
                "name" => name = Some(one_of(value.get_ref(), &super::catalogue_ids::solvents())?),
                "share" => part = Some(share(value.get_ref())?),
                other => return refuse(format!("an entry has a key \"{other}\" that is not known")),
            }
        }
        let (Some(Value::Text(name)), Some(part)) = (name, part) else {
            return refuse("an entry lacks its name or its share");
        };
        if !(part > 0.0 && part <= 1.0) {
            return refuse(format!("the share of {name} is outside 0 to 1"));
        }
        if out.iter().any(|(n, _)| *n == name) {
            return refuse(format!("{name} is there twice"));
        }
        out.push((name, part));
    }
    let sum: f64 = out.iter().map(|(_, share)| share).sum();
    if (sum - 1.0).abs() > 1e-6 {
        return refuse(format!("the shares sum to {sum}"));
    }
    Ok(Value::Solvents(out))
}

fn air_users(value: &DeValue<'_>) -> Result<Value, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("it is {}, where a list is needed", is_a(value)));
    };
    if list.len() > 8 {
        return refuse(format!("it has {} entries", list.len()));
    }
    let mut out = Vec::new();
    for item in list {
        let DeValue::Table(table) = item.get_ref() else {
            return refuse(format!("an entry is {}, where a table is needed", is_a(item.get_ref())));
        };
        let (mut name, mut air) = (None, None);
        for (key, value) in table {
            match key.get_ref().as_ref() {
                "name" => name = Some(one_line(value.get_ref())?),
                "air" => air = Some(quantity(Quantity::AirFlow, value.get_ref())?),
                other => return refuse(format!("an entry has a key \"{other}\" that is not known")),
            }
        }
        let (Some(name), Some(air)) = (name, air) else {
            return refuse("an entry lacks its name or its air");
        };
        // 0.1 to 20,000 L/min; a whole millionth is left for the rounding of units.
        if !(1.666_665e-6..=0.333_334).contains(&air) {
            return refuse(format!("the air of {name} is outside 0.1 to 20000 L/min"));
        }
        out.push((name, air));
    }
    Ok(Value::AirUsers(out))
}

/// Text of one line.
pub(super) fn one_line(value: &DeValue<'_>) -> Result<String, Refusal> {
    let words = text(value)?;
    if words.chars().any(char::is_control) || words.chars().count() > 120 {
        return refuse("it is too long or holds control characters");
    }
    Ok(words.into())
}

fn in_range(key: &Key, x: f64) -> Result<f64, Refusal> {
    match key.limits() {
        Some((low, _)) if x < low => refuse(format!("it is below {}", key.range.0)),
        Some((_, high)) if x > high => refuse(format!("it is above {}", key.range.1)),
        _ => Ok(x),
    }
}

/// Reads a value by its key's kind and checks its range.
pub(super) fn read(key: &Key, value: &DeValue<'_>) -> Result<Value, Refusal> {
    match key.kind {
        Kind::Quantity(kind) => in_range(key, quantity(kind, value)?).map(Value::Number),
        Kind::Share => in_range(key, share(value)?).map(Value::Number),
        Kind::Number => in_range(key, bare(value)?).map(Value::Number),
        Kind::Count => {
            let x = bare(value)?;
            if x != x.trunc() {
                return refuse("it is not a whole number");
            }
            in_range(key, x).map(Value::Number)
        }
        Kind::Band(kind) => {
            let DeValue::Array(list) = value else {
                return refuse(format!("it is {}, where a list of two is needed", is_a(value)));
            };
            let [low, high] = &list[..] else {
                return refuse(format!("it has {} values, where two are needed", list.len()));
            };
            let low = in_range(key, quantity(kind, low.get_ref())?)?;
            let high = in_range(key, quantity(kind, high.get_ref())?)?;
            if low < high {
                Ok(Value::Band([low, high]))
            } else {
                refuse("the lower value is not below the upper")
            }
        }
        Kind::Shares => shares(value),
        Kind::Flag => match value {
            DeValue::Boolean(flag) => Ok(Value::Flag(*flag)),
            other => refuse(format!("it is {}, where true or false is needed", is_a(other))),
        },
        Kind::Text => one_line(value).map(Value::Text),
        Kind::Choice(words) => one_of(value, words),
        Kind::Words(words) => list_of(value, words),
        Kind::KitId => one_of(value, &super::catalogue_ids::kits()),
        Kind::PaintId => one_of(value, &super::catalogue_ids::paints()),
        Kind::CupId => one_of(value, &super::catalogue_ids::cups()),
        Kind::Mix => mix(value),
        Kind::CompressorId => one_of(value, &super::catalogue_ids::compressors()),
        Kind::AirUsers => air_users(value),
        Kind::Solvents => solvents(value),
        Kind::Kits => super::kit_list::read(value).map(Value::Kits),
        Kind::Frame => super::frame_list::read(value).map(|frame| Value::Frame(Arc::new(frame))),
        Kind::Names => super::frame_list::names(value).map(Value::Words),
        Kind::Moments => super::track_list::read(value).map(|track| Value::Track(track.into())),
    }
}
