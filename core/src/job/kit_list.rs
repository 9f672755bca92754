//! `compare.kits`: the kits that are set beside the job's own, each with the price the user typed.

use toml::de::DeValue;

use super::value::{Refusal, bare, is_a, nearest, one_of, refuse, text};
use super::{KitSource, KitToCompare};
use crate::compare::MOST_KITS;

/// Names of an entry.
const NAMES: [&str; 3] = ["kit", "name", "price"];
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
                one_of(value, &super::catalogue_ids::kits()).map_err(here)?;
                what = Some(KitSource::Catalogue(text(value).map_err(here)?.to_string()));
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
        None => refuse(format!("entry {number} names no kit")),
    }
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
