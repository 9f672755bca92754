//! Threads and memory: a process of its own for each, so that one does not inherit the other's.

use super::work::held_still;
use std::process::Command;
use std::time::Instant;

/// Says to a child how many droplets to fly.
const CHILD: &str = "MISTCOAT_GROWTH_DROPLETS";
/// Droplets of a piece: between two of them a run can be stopped.
const PIECE: u64 = 1 << 17;
/// Droplets by which threads are held against each other.
const DROPLETS: u64 = 1_000_000;

/// What a child tells.
struct Told {
    wall: f64,
    core: f64,
    /// Most memory that it had [MB].
    most: f64,
}

/// Does a child's work where this process is one.
pub fn as_child() -> Option<Result<(), String>> {
    let droplets = std::env::var(CHILD).ok()?.parse().ok()?;
    Some(fly(droplets).map(|told| println!("{} {} {}", told.wall, told.core, told.most)))
}

fn fly(droplets: u64) -> Result<Told, String> {
    let mut run = held_still(droplets)?;
    let (wall, core) = (Instant::now(), core_seconds()?);
    while run.flown() < droplets - 1 {
        run.advance_on_all_threads(PIECE.min(droplets - 1 - run.flown()));
    }
    Ok(Told { wall: wall.elapsed().as_secs_f64(), core: core_seconds()? - core, most: most_memory()? })
}

fn child(droplets: u64, threads: Option<usize>) -> Result<Told, String> {
    let own = std::env::current_exe().map_err(|e| e.to_string())?;
    let mut command = Command::new(own);
    command.env(CHILD, droplets.to_string());
    if let Some(threads) = threads {
        command.env("RAYON_NUM_THREADS", threads.to_string());
    }
    let out = command.output().map_err(|e| e.to_string())?;
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    let numbers: Vec<f64> = text.split_whitespace().filter_map(|word| word.parse().ok()).collect();
    match numbers[..] {
        [wall, core, most] => Ok(Told { wall, core, most }),
        _ => Err(format!("a child failed: {}", String::from_utf8_lossy(&out.stderr))),
    }
}

/// User and system time of all threads, in the kernel's ticks of 10 ms.
fn core_seconds() -> Result<f64, String> {
    let text = std::fs::read_to_string("/proc/self/stat").map_err(|e| e.to_string())?;
    // Behind the name, which may hold anything: 12th and 13th.
    let fields: Vec<&str> = text.rsplit(')').next().unwrap_or_default().split_whitespace().collect();
    let ticks = |at: usize| fields.get(at).and_then(|f| f.parse::<f64>().ok());
    match (ticks(11), ticks(12)) {
        (Some(user), Some(system)) => Ok((user + system) / 100.0),
        _ => Err("/proc/self/stat tells no time".into()),
    }
}

/// The most memory that this process had [MB].
fn most_memory() -> Result<f64, String> {
    let text = std::fs::read_to_string("/proc/self/status").map_err(|e| e.to_string())?;
    let line = text.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.split_whitespace().next()?.parse::<f64>().ok());
    kilobytes.map(|kb| kb / 1024.0).ok_or_else(|| "/proc/self/status tells no memory".into())
}

/// One thread and more, alternated: least wall and core seconds of some rounds.
pub fn threads(rounds: u32) -> Result<String, String> {
    let most = std::thread::available_parallelism().map_or(1, usize::from);
    let counts: Vec<usize> = (0..).map(|i| 1 << i).take_while(|&n| n <= most).collect();
    let mut least = vec![(f64::INFINITY, f64::INFINITY); counts.len()];
    for _ in 0..rounds {
        for (count, least) in counts.iter().zip(&mut least) {
            let told = child(DROPLETS, Some(*count))?;
            *least = (least.0.min(told.wall), least.1.min(told.core));
        }
    }
    let mut out =
        "| threads, 1,000,000 droplets | wall seconds | times as fast | core seconds |\n|---|---|---|---|"
            .to_string();
    for (count, (wall, core)) in counts.iter().zip(&least) {
        out += &format!("\n| {count} | {wall:.3} | {:.2} | {core:.2} |", least[0].0 / wall);
    }
    Ok(out)
}

/// The most memory by droplets, tenfold each, on all threads.
pub fn memory(most: u64) -> Result<String, String> {
    let mut out =
        "| droplets | most memory [MB] | wall seconds | core seconds |\n|---|---|---|---|".to_string();
    let tens = (4..).map(|i| 10u64.pow(i)).take_while(|&n| n <= most);
    for droplets in tens {
        let told = child(droplets, None)?;
        out += &format!(
            "\n| {droplets:.0e} | {:.0} | {:.2} | {:.2} |",
            told.most,
            told.wall,
            told.core,
            droplets = droplets as f64
        );
    }
    Ok(out)
}
