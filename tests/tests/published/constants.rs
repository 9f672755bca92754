//! The constants listed in the docs are those of the code.

use mistcoat::catalogue;
use mistcoat::constants::Constants;
use std::path::Path;

#[test]
fn docs_list_every_constant_with_its_value() {
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/methods");
    let read =
        |page: &str| std::fs::read_to_string(docs.join(page)).unwrap_or_else(|e| panic!("{page}: {e}"));
    let text = ["gun.md", "drop-size.md", "pattern.md"].map(read).concat();
    let rows: Vec<Vec<&str>> = text
        .lines()
        .filter(|l| l.starts_with("| `"))
        .map(|l| l.trim_matches('|').split('|').map(str::trim).collect::<Vec<_>>())
        // Kits stand in tables of their own.
        .filter(|row| catalogue::kit(row[0].trim_matches('`')).is_err())
        .collect();
    for (name, value) in Constants::STANDARD.named() {
        let quoted = format!("`{name}`");
        let found: Vec<_> = rows.iter().filter(|r| r[0] == quoted).collect();
        assert_eq!(found.len(), 1, "{name} stands {} times in the docs", found.len());
        let said: f64 = found[0][1].parse().unwrap_or_else(|e| panic!("{name}: {} {e}", found[0][1]));
        assert!((said - value).abs() <= 1e-12 * value.abs(), "{name}: docs {said}, code {value}");
        assert!(found[0].len() == 4 && found[0][3].len() > 10, "{name}: no reason given");
    }
    assert_eq!(
        rows.len(),
        Constants::STANDARD.named().len(),
        "the docs list a constant that the code has not"
    );
}
