//! Film pictures: as the eye would see it, and as a map.
//!
//! Both give opaque RGBA bytes, row by row, at any pixel size. Pattern pitches are in screen pixels and never follow
//! the part's size.

use mistcoat::report::chart::film_map::{self, Field, drawable, mix, paint_over};
pub use mistcoat::report::chart::film_map::{Picture, Wanted, key};

use super::grain;
use super::marks;
use super::tears::{Tears, tears};
use crate::state::{FilmGrid, SetCell};

/// What the paint lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// Test card: black and white stripes of 10 mm inside a white rim of 6 mm.
    Striped,
    /// Plain old colour, with a striped strip of 40 mm at the right edge.
    Old([u8; 3]),
}

const CARD_WHITE: [u8; 3] = [0xF7, 0xF6, 0xF1];
const CARD_BLACK: [u8; 3] = [0x16, 0x15, 0x13];
/// As the eye sees it: hiding, wetness, and once it has set its grain and its runs. `hide` is the dry film that hides 63 % of the
/// ground [m]; `film` the paint's colour.
///
/// None when the grid is unsound or the picture is empty or larger than 16 million pixels.
pub fn as_seen(
    grid: &FilmGrid,
    ground: Ground,
    hide: f64,
    film: [u8; 3],
    size: (usize, usize),
) -> Option<Picture> {
    let (w, h) = drawable(size)?;
    let raw = now(grid)?;
    let lit = raw.smooth(3).smooth(3);
    let hide = if hide.is_finite() && hide > 0.0 { hide } else { return None };
    let step = (1.0 / w as f64, 1.0 / h as f64);
    let pixel = (grid.width() * step.0).max(grid.height() * step.1);
    let set = grid.set.as_deref().filter(|set| set.cells.len() == grid.nx * grid.ny);
    let of = |value: fn(&SetCell) -> f32| {
        let values: Vec<f32> = set?.cells.iter().map(value).collect();
        Field::new(grid.nx, grid.ny, &values)
    };
    let (wavy, dry) = (of(|c| c.waviness), of(|c| c.dryness));
    let hanging = set.map_or_else(Tears::default, |set| tears(grid, set));
    Some(paint_over(w, h, |x, y| {
        let (u, v) = ((x as f64 + 0.5) * step.0, (y as f64 + 0.5) * step.1);
        let (mx, my) = (u * grid.width(), v * grid.height());
        let base = ground_colour(ground, (mx, my), (grid.width(), grid.height()));
        let (tear, lean) = hanging.at(mx, my);
        // A tear is three times as thick as the film it gathers.
        let t = raw.at(u, v) * (1.0 + 2.0 * tear);
        let cover = 1.0 - (-t / hide).exp();
        // Light from the upper left on the wet film's slope, kept small.
        let slope = (lit.at(u + 2.0 * step.0, v) - lit.at(u - 2.0 * step.0, v) + lit.at(u, v + 2.0 * step.1)
            - lit.at(u, v - 2.0 * step.1))
            / hide;
        let dryness = dry.as_ref().map_or(0.0, |dry| dry.at(u, v));
        let grain = wavy.as_ref().map_or(0.0, |wavy| grain::peel(mx, my, wavy.at(u, v), pixel));
        let light =
            (0.3 * slope).clamp(-0.07, 0.07) * (1.0 - dryness) + grain - 0.34 * tear * lean - 0.06 * tear;
        let wet = if light > 0.0 { mix(film, [255; 3], light) } else { mix(film, [0; 3], -light) };
        // Dry spray is matt: pale, in specks.
        let wet = mix(wet, [0xE6, 0xE2, 0xD8], 0.45 * grain::speck(mx, my, dryness, pixel));
        mix(base, wet, cover)
    }))
}

fn ground_colour(ground: Ground, at: (f64, f64), size: (f64, f64)) -> [u8; 3] {
    let striped = |y: f64| if (y / 10e-3).rem_euclid(2.0) < 1.0 { CARD_WHITE } else { CARD_BLACK };
    match ground {
        Ground::Striped => {
            let rim = 6e-3;
            let inside = at.0 > rim && at.1 > rim && at.0 < size.0 - rim && at.1 < size.1 - rim;
            if inside { striped(at.1 - rim) } else { CARD_WHITE }
        }
        Ground::Old(colour) => {
            if at.0 > size.0 - 40e-3 && size.0 > 120e-3 {
                striped(at.1)
            } else {
                colour
            }
        }
    }
}

