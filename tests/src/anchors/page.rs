//! The anchors as a table of `docs/validation.md`, misses first.

use super::{Anchor, Band, Standing};

/// Line before the table.
pub const BEGIN: &str =
    "<!-- anchors: begin, written by `cargo run --release -p mistcoat-tests --bin validation` -->";
/// Line after it.
pub const END: &str = "<!-- anchors: end -->";

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

/// Rows of the table, misses first, then what holds, then what is only told.
#[must_use]
pub fn rows(anchors: &[Anchor]) -> Vec<String> {
    let rank = |a: &Anchor| match a.passes() {
        Some(false) => 0,
        Some(true) if a.standing == Standing::Predicted => 1,
        Some(true) => 2,
        None => 3,
    };
    let mut sorted: Vec<&Anchor> = anchors.iter().collect();
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

/// The page with its table written anew; where it has none yet, a section with one is added at its end.
#[must_use]
pub fn write_into(page: &str, anchors: &[Anchor]) -> String {
    let (mut missed, mut asked) = (0, 0);
    for passes in anchors.iter().filter_map(Anchor::passes) {
        asked += 1;
        missed += usize::from(!passes);
    }
    let table = format!(
        "{BEGIN}\n{missed} of {asked} are missed.\n\n\
         | anchor | model | standard error | published | verdict | source |\n|---|---|---|---|---|---|\n{}\n{END}",
        rows(anchors).join("\n")
    );
    match (page.find(BEGIN), page.find(END)) {
        (Some(from), Some(to)) if from < to => {
            format!("{}{table}{}", &page[..from], &page[to + END.len()..])
        }
        _ => format!(
            "{}\n\n## Anchors of the whole chain\n\n\
             Gun, drop size, flight and film together, each beside a published value or common practice. Nothing is \
             tuned to pass: an anchor that a constant was fitted to is used up by it and says so; a miss stays listed \
             with its figure until the model meets it.\n\n{table}\n",
            page.trim_end()
        ),
    }
}
