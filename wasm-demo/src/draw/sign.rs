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
        "round" => r#"<circle r="6"/>"#,
        _ => return None,
    })
}
