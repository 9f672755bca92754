//! Every file of `tests/data/bad-jobs` is refused with the key, line, value and allowed text of its first line.

use mistcoat::job::{Job, LONGEST_TEXT};

/// The part of `text` between `name=` and the end of its word or of its angle brackets.
fn field<'a>(text: &'a str, name: &str) -> &'a str {
    let (_, rest) = text.split_once(&format!(" {name}=")).unwrap_or_else(|| panic!("no {name} in {text}"));
    match rest.strip_prefix('<') {
        Some(rest) => rest.split_once('>').unwrap_or_else(|| panic!("open {name} in {text}")).0,
        None => rest.split(' ').next().unwrap(),
    }
}

#[test]
fn each_bad_job_is_refused_by_key_line_and_value() {
    let mut files: Vec<_> = std::fs::read_dir(crate::repository("tests/data/bad-jobs"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    files.sort();
    assert!(files.len() >= 60, "only {} bad jobs", files.len());
    let mut misses = Vec::new();
    for file in &files {
        let name = file.file_stem().unwrap().to_string_lossy();
        let text = std::fs::read_to_string(file).unwrap();
        let expect = text.lines().next().unwrap();
        let error = match Job::from_toml(&text) {
            Err(error) => error,
            Ok(_) => {
                misses.push(format!("{name}: was taken"));
                continue;
            }
        };
        let line: usize = field(expect, "line").parse().unwrap();
        let (key, value, allowed) = (field(expect, "key"), field(expect, "value"), field(expect, "allowed"));
        let message = error.to_string();
        let shown = [key, value, allowed].iter().all(|part| message.contains(part))
            && message.contains(&format!("line {line}, column {}", error.column));
        if error.key != key
            || error.line != line
            || error.value != value
            || !error.allowed.contains(allowed)
            || !shown
            || error.problem().is_empty()
        {
            misses.push(format!("{name}: expected {expect}\n{error:#?}\n{message}"));
        }
    }
    assert!(misses.is_empty(), "{} of {}:\n{}", misses.len(), files.len(), misses.join("\n\n"));
}

/// The column points at the value, and the hint at what was meant.
#[test]
fn columns_and_hints() {
    let good = crate::text_of("core/examples/jobs/table-top.toml");
    for (from, to, column, hint) in [
        ("inlet_pressure = ", "inlet_presure = ", 1, "did you mean gun.inlet_pressure?"),
        ("\"2.0 bar\"", "2.0", 18, "write \"2.0 bar\""),
        ("\"2.0 bar\"", "\"2.0 Bar\"", 18, "write it with \"bar\""),
        ("\"180 mm\"", "\"180 millimetres\"", 12, "write it with \"mm\""),
        ("hvlp-gravity-1.3", "hvlp-gravty-1.3", 7, "did you mean \"hvlp-gravity-1.3\"?"),
        ("fan = 1.0", "overlap = 0.5", 1, "did you mean stroke.overlap?"),
        ("width = \"600 mm\"", "wide = \"600 mm\"", 11, "did you mean part.panel.width?"),
    ] {
        assert!(good.contains(from), "{from}");
        let error = Job::from_toml(&good.replacen(from, to, 1)).unwrap_err();
        assert_eq!(error.column, column, "{error}");
        assert!(error.hint.as_ref().is_some_and(|h| h.contains(hint)), "{hint} not in {error}");
    }
}

/// The message as the user reads it, to the letter.
#[test]
fn the_message_in_full() {
    let text = "version = 1\n[gun]\nkit = \"hvlp-gravity-1.3\"\nfan = \"1.2 \u{b5}m\"   # too far\n";
    let message = Job::from_toml(text).unwrap_err().to_string();
    let expected = "gun.fan: \"\u{b5}m\" is the unit of a length (1.2 \u{b5}m)
  --> line 4, column 7
  |
4 | fan = \"1.2 \u{b5}m\"   # too far
  |       ^^^^^^^^
allowed: 0 to 1, as a bare number or as text with %";
    assert_eq!(message, expected);
}

#[test]
fn hostile_texts_are_refused() {
    let long = format!("# {}\n", "x".repeat(LONGEST_TEXT));
    let error = Job::from_toml(&long).unwrap_err();
    assert!(error.problem().contains("too long") && error.allowed.contains("65536"), "{error}");
    for text in [
        "".into(),
        "\u{0}".into(),
        "=".into(),
        "\u{feff}version = 1".into(),
        "[".repeat(60_000),
        format!("a = {}", "[".repeat(60_000)),
        format!("a = {}", "{ b = ".repeat(10_000)),
        format!("{} = 1", vec!["a"; 30_000].join(".")),
        format!("version = {}", "9".repeat(60_000)),
        format!("[gun]\nfan = 1e{}", "9".repeat(60_000)),
        format!("name = \"{}\"", "y".repeat(60_000)),
        "version = 0x1\r\n[gun]\r\nkit = \"\\u0000\"\r\n".into(),
        "[gun]\n\"\" = 1\n".into(),
        "[[gun]]\nfan = 1\n".into(),
        "[gun.fan]\n".into(),
    ] {
        let error = Job::from_toml(&text).unwrap_err();
        assert!(error.to_string().len() < 2000, "{}", error.to_string().len());
        assert!(!error.allowed.is_empty() && error.line >= 1 && error.column >= 1);
    }
}
