//! The film after it set, as the page draws it.

use std::sync::Arc;

use mistcoat::film::{Face, Mark};

use crate::protocol::Film;

/// One cell after it set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetCell {
    /// Dry film after it ran [m].
    pub dry: f32,
    /// Waviness of the dry film [m].
    pub waviness: f32,
    /// Share of a droplet mark that is left.
    pub dryness: f32,
    /// Way that it slid [m].
    pub slid: f32,
    /// What is wrong.
    pub mark: Mark,
}

/// A face after it set: cells as those of its [`super::FilmGrid`].
#[derive(Debug, Clone, PartialEq)]
pub struct SetGrid {
    /// The cells.
    pub cells: Arc<[SetCell]>,
    /// Distance of the tears of its runs [m].
    pub tears: Option<f64>,
    /// Gravity along each row of the picture: to the right, and down the picture; of length 1 at most.
    pub down: Arc<[(f64, f64)]>,
}

impl SetGrid {
    /// Each face of a film that has set; empty where it has not, or the numbers do not fit the faces.
    pub fn of(faces: &[Face], film: &Film) -> Vec<Self> {
        let count: usize = faces.iter().map(Face::len).sum();
        if !film.has_set || film.set.len() != count * Film::SET_NUMBERS {
            return Vec::new();
        }
        let numbers = film.set.as_chunks::<{ Film::SET_NUMBERS }>().0;
        let mut first = 0;
        faces
            .iter()
            .map(|face| {
                let cells = numbers[first..first + face.len()].iter().map(cell).collect();
                first += face.len();
                let down = (0..face.ny).rev().map(|row| {
                    let [x, y, _] = face.place.down(face.y(row));
                    (x, -y)
                });
                Self {
                    cells,
                    tears: (film.tears_um > 0).then(|| f64::from(film.tears_um) * 1e-6),
                    down: down.collect(),
                }
            })
            .collect()
    }
}

fn cell(&[dry, waviness, dryness, slid, mark]: &[f32; Film::SET_NUMBERS]) -> SetCell {
    let mark = (mark as usize).checked_sub(1).and_then(|i| Mark::ALL.get(i)).copied();
    SetCell { dry, waviness, dryness, slid, mark: mark.unwrap_or(Mark::Sound) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::film::{Face, Place, SetFilm};

    #[test]
    fn a_set_film_comes_through_with_its_marks_and_its_slope() {
        let face = Face {
            name: String::new(),
            first: 0,
            nx: 2,
            ny: 2,
            cell_x: 5e-3,
            cell_y: 5e-3,
            closed: false,
            place: Place::leaning(std::f64::consts::FRAC_PI_2, 0.0),
        };
        let of = |dry, mark| mistcoat::film::SetCell { dry, waviness: 3e-7, dryness: 0.2, slid: 4e-3, mark };
        let mut set = SetFilm::unread(Vec::new());
        set.faces = vec![face.clone()];
        set.cells =
            vec![of(1e-5, Mark::Bare), of(2e-5, Mark::Slid), of(3e-5, Mark::Sound), of(4e-5, Mark::Hangs)];
        set.tear_spacing = Some(9.2e-3);
        let film = Film { columns: 2, rows: 2, ..Film::default() }.setting(&set);
        let grids = SetGrid::of(std::slice::from_ref(&face), &film);
        let marks: Vec<Mark> = grids[0].cells.iter().map(|c| c.mark).collect();
        // The picture's first row is the library's last.
        assert_eq!(marks, [Mark::Sound, Mark::Hangs, Mark::Bare, Mark::Slid]);
        assert_eq!((grids[0].cells[3].dry, grids[0].tears), (2e-5, Some(9.2e-3)));
        let (right, down) = grids[0].down[0];
        assert!(right.abs() < 1e-12 && (down - 1.0).abs() < 1e-12);
        assert!(SetGrid::of(&[face], &Film::default()).is_empty());
    }
}
