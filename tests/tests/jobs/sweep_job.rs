//! The example `sweep_job` as a process.

use crate::command::example;

fn refused(words: &[&str], said: &str) {
    let out = example("sweep_job", words);
    let message = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{words:?}: {message}");
    assert!(out.stdout.is_empty(), "{words:?} printed {}", String::from_utf8_lossy(&out.stdout));
    assert!(message.contains(said), "{words:?}: {said:?} is not in {message:?}");
}

/// A short job file of its own, and its path.
fn short(name: &str) -> std::path::PathBuf {
    let text = crate::text_of("core/examples/jobs/chair-leg-wide-fan.toml")
        .replace("length = \"600 mm\"", "length = \"200 mm\"")
        + "droplets = 3000\n";
    let path = std::env::temp_dir().join(format!("mistcoat-sweep-{name}-{}.toml", std::process::id()));
    std::fs::write(&path, text).unwrap();
    path
}

#[test]
fn bad_words_are_refused() {
    let job = crate::repository("core/examples/jobs/table-top.toml");
    let job = job.to_str().unwrap();
    refused(&[], "usage: ");
    refused(&[job], "one key to vary");
    refused(&[job, "--vary"], "no key is named");
    refused(&[job, "--vary", "stroke.overlap"], "a key, =, and values");
    refused(&[job, "--vary", "stroke.overlp=0..0.9:3"], "did you mean stroke.overlap?");
    refused(&[job, "--vary", "stroke.overlap=0..0.9:0"], "how many values");
    refused(&[job, "--vary", "stroke.distance=150..200:2"], "the unit is missing");
    refused(&[job, "--vary", "gun.fan=0,1", "--csv", "--json"], "one of them");
    refused(&[job, "--vary", "gun.fan=0,1", "--shard", "2/2"], "0/4 to 3/4");
    refused(&[job, "--vary", "gun.fan=0,1", "--columns", "film"], "figures of the report");
    refused(&[job, "--vary", "gun.fan=0,1", "--cvs"], "no such option");
    refused(&["no-such-job.toml", "--vary", "gun.fan=0,1"], "no-such-job.toml: ");
    let bad = crate::repository("tests/data/bad-jobs/fan-nan.toml");
    refused(&[bad.to_str().unwrap(), "--vary", "gun.fan=0,1"], "gun.fan");
}

#[test]
fn processes_merged_are_one() {
    let path = short("shards");
    let job = path.to_str().unwrap();
    let run = |more: &[&str]| {
        let words =
            [&[job, "--vary", "gun.fan=0..1:3", "--vary", "stroke.sides=1,2", "--csv"][..], more].concat();
        let out = example("sweep_job", &words);
        assert!(out.status.success() && out.stderr.is_empty(), "{out:?}");
        String::from_utf8(out.stdout).unwrap()
    };
    let whole = run(&[]);
    let shards = [run(&["--shard", "0/2"]), run(&["--shard", "1/2"])];
    std::fs::remove_file(path).unwrap();
    let header = whole.lines().next().unwrap();
    assert!(header.starts_with("point,gun.fan,stroke.sides,transfer_efficiency.value,"), "{header}");
    assert!(shards.iter().all(|s| s.lines().next() == Some(header)), "every shard prints the header");
    let mut merged: Vec<&str> = shards.iter().flat_map(|s| s.lines().skip(1)).collect();
    merged.sort_unstable();
    assert_eq!(merged, whole.lines().skip(1).collect::<Vec<_>>());
    assert_eq!(merged.len(), 6);
}

#[test]
fn json_words_and_pictures() {
    let path = short("out");
    let picture = path.with_extension("svg");
    let (job, svg) = (path.to_str().unwrap(), picture.to_str().unwrap());
    let columns = "transfer_efficiency.value,pattern.kind";
    for vary in [
        &["--vary", "gun.fan=0,0.5,1"][..],
        &["--vary", "gun.fan=0,1", "--vary", "stroke.hand=machine,steady"],
    ] {
        let words = [&[job, "--columns", columns, "--svg", svg][..], vary].concat();
        let json = example("sweep_job", &[&words[..], &["--json"]].concat());
        assert!(json.status.success() && json.stderr.is_empty(), "{json:?}");
        let answer: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON alone");
        assert_eq!(answer["complete"], true);
        assert!(answer["points"][0]["figures"][0]["value"]["Number"].as_f64().is_some_and(|x| x > 0.0));
        // Along the keys: two steps of three values, or four about a square.
        let steps = answer["differences"].as_array().expect("steps");
        assert_eq!(steps.len(), if vary.len() == 2 { 2 } else { 4 });
        for step in steps {
            let value = |point: &serde_json::Value| {
                answer["points"][point.as_u64().unwrap() as usize]["figures"][0]["value"]["Number"]
                    .as_f64()
                    .unwrap()
            };
            let figure = &step["figures"][0];
            let step_of_values = value(&step["to"]) - value(&step["from"]);
            assert!(figure["value"].as_f64().is_some_and(|v| (v - step_of_values).abs() < 1e-12), "{step}");
            assert!(figure["standard_error"].as_f64().is_some_and(|e| e > 0.0 && e < 0.02), "{step}");
            // A pattern's name has no difference.
            assert!(step["figures"][1].is_null(), "{step}");
        }
        let drawn = std::fs::read_to_string(&picture).unwrap();
        assert!(
            drawn.contains("share of the paint that is on the part") && drawn.trim_end().ends_with("</svg>")
        );
        assert!(!drawn.contains("NaN"));
        let plain = example("sweep_job", &words);
        assert!(String::from_utf8(plain.stdout).unwrap().contains("gun.fan"));
    }
    std::fs::remove_file(path).unwrap();
    std::fs::remove_file(picture).unwrap();
}
