//! Film pictures: as the eye would see it, and as a map.
//!
//! Both give opaque RGBA bytes, row by row, at any pixel size. Pattern pitches are in screen pixels and never follow
//! the part's size.

use crate::state::FilmGrid;

/// Pixels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Width [px].
    pub width: usize,
    /// Height [px].
    pub height: usize,
    /// Red, green, blue, opacity for each pixel.
    pub rgba: Vec<u8>,
}

/// What the paint lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// Test card: black and white stripes of 10 mm inside a white rim of 6 mm.
    Striped,
    /// Plain old colour, with a striped strip of 40 mm at the right edge.
    Old([u8; 3]),
}

/// Dry film wanted [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

impl Wanted {
    /// Film at the ramp's top [m]: twice the middle of the film wanted.
    pub fn top(&self) -> f64 {
        self.low + self.high
    }
}

/// The map's one hue, thin to thick, the same whatever the paint and the theme.
pub const RAMP: [[u8; 3]; 6] = [
    [0xFA, 0xF7, 0xEE],
    [0xCE, 0xE2, 0xDD],
    [0x92, 0xBE, 0xBA],
    [0x54, 0x92, 0x92],
    [0x22, 0x62, 0x68],
    [0x09, 0x38, 0x40],
];
const SHEET: [u8; 3] = [0xFC, 0xF9, 0xF2];
const INK: [u8; 3] = [0x21, 0x1D, 0x18];
const DOT: [u8; 3] = [0xF4, 0xEE, 0xE2];
const CARD_WHITE: [u8; 3] = [0xF7, 0xF6, 0xF1];
const CARD_BLACK: [u8; 3] = [0x16, 0x15, 0x13];
/// Below this share of the lowest film wanted a place counts as bare on the map.
const BARE: f64 = 0.02;

/// Colour of the ramp at a share of its length, 0..=1.
pub fn ramp(share: f64) -> [u8; 3] {
    let at = if share.is_finite() { share.clamp(0.0, 1.0) * (RAMP.len() - 1) as f64 } else { 0.0 };
    let i = (at as usize).min(RAMP.len() - 2);
    mix(RAMP[i], RAMP[i + 1], at - i as f64)
}

fn mix(a: [u8; 3], b: [u8; 3], share: f64) -> [u8; 3] {
    std::array::from_fn(|c| (f64::from(a[c]) + (f64::from(b[c]) - f64::from(a[c])) * share).round() as u8)
}

/// A field that can be read between its cells.
struct Field {
    nx: usize,
    ny: usize,
    values: Vec<f32>,
}

impl Field {
    fn dry(grid: &FilmGrid) -> Self {
        let values = grid.dry.iter().map(|v| if v.is_finite() { v.max(0.0) } else { 0.0 }).collect();
        Self { nx: grid.nx, ny: grid.ny, values }
    }

    /// Mean over a square of 2 r + 1 cells, edges repeated.
    fn smooth(&self, r: usize) -> Self {
        let pass = |from: &[f32], (n, m): (usize, usize), at: &dyn Fn(usize, usize) -> usize| {
            let mut to = vec![0.0_f32; from.len()];
            for j in 0..m {
                for i in 0..n {
                    let (a, b) = (i.saturating_sub(r), (i + r).min(n - 1));
                    let sum: f32 = (a..=b).map(|k| from[at(k, j)]).sum();
                    to[at(i, j)] = sum / (b - a + 1) as f32;
                }
            }
            to
        };
        let nx = self.nx;
        let rows = pass(&self.values, (self.nx, self.ny), &|i, j| j * nx + i);
        let values = pass(&rows, (self.ny, self.nx), &|j, i| j * nx + i);
        Self { nx, ny: self.ny, values }
    }

