//! `part.frame`: a frame by its word, or a list of tubes; and lists of names.

use toml::de::DeValue;

use super::value::{Refusal, is_a, nearest, one_line, one_of, quantity, refuse};
use crate::part::{Frame, MOST_MEMBERS, Member};
use crate::units::Quantity;
use glam::DVec3;

/// Names of an entry.
const NAMES: [&str; 4] = ["from", "to", "diameter", "name"];
/// Furthest place of a tube's end [m].
const FURTHEST: f64 = 5.0;
/// Largest size of a frame each way [m].
const LARGEST: f64 = 4.0;
/// Shortest and longest tube [m].
const LENGTHS: [f64; 2] = [0.02, 3.0];
/// Thinnest and thickest tube [m].
const DIAMETERS: [f64; 2] = [0.003, 0.1];
/// What a hair of rounding may add [-].
const HAIR: f64 = 1e-9;

/// What is allowed, in words.
pub(super) fn allowed() -> String {
    let words = Frame::SHAPES.map(|s| format!("\"{s}\"")).join(", ");
    format!(
        "{words}, or {{ tubes = [{{ from = [\"0 mm\", \"0 mm\", \"0 mm\"], to = [\"0 mm\", \"450 mm\", \"0 mm\"], diameter = \"22 mm\", \
         name = \"leg\" }}, ...] }}: up to {MOST_MEMBERS} straight tubes, x to the right, y up, z towards the painter, 20 mm to 3 m long, \
         3 to 100 mm thick, within 4 m each way; the name may be left out"
    )
}

/// Reads a word or a table.
pub(super) fn read(value: &DeValue<'_>) -> Result<Frame, Refusal> {
    match value {
        DeValue::String(word) => {
            one_of(value, &Frame::SHAPES)?;
            Frame::named(word).ok_or_else(|| ("it is not one of those known".into(), None))
        }
        DeValue::Table(table) => {
            let mut tubes = None;
            for (key, value) in table {
                match key.get_ref().as_ref() {
                    "tubes" => tubes = Some(list(value.get_ref())?),
                    other => return refuse(format!("it has a key \"{other}\" that is not known")),
                }
            }
            tubes.ok_or_else(|| ("it lacks its tubes".into(), None))
        }
        other => refuse(format!("it is {}, where a word or a table is needed", is_a(other))),
    }
}

fn list(value: &DeValue<'_>) -> Result<Frame, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("tubes is {}, where a list is needed", is_a(value)));
    };
    if list.is_empty() || list.len() > MOST_MEMBERS {
        return refuse(format!("it has {} tubes", list.len()));
    }
    let mut members: Vec<Member> = Vec::new();
    for (i, item) in list.iter().enumerate() {
        let number = i + 1;
        let member = entry(number, item.get_ref())
            .map_err(|(problem, hint)| (format!("tube {number}: {problem}"), hint))?;
        if members.iter().any(|m| m.name == member.name) {
            return refuse(format!("tube {number}: the name \"{}\" is there twice", member.name));
        }
        members.push(member);
    }
    let frame = Frame::of(members);
    let size = frame.size().max_element();
    if size > LARGEST * (1.0 + HAIR) {
        return refuse(format!("it is {size:.3} m across, which is more than {LARGEST} m"));
    }
    Ok(frame)
}

fn entry(number: usize, value: &DeValue<'_>) -> Result<Member, Refusal> {
    let DeValue::Table(table) = value else {
        return refuse(format!("it is {}, where a table is needed", is_a(value)));
    };
    let (mut from, mut to, mut diameter, mut name) = (None, None, None, None);
    for (key, value) in table {
        let value = value.get_ref();
        match key.get_ref().as_ref() {
            "from" => from = Some(point("from", value)?),
            "to" => to = Some(point("to", value)?),
            "diameter" => diameter = Some(quantity(Quantity::Length, value)?),
            "name" => match one_line(value)? {
                word if word.trim().is_empty() => return refuse("its name is empty"),
                word => name = Some(word),
            },
            other => {
                let hint = nearest(other, &NAMES).map(|n| format!("did you mean {n}?"));
                return Err((format!("it has a key \"{other}\" that is not known"), hint));
            }
        }
    }
    let (Some(from), Some(to), Some(diameter)) = (from, to, diameter) else {
        return refuse("it needs from, to and diameter");
    };
    let member = Member::new(name.unwrap_or_else(|| format!("tube {number}")), from, to, diameter);
    let within = |x: f64, [low, high]: [f64; 2]| x >= low * (1.0 - HAIR) && x <= high * (1.0 + HAIR);
    if !within(diameter, DIAMETERS) {
        return refuse(format!("its diameter of {:.3} mm is outside 3 to 100 mm", diameter * 1e3));
    }
    if !within(member.length(), LENGTHS) {
        return refuse(format!("its length of {:.3} mm is outside 20 mm to 3 m", member.length() * 1e3));
    }
    Ok(member)
}

fn point(name: &str, value: &DeValue<'_>) -> Result<DVec3, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("{name} is {}, where a list of three lengths is needed", is_a(value)));
    };
    if list.len() != 3 {
        return refuse(format!("{name} has {} values, where three are needed", list.len()));
    }
    let mut at = [0.0; 3];
    for (x, item) in at.iter_mut().zip(list) {
        *x = quantity(Quantity::Length, item.get_ref())
            .map_err(|(problem, hint)| (format!("{name}: {problem}"), hint))?;
        if x.abs() > FURTHEST {
            return refuse(format!("{name} lies further than {FURTHEST} m from the middle"));
        }
    }
    Ok(DVec3::from_array(at))
}

/// Names of a list, each there once.
pub(super) fn names(value: &DeValue<'_>) -> Result<Vec<String>, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("it is {}, where a list is needed", is_a(value)));
    };
    if list.len() > MOST_MEMBERS {
        return refuse(format!("it has {} entries", list.len()));
    }
    let mut out: Vec<String> = Vec::new();
    for item in list {
        let name = one_line(item.get_ref())?;
        if out.contains(&name) {
            return refuse(format!("\"{name}\" is there twice"));
        }
        out.push(name);
    }
    Ok(out)
}
