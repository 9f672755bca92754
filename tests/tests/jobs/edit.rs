//! Editing a job text key by key keeps all the rest of it.

use mistcoat::job::{Job, KEYS, Kind, as_written, with_key, without_key};

const TEXT: &str = "# our table top
version = 1
[gun]
kit = \"hvlp-gravity-1.3\"
fan = 1.0   # wide open
[paint]
kind = \"two-pack-clear\"
[part]
panel = { width = \"600 mm\", height = \"400 mm\" }  # flat
[stroke]
distance = \"180 mm\"
speed = \"450 mm/s\"
";

#[test]
fn a_key_keeps_its_place_and_comment() {
    let new = with_key(TEXT, "gun.fan", "0.4").unwrap();
    assert_eq!(new, TEXT.replace("fan = 1.0 ", "fan = 0.4 "));
    let new = with_key(TEXT, "gun.fan", " 40 % ").unwrap();
    assert_eq!(new, TEXT.replace("fan = 1.0 ", "fan = \"40 %\" "));
    let new = with_key(TEXT, "part.panel.height", "16 in").unwrap();
    assert_eq!(new, TEXT.replace("\"400 mm\"", "\"16 in\""));
}

#[test]
fn new_keys_go_to_the_end_of_their_table() {
    let new = with_key(TEXT, "gun.inlet_pressure", "2.0 bar").unwrap();
    assert_eq!(new, TEXT.replace("wide open\n", "wide open\ninlet_pressure = \"2.0 bar\"\n"));
    let new = with_key(TEXT, "name", "a \"fine\" table").unwrap();
    let job = Job::from_toml(&new).unwrap();
    assert_eq!(job.name, "a \"fine\" table");
    assert!(new.starts_with("# our table top\nversion = 1\nname = "), "{new}");
    let new = with_key(TEXT, "booth.temperature", "25 C").unwrap();
    assert_eq!(new, format!("{TEXT}\n[booth]\ntemperature = \"25 C\"\n"));
    let cup = with_key(TEXT, "paint.cup.standard", "din-4").unwrap();
    let cup = with_key(&cup, "paint.cup.seconds", "18").unwrap();
    assert_eq!(
        cup,
        TEXT.replace("-clear\"\n", "-clear\"\ncup.standard = \"din-4\"\ncup.seconds = 18\n"),
        "{cup}"
    );
    let new = with_key(TEXT.trim_end(), "stroke.coats", "2").unwrap();
    assert_eq!(new, format!("{TEXT}coats = 2\n"));
    let spec = with_key(TEXT, "spec.dry_film", "[\"20 um\", \"35 um\"]").unwrap();
    assert!(Job::from_toml(&spec).unwrap().spec.is_some());
    assert_eq!(with_key("", "run.seed", "7").unwrap(), "\n[run]\nseed = 7\n");
    assert_eq!(
        with_key("[part]\npanel = {}\n", "part.panel.width", "1 m").unwrap(),
        "[part]\npanel = { width = \"1 m\" }\n"
    );
}

/// From the panel to a tube and back.
#[test]
fn taking_out() {
    let bare = without_key(TEXT, "part.panel").unwrap();
    assert_eq!(bare, TEXT.replace("panel = { width = \"600 mm\", height = \"400 mm\" }  # flat\n", ""));
    let tube = with_key(&bare, "part.tube.diameter", "22 mm").unwrap();
    let tube = with_key(&tube, "part.tube.length", "600 mm").unwrap();
    assert!(Job::from_toml(&tube).is_ok(), "{tube}");
    let back = without_key(&tube, "part.tube").unwrap();
    assert_eq!(back, bare);
    assert_eq!(without_key(TEXT, "part.panel.width").unwrap(), TEXT.replace("width = \"600 mm\", ", ""));
    assert_eq!(without_key(TEXT, "part.panel.height").unwrap(), TEXT.replace(", height = \"400 mm\"", ""));
    assert_eq!(without_key(TEXT, "stroke.burst").unwrap(), TEXT);
    let headed = TEXT.replace(
        "panel = { width = \"600 mm\", height = \"400 mm\" }  # flat\n",
        "[part.panel]\nwidth = \"600 mm\"\nheight = \"400 mm\"\n",
    );
    assert!(Job::from_toml(&headed).is_ok());
    assert_eq!(
        without_key(&headed, "part.panel").unwrap(),
        TEXT.replace("panel = { width = \"600 mm\", height = \"400 mm\" }  # flat\n", "")
    );
}

#[test]
fn a_value_as_it_stands() {
    let of = |path| as_written(TEXT, path).unwrap();
    assert_eq!(of("gun.fan").as_deref(), Some("1.0"));
    assert_eq!(of("part.panel.width").as_deref(), Some("600 mm"));
    assert_eq!(of("part.tube.length"), None);
    assert_eq!(of("gun.fluid"), None);
    assert!(as_written(TEXT, "gun.fna").is_err());
    assert!(as_written(TEXT, "part.panel").is_err());
}

#[test]
fn refusals() {
    for (path, value, part) in [
        ("gun.fan", "1.4", "0 to 1"),
        ("gun.fan", "nan", "0 to 1"),
        ("gun.inlet_pressure", "2", "text with a unit"),
        ("gun.fna", "0.4", "kit"),
        ("stroke.coats", "two", "whole number"),
        ("part.panel", "x", "width"),
        ("spec.dry_film", "[\"20 um\",", "two values"),
        ("spec.dry_film", "[\"20 um\", \"35 um\"]\nper = \"coat\"", "two values"),
        ("gun.fan", "0.4\nfluid = 1", "0 to 1"),
    ] {
        let error = with_key(TEXT, path, value).unwrap_err();
        assert!(error.allowed.contains(part), "{error}");
        assert_eq!(error.key, path);
    }
    assert!(with_key("= 3", "gun.fan", "0.4").is_err());
    assert!(without_key(TEXT, "gun.fna").is_err());
    // A plain value where a table belongs is replaced, or refused in words; never a broken text.
    if let Ok(text) = with_key("part = 3\n", "part.panel.width", "1 m") {
        assert!(text.contains("1 m"), "{text}");
    }
}

const OWN_FRAME: &str = "{ tubes = [{ from = [\"0 mm\", \"0 mm\", \"0 mm\"], to = [\"0 mm\", \"450 mm\", \"0 mm\"], diameter = \"22 mm\" }] }";

/// Every key can be set to the ends of its range in a text that lacks it, and the text stays TOML.
#[test]
fn every_key_can_be_set_and_taken_out() {
    for key in KEYS {
        let values: Vec<String> = match key.kind {
            Kind::Band(_) => vec![format!("[\"{}\", \"{}\"]", key.range.0, key.range.1)],
            Kind::Flag => vec!["true".into()],
            Kind::Text => vec!["it's \\ \"so\" [x]".into()],
            Kind::Choice(words) => words.iter().map(|w| (*w).into()).collect(),
            Kind::Words(words) => vec!["[]".into(), format!("[\"{}\", \"{}\"]", words[0], words[1])],
            Kind::Names => vec!["[]".into(), "[\"seat rail, front\"]".into()],
            Kind::Frame => vec!["chair".into(), OWN_FRAME.into()],
            Kind::Kits => vec!["[]".into(), "[{ kit = \"lvlp-gravity-1.2\", price = 240 }]".into()],
            Kind::Shares => vec!["[]".into(), "[0.79, \"81 %\"]".into()],
            Kind::Moments => vec!["[[0, 0, 0, 180, 0, 0, 1], [1, 9, 0, 180, 0, 0, 0]]".into()],
            Kind::KitId => vec!["hvlp-gravity-1.3".into()],
            Kind::PaintId => vec!["two-pack-clear".into()],
            Kind::CupId => vec!["din-4".into()],
            Kind::CompressorId => vec!["workshop-2kW".into()],
            Kind::AirUsers => vec!["[{ name = \"mask\", air = \"170 L/min\" }]".into()],
            Kind::Mix => vec!["4:1:1".into()],
            Kind::Solvents => vec!["[{ name = \"acetone\", share = 1 }]".into()],
            _ => vec![key.range.0.into(), key.range.1.into()],
        };
        for value in values {
            let set =
                with_key(TEXT, key.path, &value).unwrap_or_else(|e| panic!("{} = {value}: {e}", key.path));
            let again = with_key(&set, key.path, &value).unwrap();
            assert_eq!(set, again);
            let read = as_written(&set, key.path).unwrap().unwrap();
            assert_eq!(read, value, "{}", key.path);
            let without = without_key(&set, key.path).unwrap_or_else(|e| panic!("{}: {e}", key.path));
            assert!(!without.contains(&value) || TEXT.contains(&value) || value.len() < 2, "{}", key.path);
        }
    }
}
