//! Flies the anchors of the whole chain and writes their table into `docs/validation.md`, misses first.
//!
//! `cargo run --release -p mistcoat-tests --bin validation`

use mistcoat_tests::anchors;
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/validation.md");
    let page = match std::fs::read_to_string(&path) {
        Ok(page) => page,
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => "# Validation\n".into(),
        Err(e) => {
            eprintln!("docs/validation.md: {e}");
            return ExitCode::FAILURE;
        }
    };
    let all = anchors::all();
    for misses in [true, false] {
        anchors::rows(&all, misses).iter().for_each(|row| println!("{row}"));
    }
    match std::fs::write(&path, anchors::write_into(&page, &all)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("docs/validation.md: {e}");
            ExitCode::FAILURE
        }
    }
}
