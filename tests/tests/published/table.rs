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
