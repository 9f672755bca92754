//! Film as a map: a ramp of one hue, hatch below the film wanted and dots above it, so that it reads without colour.
//!
//! Pattern pitches are in screen pixels and never follow the part's size.

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
/// Of a bare part.
pub const SHEET: [u8; 3] = [0xFC, 0xF9, 0xF2];
/// Of hatch and contours.
pub const INK: [u8; 3] = [0x21, 0x1D, 0x18];
/// Of the dots.
pub const DOT: [u8; 3] = [0xF4, 0xEE, 0xE2];
/// Below this share of the lowest film wanted a place counts as bare on the map.
const BARE: f64 = 0.02;

/// Colour of the ramp at a share of its length, 0..=1.
pub fn ramp(share: f64) -> [u8; 3] {
    let at = if share.is_finite() { share.clamp(0.0, 1.0) * (RAMP.len() - 1) as f64 } else { 0.0 };
    let i = (at as usize).min(RAMP.len() - 2);
    mix(RAMP[i], RAMP[i + 1], at - i as f64)
}

/// `share` of the way from `a` to `b`.
#[must_use]
pub fn mix(a: [u8; 3], b: [u8; 3], share: f64) -> [u8; 3] {
    std::array::from_fn(|c| (f64::from(a[c]) + (f64::from(b[c]) - f64::from(a[c])) * share).round() as u8)
}

/// A field that can be read between its cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    nx: usize,
    ny: usize,
    values: Vec<f32>,
}

impl Field {
    /// `nx * ny` cells of dry film [m], row by row from the top left; what is not finite or negative counts as 0.
    ///
    /// None when there are no cells or their number does not fit.
    #[must_use]
    pub fn new(nx: usize, ny: usize, dry: &[f32]) -> Option<Self> {
        let values = dry.iter().map(|v| if v.is_finite() { v.max(0.0) } else { 0.0 }).collect();
        (nx.checked_mul(ny) == Some(dry.len()) && !dry.is_empty()).then_some(Self { nx, ny, values })
    }

    /// Mean over a square of 2 r + 1 cells, edges repeated.
    #[must_use]
    pub fn smooth(&self, r: usize) -> Self {
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
    #[must_use]
    pub fn at(&self, u: f64, v: f64) -> f64 {
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

/// A picture, pixel by pixel, row by row from the top left.
pub fn paint_over(width: usize, height: usize, mut colour: impl FnMut(usize, usize) -> [u8; 3]) -> Picture {
    let mut rgba = Vec::with_capacity(width * height * 4);
    for y in 0..height {
        for x in 0..width {
            let [r, g, b] = colour(x, y);
            rgba.extend_from_slice(&[r, g, b, 255]);
        }
    }
    Picture { width, height, rgba }
}

/// As a map of dry film. `dots_per_px` is the screen's pixels for each CSS pixel.
///
/// None when the picture is empty or larger than 16 million pixels.
pub fn as_map(
    dry: &Field,
    wanted: Option<Wanted>,
    size: (usize, usize),
    dots_per_px: f64,
) -> Option<Picture> {
    let (w, h) = drawable(size)?;
    let field = dry.smooth(1).smooth(1);
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
    let field = Field::new(n as usize, 2, &[row.clone(), row].concat())?;
    as_map(&field, Some(wanted), size, dots_per_px)
}

/// The size of a picture that is neither empty nor larger than 16 million pixels.
#[must_use]
pub fn drawable((w, h): (usize, usize)) -> Option<(usize, usize)> {
    let pixels = w.checked_mul(h)?;
    (pixels > 0 && pixels <= 1 << 24).then_some((w, h))
}

#[cfg(test)]
mod tests {
    use super::*;

    const BAND: Wanted = Wanted { low: 20e-6, high: 35e-6 };

    fn even(film: f32) -> Field {
        Field::new(40, 60, &[film; 2400]).expect("cells")
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
    fn what_does_not_fit_gives_no_picture() {
        assert!(Field::new(41, 60, &[0.0; 2400]).is_none() && Field::new(0, 0, &[]).is_none());
        assert!(as_map(&even(1e-6), None, (0, 10), 1.0).is_none());
        assert!(as_map(&even(1e-6), None, (1 << 13, 1 << 12), 1.0).is_none());
        assert!(as_map(&even(f32::NAN), Some(BAND), (10, 10), f64::NAN).is_some());
    }
}
