//! Editing works on every way of writing the same file: headers, dotted keys, inline tables, comments, any order.

use std::collections::BTreeMap;

use mistcoat::job::{KEYS, Key, Kind, with_key, without_key};
use proptest::prelude::*;

/// A good value of a key, written as TOML; `high` picks another one.
fn value(key: &Key, high: bool) -> String {
    let (low_end, high_end) = key.range;
    let end = if high { high_end } else { low_end };
    match key.kind {
        Kind::Quantity(_) => format!("\"{end}\""),
        Kind::Band(_) => format!("[\"{low_end}\", \"{high_end}\"]"),
        Kind::Share | Kind::Number | Kind::Count if end.contains('%') => format!("\"{end}\""),
        Kind::Share | Kind::Number | Kind::Count => end.into(),
        Kind::Flag => high.to_string(),
        Kind::Text => format!("\"{}\"", if high { "# [b] = {" } else { "a, b" }),
        Kind::Choice(words) => format!("\"{}\"", words[usize::from(high)]),
        Kind::Words(words) => format!("[\"{}\"]", words[usize::from(high)]),
        Kind::Names => (if high { "[]" } else { "[\"seat rail, front\", \"leg\"]" }).into(),
        // A table of its own would be walked into by `flat`.
        Kind::Frame => (if high { "\"railing\"" } else { "\"chair\"" }).into(),
        Kind::Kits => (if high { "[]" } else { "[{ kit = \"lvlp-gravity-1.2\" }]" }).into(),
        Kind::Shares => (if high { "[]" } else { "[0.79, \"81 %\"]" }).into(),
        Kind::Moments => if high {
            "[[0, 0, 0, 180, 0, 0, 1], [1.5, 300, 0, 180, 0, 0, 0]]"
        } else {
            "[\n  [0, 0, 0, 180, 0, 0, 1, 90], # first\n  [2, 10, 0, 180, 0, 0, 0],\n]"
        }
        .into(),
        Kind::KitId => "\"hvlp-gravity-1.3\"".into(),
        Kind::PaintId => "\"two-pack-clear\"".into(),
        Kind::CupId => format!("\"{}\"", if high { "din-4" } else { "ford-4" }),
        Kind::Mix => "\"2:1\"".into(),
        Kind::CompressorId => "\"workshop-2kW\"".into(),
        Kind::AirUsers => "[\n  { name = \"mask\", air = \"170 L/min\" }, # first\n]".into(),
        Kind::Solvents => "[\n  { name = \"acetone\", share = 1 }, # fast\n]".into(),
    }
}

/// Keys that can stand beside all others: a compressor is named or has a table, not both.
fn together() -> Vec<&'static Key> {
    let has_keys = |path: &str| KEYS.iter().any(|k| k.path.starts_with(&format!("{path}.")));
    KEYS.iter().filter(|key| !has_keys(key.path)).collect()
}

/// The keys and values of a text, by dotted path.
fn flat(text: &str) -> BTreeMap<String, toml::Value> {
    fn walk(table: &toml::Table, prefix: &str, out: &mut BTreeMap<String, toml::Value>) {
        for (name, value) in table {
            let path = if prefix.is_empty() { name.clone() } else { format!("{prefix}.{name}") };
            match value {
                toml::Value::Table(inner) => walk(inner, &path, out),
                other => {
                    out.insert(path, other.clone());
                }
            }
        }
    }
    let mut out = BTreeMap::new();
    walk(&text.parse().unwrap_or_else(|e| panic!("{e}\n{text}")), "", &mut out);
    out
}

