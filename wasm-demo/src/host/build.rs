//! Compiles the page to wasm and lays its files into a folder.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use super::{group, target};

/// Name of the generated script and wasm.
pub const NAME: &str = "mistcoat_page";

/// How the generated script is loaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Script {
    /// As a module, from a server.
    Module,
    /// As a plain script, which also runs in a page opened from disk.
    Plain,
}

/// The folder of the workspace.
#[must_use]
pub fn workspace() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// The page's own files, before the build.
#[must_use]
pub fn static_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("static")
}

/// The page's target folder; its own, so that the build never waits for another's lock.
#[must_use]
pub fn target_folder() -> PathBuf {
    workspace().join("target").join("page")
}

/// Where `cargo page` and the browser tests keep the built page.
#[must_use]
pub fn default_folder() -> PathBuf {
    target_folder().join("site")
}

/// Builds the page into `folder`: html, css, js and wasm, nothing else.
///
/// # Errors
/// When the target cannot be added, the page does not compile, or a file cannot be written.
pub fn into_folder(folder: &Path) -> Result<()> {
    let wasm = compile()?;
    fs::create_dir_all(folder).with_context(|| format!("{}: cannot be made", folder.display()))?;
    copy_files(&static_folder(), folder)?;
    bind(&wasm, folder, Script::Module)
}

/// Compiles the page; the path of the raw wasm.
///
/// # Errors
/// When the target cannot be added or the page does not compile.
pub fn compile() -> Result<PathBuf> {
    target::ensure()?;
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    for (name, _) in std::env::vars_os().filter(|(name, _)| is_in_the_way(name)) {
        command.env_remove(name);
    }
    // An empty wrapper also overrides one set in a configuration file; so do the flags.
    command.env("RUSTC_WRAPPER", "").env("RUSTC_WORKSPACE_WRAPPER", "");
    command.env("CARGO_ENCODED_RUSTFLAGS", flags());
    let status = command
        .current_dir(workspace())
        .args([
            "build",
            "-p",
            "mistcoat-demo",
            "--lib",
            "--profile",
            "release-wasm",
            "--target",
            target::WASM,
        ])
        .arg("--target-dir")
        .arg(target_folder())
        .status()
        .context("cargo could not be run")?;
    if !status.success() {
        bail!("the page did not compile (cargo: {status})");
    }
    Ok(compiled())
}

/// The raw wasm, once it is compiled.
#[must_use]
pub fn compiled() -> PathBuf {
    target_folder().join(target::WASM).join("release-wasm").join(NAME).with_extension("wasm")
}

/// Flags of the page's compiler, as cargo wants them: parted by a character that no path holds.
fn flags() -> OsString {
    // Components with their types erased: the page compiles faster and is smaller (a switch of leptos).
    let mut flags = OsString::from("-Ctarget-feature=+simd128\u{1f}--cfg\u{1f}erase_components");
    // What the page says when it fails names source files: not where they lie on the builder's machine. The last that fits is taken.
    let places = [
        (std::env::home_dir(), "home"),
        (std::env::var_os("CARGO_HOME").map(PathBuf::from), "cargo"),
        (Some(workspace()), "mistcoat"),
    ];
    for (place, name) in places {
        if let Some(place) = place.filter(|place| place.parent().is_some()) {
            flags.push("\u{1f}--remap-path-prefix=");
            flags.push(place);
            flags.push(format!("={name}"));
        }
    }
    flags
}

/// Settings of the calling build that would leak into the page's.
fn is_in_the_way(name: &OsString) -> bool {
    let name = name.to_string_lossy();
    ["CARGO_BUILD_", "CARGO_PROFILE_", "CARGO_TARGET_"].iter().any(|start| name.starts_with(start))
        || matches!(
            name.as_ref(),
            "RUSTFLAGS" | "CARGO_ENCODED_RUSTFLAGS" | "RUSTC" | "RUSTC_WRAPPER" | "RUSTC_WORKSPACE_WRAPPER"
        )
}

/// Writes the script that joins browser and wasm, and the wasm ready for it, into `folder`.
///
/// # Errors
/// When the wasm was made by another version of wasm-bindgen, or a file cannot be written.
pub fn bind(wasm: &Path, folder: &Path, script: Script) -> Result<()> {
    let mut bindgen = Bindgen::new();
    match script {
        Script::Module => bindgen.web(true)?,
        Script::Plain => bindgen.no_modules(true)?,
    };
    bindgen
        .input_path(wasm)
        .typescript(false)
        .omit_default_module_path(false)
        .remove_producers_section(true)
        .generate(folder)
        .with_context(|| format!("{}: wasm-bindgen failed", wasm.display()))?;
    let path = folder.join(format!("{NAME}_bg.wasm"));
    let named = fs::read(&path).with_context(|| format!("{}: cannot be read", path.display()))?;
    let grouped = group::by_name(&named).with_context(|| path.display().to_string())?;
    fs::write(&path, grouped).with_context(|| format!("{}: cannot be written", path.display()))
}

fn copy_files(from: &Path, to: &Path) -> Result<()> {
    for entry in fs::read_dir(from).with_context(|| format!("{}: cannot be read", from.display()))? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            fs::create_dir_all(&target)?;
            copy_files(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), &target)
                .with_context(|| format!("{}: cannot be written", target.display()))?;
        }
    }
    Ok(())
}