    /// Value at shares of width and height, between the cells' middles.
    fn at(&self, u: f64, v: f64) -> f64 {
        let place = |share: f64, n: usize| {
            let x = (share * n as f64 - 0.5).clamp(0.0, (n - 1) as f64);
            let i = (x as usize).min(n.saturating_sub(2));
            (i, (i + 1).min(n - 1), x - i as f64)
        };
        let (i, i1, fx) = place(u, self.nx);
        let (j, j1, fy) = place(v, self.ny);
        let get = |i: usize, j: usize| f64::from(self.values[j * self.nx + i]);
        let top = get(i, j) + (get(i1, j) - get(i, j)) * fx;
        let foot = get(i, j1) + (get(i1, j1) - get(i, j1)) * fx;
        top + (foot - top) * fy
    }
}

fn paint_over(width: usize, height: usize, mut colour: impl FnMut(usize, usize) -> [u8; 3]) -> Picture {
    let mut rgba = Vec::with_capacity(width * height * 4);
    for y in 0..height {
        for x in 0..width {
            let [r, g, b] = colour(x, y);
            rgba.extend_from_slice(&[r, g, b, 255]);
        }
    }
    Picture { width, height, rgba }
}

/// As the eye sees it. `hide` is the dry film that hides 63 % of the ground [m]; `film` the paint's colour.
///
/// None when the grid is unsound or the picture is empty or larger than 16 million pixels.
pub fn as_seen(
    grid: &FilmGrid,
    ground: Ground,
    hide: f64,
    film: [u8; 3],
    size: (usize, usize),
) -> Option<Picture> {
    let (w, h) = sound(grid, size)?;
    let raw = Field::dry(grid);
    let lit = raw.smooth(3).smooth(3);
    let hide = if hide.is_finite() && hide > 0.0 { hide } else { return None };
    let step = (1.0 / w as f64, 1.0 / h as f64);
    Some(paint_over(w, h, |x, y| {
        let (u, v) = ((x as f64 + 0.5) * step.0, (y as f64 + 0.5) * step.1);
        let base =
            ground_colour(ground, (u * grid.width(), v * grid.height()), (grid.width(), grid.height()));
        let t = raw.at(u, v);
        let cover = 1.0 - (-t / hide).exp();
        // Light from the upper left on the wet film's slope, kept small.
        let slope = (lit.at(u + 2.0 * step.0, v) - lit.at(u - 2.0 * step.0, v) + lit.at(u, v + 2.0 * step.1)
            - lit.at(u, v - 2.0 * step.1))
            / hide;
        let light = (0.3 * slope).clamp(-0.07, 0.07);
        let wet = if light > 0.0 { mix(film, [255; 3], light) } else { mix(film, [0; 3], -light) };
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

/// As a map of dry film. `dots_per_px` is the screen's pixels for each CSS pixel.
///
/// None when the grid is unsound or the picture is empty or too large.
pub fn as_map(
    grid: &FilmGrid,
    wanted: Option<Wanted>,
    size: (usize, usize),
    dots_per_px: f64,
) -> Option<Picture> {
    let (w, h) = sound(grid, size)?;
    let field = Field::dry(grid).smooth(1).smooth(1);
    let at = |x: f64, y: f64| field.at((x + 0.5) / w as f64, (y + 0.5) / h as f64);
    let peak = f64::from(field.values.iter().copied().fold(0.0_f32, f32::max));
    let top = wanted.map_or(peak, |b| b.top()).max(1e-12);
    let k = if dots_per_px.is_finite() { dots_per_px.clamp(0.5, 4.0) } else { 1.0 };
    Some(paint_over(w, h, |x, y| {
        let (px, py) = (x as f64, y as f64);
        let t = at(px, py);
        let colour = ramp(t / top);
        let Some(band) = wanted else { return colour };
        let near = [at(px + 1.0, py), at(px, py + 1.0)];
        let crosses = |limit: f64| near.iter().any(|n| (n < &limit) != (t < limit));
        if crosses(band.low) || crosses(band.high) {
            return INK;
        }
        if t < BARE * band.low {
            return SHEET;
        }
        let (sx, sy) = (px / k, py / k);
        if t < band.low {
            let across = (sx + sy).rem_euclid(9.0 * std::f64::consts::SQRT_2) / std::f64::consts::SQRT_2;
            return mix(colour, INK, edge(0.55 - (across - 4.5).abs(), k));
        }
        if t > band.high { mix(colour, DOT, edge(1.7 - from_dot(sx, sy), k)) } else { colour }
    }))
}

/// Cover of a pixel whose middle lies `inside` px within an edge.
fn edge(inside: f64, dots_per_px: f64) -> f64 {
    (0.5 + inside * dots_per_px).clamp(0.0, 1.0)
}

/// Distance to the nearest of the dots that stand every 8 px, staggered.
fn from_dot(x: f64, y: f64) -> f64 {
    let row = (y / 8.0).floor();
    let shift = if row.rem_euclid(2.0) < 1.0 { 0.0 } else { 4.0 };
    let (dx, dy) = ((x + shift).rem_euclid(8.0) - 4.0, y - 8.0 * row - 4.0);
    (dx * dx + dy * dy).sqrt()
}

/// The map's key as a picture: film from 0 to the ramp's top, with the same hatch and dots.
pub fn key(wanted: Wanted, size: (usize, usize), dots_per_px: f64) -> Option<Picture> {
    let n = 256;
    let row: Vec<f32> = (0..n).map(|i| ((f64::from(i) + 0.5) / f64::from(n) * wanted.top()) as f32).collect();
    let dry: std::sync::Arc<[f32]> = [row.clone(), row].concat().into();
    let grid = FilmGrid { nx: n as usize, ny: 2, size: (0.2, 0.02), dry };
    as_map(&grid, Some(wanted), size, dots_per_px)
}

fn sound(grid: &FilmGrid, (w, h): (usize, usize)) -> Option<(usize, usize)> {
    let pixels = w.checked_mul(h)?;
    (grid.is_sound() && pixels > 0 && pixels <= 1 << 24).then_some((w, h))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(film: f32) -> FilmGrid {
        FilmGrid { nx: 40, ny: 60, size: (0.08, 0.12), dry: vec![film; 2400].into() }
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
    fn pattern_says_thin_right_and_thick_without_colour() {
        // Share of the way from the plain colour to the pattern's, by the red channel.
        let cover = |film: f32, what: [u8; 3]| {
            let p = as_map(&even(film), Some(BAND), (144, 192), 1.0).unwrap();
            let plain = f64::from(ramp(f64::from(film) / BAND.top())[0]);
            let mean = p.rgba.chunks(4).map(|c| f64::from(c[0])).sum::<f64>() / (144.0 * 192.0);
            (mean - plain) / (f64::from(what[0]) - plain)
        };
        let hatch = cover(10e-6, INK);
        assert!((hatch - 1.1 / 9.0).abs() < 0.03, "hatch covers {hatch}");
        assert!(cover(27e-6, INK).abs() < 0.005);
        let dots = cover(50e-6, DOT);
        assert!((dots - std::f64::consts::PI * 1.7 * 1.7 / 64.0).abs() < 0.03, "dots cover {dots}");
        let bare = as_map(&even(0.0), Some(BAND), (30, 30), 1.0).unwrap();
        assert!(bare.rgba.chunks(4).all(|c| c[..3] == SHEET));
    }

    #[test]
    fn an_unsound_grid_gives_no_picture() {
        let grid = FilmGrid { nx: 41, ..even(1e-6) };
        assert!(as_map(&grid, None, (10, 10), 1.0).is_none());
        assert!(as_seen(&even(1e-6), Ground::Striped, f64::NAN, [0; 3], (10, 10)).is_none());
        assert!(as_map(&even(f32::NAN), Some(BAND), (10, 10), f64::NAN).is_some());
    }
}
