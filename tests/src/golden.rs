//! Digests of the example jobs, kept in `data/golden/`: they change only with a reason.

use crate::scenes::example;
use mistcoat::run::Run;
use std::path::PathBuf;

/// The jobs that have a digest on record.
pub const JOBS: [&str; 3] = ["table-top", "chair-leg-near-round", "chair-leg-wide-fan"];

/// How to write the digests anew.
pub const REMINT: &str = "cargo run --release -p mistcoat-tests --bin golden -- \"REASON\"";

/// Where a job's digest is on record.
#[must_use]
pub fn path(job: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("data/golden/{job}.txt"))
}

/// Flies a job of the examples and gives its digest.
#[must_use]
pub fn digest(job: &str) -> u64 {
    let mut run = Run::new(example(job)).unwrap_or_else(|e| panic!("{job}: {e}"));
    run.finish();
    run.digest().unwrap_or_else(|e| panic!("{job}: {e}"))
}

/// The text of a record.
#[must_use]
pub fn record(job: &str, digest: u64, reason: &str) -> String {
    format!(
        "# digest of core/examples/jobs/{job}.toml; written by {REMINT}\n# reason: {reason}\n{digest:016x}\n"
    )
}

/// The digest of a record's text.
///
/// # Errors
/// What is wrong with the record.
pub fn read(text: &str) -> Result<u64, String> {
    let reason = text.lines().find_map(|l| l.strip_prefix("# reason:")).map_or("", str::trim);
    if reason.len() < 10 {
        return Err("no reason is given".into());
    }
    let line = text.lines().find(|l| !l.starts_with('#')).unwrap_or("");
    u64::from_str_radix(line.trim(), 16).map_err(|e| format!("\"{line}\": {e}"))
}
