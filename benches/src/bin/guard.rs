//! Instruction guard: instructions a droplet's step costs, counted by valgrind's callgrind, so that no other load on
//! the machine disturbs them.
//!
//! `guard` compares the kernel with the committed figures and with the scalar peer; `guard fly WHAT N` is what it
//! runs under valgrind.

use fearless_simd::Level;
use mistcoat::flight::{Batch, Noise, fly, levels};
use mistcoat_benches::kernel::{BATCH, Task};
use mistcoat_benches::scalar;
use mistcoat_benches::scene::{Target, rated};
use std::process::{Command, ExitCode};

/// Committed instructions per droplet's step of the kernel at AVX2, with the compiler of `rust-version`: the task at
/// its own step and at one as short as the peer's, a panel and a tube under the rated gun.
const COMMITTED: [(&str, f64); 4] = [("task", 203.2), (SHORT, 171.9), ("panel", 176.9), ("tube", 243.6)];
/// The task in about as many steps a droplet as the peer takes, so that start and landing weigh the same.
const SHORT: &str = "short";
const SHORT_STEP: f64 = 0.007;
/// A step of the kernel in short steps costs at most this share of the peer's: asked.
const SHARE: f64 = 0.25;
/// Known miss: with two vectors side by side AVX2 runs out of registers, and what it puts aside and fetches again makes the share this; the same step
/// takes a sixth less time than with one vector (`benches/README.md`). It may not grow.
const MISSED: f64 = 0.2535;
/// Allowed difference from a committed figure.
const ALLOWED: f64 = 0.03;
/// What a Debian system wants.
const INSTALL: &str = "apt-get install valgrind";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let outcome = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [] => compare(),
        ["fly", what, count] => steps(what, count),
        _ => Err("usage: guard, or guard fly WHAT COUNT".to_owned()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

/// AVX2 where there is one: valgrind knows no wider vectors.
fn level() -> Level {
    let all = levels();
    all.iter().copied().find(|l| l.as_avx2().is_some()).unwrap_or_else(Level::baseline)
}

/// Flies and prints the number of steps.
fn steps(what: &str, count: &str) -> Result<(), String> {
    let count: u64 = count.parse().map_err(|_| format!("{count}: not a number of droplets"))?;
    let steps = match what {
        "scalar" => scalar::run::<f32>(1, count, scalar::STEP, scalar::Draw::Number).steps,
        "task" | SHORT | "panel" | "tube" => {
            let mut batch = Batch::default();
            let (scene, set) = match what {
                "task" | SHORT => {
                    let task = if what == SHORT { Task::new(SHORT_STEP) } else { Task::default() };
                    task.fill(level(), 1, 0, BATCH, &mut batch);
                    task.narrow()
                }
                _ => {
                    let target = if what == "panel" { Target::Panel } else { Target::Tube };
                    let booked = rated(target).map_err(|e| e.to_string())?;
                    booked.fill(BATCH, &mut batch);
                    (booked.scene.narrow(), booked.set.cast())
                }
            };
            // The same batch again and again: the flight alone is counted.
            (0..count.div_ceil(BATCH))
                .map(|_| {
                    fly(level(), &scene, &set, Noise::Sum2, &mut batch);
                    batch.steps
                })
                .sum()
        }
        _ => return Err(format!("{what}: allowed are scalar, task, short, panel, tube")),
    };
    println!("{steps}");
    Ok(())
}

/// Instructions and steps of a run.
fn count(what: &str, droplets: u64) -> Result<(f64, f64), String> {
    let this = std::env::current_exe().map_err(|e| e.to_string())?;
    let output = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .arg(this)
        .args(["fly", what, &droplets.to_string()])
        .output()
        .map_err(|e| format!("valgrind could not be run ({e}); install it: {INSTALL}"))?;
    let (out, messages) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    if !output.status.success() {
        return Err(format!("{what} under valgrind: {}\n{messages}", output.status));
    }
    let instructions =
        messages.lines().find_map(|l| l.split_once("Collected :")).and_then(|(_, n)| n.trim().parse().ok());
    match (instructions, out.trim().parse()) {
        (Some(instructions), Ok(steps)) => Ok((instructions, steps)),
        _ => Err(format!("{what} under valgrind: no figure in\n{out}\n{messages}")),
    }
}

/// Instructions per step: of two runs the difference, so that the start of the program does not count.
fn per_step(what: &str, droplets: u64) -> Result<f64, String> {
    let (few, many) = (count(what, droplets)?, count(what, 3 * droplets)?);
    Ok((many.0 - few.0) / (many.1 - few.1))
}

fn compare() -> Result<(), String> {
    let peer = per_step("scalar", 500)?;
    println!("{:<8} {peer:>8.2} instructions a step", "scalar");
    let avx2 = level().as_avx2().is_some();
    let mut faults = Vec::new();
    for (what, committed) in COMMITTED {
        let found = per_step(what, BATCH)?;
        let change = found / committed - 1.0;
        println!(
            "{what:<8} {found:>8.2} instructions a step, committed {committed:.2} ({:+.1} %), 1/{:.1} of the peer's",
            100.0 * change,
            peer / found
        );
        if avx2 && change.abs() > ALLOWED {
            faults.push(format!(
                "{what}: {found:.2} instructions a step, committed {committed:.2}, allowed within {} %; if the change is \
                 meant, commit the new figure in benches/src/bin/guard.rs and say why",
                100.0 * ALLOWED
            ));
        }
        if what == SHORT && found > SHARE * peer {
            println!("known miss: {what} is {:.4} of the peer's, asked {SHARE}", found / peer);
            if found > MISSED * peer {
                faults.push(format!("{what}: {found:.2} is above {MISSED} of the peer's {peer:.2}"));
            }
        }
    }
    if !avx2 {
        println!("This machine has no AVX2: the committed figures, which are of AVX2, were not compared.");
    }
    if faults.is_empty() { Ok(()) } else { Err(faults.join("\n")) }
}
