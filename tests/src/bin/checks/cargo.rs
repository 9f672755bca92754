//! Runs cargo and other programs of a stage, with their output on this terminal.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Why a stage failed.
pub struct Failure {
    /// In words.
    pub why: String,
    /// Exit code of the checks.
    pub code: u8,
}

impl Failure {
    /// A failure with the usual exit code.
    pub fn new(why: impl Into<String>) -> Self {
        Self { why: why.into(), code: 1 }
    }
}

/// The folder of the workspace.
pub fn workspace() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// Runs `cargo` with these arguments, separated by spaces.
pub fn cargo(arguments: &str) -> Result<(), Failure> {
    cargo_with(arguments, &[])
}

/// Runs `cargo` with these arguments and variables.
pub fn cargo_with(arguments: &str, variables: &[(&str, &str)]) -> Result<(), Failure> {
    let program = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(program);
    // What the outer cargo tells its own program would make the inner one build scripts again.
    for (name, _) in std::env::vars_os() {
        let text = name.to_string_lossy();
        if text.starts_with("CARGO_PKG_") || text.starts_with("CARGO_MANIFEST_") {
            command.env_remove(&name);
        }
    }
    command.args(arguments.split_whitespace()).envs(variables.iter().copied());
    run(command, &format!("cargo {arguments}"))
}

fn run(mut command: Command, shown: &str) -> Result<(), Failure> {
    println!("$ {shown}");
    match command.current_dir(workspace()).stdin(Stdio::null()).status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => {
            let code = status.code().and_then(|code| u8::try_from(code).ok()).unwrap_or(1).max(1);
            Err(Failure { why: format!("{shown}: {status}"), code })
        }
        Err(error) => Err(Failure::new(format!("{shown}: could not be run ({error})"))),
    }
}

/// Adds the target of the page if the compiler has not got it.
pub fn ensure_target(target: &str) -> Result<(), Failure> {
    let found = Command::new("rustc").args(["--print", "target-libdir", "--target", target]).output();
    if let Ok(output) = found
        && Path::new(String::from_utf8_lossy(&output.stdout).trim()).is_dir()
    {
        return Ok(());
    }
    let mut command = Command::new("rustup");
    command.args(["target", "add", target]);
    run(command, &format!("rustup target add {target}"))
}
