//! One key that is varied, and its values as one would write them in a job file.

use crate::error::ParameterError;
use crate::job::{Key, Kind};
use crate::units::{self, UnitError};
use serde::{Deserialize, Serialize};

/// Most values of one key.
pub const MOST_VALUES: usize = 10_000;

/// Figures of a number between two others: more would show how the computer rounds.
const FIGURES: usize = 10;

/// A key and its values.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Axis {
    /// Dotted key of the job file.
    pub key: String,
    /// Values as written without quotes: "180 mm", "0.4", "50 %", "steady".
    pub values: Vec<String>,
}

impl Axis {
    /// Reads "stroke.overlap=0.3..0.7:21" (from, to, how many), "stroke.distance=150..250 mm:5" (the unit holds for both ends) or
    /// "stroke.hand=machine,steady" (a list).
    ///
    /// # Errors
    /// A key that is not known, a range of a key that has no numbers, a value of the wrong kind; by the key. A value out of the key's
    /// range is not refused here: its points are impossible, the others are not.
    pub fn read(text: &str) -> Result<Self, ParameterError> {
        let Some((key, values)) = text.split_once('=') else {
            let allowed = "a key, =, and values: stroke.overlap=0.3..0.7:21 or stroke.hand=machine,steady";
            return Err(ParameterError::new("vary", text, allowed));
        };
        Self::new(key.trim(), values.trim())
    }

    /// A key and its values: "0.3..0.7:21" or "machine,steady".
    ///
    /// # Errors
    /// As [`Axis::read`].
    pub fn new(key: &str, values: &str) -> Result<Self, ParameterError> {
        let Some(found) = Key::find(key) else { return Err(unknown(key)) };
        if key == "version" {
            return Err(ParameterError::new(key, values, "any other key of the job file"));
        }
        let refuse = |value: &str, allowed: String| ParameterError::new(key, value, allowed);
        let listed: Vec<String> = match range(values) {
            Some((from, to, count)) if numbers(found.kind) => between(found, from, to, count)?,
            Some(_) => {
                let allowed = format!("a list: a range is for numbers. {}", found.allowed());
                return Err(refuse(values, allowed));
            }
            None => with_units(found.kind, split_list(values)),
        };
        if listed.is_empty() || listed.iter().any(String::is_empty) {
            return Err(refuse(
                values,
                format!("at least one value, none of them empty. {}", found.allowed()),
            ));
        }
        if listed.len() > MOST_VALUES {
            return Err(refuse(&listed.len().to_string(), format!("at most {MOST_VALUES} values")));
        }
        for (i, value) in listed.iter().enumerate() {
            if listed[..i].contains(value) {
                return Err(refuse(value, "every value once".into()));
            }
            found
                .check_kind(value)
                .map_err(|problem| refuse(value, format!("{}; {problem}", found.allowed())))?;
        }
        Ok(Self { key: key.into(), values: listed })
    }

    /// Its values as numbers in the unit of the first of them, and that unit (empty where there is none); none where they are words.
    #[must_use]
    pub fn numbers(&self) -> Option<(Vec<f64>, &str)> {
        let key = Key::find(&self.key)?;
        if !numbers(key.kind) {
            return None;
        }
        let unit = self.values.first().map(|v| number_and_unit(v).1)?;
        let one: Option<Vec<f64>> = self
            .values
            .iter()
            .map(|value| {
                let (number, own) = number_and_unit(value);
                (own == unit).then(|| units::parse_number(number).ok()).flatten()
            })
            .collect();
        Some((one?, unit))
    }
}

/// Whether a value of this kind is one number.
fn numbers(kind: Kind) -> bool {
    matches!(kind, Kind::Quantity(_) | Kind::Share | Kind::Number | Kind::Count)
}

fn unknown(key: &str) -> ParameterError {
    let near = |k: &&Key| strsim::jaro_winkler(k.path, key);
    let best = crate::job::KEYS.iter().max_by(|a, b| near(a).total_cmp(&near(b)));
    let hint = best.filter(|k| near(k) > 0.82).map(|k| format!(" (did you mean {}?)", k.path));
    ParameterError::new("vary", key, format!("a key of the job file{}", hint.unwrap_or_default()))
}

