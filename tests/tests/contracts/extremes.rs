//! Jobs at the ends of what a job file may say fly to figures that can be, and `docs/methods/extremes.md` says which.

use mistcoat_tests::extremes::{EXTREMES, page};
use std::path::Path;

#[test]
fn the_ends_are_as_the_page_has_them() {
    let all: Vec<_> = EXTREMES.iter().map(|extreme| (extreme, extreme.came())).collect();
    let now = page(&all);
    println!("{now}");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/methods/extremes.md");
    let written = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    for (extreme, came) in &all {
        assert!(!extreme.said.is_empty(), "{}: nobody has looked at it", extreme.what);
        let row = written.lines().find(|line| line.starts_with(&format!("| {} |", extreme.what)));
        let row = row.unwrap_or_else(|| panic!("{}: not on the page", extreme.what));
        let cells: Vec<f64> = row.split('|').filter_map(|cell| cell.trim().parse().ok()).collect();
        let figures: Vec<f64> = came.figures().map_or(Vec::new(), |f| f.into_iter().flatten().collect());
        assert_eq!(cells.len(), figures.len(), "{}", extreme.what);
        for (cell, figure) in cells.iter().zip(&figures) {
            // A page of sense, not of digits: those are on record elsewhere.
            let near = (cell - figure).abs() <= 0.1 * figure.abs() + 0.5;
            assert!(near, "{}: {figure} where the page has {cell}: {row}", extreme.what);
        }
    }
}
