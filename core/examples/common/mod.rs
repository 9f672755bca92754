//! What the examples share: their words read, a job read, a bar where a person watches, and how they end.

#![allow(dead_code, reason = "each example takes what it needs")]

use mistcoat::job::Job;
use std::io::{IsTerminal, Write};
use std::process::ExitCode;

/// What stands behind an example's name: one job file, options that stand alone, options with a value.
pub struct Given {
    /// Path of the job file.
    pub job: String,
    alone: Vec<String>,
    values: Vec<(String, String)>,
}

impl Given {
    /// Reads the program's words. `alone` are the options without a value; `valued` those with one, each with what is wrong when
    /// it has none ("no folder is named").
    pub fn read(usage: &str, alone: &[&str], valued: &[(&str, &str)]) -> Result<Self, String> {
        Self::read_with(usage, alone, valued, &[])
    }

    /// The same with options that may be given more than once.
    pub fn read_with(
        usage: &str,
        alone: &[&str],
        valued: &[(&str, &str)],
        many: &[(&str, &str)],
    ) -> Result<Self, String> {
        let (mut job, mut given) = (None, Self { job: String::new(), alone: Vec::new(), values: Vec::new() });
        let mut words = std::env::args().skip(1);
        while let Some(word) = words.next() {
            if alone.contains(&word.as_str()) {
                given.alone.push(word);
            } else if let Some((name, none)) = valued.iter().chain(many).find(|(name, _)| *name == word) {
                if given.value(name).is_some() && !many.iter().any(|(many, _)| many == name) {
                    return Err(format!("{name}: given twice\n{usage}"));
                }
                let value = words.next().filter(|value| !value.starts_with("--") && !value.is_empty());
                let value = value.ok_or_else(|| format!("{name}: {none}\n{usage}"))?;
                given.values.push((word, value));
            } else if word.starts_with('-') {
                return Err(format!("{word}: no such option\n{usage}"));
            } else if job.is_some() {
                return Err(format!("{word}: one job file at a time\n{usage}"));
            } else {
                job = Some(word);
            }
        }
        given.job = job.ok_or(usage)?;
        Ok(given)
    }

    /// An option that stands alone was given.
    pub fn has(&self, option: &str) -> bool {
        self.alone.iter().any(|given| given == option)
    }

    /// The value of an option.
    pub fn value(&self, option: &str) -> Option<&str> {
        self.values.iter().find(|(given, _)| given == option).map(|(_, value)| value.as_str())
    }

    /// The values of an option that may be given more than once, in order.
    pub fn values(&self, option: &str) -> impl Iterator<Item = &str> {
        self.values.iter().filter(move |(given, _)| given == option).map(|(_, value)| value.as_str())
    }

    /// The job.
    pub fn job(&self) -> Result<Job, String> {
        Job::from_toml(&text_of(&self.job)?).map_err(|error| error.to_string())
    }
}

/// A file's text; what is wrong is said with its path.
pub fn text_of(path: &str) -> Result<String, String> {
    std::fs::read_to_string(path).map_err(|error| format!("{path}: {error}"))
}

/// Whether a person watches standard error.
pub fn watched() -> bool {
    std::io::stderr().is_terminal()
}

/// Shows a bar for a share 0..=1 on standard error. One that cannot be shown is no reason to stop.
pub fn bar(share: f64, words: &str) {
    let filled = (30.0 * share.clamp(0.0, 1.0)) as usize;
    let mut screen = std::io::stderr();
    let _ = write!(screen, "\r[{:<30}] {words}", "=".repeat(filled)).and_then(|()| screen.flush());
}

/// Takes the bar away.
pub fn no_bar() {
    let _ = std::io::stderr().write_all(b"\r\x1b[K");
}

/// The answer on standard output, or what is wrong on standard error and exit code 2.
pub fn end(answer: Result<String, String>) -> ExitCode {
    match answer {
        // A reader that went away needs no answer.
        Ok(answer) => match writeln!(std::io::stdout(), "{answer}") {
            Ok(()) => ExitCode::SUCCESS,
            Err(_) => ExitCode::FAILURE,
        },
        Err(message) => {
            let _ = writeln!(std::io::stderr(), "{message}");
            ExitCode::from(2)
        }
    }
}
