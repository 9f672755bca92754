//! Runs cargo and other programs of a stage, with their output on this terminal.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus, Stdio};

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
    run(prepare(arguments, variables), &format!("cargo {arguments}"))
}

/// Runs `cargo` like [`cargo_with`] and prints those lines of its messages for which `show` is true. Warnings come
/// again each time: cargo keeps those of what it need not compile anew.
pub fn cargo_noted(
    arguments: &str,
    variables: &[(&str, &str)],
    mut show: impl FnMut(&str) -> bool,
) -> Result<(), Failure> {
    let shown = format!("cargo {arguments}");
    println!("$ {shown}");
    let mut command = prepare(arguments, variables);
    command.current_dir(workspace()).stdin(Stdio::null()).stderr(Stdio::piped());
    let could_not = |error: std::io::Error| Failure::new(format!("{shown}: could not be run ({error})"));
    let mut child = command.spawn().map_err(could_not)?;
    if let Some(messages) = child.stderr.take() {
        for line in BufReader::new(messages).lines() {
            let line = line.map_err(could_not)?;
            if show(&line) {
                eprintln!("{line}");
            }
        }
    }
    verdict(child.wait().map_err(could_not)?, &shown)
}

/// Runs a program of this workspace that was built beside this one.
pub fn program(name: &str, arguments: &str) -> Result<(), Failure> {
    let shown = format!("{name} {arguments}");
    let here = std::env::current_exe().map_err(|error| Failure::new(format!("{shown}: {error}")))?;
    let mut command = Command::new(here.with_file_name(format!("{name}{}", std::env::consts::EXE_SUFFIX)));
    command.args(arguments.split_whitespace());
    run(command, &shown)
}

fn prepare(arguments: &str, variables: &[(&str, &str)]) -> Command {
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
    command
}

fn run(mut command: Command, shown: &str) -> Result<(), Failure> {
    println!("$ {shown}");
    match command.current_dir(workspace()).stdin(Stdio::null()).status() {
        Ok(status) => verdict(status, shown),
        Err(error) => Err(Failure::new(format!("{shown}: could not be run ({error})"))),
    }
}

fn verdict(status: ExitStatus, shown: &str) -> Result<(), Failure> {
    if status.success() {
        return Ok(());
    }
    let code = status.code().and_then(|code| u8::try_from(code).ok()).unwrap_or(1).max(1);
    Err(Failure { why: format!("{shown}: {status}"), code })
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
