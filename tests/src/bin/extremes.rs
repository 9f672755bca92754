//! Writes `docs/methods/extremes.md`: jobs at the ends of what a job file may say.

use mistcoat_tests::extremes::{EXTREMES, page};
use std::path::Path;

fn main() {
    let all: Vec<_> = EXTREMES.iter().map(|extreme| (extreme, extreme.came())).collect();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/methods/extremes.md");
    if let Err(error) = std::fs::write(&path, page(&all)) {
        eprintln!("{}: {error}", path.display());
        std::process::exit(1);
    }
}