/// "0.3..0.7:21" in its pieces; none where it is no range.
fn range(text: &str) -> Option<(&str, &str, &str)> {
    if text.starts_with(['[', '{', '"']) {
        return None;
    }
    let (from, rest) = text.split_once("..")?;
    let (to, count) = rest.rsplit_once(':').unwrap_or((rest, ""));
    Some((from.trim(), to.trim(), count.trim()))
}

/// A number and what follows it.
fn number_and_unit(text: &str) -> (&str, &str) {
    let text = text.trim();
    let number = |c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.');
    let end =
        text.char_indices().find(|&(i, c)| !number(c) && !exponent(text, i)).map_or(text.len(), |(i, _)| i);
    (text[..end].trim(), text[end..].trim())
}

/// The letter at `i` is an exponent's: a digit before it, a digit or a sign and a digit after it.
fn exponent(text: &str, i: usize) -> bool {
    let after = text.get(i + 1..).unwrap_or("").trim_start_matches(['+', '-']);
    text[i..].starts_with(['e', 'E'])
        && text[..i].ends_with(|c: char| c.is_ascii_digit())
        && after.starts_with(|c: char| c.is_ascii_digit())
}

/// `count` values from one end to the other, evenly.
fn between(key: &Key, from: &str, to: &str, count: &str) -> Result<Vec<String>, ParameterError> {
    let refuse = |value: &str, allowed: &str| ParameterError::new(key.path, value, allowed);
    let n: usize = match count.parse() {
        Ok(n) if (2..=MOST_VALUES).contains(&n) => n,
        _ => {
            let allowed = format!("how many values, 2 to {MOST_VALUES}, behind the range: 0.3..0.7:21");
            return Err(refuse(&format!("{from}..{to}:{count}"), &allowed));
        }
    };
    let ((low, low_unit), (high, unit)) = (number_and_unit(from), number_and_unit(to));
    let read = |number: &str, whole: &str| {
        // Where there is no number at all, what stands there is told.
        let number = if number.is_empty() { whole } else { number };
        units::parse_number(number).map_err(|e: UnitError| refuse(whole, &format!("{}; {e}", key.allowed())))
    };
    let (low, high) = (read(low, from)?, read(high, to)?);
    if !low_unit.is_empty() && low_unit != unit {
        return Err(refuse(&format!("{from}..{to}"), "both ends in one unit, written behind the second"));
    }
    if low == high {
        return Err(refuse(&format!("{from}..{to}"), "two different ends"));
    }
    let last = (n - 1) as f64;
    let mut values = Vec::with_capacity(n);
    for i in 0..n {
        let number = plain(low + (high - low) * (i as f64 / last), low.abs().max(high.abs()));
        if key.kind == Kind::Count && number.contains('.') {
            return Err(refuse(&format!("{from}..{to}:{n}"), "steps of whole numbers"));
        }
        values.push(if unit.is_empty() { number } else { format!("{number} {unit}") });
    }
    Ok(values)
}

/// A number to [`FIGURES`] figures of `largest`, without needless zeros.
fn plain(value: f64, largest: f64) -> String {
    let (mut places, mut scale) = (FIGURES, largest);
    while scale >= 1.0 && places > 0 {
        (places, scale) = (places - 1, scale / 10.0);
    }
    let mut text = format!("{value:.places$}");
    while text.contains('.') && text.ends_with(['0', '.']) {
        text.pop();
    }
    if text == "-0" { "0".into() } else { text }
}

/// A list of quantities whose last one alone has its unit: it holds for all.
fn with_units(kind: Kind, list: Vec<String>) -> Vec<String> {
    let unit = match (kind, list.last()) {
        (Kind::Quantity(_), Some(last)) => number_and_unit(last).1.to_string(),
        _ => String::new(),
    };
    let bare = |value: &String| !value.is_empty() && number_and_unit(value).1.is_empty();
    if unit.is_empty() || !list[..list.len() - 1].iter().all(bare) {
        return list;
    }
    list.into_iter().map(|value| if bare(&value) { format!("{value} {unit}") } else { value }).collect()
}

