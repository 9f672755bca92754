//! Runs browser tests one after the other in one browser.
//!
//! The usual test harness would run them side by side, and never ends a browser kept in a static.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::time::Instant;

use anyhow::{Result, anyhow};

use super::Browser;

/// A name and what it does.
pub type Test<T> = (&'static str, fn(&Browser, &T) -> Result<()>);

/// Runs those tests whose name holds the first plain argument (all without one); `shared` is handed to each.
pub fn run<T>(tests: &[Test<T>], shared: impl FnOnce() -> Result<T>) -> ExitCode {
    let filter = std::env::args().skip(1).find(|argument| !argument.starts_with("--")).unwrap_or_default();
    let chosen: Vec<&Test<T>> = tests.iter().filter(|(name, _)| name.contains(&filter)).collect();
    if std::env::args().any(|argument| argument == "--list") {
        chosen.iter().for_each(|(name, _)| println!("{name}: test"));
        return ExitCode::SUCCESS;
    }
    println!("\nrunning {} tests", chosen.len());
    let started = shared().and_then(|shared| Ok((shared, Browser::start()?)));
    let (shared, browser) = match started {
        Ok(started) => started,
        Err(error) => {
            eprintln!("error: {error:#}");
            return ExitCode::FAILURE;
        }
    };
    let mut failed = 0;
    for (name, test) in &chosen {
        let began = Instant::now();
        let outcome = catch_unwind(AssertUnwindSafe(|| test(&browser, &shared)))
            .unwrap_or_else(|_| Err(anyhow!("panicked, see above")));
        match outcome {
            Ok(()) => println!("test {name} ... ok ({:.1} s)", began.elapsed().as_secs_f64()),
            Err(error) => {
                failed += 1;
                println!("test {name} ... FAILED\n{error:#}");
            }
        }
    }
    let word = if failed == 0 { "ok" } else { "FAILED" };
    println!(
        "\ntest result: {word}. {} passed; {failed} failed; 0 ignored; 0 measured; {} filtered out\n",
        chosen.len() - failed,
        tests.len() - chosen.len(),
    );
    if failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
