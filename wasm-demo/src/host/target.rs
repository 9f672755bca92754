//! The compiler's standard library for the browser: looked for, and added when it is missing.

use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result, bail};

/// The target of the page.
pub const WASM: &str = "wasm32-unknown-unknown";

/// Makes sure that the compiler can build for [`WASM`]; adds the target with rustup if not.
pub fn ensure() -> Result<()> {
    if present()? {
        return Ok(());
    }
    eprintln!("The compiler has no {WASM} target yet; adding it: rustup target add {WASM}");
    let by_hand = format!(
        "add it yourself (`rustup target add {WASM}`, or your system's package for it), then try again"
    );
    match Command::new("rustup").args(["target", "add", WASM]).status() {
        Ok(status) if status.success() && present()? => Ok(()),
        Ok(status) => bail!("rustup could not add the target ({status}); {by_hand}"),
        Err(error) => bail!("rustup could not be run ({error}); {by_hand}"),
    }
}

fn present() -> Result<bool> {
    let output = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", WASM])
        .output()
        .context("rustc could not be run")?;
    let folder = String::from_utf8_lossy(&output.stdout);
    Ok(output.status.success() && Path::new(folder.trim()).is_dir())
}
