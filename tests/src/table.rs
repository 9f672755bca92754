//! Tables of published values, and the rows of `docs/validation.md` that tests print beside them.

use std::panic::Location;
use std::path::Path;

/// Rows of `data/published/<name>` as trimmed text; lines that open with # are its source.
#[must_use]
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
#[must_use]
pub fn number(cell: &str) -> f64 {
    cell.parse().unwrap_or_else(|e| panic!("{cell}: {e}"))
}

/// Rows of numbers alone.
#[must_use]
pub fn numbers(name: &str) -> Vec<Vec<f64>> {
    rows(name).iter().map(|row| row.iter().map(|c| number(c)).collect()).collect()
}

/// Asserts a relative difference and says what was compared.
#[track_caller]
pub fn close(what: &str, model: f64, published: f64, tolerance: f64) {
    let off = model / published - 1.0;
    // One of many: `validation` counts them and tells the largest.
    println!("\n~ {} ~ {off:e} ~ {tolerance:e}", caller());
    assert!(off.abs() <= tolerance, "{what}: model {model}, published {published}, off {off:.2e}");
}

/// A figure with as many digits as tell it: four behind the point, or four in all where it is small or large.
fn figure(x: f64) -> String {
    match x.abs() {
        0.0 => "0".into(),
        size if !(1e-2..1e4).contains(&size) => format!("{x:.3e}"),
        _ => format!("{x:.4}"),
    }
}

/// File of the test that compares.
#[track_caller]
fn caller() -> &'static str {
    let path = Location::caller().file();
    path.rsplit(['/', '\\']).next().unwrap_or(path)
}

/// A bound as it was typed: no more digits than it has.
fn bound(x: f64) -> String {
    let text = format!("{x:.6}");
    if x.abs() < 1e-3 { format!("{x:.0e}") } else { text.trim_end_matches('0').trim_end_matches('.').into() }
}

/// Prints a row of `docs/validation.md`; `validation` gathers them. Columns: check, model, published, off, asked, source, where.
#[track_caller]
fn print(check: &str, model: f64, published: &str, off: &str, asked: &str, source: &str) {
    println!("\n| {check} | {} | {published} | {off} | {asked} | {source} | `{}` |", figure(model), caller());
}

/// The same where both are numbers that one takes a ratio of.
#[track_caller]
fn row(check: &str, model: f64, published: f64, asked: &str, source: &str) {
    let off = format!("{:+.2} %", 1e2 * (model / published - 1.0));
    print(check, model, &figure(published), &off, asked, source);
}

/// Tells a figure beside a published one, nothing asked.
#[track_caller]
pub fn tell(check: &str, model: f64, published: f64, source: &str) {
    row(check, model, published, "told", source);
}

/// Tells a figure beside a published one and asserts that they agree within a share of it.
#[track_caller]
pub fn held(check: &str, model: f64, published: f64, tolerance: f64, source: &str) {
    row(check, model, published, &format!("within {} %", bound(1e2 * tolerance)), source);
    let off = model / published - 1.0;
    assert!(off.abs() <= tolerance, "{check}: model {model}, published {published}, off {off:.2e}");
}

/// Tells a figure beside a published one and asserts that it lies `off` from it, at most, in its own unit.
#[track_caller]
pub fn near(check: &str, model: f64, published: f64, off: f64, source: &str) {
    let apart = model - published;
    print(
        check,
        model,
        &figure(published),
        &format!("{apart:+.4}"),
        &format!("within {}", bound(off)),
        source,
    );
    assert!(apart.abs() <= off, "{check}: model {model}, published {published}, asked within {off}");
}

/// Tells a figure that must stay below another.
#[track_caller]
pub fn below(check: &str, model: f64, most: f64, source: &str) {
    print(check, model, "-", "-", &format!("below {}", bound(most)), source);
    assert!(model < most, "{check}: {model}, asked below {most}");
}

/// Tells a miss that is held to its record elsewhere, by how far it lies off in its own unit.
#[track_caller]
pub fn missed(check: &str, model: f64, published: f64, source: &str) {
    print(check, model, &figure(published), &format!("{:+.2}", model - published), MISS, source);
}

/// Tells a figure that must lie between two published ones.
#[track_caller]
pub fn between(check: &str, model: f64, [low, high]: [f64; 2], source: &str) {
    print(check, model, &format!("{} to {}", bound(low), bound(high)), "-", "inside", source);
    assert!((low..=high).contains(&model), "{check}: model {model}, published {low} to {high}");
}

/// Asserts that a miss is still the one that is on record, and prints it: a miss that shrinks or grows must be told anew.
#[track_caller]
pub fn known_miss(what: &str, model: f64, published: f64, off: f64, by: f64, source: &str) {
    row(what, model, published, MISS, source);
    let now = model / published - 1.0;
    assert!(
        (now - off).abs() <= by,
        "{what}: off {now:+.4}, on record {off:+.4}: bring docs/validation.md up to date"
    );
}

/// Column "asked" of a miss that is on record.
pub const MISS: &str = "MISS, on record";
