//! `compare.kits`: the kits that are set beside the job's own, out of the catalogue or from what is printed on a box, each with
//! the price the user typed.

use toml::de::DeValue;

use super::keys::{Key, Kind};
use super::value::{self, Refusal, Value, bare, is_a, nearest, one_of, refuse, text};
use super::{KitSource, KitToCompare};
use crate::compare::MOST_KITS;
use crate::gun::{Class, Feed};
use crate::set_up::BoxFigures;

/// Names of an entry.
const NAMES: [&str; 4] = ["kit", "box", "name", "price"];
/// Names of a box, and the keys of the job's own gun that say what they may be.
const BOX: [(&str, &str); 7] = [
    ("air", "gun.box.air"),
    ("at", "gun.box.at"),
    ("tip", "gun.box.tip"),
    ("fan", "gun.box.fan"),
    ("fan_at", "gun.box.fan_at"),
    ("class", "gun.class"),
    ("feed", "gun.feed"),
];
/// Highest price, in any currency.
const DEAREST: f64 = 1e7;

/// Reads the list, its entries in their order.
pub(super) fn read(value: &DeValue<'_>) -> Result<Vec<KitToCompare>, Refusal> {
    let DeValue::Array(list) = value else {
        return refuse(format!("it is {}, where a list is needed", is_a(value)));
    };
    if list.len() > MOST_KITS {
        return refuse(format!("it has {} entries", list.len()));
    }
    list.iter().enumerate().map(|(i, item)| entry(i + 1, item.get_ref())).collect()
}

fn entry(number: usize, value: &DeValue<'_>) -> Result<KitToCompare, Refusal> {
    let here = |(problem, hint): Refusal| (format!("entry {number}: {problem}"), hint);
    let DeValue::Table(table) = value else {
        return refuse(format!("entry {number} is {}, where a table is needed", is_a(value)));
    };
    let (mut what, mut name, mut price) = (None, None, None);
    for (key, value) in table {
        let value = value.get_ref();
        match key.get_ref().as_ref() {
            "kit" => {
                if what.is_some() {
                    return refuse(format!("entry {number} names both a kit and a box"));
                }
                one_of(value, &super::catalogue_ids::kits()).map_err(here)?;
                what = Some(KitSource::Catalogue(text(value).map_err(here)?.to_string()));
            }
            "box" => {
                if what.is_some() {
                    return refuse(format!("entry {number} names both a kit and a box"));
                }
                what = Some(KitSource::Box(printed(value).map_err(here)?));
            }
            "name" => name = Some(plain(text(value).map_err(here)?).map_err(here)?),
            "price" => price = Some(money(bare(value).map_err(here)?).map_err(here)?),
            other => {
                let hint = nearest(other, &NAMES).map(|n| format!("did you mean {n}?"));
                return Err((format!("entry {number} has a key \"{other}\" that is not known"), hint));
            }
        }
    }
    match what {
        Some(what) => Ok(KitToCompare { what, name, price }),
        None => refuse(format!("entry {number} names neither a kit nor a box")),
    }
}

/// What is printed on a box.
fn printed(value: &DeValue<'_>) -> Result<BoxFigures, Refusal> {
    let DeValue::Table(table) = value else {
        return refuse(format!("the box is {}, where a table is needed", is_a(value)));
    };
    let (mut numbers, mut class, mut feed) = ([None; 5], None, None);
    for (name, value) in table {
        let name = name.get_ref().as_ref();
        let found = BOX.iter().position(|b| b.0 == name).and_then(|i| Some((i, Key::find(BOX[i].1)?)));
        let Some((i, key)) = found else {
            let hint = nearest(name, &BOX.map(|b| b.0)).map(|n| format!("did you mean {n}?"));
            return Err((format!("the box has a key \"{name}\" that is not known"), hint));
        };
        let read = value::read(key, value.get_ref());
        let read = read.map_err(|(problem, hint)| {
            let range = if matches!(key.kind, Kind::Quantity(_)) {
                format!(" ({})", key.range_text())
            } else {
                String::new()
            };
            (format!("{name} of the box: {problem}{range}"), hint)
        })?;
        match read {
            Value::Number(x) => numbers[i] = Some(x),
            Value::Text(word) if name == "class" => class = Class::of(&word),
            Value::Text(word) => feed = Feed::of(&word),
            _ => {}
        }
    }
    let [air, at, tip, fan, fan_at] = numbers;
    let fan = match (fan, fan_at) {
        (Some(height), Some(distance)) => Some([height, distance]),
        (None, None) => None,
        _ => return refuse("the box needs fan and fan_at together"),
    };
    let lacks = |name: &str| (format!("the box lacks {name}"), None);
    Ok(BoxFigures {
        class,
        feed,
        air: air.ok_or_else(|| lacks("air"))?,
        at: at.ok_or_else(|| lacks("at"))?,
        tip: tip.ok_or_else(|| lacks("tip"))?,
        fan,
    })
}

fn plain(name: &str) -> Result<String, Refusal> {
    if name.trim().is_empty() || name.chars().any(char::is_control) || name.chars().count() > 40 {
        return refuse("the name is empty, longer than 40 characters, or holds control characters");
    }
    Ok(name.into())
}

fn money(price: f64) -> Result<f64, Refusal> {
    if (0.0..=DEAREST).contains(&price) {
        Ok(price)
    } else {
        refuse(format!("the price {price} is outside 0 to {DEAREST}"))
    }
}