/// A file with these keys. `top` and `inner` say how tables and the tables inside them are written.
fn write(keys: &[&Key], top: u8, inner: u8, newline: &str) -> String {
    let mut groups: Vec<(&str, Vec<&Key>)> = Vec::new();
    for key in keys {
        let section = key.path.split_once('.').map_or("", |(section, _)| section);
        match groups.iter_mut().find(|(s, _)| *s == section) {
            Some((_, members)) => members.push(key),
            None => groups.push((section, vec![key])),
        }
    }
    // Keys without a table, and dotted ones, must come before the first header.
    groups.sort_by_key(|(section, _)| !section.is_empty());
    let mut text = format!("# first line{newline}");
    for (section, members) in groups {
        let mut lines: Vec<String> = Vec::new();
        let mut headed: Vec<String> = Vec::new();
        let mut subs: Vec<(&str, Vec<String>)> = Vec::new();
        for key in &members {
            let name = key.path.strip_prefix(section).unwrap().trim_start_matches('.');
            match name.split_once('.') {
                None => lines.push(format!("{name} = {}", value(key, false))),
                Some((sub, leaf)) => {
                    let line = format!("{leaf} = {}", value(key, false));
                    match subs.iter_mut().find(|(s, _)| *s == sub) {
                        Some((_, all)) => all.push(line),
                        None => subs.push((sub, vec![line])),
                    }
                }
            }
        }
        let dotted_top = top == 0 || section.is_empty();
        for (sub, all) in subs {
            match inner {
                0 => lines.push(format!("{sub} = {{ {} }}", all.join(", "))),
                1 if !dotted_top => headed.push(format!("[{section}.{sub}]{newline}{}", all.join(newline))),
                _ => lines.extend(all.iter().map(|line| format!("{sub}.{line}"))),
            }
        }
        match (dotted_top, section) {
            (_, "") => text += &lines.join(newline),
            (true, _) => {
                let dotted: Vec<_> = lines.iter().map(|line| format!("{section}.{line}")).collect();
                text += &dotted.join(newline);
            }
            // A table that only its inner tables' headers name.
            (false, _) if lines.is_empty() && !headed.is_empty() => text += &headed.join(newline),
            (false, _) => {
                text += &format!("[{section}] # {section}{newline}");
                lines.extend(headed);
                text += &lines.join(&format!("  # kept{newline}"));
            }
        }
        text += newline;
    }
    text
}

proptest! {
    #![proptest_config(crate::units::config())]

    #[test]
    fn one_key_changes_and_no_other(
        keys in proptest::sample::subsequence(together(), 0..20),
        key in proptest::sample::select(together()),
        top in 0_u8..3,
        inner in 0_u8..3,
        windows in any::<bool>(),
    ) {
        let text = write(&keys, top, inner, if windows { "\r\n" } else { "\n" });
        let before = flat(&text);
        prop_assert_eq!(before.len(), keys.len(), "{}", text);
        let literal = value(key, true);
        let said = literal.strip_prefix('"').and_then(|v| v.strip_suffix('"')).unwrap_or(&literal);

        let set = with_key(&text, key.path, said).map_err(|e| TestCaseError::fail(format!("{e}\n{text}")))?;
        let mut after = flat(&set);
        let want: toml::Table = format!("x = {literal}").parse().unwrap();
        let got = after.remove(key.path);
        prop_assert_eq!(got.as_ref(), want.get("x"), "{}", set);
        let mut rest = before.clone();
        rest.remove(key.path);
        prop_assert_eq!(&after, &rest, "{}\n->\n{}", text, set);
        for comment in ["# first line", "# kept", "# gun", "# fast"] {
            prop_assert!(set.matches(comment).count() >= text.matches(comment).count(), "{}", set);
        }

        let cut = without_key(&set, key.path).map_err(|e| TestCaseError::fail(format!("{e}\n{set}")))?;
        prop_assert_eq!(&flat(&cut), &rest, "{}\n->\n{}", set, cut);
        for table in ["part.panel", "part.tube", "paint.cup", "supply.compressor", "stroke"] {
            let cut = without_key(&set, table).map_err(|e| TestCaseError::fail(format!("{e}\n{set}")))?;
            let mut rest = flat(&set);
            rest.retain(|path, _| !path.starts_with(&format!("{table}.")));
            prop_assert_eq!(&flat(&cut), &rest, "{}: {}\n->\n{}", table, set, cut);
        }
    }
}
