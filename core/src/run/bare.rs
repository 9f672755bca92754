//! Counts and film of a prepared job before its first droplet.

use super::faces::cells_round;
use super::frame_film::hidden;
use super::{PartTally, Prepared, faces};
use crate::film::FilmMap;
use crate::job::PartShape;
use crate::tally::{Grid, Members};

/// Bin of a footprint [m].
const BIN: f64 = 2e-3;
/// Half of a footprint [m].
const HALF: f64 = 0.5;

impl Prepared {
    /// Bins of the footprint.
    #[must_use]
    pub fn grid(&self) -> Grid {
        let n = (2.0 * HALF / BIN) as usize;
        let pi = core::f64::consts::PI;
        match self.job.part {
            PartShape::Panel { .. } => Grid { nx: n, ny: n, x0: -HALF, y0: -HALF, dx: BIN, dy: BIN },
            PartShape::Tube { diameter, .. } => {
                let ny = cells_round(diameter);
                Grid { nx: n, ny, x0: -HALF, y0: -pi, dx: BIN, dy: 2.0 * pi / ny as f64 }
            }
            PartShape::Curved { radius, .. } => {
                // As far round as a panel's footprint reaches, at most all round.
                let reach = (HALF / radius).min(pi);
                let ny = ((2.0 * reach * radius / BIN) as usize).max(1);
                Grid { nx: n, ny, x0: -HALF, y0: -reach, dx: BIN, dy: 2.0 * reach / ny as f64 }
            }
            // A frame's droplets are counted by the cells of its film.
            PartShape::Frame(_) => Grid { nx: 1, ny: 1, x0: 0.0, y0: 0.0, dx: BIN, dy: BIN },
        }
    }

    /// Counts of a run before its first droplet.
    #[must_use]
    pub fn nothing_flown(&self) -> PartTally {
        let members = self.frame.as_ref().map(|_| Members::new(self.bare_film().faces().into()));
        PartTally::new(self.grid()).of_members(members)
    }

    /// A bare film on the part.
    #[must_use]
    pub fn bare_film(&self) -> FilmMap {
        let film = FilmMap::over(faces(&self.job));
        match &self.job.part {
            PartShape::Frame(frame) => {
                let hidden = hidden(frame, &film);
                film.hiding(hidden)
            }
            _ => film,
        }
    }
}
