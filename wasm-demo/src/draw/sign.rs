//! Small signs of the eight patterns, 28 by 40 px about (0, 0).

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
        "crescent" => r#"<path d="M-4 -14C8 -9 8 9 -4 14C1.500 6 1.500 -6 -4 -14Z"/>"#,
        "heavy end" => {
            r#"<path d="M0 -14C3 -8 8 2 8 8C8 12.500 4 14 0 14C-4 14 -8 12.500 -8 8C-8 2 -3 -8 0 -14Z"/>"#
        }
        "starved" => r#"<ellipse rx="1.800" ry="10"/>"#,
        "flooded" => {
            r#"<path d="M0 -14C5.500 -14 6.500 -6 6.500 0C6.500 4 6 7 5.500 9V13H4V10H1V17H-1V10H-4V14H-5.500V9C-6 7 -6.500 4 -6.500 0C-6.500 -6 -5.500 -14 0 -14Z"/>"#
        }
        "spitting" => {
            r#"<ellipse rx="3.500" ry="12"/><circle cx="-9" cy="-7" r="1.800"/><circle cx="9" cy="-10" r="1.500"/><circle cx="-8" cy="6" r="1.500"/><circle cx="8" cy="3" r="2"/><circle cx="9" cy="11" r="1.300"/>"#
        }
        _ => return None,
    })
}
