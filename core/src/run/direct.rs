//! The direct run: each parcel leaves the moving gun at its own time and lands where the gun then points.
//!
//! Slower to an even picture than the sweep, and the check of it.

use super::{CardTally, Prepared};
use crate::film::FilmMap;
use crate::flight::{Batch, levels};
use crate::stroke::Lay;
use crate::tally::{Fate, GROUPS};

/// Film of `droplets` parcels that leave one after the other over the whole trigger-on time.
#[must_use]
pub fn direct_film(prepared: &Prepared, card: &CardTally, droplets: u64) -> FilmMap {
    let mut film = prepared.bare_film();
    let strokes = prepared.strokes(card);
    let seconds = strokes.seconds();
    let sprayed = prepared.spray.volume_flow * seconds;
    let n = film.len();
    let (nx, ny) = (film.face().nx as f64, film.face().ny as f64);
    let parcel = sprayed / droplets.max(1) as f64 / (film.face().cell_x * film.face().cell_y);
    let solids = prepared.spray.volume_solids;
    let mut batch = Batch::default();
    prepared.course.fly(levels()[0], 0, droplets, &mut batch, |o| {
        if o.fate != Fate::Landed {
            return;
        }
        let (gun_x, gun_y, turn) = strokes.pose((o.droplet as f64 + 0.5) / droplets as f64 * seconds);
        let i = match prepared.lay {
            Lay::Along => gun_x + o.place[1],
            Lay::Across | Lay::Round => gun_x + o.place[0],
        } / film.face().cell_x
            + 0.5 * nx;
        let j = match prepared.lay {
            Lay::Across => (gun_y + o.place[1]) / film.face().cell_y + 0.5 * ny,
            Lay::Along => (gun_y - o.place[0]) / film.face().cell_y + 0.5 * ny,
            Lay::Round => {
                let share = (o.place[1] + turn) / core::f64::consts::TAU + 0.5;
                (share - share.floor()) * ny
            }
        };
        if i >= 0.0 && i < nx && j >= 0.0 && j < ny {
            let cell = j as usize * film.face().nx + i as usize;
            film.dry[cell] += parcel * solids;
            film.wet[cell] += parcel * o.wet;
            film.groups[o.group() * n + cell] += parcel * solids * GROUPS as f64;
        }
    });
    film
}
