//! The example `run_job` as a process: what it prints, what it writes, how it ends.

use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::OnceLock;

/// The built examples' folder. Cargo is asked with the same features and profile as this test, so that nothing is built twice.
fn programs() -> &'static PathBuf {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| {
        let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        cargo.current_dir(crate::repository("")).args(["build", "--workspace", "-q"]);
        cargo.args(["--example", "run_job", "--example", "compare_kits", "--example", "sweep_job"]);
        if cfg!(feature = "browser") {
            cargo.args(["--features", "mistcoat-tests/browser"]);
        }
        if !cfg!(debug_assertions) {
            cargo.arg("--release");
        }
        assert!(cargo.status().expect("cargo runs").success(), "the examples do not build");
        // Tests stand in the profile's folder `deps`, examples in `examples`.
        let mut folder = std::env::current_exe().expect("this test");
        folder.pop();
        folder.pop();
        folder.join("examples")
    })
}

/// Runs a built example.
pub fn example(name: &str, words: &[&str]) -> Output {
    let program = programs().join(format!("{name}{}", std::env::consts::EXE_SUFFIX));
    Command::new(program).args(words).output().expect("the example starts")
}

fn run(words: &[&str]) -> Output {
    example("run_job", words)
}

fn refused(words: &[&str], said: &str) {
    let out = run(words);
    let message = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{words:?}: {message}");
    assert!(out.stdout.is_empty(), "{words:?} printed {}", String::from_utf8_lossy(&out.stdout));
    assert!(message.contains(said), "{words:?}: {said:?} is not in {message:?}");
}

#[test]
fn every_bad_job_ends_with_2_and_prints_nothing() {
    let mut seen = 0;
    for entry in std::fs::read_dir(crate::repository("tests/data/bad-jobs")).unwrap() {
        let path = entry.unwrap().path();
        refused(&[path.to_str().unwrap(), "--json"], "allowed: ");
        seen += 1;
    }
    assert!(seen >= 60, "only {seen} bad jobs");
}

#[test]
fn unknown_words_and_files_are_refused() {
    let job = crate::repository("core/examples/jobs/table-top.toml");
    let job = job.to_str().unwrap();
    refused(&[], "usage: ");
    refused(&[job, "--jsn"], "--jsn: no such option");
    refused(&[job, "-j"], "-j: no such option");
    refused(&[job, job], "one job file at a time");
    refused(&[job, "--out"], "no folder is named");
    refused(&[job, "--out", "--json"], "no folder is named");
    refused(&["no-such-job.toml"], "no-such-job.toml: ");
}

/// A job that reads well but cannot be sprayed.
#[test]
fn a_shut_needle_is_refused() {
    let text = crate::text_of("core/examples/jobs/table-top.toml").replace("fluid = 0.8", "fluid = 0.0");
    let path = std::env::temp_dir().join(format!("mistcoat-shut-{}.toml", std::process::id()));
    std::fs::write(&path, text).unwrap();
    refused(&[path.to_str().unwrap(), "--json"], "gun.fluid");
    std::fs::remove_file(path).unwrap();
}

#[test]
fn a_good_job_gives_json_words_and_files() {
    let folder = std::env::temp_dir().join(format!("mistcoat-out-{}", std::process::id()));
    let job = crate::repository("core/examples/jobs/chair-leg-near-round.toml");
    let (job, out) = (job.to_str().unwrap(), folder.to_str().unwrap());
    let json = run(&[job, "--json", "--out", out]);
    assert!(json.status.success() && json.stderr.is_empty(), "{json:?}");
    let text = String::from_utf8(json.stdout).unwrap();
    let report: serde_json::Value = serde_json::from_str(&text).expect("JSON alone");
    let words = String::from_utf8(run(&[job]).stdout).unwrap();
    let of_100 = report["transfer_efficiency"]["value"].as_f64().unwrap() * 100.0;
    let answer = words.lines().nth(1).unwrap();
    assert!(answer.starts_with(&format!("{of_100:.0} of 100 stayed on the part, likely ")), "{words}");

    let read = |name: &str| std::fs::read(folder.join(name)).unwrap_or_else(|e| panic!("{name}: {e}"));
    assert_eq!(String::from_utf8(read("report.json")).unwrap(), text.trim_end());
    assert!(read("film-map.png").starts_with(b"\x89PNG\r\n\x1a\n"));
    for name in ["film-map.svg", "profile-along.svg", "profile-across.svg", "where-the-paint-went.svg"] {
        let svg = String::from_utf8(read(name)).unwrap();
        assert!(svg.contains("<svg") && svg.trim_end().ends_with("</svg>") && !svg.contains("NaN"), "{name}");
    }
    // The table's mean is the report's.
    let csv = String::from_utf8(read("film.csv")).unwrap();
    let dry: Vec<f64> = csv.lines().skip(1).map(|l| l.split(',').nth(2).unwrap().parse().unwrap()).collect();
    let mean = dry.iter().sum::<f64>() / dry.len() as f64;
    assert!((mean - report["film"]["dry_um"]["mean"].as_f64().unwrap()).abs() < 1e-4, "{mean}");
    std::fs::remove_dir_all(folder).unwrap();
}
