//! The anchors as a table of `docs/validation.md`, misses first.

use super::{Anchor, Band, Standing};

/// Lines before the tables of misses, of the rest and of predictions, and the line after each.
pub const BEGIN: [&str; 3] = [
    "<!-- missed anchors, written by `cargo run --release -p mistcoat-tests --bin validation` -->",
    "<!-- other anchors, written by `cargo run --release -p mistcoat-tests --bin validation` -->",
    "<!-- predictions, written by `cargo run --release -p mistcoat-tests --bin validation` -->",
];
/// See `BEGIN`.
pub const END: &str = "<!-- end of anchors -->";

const HEAD: &str =
    "| anchor | model | standard error | published | verdict | source |\n|---|---|---|---|---|---|\n";

fn number(x: f64, unit: &str) -> String {
    if unit.is_empty() { format!("{x:.4}") } else { format!("{x:.2}") }
}

fn band(anchor: &Anchor) -> String {
    let n = |x: f64| {
        let text = number(x, anchor.unit);
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
    };
    match anchor.band {
        Band::Within(low, high) => format!("{} to {}", n(low), n(high)),
        Band::Below(high) => format!("below {}", n(high)),
        Band::Above(low) => format!("above {}", n(low)),
        Band::Told => "-".into(),
    }
}

/// Verdict in words.
#[must_use]
pub fn verdict(anchor: &Anchor) -> String {
    match (anchor.passes(), anchor.standing) {
        (None, _) => "told".into(),
        (Some(false), Standing::Predicted) => format!("MISS by {}", number(anchor.off(), anchor.unit)),
        (Some(false), Standing::UsedUp(by)) => {
            format!("MISS by {}, though {by} was fitted to it", number(anchor.off(), anchor.unit))
        }
        (Some(true), Standing::Predicted) => "holds".into(),
        (Some(true), Standing::UsedUp(by)) => format!("holds, used up by {by}"),
    }
}

/// Rows of a table: the misses, or the rest: what holds, what is used up, what is only told.
#[must_use]
pub fn rows(anchors: &[Anchor], misses: bool) -> Vec<String> {
    let rank = |a: &Anchor| match a.passes() {
        Some(_) if a.standing == Standing::Predicted => 0,
        Some(_) => 1,
        None => 2,
    };
    let mut sorted: Vec<&Anchor> = anchors.iter().filter(|a| (a.passes() == Some(false)) == misses).collect();
    sorted.sort_by_key(|a| rank(a));
    let row = |a: &&Anchor| {
        let unit = if a.unit.is_empty() { String::new() } else { format!(" {}", a.unit) };
        let error = a.error.map_or("-".into(), |e| number(e, a.unit));
        format!(
            "| {} | {}{unit} | {error} | {}{unit} | {} | {} |",
            a.what,
            number(a.figure, a.unit),
            band(a),
            verdict(a),
            a.source
        )
    };
    sorted.iter().map(row).collect()
}

/// Whole-chain predictions that a reader may weigh the model by: beginnings of the anchors' names, and what makes each one count.
const PREDICTED: [(&str, &str); 4] = [
    ("landed share against distance", "no constant was chosen by how the share falls; measured on panels"),
    ("landed share against air/liquid ratio", "air, drop size and flight together; measured on a plate"),
    (
        "size whose landing chance is a half",
        "the size comes from air and flight alone, whatever the spray's sizes",
    ),
    (
        "overspray of HVLP, large card at 190 mm: aerodynamic median",
        "sampled in workshops, not by guns like these: the band is wide",
    ),
];

/// The predictions to which nothing was fitted, each with what became of it; those that failed are told as such.
///
/// # Panics
/// A prediction that no anchor has the name of, or to which something was fitted.
#[must_use]
pub fn predictions(anchors: &[Anchor]) -> String {
    let row = |(name, why): &(&str, &str)| {
        let found = anchors.iter().find(|a| a.what.starts_with(name));
        let a = found.unwrap_or_else(|| panic!("{name}: no such anchor"));
        assert!(a.standing == Standing::Predicted && a.passes().is_some(), "{name}: no prediction");
        let unit = if a.unit.is_empty() { String::new() } else { format!(" {}", a.unit) };
        let error = a.error.map_or(String::new(), |e| format!(" +- {}", number(e, a.unit)));
        format!(
            "| {} | {}{error}{unit} | {}{unit} | {} | {} | {why} |",
            a.what,
            number(a.figure, a.unit),
            band(a),
            verdict(a),
            a.source
        )
    };
    let other = |a: &&Anchor| a.standing == Standing::Predicted && a.passes() == Some(false);
    let missed: Vec<&str> = anchors.iter().filter(other).map(|a| a.what.as_str()).collect();
    format!(
        "{PREDICTIONS}\n\n| prediction | model | published | verdict | source | why it counts |\n|---|---|---|---|---|---|\n{}\n\n\
         Predictions that failed: {}.",
        PREDICTED.iter().map(row).collect::<Vec<_>>().join("\n"),
        if missed.is_empty() { "none".into() } else { missed.join("; ") }
    )
}

const PREDICTIONS: &str = "Gun, drop size, flight and film together, beside measurements by others. Signs and sizes that no constant of the \
model was fitted to; all but the first two are bands, not figures.";

/// The page with its tables written anew; where it has none yet, sections for them are added: the misses at the top of
/// "## Misses", the rest before "## Fitted constants".
#[must_use]
pub fn write_into(page: &str, anchors: &[Anchor]) -> String {
    let asked = anchors.iter().filter(|a| a.passes().is_some()).count();
    let misses = rows(anchors, true);
    let missed = format!("{} of {asked} anchors of the whole chain are missed.\n\n", misses.len());
    let tables = [
        format!("{}\n{missed}{HEAD}{}\n{END}", BEGIN[0], misses.join("\n")),
        format!("{}\n{HEAD}{}\n{END}", BEGIN[1], rows(anchors, false).join("\n")),
        format!("{}\n{}\n{END}", BEGIN[2], predictions(anchors)),
    ];
    let sections = [
        ("## Misses\n", true, format!("\n### Whole chain\n\n{}\n", tables[0])),
        ("## Fitted constants", false, format!("## Whole chain\n\n{INTRODUCTION}\n\n{}\n\n", tables[1])),
        (
            "## Which answers are safe",
            false,
            format!("## Whole-chain predictions to which nothing was fitted\n\n{}\n\n", tables[2]),
        ),
    ];
    let mut page = page.to_owned();
    for ((begin, table), (heading, after, section)) in BEGIN.iter().zip(&tables).zip(sections) {
        let place = page
            .find(begin)
            .and_then(|from| page[from..].find(END).map(|length| from..from + length + END.len()));
        if let Some(place) = place {
            page.replace_range(place, table);
        } else {
            let at = page.find(heading).map_or(page.len(), |at| if after { at + heading.len() } else { at });
            page.insert_str(at, &section);
        }
    }
    page
}

const INTRODUCTION: &str = "Gun, drop size, flight and film together, each figure beside a published value or common \
practice. An anchor that a constant was fitted to is used up by it and says so. The other kits fly with the HVLP kit's \
constants; nothing was fitted to them.";
