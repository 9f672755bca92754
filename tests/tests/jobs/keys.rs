//! The list of keys: consistent in itself, and the docs list every key with its range and default.

use mistcoat::job::{Job, KEYS, Key, Kind};
use mistcoat::units::Quantity;

#[test]
fn every_key_once_with_its_range() {
    for (i, key) in KEYS.iter().enumerate() {
        assert!(KEYS[..i].iter().all(|k| k.path != key.path), "{} twice", key.path);
        assert_eq!(Key::find(key.path), Some(key));
        let ranged = matches!(
            key.kind,
            Kind::Quantity(_) | Kind::Band(_) | Kind::Share | Kind::Shares | Kind::Number | Kind::Count
        );
        assert_eq!(key.limits().is_some(), ranged, "{}", key.path);
        if let Some((low, high)) = key.limits() {
            assert!(low <= high, "{}", key.path);
        }
        assert!(
            !key.allowed().is_empty() && !key.default.is_empty() && !key.meaning.is_empty(),
            "{}",
            key.path
        );
    }
}

/// Says the rows that the docs lack, ready to paste.
#[test]
fn docs_list_every_key() {
    let docs = crate::text_of("docs/job-file.md");
    let wanted = (KEYS.iter().map(docs_row))
        .chain(KEYS.iter().filter_map(ids_row))
        .chain(Quantity::ALL.into_iter().map(units_row));
    let lacking: Vec<String> = wanted.filter(|row| !docs.lines().any(|line| line == row)).collect();
    assert!(lacking.is_empty(), "docs/job-file.md lacks these rows:\n{}", lacking.join("\n"));
}

/// The examples in the docs are good jobs.
#[test]
fn examples_in_the_docs_are_good() {
    let docs = crate::text_of("docs/job-file.md");
    let examples: Vec<_> = docs.split("```toml\n").skip(1).filter_map(|t| t.split("```").next()).collect();
    assert!(!examples.is_empty());
    for text in examples {
        if let Err(error) = Job::from_toml(text) {
            panic!("{error}\n{text}");
        }
    }
}

/// Key, kind, range, default, meaning.
fn docs_row(key: &Key) -> String {
    let (kind, range) = (key.kind.name(), key.range_text());
    format!("| `{}` | {kind} | {range} | {} | {} |", key.path, key.default, key.meaning)
}

/// Kind and its units.
fn units_row(quantity: Quantity) -> String {
    let name = quantity.name().split_once(' ').unwrap().1;
    format!("| {name} | {} |", quantity.unit_names().join(", "))
}

/// Ids that a key may name; `None` for a key of another kind.
fn ids_row(key: &Key) -> Option<String> {
    let ids = match key.kind {
        Kind::KitId | Kind::PaintId | Kind::CupId | Kind::CompressorId => {
            key.allowed().split_once(": ")?.1.to_string()
        }
        Kind::Solvents => key.allowed().split_once("names: ")?.1.to_string(),
        _ => return None,
    };
    Some(format!("| `{}` | ids: {ids} |", key.path))
}

/// The refused file whose message the docs show.
fn message() -> String {
    let text = crate::text_of("core/examples/jobs/table-top.toml").replace("\"350 mm/s\"", "\"350 mm\"");
    Job::from_toml(&text).unwrap_err().to_string()
}

#[test]
fn docs_show_the_message_as_it_is() {
    let docs = crate::text_of("docs/job-file.md");
    let message = message();
    assert!(docs.contains(&message), "docs/job-file.md lacks\n{message}");
}
