//! Every check of the project, one stage after the other: `cargo checks`, `cargo checks --only STAGE`.
//!
//! All stages run even when one fails; the exit code is the worst of theirs.

mod cargo;
mod stages;

use std::process::ExitCode;
use std::time::Instant;

use stages::{STAGES, Stage};

const HELP: &str = "\
cargo checks                  every stage
cargo checks --only STAGE     that stage; may be given more than once
cargo checks --list           the stages
";

enum Request {
    Run(Vec<&'static Stage>),
    List,
    Help,
}

fn parse(mut arguments: impl Iterator<Item = String>) -> Result<Request, String> {
    let mut chosen = Vec::new();
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--help" | "-h" => return Ok(Request::Help),
            "--list" => return Ok(Request::List),
            "--only" => {
                let name = arguments.next().ok_or("--only: needs a stage after it")?;
                let stage = STAGES.iter().find(|stage| stage.name == name);
                chosen.push(
                    stage.ok_or_else(|| format!("--only: {name} is not a stage; allowed: {}", names()))?,
                );
            }
            _ => return Err(format!("{argument}: not an option; `cargo checks --help` lists them")),
        }
    }
    Ok(Request::Run(if chosen.is_empty() { STAGES.iter().collect() } else { chosen }))
}

fn names() -> String {
    STAGES.iter().map(|stage| stage.name).collect::<Vec<_>>().join(", ")
}

fn main() -> ExitCode {
    let chosen = match parse(std::env::args().skip(1)) {
        Ok(Request::Run(chosen)) => chosen,
        Ok(Request::List) => {
            STAGES.iter().for_each(|stage| println!("{:<12} {}", stage.name, stage.what));
            return ExitCode::SUCCESS;
        }
        Ok(Request::Help) => {
            print!("{HELP}");
            return ExitCode::SUCCESS;
        }
        Err(error) => {
            eprintln!("{error}");
            return ExitCode::from(2);
        }
    };
    let mut summary = Vec::new();
    let mut worst = 0;
    for stage in &chosen {
        println!("\n==== {}: {}", stage.name, stage.what);
        let start = Instant::now();
        let outcome = (stage.run)();
        let seconds = start.elapsed().as_secs_f64();
        let word = match &outcome {
            Ok(()) => "passed",
            Err(_) => "FAILED",
        };
        println!("==== {} {word} in {seconds:.1} s", stage.name);
        if let Err(failure) = &outcome {
            println!("{}", failure.why);
            worst = worst.max(failure.code);
        }
        summary.push((stage.name, word, seconds));
    }
    println!("\nStages:");
    for (name, word, seconds) in &summary {
        println!("{name:<12} {word}  {seconds:>7.1} s");
    }
    let failed = summary.iter().filter(|(_, word, _)| *word == "FAILED").count();
    println!("\n{} passed, {failed} failed", summary.len() - failed);
    ExitCode::from(worst)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse_line(line: &str) -> Result<Request, String> {
        parse(line.split_whitespace().map(String::from))
    }

    #[test]
    fn stages_are_chosen_by_name() {
        let Ok(Request::Run(all)) = parse_line("") else { panic!("runs") };
        assert_eq!(all.len(), STAGES.len());
        let Ok(Request::Run(two)) = parse_line("--only format --only docs") else { panic!("runs") };
        assert_eq!(two.iter().map(|s| s.name).collect::<Vec<_>>(), ["format", "docs"]);
        let error = parse_line("--only formt").err().expect("no such stage");
        assert!(error.starts_with("--only: formt is not a stage; allowed: format, "), "{error}");
        assert!(parse_line("--only").is_err() && parse_line("--fast").is_err());
    }

    #[test]
    fn every_stage_has_its_own_name() {
        let mut names: Vec<_> = STAGES.iter().map(|stage| stage.name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), STAGES.len());
    }
}
