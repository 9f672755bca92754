//! Draws the pictures of the docs: `cargo run --release -q -p mistcoat --example draw_figures [-- DIR]`.
//!
//! Without `DIR` they go to `docs/figures`. Nothing in them is typed: geometry, droplets and figures come from the job files
//! in `core/examples/jobs`. A test draws them anew and compares.

mod figures;

use std::path::Path;
use std::process::ExitCode;

fn draw(folder: &Path) -> Result<(), String> {
    let failed = |path: &Path, error: std::io::Error| format!("{}: {error}", path.display());
    std::fs::create_dir_all(folder).map_err(|error| failed(folder, error))?;
    for (name, svg) in figures::all()? {
        let path = folder.join(name);
        std::fs::write(&path, svg).map_err(|error| failed(&path, error))?;
    }
    Ok(())
}

fn main() -> ExitCode {
    let docs = concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/figures");
    let folder = std::env::args().nth(1).unwrap_or_else(|| docs.into());
    match draw(Path::new(&folder)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}