/// As a map of dry film, after it set where it has, with the marks of what is wrong. `dots_per_px` is the screen's pixels for each CSS pixel.
///
/// None when the grid is unsound or the picture is empty or too large.
pub fn as_map(
    grid: &FilmGrid,
    wanted: Option<Wanted>,
    size: (usize, usize),
    dots_per_px: f64,
) -> Option<Picture> {
    let mut picture = film_map::as_map(&now(grid)?, wanted, size, dots_per_px)?;
    if let Some(set) = &grid.set {
        marks::over(&mut picture, grid, set, dots_per_px);
    }
    Some(picture)
}

fn now(grid: &FilmGrid) -> Option<Field> {
    grid.is_sound().then(|| Field::new(grid.nx, grid.ny, &grid.now()))?
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(film: f32) -> FilmGrid {
        FilmGrid { nx: 40, ny: 60, size: (0.08, 0.12), dry: vec![film; 2400].into(), set: None }
    }

    fn pixel(p: &Picture, x: usize, y: usize) -> [u8; 3] {
        let i = 4 * (y * p.width + x);
        [p.rgba[i], p.rgba[i + 1], p.rgba[i + 2]]
    }

    const BAND: Wanted = Wanted { low: 20e-6, high: 35e-6 };

    #[test]
    fn a_bare_card_shows_its_stripes() {
        let p = as_seen(&even(0.0), Ground::Striped, 8e-6, [29, 79, 160], (80, 120)).unwrap();
        // Rim 6 mm = 6 px, then 10 px white, then 10 px black.
        assert_eq!(pixel(&p, 40, 2), CARD_WHITE);
        assert_eq!(pixel(&p, 40, 20), CARD_BLACK);
        assert_eq!(pixel(&p, 2, 20), CARD_WHITE);
    }

    #[test]
    fn a_thick_even_film_hides_the_stripes() {
        let p = as_seen(&even(80e-6), Ground::Striped, 8e-6, [29, 79, 160], (80, 120)).unwrap();
        assert_eq!(pixel(&p, 40, 12), [29, 79, 160]);
        assert_eq!(pixel(&p, 40, 22), [29, 79, 160]);
    }

    #[test]
    fn runs_hang_and_dry_spray_pales_once_the_film_has_set() {
        use crate::state::SetGrid;
        use mistcoat::film::Mark;
        let cell = |dryness, slid| SetCell { dry: 30e-6, waviness: 0.0, dryness, slid, mark: Mark::Sound };
        let with = |cell: SetCell, tears| {
            let set = SetGrid { cells: vec![cell; 2400].into(), tears, down: vec![(0.0, 1.0); 60].into() };
            FilmGrid { set: Some(set.into()), ..even(30e-6) }
        };
        let seen =
            |grid: &FilmGrid| as_seen(grid, Ground::Striped, 15e-6, [29, 79, 160], (160, 240)).unwrap();
        let (plain, dry) = (seen(&with(cell(0.0, 0.0), None)), seen(&with(cell(0.9, 0.0), None)));
        let sum = |p: &Picture| p.rgba.iter().map(|&c| u64::from(c)).sum::<u64>();
        assert!(sum(&dry) > sum(&plain), "matt is paler");
        let run = seen(&with(cell(0.0, 20e-3), Some(9e-3)));
        assert!(run.rgba.iter().zip(&plain.rgba).filter(|(a, b)| a != b).count() > 4000, "tears are seen");
    }

    #[test]
    fn an_unsound_grid_gives_no_picture() {
        let grid = FilmGrid { nx: 41, ..even(1e-6) };
        assert!(as_map(&grid, None, (10, 10), 1.0).is_none());
        assert!(as_seen(&even(1e-6), Ground::Striped, f64::NAN, [0; 3], (10, 10)).is_none());
        assert!(as_map(&even(f32::NAN), Some(BAND), (10, 10), f64::NAN).is_some());
    }
}
