//! Writes `docs/validation.md`: runs the tests that compare with what is published and gathers their rows, flies the anchors of
//! the whole chain, and turns each uncertain constant to its ends. Misses first.
//!
//! `cargo run --release -p mistcoat-tests --bin validation`

use mistcoat_tests::validation_page::Gathered;
use mistcoat_tests::{anchors, sensitivity};
use std::path::Path;
use std::process::{Command, ExitCode, Stdio};

/// What the tests print; they must pass.
fn printed() -> Result<String, String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let arguments =
        "test -p mistcoat-tests --test published --test statistics -- --nocapture --test-threads 1";
    let output = Command::new(cargo)
        .args(arguments.split_whitespace())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|e| format!("cargo could not be run: {e}"))?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    if output.status.success() {
        return Ok(text);
    }
    let failed: Vec<&str> = text.lines().filter(|line| line.contains("FAILED")).collect();
    Err(format!("the tests failed, so that nothing was written\n{}", failed.join("\n")))
}

fn write() -> Result<(), String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/validation.md");
    let page = std::fs::read_to_string(&path).map_err(|e| format!("docs/validation.md: {e}"))?;
    let gathered = Gathered::read(&printed()?);
    let page = gathered.write_into(&page, &sensitivity::table())?;
    let page = anchors::write_into(&page, &anchors::all());
    std::fs::write(&path, page).map_err(|e| format!("docs/validation.md: {e}"))
}

fn main() -> ExitCode {
    match write() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}
