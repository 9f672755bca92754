//! Matches a gun to its card.
//!
//! `cargo run --release -q -p mistcoat --example match_gun -- JOB.toml [--card CARD.toml] [--fan-height "188 mm" ...] [--json] [--out FILE]`
//!
//! The readings stand in the job's `[card]`, in a file of their own with that table, or behind options named as its keys
//! (`--fan-height`, `--weighed`, `--uncertainty.film`, `--kept-back`); later ones win. Prints what the card tells in words, or with `--json`
//! the whole answer; `--out` writes the job with the matched gun in it. On bad input the message goes to standard error, nothing
//! to standard output, and the exit code is 2.

mod common;

use common::text_of;
use mistcoat::fit::{Matching, words};
use mistcoat::job::{Job, with_key};
use mistcoat::units::System;
use std::process::ExitCode;

const USAGE: &str =
    "usage: match_gun JOB.toml [--card CARD.toml] [--fan-height \"188 mm\" ...] [--json] [--out FILE]";

struct Options {
    text: String,
    json: bool,
    out: Option<String>,
}

fn options(mut words: impl Iterator<Item = String>) -> Result<Options, String> {
    let job = words.next().filter(|word| !word.starts_with('-')).ok_or(USAGE)?;
    let mut options = Options { text: text_of(&job)?, json: false, out: None };
    while let Some(word) = words.next() {
        let Some(name) = word.strip_prefix("--") else {
            return Err(format!("{word}: one job file at a time\n{USAGE}"));
        };
        if name == "json" {
            options.json = true;
            continue;
        }
        let value = words.next().ok_or_else(|| format!("{word}: its value is missing\n{USAGE}"))?;
        match name {
            "out" => options.out = Some(value),
            "card" => {
                let table: toml::Table =
                    text_of(&value)?.parse().map_err(|error| format!("{value}: {error}"))?;
                lay_over(&mut options.text, "", &table)?;
            }
            _ => set(&mut options.text, &format!("card.{}", name.replace('-', "_")), &value)?,
        }
    }
    Ok(options)
}

fn set(text: &mut String, key: &str, value: &str) -> Result<(), String> {
    *text = with_key(text, key, value).map_err(|error| error.to_string())?;
    Ok(())
}

/// Sets every key of a table in the job's text.
fn lay_over(text: &mut String, prefix: &str, table: &toml::Table) -> Result<(), String> {
    for (name, value) in table {
        let key = if prefix.is_empty() { name.clone() } else { format!("{prefix}.{name}") };
        match value {
            toml::Value::Table(inner) => lay_over(text, &key, inner)?,
            toml::Value::String(word) => set(text, &key, word)?,
            other => set(text, &key, &other.to_string())?,
        }
    }
    Ok(())
}

fn run(options: &Options) -> Result<String, String> {
    let job = Job::from_toml(&options.text).map_err(|e| e.to_string())?;
    let mut matching = Matching::new(job).map_err(|e| e.to_string())?;
    matching.finish();
    let gun = match matching.matched() {
        Some(Ok(gun)) => gun,
        Some(Err(error)) => return Err(error.to_string()),
        None => return Err("the fit has not ended".into()),
    };
    if let Some(path) = &options.out {
        let text = gun.written_into(&options.text).map_err(|e| e.to_string())?;
        std::fs::write(path, text).map_err(|error| format!("{path}: {error}"))?;
    }
    let said = || words(gun, System::Metric).iter().map(ToString::to_string).collect::<Vec<_>>();
    Ok(if options.json { gun.to_json() } else { said().join("\n") })
}

fn main() -> ExitCode {
    common::end(options(std::env::args().skip(1)).and_then(|options| run(&options)))
}
