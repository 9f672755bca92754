//! Job files: good ones, bad ones, edits and links.

mod bad;
mod command;
mod compare_kits;
mod edit;
mod figures;
mod good;
mod keys;
mod layout;
mod link;
mod matching;
mod sheet;
mod supply;
mod units;

use std::path::PathBuf;

/// A path inside the repository.
fn repository(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..").join(path)
}

/// The text of a file of the repository.
fn text_of(path: &str) -> String {
    std::fs::read_to_string(repository(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}
