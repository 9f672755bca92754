//! The film as it travels from the worker to the page.

use mistcoat::run::SoFar;
use serde::{Deserialize, Serialize};

/// Film over the part: rows from the top, columns from the left; face by face where the part has several.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Film {
    /// Cells along the strokes.
    pub columns: u32,
    /// Cells across the strokes.
    pub rows: u32,
    /// Columns and rows of each further face, in the library's order: the members of a frame.
    #[serde(default)]
    pub more: Vec<[u32; 2]>,
    /// Dry film of each cell [m], face by face.
    #[serde(skip)]
    pub values: Vec<f32>,
    /// It has set: [`Film::SET_NUMBERS`] for each cell follow the values.
    #[serde(default)]
    pub has_set: bool,
    /// Distance of the tears of its runs [um]; 0 without.
    #[serde(default)]
    pub tears_um: u32,
    /// For each cell, as `values`: dry film after it ran [m], waviness [m], share of a droplet mark that is left, way slid [m], mark
    /// by its number in `Mark::ALL`, from 1.
    #[serde(skip)]
    pub set: Vec<f32>,
    /// What the run comes to so far; none before enough has landed, and once it is complete.
    #[serde(default)]
    pub so_far: Option<SoFar>,
    /// Droplets of the snapshot.
    pub droplets: u32,
    /// [`Film::NUMBERS`] each: where it hangs along the gun's axis [m] (infinite: gone by), across it along the fan's long
    /// and short axes [m], where it ends along the long one [m], 1 lands or 0.
    #[serde(skip)]
    pub ends: Vec<f32>,
    /// Legs of the gun's way, and layers of film that they leave; none before the run is complete.
    #[serde(default)]
    pub legs: u32,
    /// Layers of film.
    #[serde(default)]
    pub layers: u32,
    /// Both, as `booth3d::played::Played::pack` writes them.
    #[serde(skip)]
    pub played: Vec<f32>,
}

impl Film {
    /// Numbers for each droplet of the snapshot.
    pub const NUMBERS: usize = 5;
    /// Numbers for each cell of a film that has set.
    pub const SET_NUMBERS: usize = 5;

    /// The film of a library's map.
    #[must_use]
    pub fn of(map: &mistcoat::film::FilmMap) -> Self {
        let mut film = Self::default();
        for (i, face) in map.faces().iter().enumerate() {
            let size = [face.nx as u32, face.ny as u32];
            match i {
                0 => [film.columns, film.rows] = size,
                _ => film.more.push(size),
            }
            // The library counts rows upwards, a picture downwards.
            let rows = (0..face.ny).rev().flat_map(|j| {
                let first = face.first + j * face.nx;
                &map.dry[first..first + face.nx]
            });
            film.values.extend(rows.map(|&h| h as f32));
        }
        film
    }

    /// The same after it set.
    #[must_use]
    pub fn setting(mut self, set: &mistcoat::film::SetFilm) -> Self {
        use mistcoat::film::Mark;
        for face in &set.faces {
            for row in (0..face.ny).rev() {
                let first = face.first + row * face.nx;
                for cell in &set.cells[first..first + face.nx] {
                    let mark = Mark::ALL.iter().position(|&m| m == cell.mark).map_or(0, |i| i + 1);
                    let numbers = [cell.dry, cell.waviness, cell.dryness, cell.slid, mark as f64];
                    self.set.extend(numbers.map(|v| v as f32));
                }
            }
        }
        self.has_set = true;
        self.tears_um = set.tear_spacing.map_or(0, |spacing| (spacing * 1e6) as u32);
        self
    }

    /// Cells of all faces.
    pub(super) fn cells(&self) -> u64 {
        let of = |[columns, rows]: [u32; 2]| u64::from(columns) * u64::from(rows);
        let first = of([self.columns, self.rows]);
        self.more.iter().fold(first, |sum, &size| sum.saturating_add(of(size)))
    }

    /// Columns, rows and values of each face.
    pub fn faces(&self) -> impl Iterator<Item = ([u32; 2], &[f32])> {
        let mut first = 0;
        std::iter::once([self.columns, self.rows]).chain(self.more.iter().copied()).map_while(move |size| {
            let cells = size[0] as usize * size[1] as usize;
            let values = self.values.get(first..first + cells)?;
            first += cells;
            Some((size, values))
        })
    }
}
