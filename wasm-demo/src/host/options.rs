//! What the command line asks for.

use std::path::PathBuf;

/// The text of `--help`.
pub const HELP: &str = "\
Builds the mistcoat page and serves it on this machine.

cargo page                             build, serve on 127.0.0.1, open the browser
cargo page --no-open                   the same without opening a browser
cargo page --port N                    serve on port N and on no other (else 8417, or the next free one)
cargo page --build-only FOLDER         write the page's files into FOLDER, for any file server
cargo page --single-file PAGE.html     write the whole page as one file that opens from disk
cargo page --help                      this text
";

/// What one call does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Work {
    /// Build, serve, open the browser.
    Serve {
        /// The one port to use; `None`: the usual one or the next that is free.
        port: Option<u16>,
        /// Open the browser.
        open: bool,
    },
    /// Write the files into a folder.
    BuildOnly(PathBuf),
    /// Write one file.
    SingleFile(PathBuf),
}

/// The checked command line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Options {
    /// What to do.
    pub work: Work,
}

/// A call either runs or prints the help text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Request {
    /// Do the work.
    Run(Options),
    /// Print [`HELP`].
    Help,
}

/// A command line that cannot be followed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OptionError {
    /// Not an option of this program.
    #[error("{0}: not an option; `cargo page --help` lists them")]
    Unknown(String),
    /// The option's value is not there.
    #[error("{0}: needs {1} after it")]
    NoValue(&'static str, &'static str),
    /// The port is not a port.
    #[error("--port: {0} is not possible; allowed: 1 to 65535")]
    Port(String),
    /// Two options that exclude each other.
    #[error("{0} and {1} exclude each other")]
    Both(&'static str, &'static str),
}

impl Options {
    /// Reads the arguments after the program's name.
    ///
    /// # Errors
    /// An [`OptionError`] that names the option and what is allowed.
    pub fn parse(arguments: impl IntoIterator<Item = String>) -> Result<Request, OptionError> {
        let mut arguments = arguments.into_iter();
        let (mut port, mut open) = (None, true);
        let mut serve_only: Option<&'static str> = None;
        let mut write: Option<(&'static str, Work)> = None;
        while let Some(argument) = arguments.next() {
            let mut value = |name, what| {
                arguments
                    .next()
                    .filter(|v| !v.is_empty() && !v.starts_with("--"))
                    .ok_or(OptionError::NoValue(name, what))
            };
            let mut set_write = |name, work| match write.replace((name, work)) {
                Some((earlier, _)) => Err(OptionError::Both(earlier, name)),
                None => Ok(()),
            };
            match argument.as_str() {
                "--help" | "-h" => return Ok(Request::Help),
                "--no-open" => {
                    open = false;
                    serve_only = Some("--no-open");
                }
                "--port" => {
                    let text = value("--port", "a port number")?;
                    port = Some(text.parse().ok().filter(|p| *p > 0).ok_or(OptionError::Port(text))?);
                    serve_only = Some("--port");
                }
                "--build-only" => {
                    let folder = value("--build-only", "a folder")?.into();
                    set_write("--build-only", Work::BuildOnly(folder))?;
                }
                "--single-file" => {
                    let path = value("--single-file", "a file name")?.into();
                    set_write("--single-file", Work::SingleFile(path))?;
                }
                _ => return Err(OptionError::Unknown(argument)),
            }
        }
        let work = match (write, serve_only) {
            (Some((name, _)), Some(serve)) => return Err(OptionError::Both(name, serve)),
            (Some((_, work)), None) => work,
            (None, _) => Work::Serve { port, open },
        };
        Ok(Request::Run(Options { work }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(line: &str) -> Result<Request, OptionError> {
        Options::parse(line.split_whitespace().map(String::from))
    }

    fn run(work: Work) -> Result<Request, OptionError> {
        Ok(Request::Run(Options { work }))
    }

    #[test]
    fn every_form_is_read() {
        assert_eq!(parse(""), run(Work::Serve { port: None, open: true }));
        assert_eq!(parse("--no-open --port 9000"), run(Work::Serve { port: Some(9000), open: false }));
        assert_eq!(parse("--build-only site"), run(Work::BuildOnly("site".into())));
        assert_eq!(parse("--single-file a.html"), run(Work::SingleFile("a.html".into())));
        assert_eq!(parse("--port 1 --help"), Ok(Request::Help));
    }

    #[test]
    fn what_cannot_be_followed_is_named() {
        let said = |line: &str| parse(line).expect_err(line).to_string();
        assert_eq!(said("--prot 1"), "--prot: not an option; `cargo page --help` lists them");
        assert_eq!(said("--port"), "--port: needs a port number after it");
        assert_eq!(said("--port 0"), "--port: 0 is not possible; allowed: 1 to 65535");
        assert_eq!(said("--port 65536"), "--port: 65536 is not possible; allowed: 1 to 65535");
        assert_eq!(said("--single-file --no-open"), "--single-file: needs a file name after it");
        assert_eq!(
            said("--build-only a --single-file b"),
            "--build-only and --single-file exclude each other"
        );
        assert_eq!(said("--build-only a --port 80"), "--build-only and --port exclude each other");
    }
}
