//! A value of a key, anywhere in its range.

use super::tables::{kits, track};
use crate::patterns::Draws;
use mistcoat::catalogue;
use mistcoat::evaporation::Volatile;
use mistcoat::flow_cup::Cup;
use mistcoat::job::{Key, Kind};

/// Texts that a stranger may send.
const TEXTS: [&str; 5] = [
    "table top",
    "<script>alert(1)</script>",
    "Stuhl \u{201e}N\u{ba} 7\u{201c} & 'co'",
    "",
    "\u{1f3a8}\u{202e}",
];

/// One of a list.
pub fn one<T>(d: &mut Draws, list: impl IntoIterator<Item = T>) -> T {
    let mut list: Vec<T> = list.into_iter().collect();
    let index = ((d.uniform() * list.len() as f64) as usize).min(list.len() - 1);
    list.swap_remove(index)
}

/// Number and unit of a text such as "0.2 bar".
fn apart(text: &str) -> (f64, &str) {
    let (number, unit) = text.split_once(' ').unwrap_or((text.trim_end_matches('%'), ""));
    (number.parse().unwrap_or_else(|e| panic!("{text}: {e}")), unit)
}

/// Somewhere in a range: now and then at an end, else even, over decades even in the logarithm.
pub fn within(d: &mut Draws, low: f64, high: f64) -> f64 {
    let x = match d.uniform() {
        u if u < 0.04 => low,
        u if u > 0.96 => high,
        _ if low > 0.0 && high > 8.0 * low => low * (high / low).powf(d.uniform()),
        _ => d.between(low, high),
    };
    // Four digits, as one would write it.
    let rounded: f64 = format!("{x:.3e}").parse().unwrap_or(x);
    rounded.clamp(low, high)
}

/// A number of the key's range in the unit of its upper end, with that unit.
fn number(d: &mut Draws, key: &Key) -> String {
    let ((low, low_unit), (high, unit)) = (apart(key.range.0), apart(key.range.1));
    let low = match key.limits() {
        // Ends of different units: brought to the upper one's.
        Some((l, h)) if low_unit != unit => l / h * high,
        _ => low,
    };
    let x = within(d, low, high);
    let percent = if key.range.1.ends_with('%') { " %" } else { "" };
    if unit.is_empty() { format!("{x}{percent}") } else { format!("{x} {unit}") }
}

fn quoted(text: &str) -> String {
    format!("{text:?}").replace("\\u{202e}", "\\u202E").replace("\\'", "'")
}

fn bare_or_quoted(text: String) -> String {
    if text.ends_with('%') { quoted(&text) } else { text }
}

fn list(items: impl IntoIterator<Item = String>) -> String {
    format!("[{}]", items.into_iter().collect::<Vec<_>>().join(", "))
}

/// A value of a key as TOML has it.
pub fn value(d: &mut Draws, key: &Key) -> String {
    let ids = |list: Vec<&'static str>, d: &mut Draws| quoted(one(d, list));
    match key.kind {
        Kind::Quantity(_) => quoted(&number(d, key)),
        Kind::Band(_) => {
            let mut ends = [number(d, key), number(d, key)];
            ends.sort_by(|a, b| apart(a).0.total_cmp(&apart(b).0));
            list(ends.map(|end| quoted(&end)))
        }
        Kind::Share | Kind::Number => bare_or_quoted(number(d, key)),
        Kind::Count => {
            let (low, high) = (apart(key.range.0).0, apart(key.range.1).0);
            (within(d, low, high) as u64).to_string()
        }
        Kind::Shares => list((0..d.one_of(&[0, 1, 10])).map(|_| number(d, key)).collect::<Vec<_>>()),
        Kind::Flag => d.one_of(&["true", "false"]).into(),
        Kind::Text => quoted(d.one_of(&TEXTS)),
        Kind::Choice(words) => quoted(d.one_of(words)),
        Kind::Words(words) => {
            list(words.iter().filter(|_| d.uniform() < 0.2).map(|w| quoted(w)).collect::<Vec<_>>())
        }
        Kind::KitId => ids(catalogue::kits().iter().map(|k| k.id).collect(), d),
        Kind::PaintId => ids(catalogue::paints().iter().map(|p| p.id).collect(), d),
        Kind::CupId => ids(Cup::all().map(Cup::id).collect(), d),
        Kind::CompressorId => ids(catalogue::compressors().iter().map(|c| c.id).collect(), d),
        Kind::Mix => {
            let parts: Vec<_> = (0..d.one_of(&[2, 3])).map(|_| within(d, 0.01, 100.0).to_string()).collect();
            quoted(&parts.join(":"))
        }
        Kind::AirUsers => list(
            (0..d.one_of(&[1, 2, 8]))
                .map(|i| format!("{{ name = \"user {i}\", air = \"{} L/min\" }}", within(d, 0.1, 2000.0))),
        ),
        Kind::Solvents => solvents(d),
        Kind::Kits => kits(d),
        Kind::Moments => track(d, [0.3, 0.2]),
        Kind::Names | Kind::Frame => unreachable!("{}: drawn with the part", key.path),
    }
}

/// One to three volatiles whose shares are whole hundredths and sum to all.
fn solvents(d: &mut Draws) -> String {
    let mut names: Vec<&str> = Volatile::all().map(|v| v.name).collect();
    let count = d.one_of(&[1, 2, 3]);
    let mut left = 100;
    list((0..count).map(|i| {
        let name = names.swap_remove((d.uniform() * names.len() as f64) as usize % names.len());
        let share = if i + 1 == count { left } else { 1 + (d.uniform() * f64::from(left - 3)) as i32 };
        left -= share;
        format!("{{ name = \"{name}\", share = \"{share} %\" }}")
    }))
}
