//! The stages, in the order they run.

use mistcoat_tests::chromium;

use crate::cargo::{Failure, cargo, cargo_with, ensure_target};

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

fn docs() -> Result<(), Failure> {
    cargo_with(&format!("doc {ALL} --no-deps"), &[("RUSTDOCFLAGS", "-D warnings")])
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
    cargo(&format!("run {ALL} --bin mistcoat-demo -- --build-only target/page/site"))?;
    cargo(&format!("run {ALL} --bin mistcoat-demo -- --single-file target/page/mistcoat.html"))
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
