//! One texture for the film of all faces.
//!
//! Faces stand side by side in it, each inside a rim of one cell that repeats its edge (of a closed face: its other
//! edge), so that reading between cells never reaches a neighbour.

use mistcoat::film::Face;

/// Largest side of a texture that every browser with WebGL2 has.
pub const SIDE: usize = 2048;
/// Blur that the light on wet film is taken from [cells]: the same as on the card.
const BLUR: usize = 3;

/// Where each face stands in the texture.
#[derive(Debug, Clone, PartialEq)]
pub struct Atlas {
    /// Width and height [cells].
    pub size: (usize, usize),
    /// First cell of each face, inside its rim.
    at: Vec<(usize, usize)>,
}

impl Atlas {
    /// Lays out faces in shelves; none when they do not fit.
    #[must_use]
    pub fn of(faces: &[Face]) -> Option<Self> {
        let (mut x, mut y, mut shelf, mut width) = (0, 0, 0, 0);
        let mut at = Vec::with_capacity(faces.len());
        for face in faces {
            let (w, h) = (face.nx + 2, face.ny + 2);
            if x > 0 && x + w > SIDE {
                (x, y, shelf) = (0, y + shelf, 0);
            }
            if w > SIDE || y + h > SIDE || face.is_empty() {
                return None;
            }
            at.push((x + 1, y + 1));
            x += w;
            shelf = shelf.max(h);
            width = width.max(x);
        }
        (!at.is_empty()).then_some(Self { size: (width, y + shelf), at })
    }

    /// Place in the texture (0..=1 both ways) of a face's shares of length and height, 0..=1.
    #[must_use]
    pub fn place(&self, number: usize, face: &Face, share: (f64, f64)) -> [f32; 2] {
        let (x, y) = self.at[number];
        let u = (x as f64 + share.0 * face.nx as f64) / self.size.0 as f64;
        let v = (y as f64 + share.1 * face.ny as f64) / self.size.1 as f64;
        [u as f32, v as f32]
    }

    /// The texture: film [um] and blurred film [um] of each cell; `dry` [m] holds the faces' cells, face by face. What is
    /// missing or no number counts as bare.
    #[must_use]
    pub fn fill(&self, faces: &[Face], dry: &[f32]) -> Vec<f32> {
        let mut out = vec![0.0; 2 * self.size.0 * self.size.1];
        let mut first = 0;
        for (face, &(ax, ay)) in faces.iter().zip(&self.at) {
            let (nx, ny) = (face.nx, face.ny);
            let cell =
                |i: usize| dry.get(first + i).copied().filter(|v| v.is_finite()).unwrap_or(0.0).max(0.0);
            let film: Vec<f32> = (0..face.len()).map(|i| 1e6 * cell(i)).collect();
            let soft = blurred(&film, (nx, ny), face.closed);
            for j in 0..ny + 2 {
                for i in 0..nx + 2 {
                    let from = row(j as isize - 1, ny, face.closed) * nx + i.saturating_sub(1).min(nx - 1);
                    let to = 2 * ((ay + j - 1) * self.size.0 + ax + i - 1);
                    out[to] = film[from];
                    out[to + 1] = soft[from];
                }
            }
            first += face.len();
        }
        out
    }
}

/// A row that may lie past the edge.
fn row(j: isize, ny: usize, closed: bool) -> usize {
    let n = ny as isize;
    (if closed { j.rem_euclid(n) } else { j.clamp(0, n - 1) }) as usize
}

/// Mean over a square of 2 `BLUR` + 1 cells.
fn blurred(film: &[f32], (nx, ny): (usize, usize), closed: bool) -> Vec<f32> {
    let reach = BLUR as isize;
    let mut along = vec![0.0; film.len()];
    for j in 0..ny {
        for i in 0..nx {
            let (a, b) = (i.saturating_sub(BLUR), (i + BLUR).min(nx - 1));
            along[j * nx + i] = film[j * nx + a..=j * nx + b].iter().sum::<f32>() / (b - a + 1) as f32;
        }
    }
    let mean = |i: usize, j: usize| {
        let sum: f32 = (-reach..=reach).map(|k| along[row(j as isize + k, ny, closed) * nx + i]).sum();
        sum / (2 * BLUR + 1) as f32
    };
    (0..film.len()).map(|cell| mean(cell % nx, cell / nx)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::film::Place;

    fn face(nx: usize, ny: usize, closed: bool) -> Face {
        let place = Place::leaning(0.0, if closed { 0.01 } else { 0.0 });
        Face { name: String::new(), first: 0, nx, ny, cell_x: 0.01, cell_y: 0.01, closed, place }
    }

    #[test]
    fn the_rim_of_a_tube_is_its_other_edge() {
        let faces = [face(2, 3, true), face(2, 2, false)];
        let atlas = Atlas::of(&faces).unwrap();
        let dry: Vec<f32> = (1..=10).map(|v| v as f32 * 1e-6).collect();
        let film = atlas.fill(&faces, &dry);
        let at = |x: usize, y: usize| film[2 * (y * atlas.size.0 + x)].round();
        assert_eq!(atlas.size, (8, 5));
        // Rows 1..=3 are the tube's; above and below them stands its other edge.
        assert_eq!([at(1, 0), at(1, 1), at(1, 3), at(1, 4)], [5.0, 1.0, 5.0, 1.0]);
        // The flat face repeats its own edge.
        assert_eq!(
            [at(5, 0), at(5, 1), at(5, 2), at(5, 3), at(4, 1), at(7, 1)],
            [7.0, 7.0, 9.0, 9.0, 7.0, 8.0]
        );
        let [u, v] = atlas.place(1, &faces[1], (0.0, 1.0));
        assert!((f64::from(u) - 5.0 / 8.0).abs() < 1e-6 && (f64::from(v) - 3.0 / 5.0).abs() < 1e-6);
    }

    #[test]
    fn missing_and_bad_film_is_bare() {
        let faces = [face(3, 2, false)];
        let film = Atlas::of(&faces).unwrap().fill(&faces, &[f32::NAN, -1.0, f32::INFINITY]);
        assert!(film.iter().all(|v| *v == 0.0));
    }

    #[test]
    fn shelves_are_used_and_what_is_too_large_is_refused() {
        let frame: Vec<Face> = (0..40).map(|_| face(400, 24, true)).collect();
        let atlas = Atlas::of(&frame).unwrap();
        assert!(atlas.size.0 <= SIDE && atlas.size.1 == 8 * 26, "{:?}", atlas.size);
        assert!(Atlas::of(&[face(SIDE, 2, false)]).is_none() && Atlas::of(&[]).is_none());
        assert!(Atlas::of(&vec![face(400, 400, false); 30]).is_none());
    }
}
