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
    Stage {
        name: "instructions",
        what: "a droplet's step costs the instructions it should",
        run: instructions,
    },
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

/// Warnings are errors, but a link that leads nowhere stays a warning: units in brackets, as every field's documentation
/// has them, look like links to rustdoc. A link that is meant stands in backticks or names its target after the bracket.
fn docs() -> Result<(), Failure> {
    let mut broken = Vec::new();
    let mut warning = String::new();
    cargo_noted(
        &format!("doc {ALL} --no-deps --color never"),
        &[("RUSTDOCFLAGS", "-D warnings --force-warn rustdoc::broken_intra_doc_links")],
        |line| {
            if warning.is_empty() && !line.contains("unresolved link to `") {
                return true;
            }
            warning.push_str(line);
            warning.push('\n');
            if line.is_empty() {
                if is_meant_as_link(&warning) {
                    eprint!("{warning}");
                    broken.push(warning.lines().next().unwrap_or_default().to_owned());
                }
                warning.clear();
            }
            false
        },
    )?;
    if broken.is_empty() { Ok(()) } else { Err(Failure::new(broken.join("\n"))) }
}

fn is_meant_as_link(warning: &str) -> bool {
    let target = warning.split_once("unresolved link to `").and_then(|(_, rest)| rest.split('`').next());
    target.is_some_and(|target| {
        [format!("[`{target}"), format!("]({target}"), format!("]: {target}")]
            .iter()
            .any(|link| warning.contains(link))
    })
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

fn instructions() -> Result<(), Failure> {
    cargo("run --release -p mistcoat-benches --no-default-features --bin guard")
}

#[cfg(test)]
mod tests {
    use super::is_meant_as_link;

    #[test]
    fn a_unit_is_told_from_a_link() {
        let warning = |target, line| {
            format!("warning: unresolved link to `{target}`\n --> a.rs:1:1\n1 | /// {line}\n\n")
        };
        assert!(!is_meant_as_link(&warning("m2", "Area [m2].")));
        assert!(!is_meant_as_link(&warning("turns", "By `knob` [turns].")));
        assert!(is_meant_as_link(&warning("Film", "See [`Film`].")));
        assert!(is_meant_as_link(&warning("Film::new", "See [`Film::new`].")));
        assert!(is_meant_as_link(&warning("film::paint", "See [paint](film::paint).")));
    }
}
