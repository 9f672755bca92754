//! Reads a table of published values.

use std::path::Path;

/// Rows of `data/published/<name>` as trimmed text; lines that open with # are its source.
pub fn rows(name: &str) -> Vec<Vec<String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/published").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    assert!(text.starts_with('#'), "{name}: no source line");
    let lines = text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty());
    let rows: Vec<Vec<_>> = lines.map(|l| l.split(',').map(|c| c.trim().to_owned()).collect()).collect();
    assert!(!rows.is_empty(), "{name}: empty");
    rows
}

/// A cell as a number.
pub fn number(cell: &str) -> f64 {
    cell.parse().unwrap_or_else(|e| panic!("{cell}: {e}"))
}

/// Rows of numbers alone.
pub fn numbers(name: &str) -> Vec<Vec<f64>> {
    rows(name).iter().map(|row| row.iter().map(|c| number(c)).collect()).collect()
}

/// Asserts a relative difference and says what was compared.
#[track_caller]
pub fn close(what: &str, model: f64, published: f64, tolerance: f64) {
    let off = model / published - 1.0;
    assert!(off.abs() <= tolerance, "{what}: model {model}, published {published}, off {off:.2e}");
}

/// Prints a row of `docs/validation.md`: `cargo test -p mistcoat-tests --test published -- --nocapture --test-threads 1`.
pub fn tell(check: &str, model: f64, published: f64, source: &str) {
    println!(
        "| {check} | {model:.4} | {published:.4} | {:+.2} % | {source} |",
        1e2 * (model / published - 1.0)
    );
}

/// Asserts that a miss is still the one that is on record, and prints it: a miss that shrinks or grows must be told anew.
#[track_caller]
pub fn known_miss(what: &str, model: f64, published: f64, off: f64, by: f64, source: &str) {
    tell(&format!("MISS {what}"), model, published, source);
    let now = model / published - 1.0;
    assert!(
        (now - off).abs() <= by,
        "{what}: off {now:+.4}, on record {off:+.4}: bring docs/validation.md up to date"
    );
}
