//! Figures as the page says them, and as people type them.

use mistcoat::units::{Quantity, System, in_units, parse_number, show, unit_shown};

/// Thin no-break space between a number and its unit.
pub const THIN: char = '\u{202f}';

/// A SI value in words: "2.0 bar", "26 µm", the number never parted from its unit.
pub fn said(quantity: Quantity, si: f64, system: System) -> String {
    let text = show(quantity, si, system);
    let text = if quantity == Quantity::Temperature { text.replace(' ', " °") } else { text };
    text.replace("um", "µm").replace("mm2", "mm²").replace(' ', &THIN.to_string())
}

/// A sentence of the library in the page's units, set as the page sets them.
pub fn in_words(text: &str, system: System) -> String {
    with_signs(&in_units(text, system))
}

/// The library's words as the page sets them: micron and degree by their signs, these units never parted from their number.
pub fn with_signs(sentence: &str) -> String {
    let mut out = sentence.to_string();
    for (from, to) in [
        (" um", "\u{202f}µm"),
        (" mil", "\u{202f}mil"),
        (" min", "\u{202f}min"),
        (" C", "\u{202f}°C"),
        (" F", "\u{202f}°F"),
    ] {
        let mut parts = out.split(from);
        let mut joined = parts.next().unwrap_or_default().to_string();
        for part in parts {
            // Only behind a figure, and only as a whole word.
            let unit =
                joined.ends_with(|c: char| c.is_ascii_digit()) && !part.starts_with(char::is_alphanumeric);
            joined += if unit { to } else { from };
            joined += part;
        }
        out = joined;
    }
    out
}

/// A droplet's size [um]: in microns in US workshops too.
pub fn drop_size(um: f64) -> String {
    said(Quantity::Film, um * 1e-6, System::Metric)
}

/// A length of many parts together [m]: feet, where inches would be hundreds.
pub fn far(length: f64, system: System) -> String {
    match system {
        System::Metric => said(Quantity::Length, length, system),
        System::Us => format!("{:.0}{THIN}ft", length / 0.3048),
    }
}

/// A long length [m]: "5.6 m", in US workshops in feet.
pub fn metres(length: f64, system: System) -> String {
    match system {
        System::Metric => format!("{length:.1}{THIN}m"),
        System::Us => far(length, system),
    }
}

/// A SI value in words, parted into number and unit.
pub fn parted(quantity: Quantity, si: f64, system: System) -> (String, String) {
    let text = said(quantity, si, system);
    match text.split_once(THIN) {
        Some((number, unit)) => (number.into(), unit.into()),
        None => (text, String::new()),
    }
}

/// Typed text with the unit shown added to a bare number.
pub fn with_unit(text: &str, quantity: Quantity, system: System) -> String {
    let text = text.replace(THIN, " ").replace('µ', "u").replace('²', "2");
    let text = text.trim();
    if parse_number(text).is_ok() {
        format!("{text} {}", unit_shown(quantity, system).0)
    } else {
        text.into()
    }
}

/// Seconds as "47 s" or "2 min 04 s".
pub fn seconds(s: f64) -> String {
    if !s.is_finite() {
        return "-".into();
    }
    let whole = s.round();
    if s < 10.0 {
        format!("{s:.1}{THIN}s")
    } else if whole < 100.0 {
        format!("{whole:.0}{THIN}s")
    } else {
        format!("{:.0}{THIN}min{THIN}{:02.0}{THIN}s", (whole / 60.0).floor(), whole % 60.0)
    }
}

/// A time as it is typed: "1.0 s", "8 min" from two minutes on.
pub fn minutes(s: f64) -> String {
    // Only where nothing is lost: what is shown may be sent back.
    let tenths = (s / 6.0).round();
    if s >= 120.0 && (6.0 * tenths - s).abs() < 1e-6 {
        return format!("{}{THIN}min", tenths / 10.0);
    }
    said(Quantity::Time, s, System::Metric)
}

