//! Small signs of the patterns that a run can tell, 28 by 40 px about (0, 0).

/// The sign of a pattern's word; none for a word that has no sign.
pub fn pattern(word: &str) -> Option<&'static str> {
    Some(match word {
        "balanced" => r#"<ellipse rx="5" ry="14"/>"#,
        "heavy centre" => {
            r#"<path d="M0 -14C2 -6 9 -4 9 0C9 4 2 6 0 14C-2 6 -9 4 -9 0C-9 -4 -2 -6 0 -14Z"/>"#
        }
        "split" => {
            r#"<path d="M0 -14C6 -14 7.500 -5 3.500 0C7.500 5 6 14 0 14C-6 14 -7.500 5 -3.500 0C-7.500 -5 -6 -14 0 -14Z"/>"#
        }
        "crescent" => r#"<path d="M-5 -14C7 -8 7 8 -5 14C0 6 0 -6 -5 -14Z"/>"#,
        "heavy end" => r#"<path d="M0 -14C2 -4 8 2 8 8C8 13 4 14 0 14C-4 14 -8 13 -8 8C-8 2 -2 -4 0 -14Z"/>"#,
        "starved" => r#"<ellipse rx="2.2" ry="9"/>"#,
        "flooded" => {
            r#"<path d="M0 -14C6 -14 7 -6 7 0C7 5 6 8 4.500 8V13A1 1 0 0 1 2.500 13V9H1V16A1 1 0 0 1 -1 16V9H-3V12A1 1 0 0 1 -4.800 12V8C-6 7 -7 5 -7 0C-7 -6 -6 -14 0 -14Z"/>"#
        }
        "spitting" => {
            r#"<ellipse rx="4" ry="12"/><circle cx="-9" cy="-6" r="2"/><circle cx="9" cy="2" r="2.400"/><circle cx="-8" cy="8" r="1.600"/><circle cx="8" cy="-10" r="1.500"/><circle cx="7" cy="11" r="1.800"/>"#
        }
        "round" => r#"<circle r="6"/>"#,
        _ => return None,
    })
}

/// The same, its belly or heavy end to the side that the card shows; drawn belly right, heavy end down.
pub fn towards(word: &str, side: Option<&str>) -> String {
    let turn = match (word, side) {
        ("crescent", Some("left")) => "scale(-1 1)",
        ("crescent", Some("up")) => "rotate(-90)",
        ("crescent", Some("down")) => "rotate(90)",
        ("heavy end", Some("up")) => "scale(1 -1)",
        ("heavy end", Some("left")) => "rotate(90)",
        ("heavy end", Some("right")) => "rotate(-90)",
        _ => return pattern(word).unwrap_or_default().into(),
    };
    super::svg::group(turn, pattern(word).unwrap_or_default())
}