/// Splits at commas outside brackets and quotes.
fn split_list(text: &str) -> Vec<String> {
    let (mut list, mut start, mut depth, mut quoted) = (Vec::new(), 0, 0i32, false);
    for (i, c) in text.char_indices() {
        match c {
            '"' => quoted = !quoted,
            '[' | '{' if !quoted => depth += 1,
            ']' | '}' if !quoted => depth -= 1,
            ',' if !quoted && depth == 0 => {
                list.push(text[start..i].trim().to_string());
                start = i + 1;
            }
            _ => {}
        }
    }
    list.push(text[start..].trim().to_string());
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(text: &str) -> Vec<String> {
        Axis::read(text).unwrap_or_else(|e| panic!("{text}: {e}")).values
    }

    #[test]
    fn ranges_and_lists() {
        assert_eq!(values("stroke.overlap=0.3..0.7:5"), ["0.3", "0.4", "0.5", "0.6", "0.7"]);
        assert_eq!(values("stroke.overlap=30..70 %:3"), ["30 %", "50 %", "70 %"]);
        assert_eq!(values("stroke.distance = 150..250 mm:3"), ["150 mm", "200 mm", "250 mm"]);
        assert_eq!(values("stroke.distance=6in..10in:3"), ["6 in", "8 in", "10 in"]);
        assert_eq!(values("gun.inlet_pressure=1.5 bar,29 psi"), ["1.5 bar", "29 psi"]);
        assert_eq!(values("stroke.speed=350,500 mm/s"), ["350 mm/s", "500 mm/s"]);
        assert_eq!(
            values("gun.kit=hvlp-gravity-1.3,lvlp-gravity-1.2"),
            ["hvlp-gravity-1.3", "lvlp-gravity-1.2"]
        );
        assert_eq!(values("stroke.coats=1..3:3"), ["1", "2", "3"]);
        assert_eq!(values("paint.mix=2:1,4:1:1"), ["2:1", "4:1:1"]);
        assert_eq!(
            values("spec.dry_film=[\"20 um\", \"35 um\"],[\"30 um\", \"45 um\"]"),
            ["[\"20 um\", \"35 um\"]", "[\"30 um\", \"45 um\"]"]
        );
        assert_eq!(values("stroke.speed=1e2..2e2 mm/s:2"), ["100 mm/s", "200 mm/s"]);
        // A third has no end.
        assert_eq!(values("stroke.overlap=0..1:4")[1], "0.333333333");
    }

    #[test]
    fn numbers_of_an_axis() {
        let axis = Axis::read("stroke.distance=150..250 mm:3").expect("an axis");
        assert_eq!(axis.numbers(), Some((vec![150.0, 200.0, 250.0], "mm")));
        assert_eq!(Axis::read("stroke.hand=machine,steady").expect("an axis").numbers(), None);
        assert_eq!(Axis::read("gun.inlet_pressure=1 bar,29 psi").expect("an axis").numbers(), None);
    }

    #[test]
    fn what_is_refused_names_the_key() {
        for (text, said) in [
            ("stroke.overlap", "a key, =, and values"),
            ("stroke.overlp=0.3..0.7:3", "did you mean stroke.overlap?"),
            ("stroke=1,2", "a key of the job file"),
            ("version=1,2", "any other key"),
            ("stroke.overlap=0.3..0.7", "how many values, 2 to"),
            ("stroke.overlap=0.3..0.7:1", "how many values, 2 to"),
            ("stroke.overlap=0.3..0.7:99999999999999999999", "how many values, 2 to"),
            ("stroke.overlap=0.3..0.3:3", "two different ends"),
            ("stroke.overlap=a..b:3", "a plain number"),
            ("stroke.overlap=nan..1:3", "the number is not finite"),
            ("stroke.overlap=0.3,0.3", "every value once"),
            ("stroke.overlap=0.3,,0.4", "none of them empty"),
            ("stroke.overlap=", "none of them empty"),
            ("stroke.distance=150..250:3", "the unit is missing"),
            ("stroke.distance=150 bar..250 bar:3", "is the unit of a pressure"),
            ("stroke.distance=15 cm..250 mm:3", "both ends in one unit"),
            ("stroke.coats=1..2:4", "whole numbers"),
            ("stroke.hand=machine..steady:2", "a range is for numbers"),
            ("stroke.hand=machine,stedy", "did you mean \"steady\"?"),
            ("gun.kit=hvlp", "a kit of the catalogue"),
            ("paint.isocyanate=yes", "true or false"),
        ] {
            let error = Axis::read(text).expect_err(text).to_string();
            assert!(error.contains(said), "{text}: {said:?} is not in {error:?}");
        }
        // Out of range: its points are impossible, no fault of the sweep.
        assert_eq!(values("stroke.overlap=0.5,1.5"), ["0.5", "1.5"]);
    }
}
