//! The example `compare_kits` as a process.

use crate::command::example;

fn refused(words: &[&str], said: &str) {
    let out = example("compare_kits", words);
    let message = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{words:?}: {message}");
    assert!(out.stdout.is_empty(), "{words:?} printed {}", String::from_utf8_lossy(&out.stdout));
    assert!(message.contains(said), "{words:?}: {said:?} is not in {message:?}");
}

#[test]
fn unknown_words_kits_and_files_are_refused() {
    let job = crate::repository("core/examples/jobs/chair-leg-wide-fan.toml");
    let job = job.to_str().unwrap();
    refused(&[], "usage: ");
    refused(&[job, "--kit"], "--kit: no such option");
    refused(&[job, job], "one job file at a time");
    refused(&[job, "--kits"], "no kit is named");
    refused(&[job, "--kits", "--json"], "no kit is named");
    refused(&[job, "--kits", "a", "--kits", "b"], "given twice");
    refused(&[job, "--kits", "lvlp-gravty-1.2"], "did you mean \"lvlp-gravity-1.2\"?");
    refused(&[job, "--kits", "lvlp-gravity-1.2,"], "is not possible");
    refused(&["no-such-job.toml"], "no-such-job.toml: ");
    let bad = crate::repository("tests/data/bad-jobs/compare-kit-unknown.toml");
    refused(&[bad.to_str().unwrap(), "--json"], "compare.kits");
}

#[test]
fn a_burst_is_refused_by_its_key() {
    let text = crate::text_of("core/examples/jobs/chair-leg-wide-fan.toml")
        .replace("[stroke]", "[stroke]\nburst = \"1 s\"");
    let path = std::env::temp_dir().join(format!("mistcoat-burst-{}.toml", std::process::id()));
    std::fs::write(&path, text).unwrap();
    refused(&[path.to_str().unwrap(), "--json"], "stroke.burst");
    std::fs::remove_file(path).unwrap();
}

#[test]
fn the_jobs_own_kits_and_prices_come_first() {
    let text = crate::text_of("core/examples/jobs/chair-leg-wide-fan.toml")
        .replace("length = \"600 mm\"", "length = \"200 mm\"")
        + "droplets = 20000\n[compare]\npaint_price = 18\n[[compare.kits]]\nkit = \"touchup-gravity-0.8\"\nname = \"the little one\"\nprice = 90\n";
    let path = std::env::temp_dir().join(format!("mistcoat-compare-{}.toml", std::process::id()));
    std::fs::write(&path, text).unwrap();
    let out = example("compare_kits", &[path.to_str().unwrap(), "--json", "--kits", "lvlp-gravity-1.2"]);
    std::fs::remove_file(path).unwrap();
    assert!(out.status.success() && out.stderr.is_empty(), "{out:?}");
    let answer: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON alone");
    let rows = answer["rows"].as_array().unwrap();
    let of = |key: &str| rows.iter().map(|r| r[key].as_str().unwrap()).collect::<Vec<_>>();
    assert_eq!(of("label"), ["as-set", "best", "A", "B"]);
    assert_eq!(of("name")[2], "the little one");
    assert_eq!(of("kit")[2..], ["touchup-gravity-0.8", "lvlp-gravity-1.2"]);
    assert_eq!((rows[2]["price"].as_f64(), rows[3].get("price")), (Some(90.0), None));
    assert!(
        rows[2].get("pays_back").is_some() && rows[3].get("pays_back").is_none(),
        "pay-back needs a price"
    );
    assert!(!String::from_utf8_lossy(&out.stdout).contains("null"));
}
