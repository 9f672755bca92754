//! The film face by face: a frame's members, or the one face of another part.

use std::sync::Arc;

use mistcoat::film::Face;
use mistcoat::job::Job;

use super::{FilmGrid, SetGrid};
use crate::protocol::Film;

/// A face of the part and the film on it.
#[derive(Debug, Clone, PartialEq)]
pub struct MemberFilm {
    /// Name, cells and place in the booth.
    pub face: Face,
    /// The film, rows from the top: from large y to small.
    pub grid: FilmGrid,
}

/// The faces of a job's part with their film; empty when the counts do not fit.
pub fn members(job: &Job, film: &Film) -> Arc<[MemberFilm]> {
    let faces = mistcoat::run::faces(job);
    let films: Vec<_> = film.faces().collect();
    if faces.len() != films.len() {
        return Arc::from([]);
    }
    let mut set = SetGrid::of(&faces, film).into_iter().map(Arc::new);
    let of = |(face, ([columns, rows], dry)): (Face, ([u32; 2], &[f32]))| {
        let grid = FilmGrid {
            nx: columns as usize,
            ny: rows as usize,
            size: face.size(),
            dry: dry.to_vec().into(),
            set: set.next(),
        };
        (grid.nx == face.nx && grid.ny == face.ny && grid.is_sound()).then_some(MemberFilm { face, grid })
    };
    let all: Option<Vec<MemberFilm>> = faces.into_iter().zip(films).map(of).collect();
    all.unwrap_or_default().into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chair_has_a_film_for_each_tube() {
        let text = crate::state::TABLE_TOP
            .replace("panel = { width = \"600 mm\", height = \"400 mm\" }", "frame = \"chair\"");
        let job = Job::from_toml(&text).unwrap();
        let mut map = mistcoat::film::FilmMap::over(mistcoat::run::faces(&job));
        let last = map.len() - 1;
        map.dry[last] = 2e-5;
        let film = Film::of(&map);
        let all = members(&job, &film);
        assert_eq!(all.len(), 14);
        assert_eq!(all[0].face.name, "front leg, left");
        // The last cell of the library is the right end of the picture's first row.
        let grid = &all[13].grid;
        assert_eq!(grid.dry[grid.nx - 1], 2e-5);
        assert!(members(&job, &Film { more: vec![], ..film }).is_empty());
    }
}
