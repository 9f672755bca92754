//! Job files: good ones, bad ones, edits and links.

mod api;
mod bad;
mod command;
mod compare_kits;
mod edit;
mod figures;
mod fuzzed;
mod good;
mod keys;
mod layout;
mod link;
mod matching;
mod sheet;
mod stroke;
mod supply;
mod sweep_job;
mod units;

use std::path::PathBuf;

/// The smallest job with passes over a panel.
const SMALL: &str = "version = 1
[gun]
kit = \"hvlp-gravity-1.3\"
[paint]
kind = \"two-pack-clear\"
[part]
panel = { width = \"600 mm\", height = \"400 mm\" }
[stroke]
distance = \"180 mm\"
speed = \"450 mm/s\"
";

/// A path inside the repository.
fn repository(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..").join(path)
}

/// The text of a file of the repository.
fn text_of(path: &str) -> String {
    std::fs::read_to_string(repository(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}