/// A share as "45" of 100; one digit more below 1.
pub fn of_100(share: f64) -> String {
    let v = 100.0 * share;
    if !v.is_finite() {
        "-".into()
    } else if v > 0.0 && v < 0.95 {
        format!("{v:.1}")
    } else {
        format!("{v:.0}")
    }
}

const EIGHTHS: [&str; 8] = ["", "\u{215b}", "¼", "\u{215c}", "½", "\u{215d}", "¾", "\u{215e}"];

/// Turns to the nearest eighth: "2¼", "½", "0".
pub fn turns(t: f64) -> String {
    if !t.is_finite() {
        return "-".into();
    }
    let eighths = (t.max(0.0) * 8.0).round() as u32;
    let (whole, part) = (eighths / 8, EIGHTHS[(eighths % 8) as usize]);
    match (whole, part) {
        (0, "") => "0".into(),
        (0, part) => part.into(),
        (whole, part) => format!("{whole}{part}"),
    }
}

/// Turns as typed: "2 1/4", "2¼", "2.25", "1/2".
///
/// None when it is no such number.
pub fn parse_turns(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".");
    if text.is_empty() || text.starts_with('-') {
        return None;
    }
    let plain = |t: &str| -> Option<f64> {
        if !t.chars().all(|c| c.is_ascii_digit() || c == '.') {
            return None;
        }
        t.parse::<f64>().ok()
    };
    let part = |t: &str| -> Option<f64> {
        if let Some(k) = EIGHTHS.iter().position(|e| !e.is_empty() && *e == t) {
            return Some(k as f64 / 8.0);
        }
        let (a, b) = t.split_once('/')?;
        let (a, b) = (plain(a)?, plain(b)?);
        (b > 0.0 && a < b).then(|| a / b)
    };
    if let Some(v) = plain(&text).or_else(|| part(&text)) {
        return Some(v);
    }
    let (whole, rest) = text.split_once(' ').or_else(|| {
        let at = text.char_indices().find(|(_, c)| !c.is_ascii_digit())?.0;
        (at > 0).then(|| text.split_at(at))
    })?;
    Some(plain(whole)? + part(rest.trim())?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_read_back_as_said() {
        for eighths in 0..40_u32 {
            let t = f64::from(eighths) / 8.0;
            assert_eq!(parse_turns(&turns(t)), Some(t), "{}", turns(t));
        }
        assert_eq!(parse_turns("2 1/4"), Some(2.25));
        assert_eq!(parse_turns(" 0,5 "), Some(0.5));
        for bad in ["", "-1", "two", "1/0", "5/4", "1e3", "nan", "2 x", "1 1"] {
            assert_eq!(parse_turns(bad), None, "{bad}");
        }
    }

    #[test]
    fn units_keep_to_their_number() {
        assert_eq!(said(Quantity::Film, 26e-6, System::Metric), "26\u{202f}µm");
        assert_eq!(said(Quantity::Temperature, 293.15, System::Metric), "20\u{202f}°C");
        assert_eq!(parted(Quantity::Pressure, 2e5, System::Metric), ("2.0".into(), "bar".into()));
        assert_eq!(seconds(124.0), "2\u{202f}min\u{202f}04\u{202f}s");
        assert_eq!(seconds(f64::NAN), "-");
        assert_eq!(of_100(0.154), "15");
        assert_eq!(of_100(0.004), "0.4");
    }

    #[test]
    fn units_of_a_sentence_stay_with_their_numbers() {
        assert_eq!(with_signs("thinnest 17 um at the edge"), "thinnest 17\u{202f}µm at the edge");
        assert_eq!(with_signs("part at 12 C, air 54 F."), "part at 12\u{202f}°C, air 54\u{202f}°F.");
        let sentence = "Next coat after 8 min. 3 Cats, a mild day";
        assert_eq!(with_signs(sentence), "Next coat after 8\u{202f}min. 3 Cats, a mild day");
    }
}
