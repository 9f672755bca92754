//! A sweep as a short table for a terminal.

use super::answer::{Answer, Figure, Value};
use super::column::Column;

/// Characters of a column of figures.
const WIDE: usize = 12;

/// The points as a table of short figures, and what is impossible with its reason.
#[must_use]
pub fn words(answer: &Answer) -> String {
    let mut out = format!("{}\n", answer.name);
    for (letter, path) in ('a'..='z').zip(&answer.columns) {
        let unit = Column::find(path).map_or("", |c| c.unit);
        let meaning = Column::find(path).map_or(path.as_str(), |c| c.meaning);
        let unit = if unit.is_empty() { String::new() } else { format!(" [{unit}]") };
        out += &format!("  {letter}: {meaning}{unit}\n");
    }
    out += "\n";
    let first = |axis: usize| {
        let of_points = answer.points.iter().filter_map(|p| p.settings.get(axis)).map(|s| s.chars().count());
        of_points.chain([answer.axes[axis].key.len()]).max().unwrap_or(0) + 2
    };
    let widths: Vec<usize> = (0..answer.axes.len()).map(first).collect();
    for (axis, width) in answer.axes.iter().zip(&widths) {
        out += &format!("{:<width$}", axis.key);
    }
    for (letter, _) in ('a'..='z').zip(&answer.columns) {
        out += &format!("{letter:>WIDE$}");
    }
    for point in &answer.points {
        out += "\n";
        for (setting, width) in point.settings.iter().zip(&widths) {
            out += &format!("{setting:<width$}");
        }
        match &point.impossible {
            Some(impossible) => out += &format!("  impossible: {}: {}", impossible.key, impossible.why),
            None => {
                for figure in &point.figures {
                    out += &format!("{:>WIDE$}", said(figure));
                }
            }
        }
    }
    out
}

/// A figure to four digits.
fn said(figure: &Figure) -> String {
    match &figure.value {
        Some(Value::Number(number)) => {
            let (mut places, mut size) = (3usize, number.abs());
            while size >= 9.9995 && places > 0 {
                (size, places) = (size / 10.0, places - 1);
            }
            format!("{number:.places$}")
        }
        Some(Value::Word(word)) => word.clone(),
        Some(Value::Flag(flag)) => (if *flag { "yes" } else { "no" }).into(),
        None => "-".into(),
    }
}
