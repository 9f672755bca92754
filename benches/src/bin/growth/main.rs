//! What a larger job costs: `cargo run --release -p mistcoat-benches --bin growth [-- --rounds N] [--svg FILE]`.
//!
//! Core seconds of one thread against droplets, cells, steps, tubes in a frame and points of a sweep, least of some rounds in which all take
//! turns, with the exponent of growth; then threads, and the most memory against droplets (`--most N` droplets, 1e7). Prints Markdown;
//! `--svg` draws it.

mod memory;
mod series;
mod work;

use series::Series;
use std::process::ExitCode;

fn words() -> Result<(u32, Option<String>, u64), String> {
    let (mut rounds, mut svg, mut most) = (3, None, 10_000_000);
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let value = words.next().ok_or_else(|| format!("{word}: no value is named"))?;
        let whole =
            || value.parse::<u64>().ok().filter(|&n| n > 0).ok_or(format!("{word}: {value} is no number"));
        match word.as_str() {
            "--rounds" => rounds = u32::try_from(whole()?).map_err(|e| e.to_string())?,
            "--most" => most = whole()?,
            "--svg" => svg = Some(value),
            _ => return Err(format!("{word}: no such option")),
        }
    }
    Ok((rounds, svg, most))
}

fn run() -> Result<(), String> {
    // A child of this program that flies on so many threads.
    if let Some(answer) = memory::as_child() {
        return answer;
    }
    let (rounds, svg, most) = words()?;
    let mut all: Vec<Series> = vec![
        work::droplets(),
        work::cells(),
        work::steps(),
        work::tubes(),
        work::laid_points(),
        work::flown_points(),
    ];
    for _ in 0..rounds {
        all.iter_mut().try_for_each(Series::round)?;
    }
    println!("{}", series::HEAD);
    all.iter().for_each(|series| println!("{}", series.row()));
    if let Some(path) = svg {
        std::fs::write(&path, series::picture(&all)).map_err(|error| format!("{path}: {error}"))?;
    }
    println!("\n{}", work::longest_pieces()?);
    println!("\n{}", memory::threads(rounds)?);
    println!("\n{}", memory::memory(most)?);
    Ok(())
}

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}
