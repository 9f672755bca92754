//! The stages, in the order they run.

use mistcoat_tests::chromium;

use crate::cargo::{Failure, cargo, cargo_noted, cargo_with, ensure_target, program};

/// One stage.
pub struct Stage {
    /// Its name, for `--only`.
    pub name: &'static str,
    /// What it checks.
    pub what: &'static str,
    /// Runs it.
    pub run: fn() -> Result<(), Failure>,
}

const WASM: &str = "wasm32-unknown-unknown";

/// All of the workspace with one set of features, so that nothing is compiled twice.
const ALL: &str = "--workspace --features mistcoat-tests/browser";

/// Every stage.
pub const STAGES: &[Stage] = &[
    Stage { name: "format", what: "the sources are formatted", run: || cargo("fmt --all --check") },
    Stage { name: "clippy", what: "no lint speaks, native", run: clippy },
    Stage { name: "clippy-wasm", what: "no lint speaks, in the page's code", run: clippy_wasm },
    Stage { name: "docs", what: "the documentation builds without a warning", run: docs },
    Stage { name: "doc-tests", what: "the examples of the documentation run", run: doc_tests },
    Stage { name: "tests", what: "every test that needs no browser", run: tests },
    Stage { name: "bare", what: "the library without threads and charts", run: bare },
    Stage { name: "page", what: "the page builds, as a folder and as one file", run: page },
    Stage { name: "browser", what: "the page works in a browser", run: browser },
    Stage { name: "benches", what: "every benchmark runs once", run: benches },
];

fn clippy() -> Result<(), Failure> {
    cargo(&format!("clippy {ALL} --all-targets -- -D warnings"))?;
    // The browser's tests are no part of "all targets", since a plain `cargo test` leaves them out.
    cargo(&format!("clippy {ALL} --test browser -- -D warnings"))
}

fn clippy_wasm() -> Result<(), Failure> {
    ensure_target(WASM)?;
    cargo_with(
        &format!("clippy -p mistcoat-demo --target {WASM} -- -D warnings"),
        &[("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", "-C target-feature=+simd128")],
    )
}

/// Units in brackets, as every field's documentation has them, look like links to rustdoc.
const UNITS: [&str; 24] = [
    "A", "C", "J", "K", "N", "Pa", "W", "bar", "deg", "degrees", "g", "kg", "m", "m2", "m3", "mL", "mm",
    "ms", "px", "rad", "s", "turns", "u", "um",
];

/// Warnings are errors, but a link that leads nowhere stays a warning, so that units can be told from it here.
fn docs() -> Result<(), Failure> {
    let mut broken = Vec::new();
    let mut in_unit = false;
    cargo_noted(
        &format!("doc {ALL} --no-deps --color never"),
        &[("RUSTDOCFLAGS", "-D warnings --force-warn rustdoc::broken_intra_doc_links")],
        |line| {
            let target = line.split_once("unresolved link to `").and_then(|(_, rest)| rest.split('`').next());
            if let Some(target) = target {
                in_unit = UNITS.contains(&target);
                if !in_unit {
                    broken.push(target.to_owned());
                }
            }
            let show = !in_unit;
            in_unit &= !line.is_empty();
            show
        },
    )?;
    if broken.is_empty() {
        Ok(())
    } else {
        Err(Failure::new(format!("links of the documentation that lead nowhere: {}", broken.join(", "))))
    }
}

fn doc_tests() -> Result<(), Failure> {
    cargo(&format!("test {ALL} --doc"))
}

fn tests() -> Result<(), Failure> {
    cargo(&format!("test {ALL} --lib --bins --tests --examples"))
}

fn bare() -> Result<(), Failure> {
    cargo("test -p mistcoat --no-default-features --lib --tests")
}

fn page() -> Result<(), Failure> {
    // Built with all the others and run from there: `cargo run` takes no whole workspace and would compile anew.
    cargo(&format!("build {ALL} --bin mistcoat-demo"))?;
    program("mistcoat-demo", "--build-only target/page/site")?;
    program("mistcoat-demo", "--single-file target/page/mistcoat.html")
}

fn browser() -> Result<(), Failure> {
    if chromium::find().is_none() {
        return Err(Failure::new(format!(
            "No Chromium on this machine, so the page was not tried in a browser. Install it: {} (or set CHROME to the \
             program of yours)",
            chromium::INSTALL
        )));
    }
    cargo(&format!("test {ALL} --test browser"))
}

fn benches() -> Result<(), Failure> {
    cargo("test -p mistcoat-benches --benches")
}
