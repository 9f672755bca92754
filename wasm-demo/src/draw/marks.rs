//! Marks of runs, dry spray and bare places over a film map: each by its own pattern inside an outline, so that none needs colour.

use mistcoat::film::Mark;
use mistcoat::report::chart::film_map::{INK, Picture, mix};

use crate::state::{FilmGrid, SetGrid};

/// Draws the marks of a face over its map. `dots_per_px` is the screen's pixels for each CSS pixel.
///
/// Runs: upright strokes that hang. Dry: crosses. Bare: the outline alone.
pub fn over(picture: &mut Picture, grid: &FilmGrid, set: &SetGrid, dots_per_px: f64) {
    let (w, h) = (picture.width, picture.height);
    if set.cells.len() != grid.nx * grid.ny || w == 0 || h == 0 || !grid.is_sound() {
        return;
    }
    let k = if dots_per_px.is_finite() { dots_per_px.clamp(0.5, 4.0) } else { 1.0 };
    let word = |x: usize, y: usize| {
        let (i, j) = ((x * grid.nx / w).min(grid.nx - 1), (y * grid.ny / h).min(grid.ny - 1));
        set.cells[j * grid.nx + i].mark
    };
    let kind = |mark: Mark| mark.word();
    let thick = (1.6 * k).round().max(1.0) as usize;
    for y in 0..h {
        for x in 0..w {
            let mark = word(x, y);
            let here = kind(mark);
            let edge = kind(word((x + thick).min(w - 1), y)) != here
                || kind(word(x, (y + thick).min(h - 1))) != here;
            let cover = if edge {
                0.9
            } else {
                here.map_or(0.0, |word| pattern(word, x as f64 / k, y as f64 / k, k))
            };
            if cover > 0.0 {
                let at = 4 * (y * w + x);
                let under = [picture.rgba[at], picture.rgba[at + 1], picture.rgba[at + 2]];
                // Ink on light film, sheet on dark film.
                let light = under.iter().map(|&c| u32::from(c)).sum::<u32>() > 330;
                let ink = if light { INK } else { [0xFC, 0xF9, 0xF2] };
                picture.rgba[at..at + 3].copy_from_slice(&mix(under, ink, cover));
            }
        }
    }
}

/// Cover of a mark's pattern at a place [CSS px].
pub fn pattern(word: &str, x: f64, y: f64, k: f64) -> f64 {
    let soft = |inside: f64| (0.5 + inside * k).clamp(0.0, 1.0);
    match word {
        // Strokes of 12 px hanging every 14, staggered, thicker at their foot.
        "run" => {
            let lane = (x / 14.0).floor();
            let along = (y + if lane.rem_euclid(2.0) < 1.0 { 0.0 } else { 12.0 }).rem_euclid(24.0);
            let half = 0.5 + 1.1 * (along / 12.0).min(1.0);
            if along > 12.0 { 0.0 } else { soft(half - (x - 14.0 * lane - 7.0).abs()) }
        }
        // Crosses of 5 px every 14, staggered.
        "dry" => {
            let row = (y / 14.0).floor();
            let shift = if row.rem_euclid(2.0) < 1.0 { 0.0 } else { 7.0 };
            let (dx, dy) = ((x + shift).rem_euclid(14.0) - 7.0, y - 14.0 * row - 7.0);
            if dx.abs() > 2.5 || dy.abs() > 2.5 {
                0.0
            } else {
                soft(0.55 - (dx.abs() - dy.abs()).abs() * 0.707)
            }
        }
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::SetCell;

    fn all(mark: Mark) -> (FilmGrid, SetGrid) {
        let cell = SetCell { dry: 3e-5, waviness: 0.0, dryness: 0.0, slid: 0.0, mark };
        let set = SetGrid { cells: vec![cell; 64].into(), tears: None, down: vec![(0.0, 1.0); 8].into() };
        (FilmGrid { nx: 8, ny: 8, size: (0.1, 0.1), dry: vec![3e-5; 64].into(), set: None }, set)
    }

    fn inked(mark: Mark) -> f64 {
        let (grid, set) = all(mark);
        let mut picture = Picture { width: 160, height: 160, rgba: vec![255; 160 * 160 * 4] };
        over(&mut picture, &grid, &set, 1.0);
        picture.rgba.chunks(4).filter(|c| c[0] < 200).count() as f64 / (160.0 * 160.0)
    }

    #[test]
    fn each_mark_has_a_pattern_of_its_own_and_a_sound_film_none() {
        assert_eq!(inked(Mark::Sound), 0.0);
        let (run, dry) = (inked(Mark::Slid), inked(Mark::Scattered));
        assert!((0.04..0.25).contains(&run) && (0.04..0.25).contains(&dry), "{run} {dry}");
        // Strokes are long upright, crosses are not.
        let column = |word: &str| (0..160).filter(|&y| pattern(word, 7.0, f64::from(y), 1.0) > 0.5).count();
        assert!(column("run") > 2 * column("dry"));
    }

    #[test]
    fn an_outline_parts_a_bare_place_from_the_rest() {
        let (grid, mut set) = all(Mark::Sound);
        let mut cells = set.cells.to_vec();
        cells[27].mark = Mark::Bare;
        set.cells = cells.into();
        let mut picture = Picture { width: 160, height: 160, rgba: vec![255; 160 * 160 * 4] };
        over(&mut picture, &grid, &set, 1.0);
        assert!(picture.rgba.chunks(4).any(|c| c[0] < 100));
    }
}
