//! The flood test's card: spray and runs in the job's paint, to scale, 1 px for each mm.

use super::svg::{line, n, path, text};
use crate::task::flood::Answer;

/// Card [px = mm], and the fan's middle on it.
const CARD: (f64, f64) = (500.0, 400.0);
const MIDDLE: (f64, f64) = (250.0, 90.0);

/// Outline down one side and up the other of columns that hang together.
fn outline(columns: &[(f64, f64, f64)], half: f64) -> String {
    let mut d = String::new();
    for (i, (x, top, _)) in columns.iter().enumerate() {
        d += &format!("{}{} {}", if i == 0 { "M" } else { "L" }, n(*x), n(*top));
    }
    for (x, _, low) in columns.iter().rev() {
        // Each column ends round, as a tear does.
        d += &format!(
            "L{} {}A{} {} 0 0 1 {} {}",
            n(x + half),
            n(*low),
            n(half),
            n(half),
            n(x - half),
            n(*low)
        );
    }
    d + "Z"
}

/// The card with what has run.
pub fn curtain(answer: &Answer) -> String {
    let mut out = path("flood-card", &format!("M0 0H{}V{}H0Z", CARD.0, CARD.1));
    for y in [20.0, 220.0, 320.0] {
        out += &line("flood-rule", (0.0, y), (CARD.0, y));
    }
    let half = 0.5 * answer.column;
    let first = -half * answer.columns.len() as f64 + half;
    let mut spray: Vec<Vec<(f64, f64, f64)>> = vec![Vec::new()];
    let mut runs = spray.clone();
    for (i, column) in answer.columns.iter().enumerate() {
        let x = MIDDLE.0 + first + answer.column * i as f64;
        match column.filter(|_| x > half && x < CARD.0 - half) {
            Some(c) => {
                let at = |mm: f64| (MIDDLE.1 + mm).clamp(0.0, CARD.1 - half);
                if let (Some(s), Some(r)) = (spray.last_mut(), runs.last_mut()) {
                    s.push((x, at(c.top), at(c.edge)));
                    r.push((x, at(c.top), at(c.lowest)));
                }
            }
            None => {
                spray.push(Vec::new());
                runs.push(Vec::new());
            }
        }
    }
    for part in runs.iter().filter(|p| !p.is_empty()) {
        out += &path("flood-run", &outline(part, half));
    }
    for part in spray.iter().filter(|p| !p.is_empty()) {
        out += &path("flood-spray", &outline(part, half));
    }
    out += &path("flood-edge", &format!("M0 0H{}V{}H0Z", CARD.0, CARD.1));
    // A rule of 100 mm.
    out += &line("part", (390.0, 410.0), (490.0, 410.0));
    for x in [390.0, 490.0] {
        out += &line("part", (x, 406.0), (x, 414.0));
    }
    out + &text("axis-figure", (380.0, 414.0), "end", "100\u{202f}mm")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::task::flood::Column;

    #[test]
    fn a_gap_parts_the_curtain_and_nothing_leaves_the_card() {
        let wet = |lowest| Some(Column { top: -20.0, edge: 10.0, lowest });
        let answer = Answer {
            column: 4.0,
            columns: vec![wet(50.0), wet(9000.0), None, wet(20.0)],
            longest: 40.0,
            reading: "even".into(),
        };
        let drawn = curtain(&answer);
        assert_eq!(drawn.matches("flood-run").count(), 2);
        assert!(!drawn.contains("9000") && !drawn.contains("NaN"));
        assert!(curtain(&Answer { columns: Vec::new(), ..answer }).contains("flood-card"));
    }
}
