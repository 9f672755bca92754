//! A track laid bit by bit.

use mistcoat::film::FilmMap;
use mistcoat::stroke::{Layer, Moment};

/// A track being laid bit by bit.
pub(super) struct Laying {
    pub track: Vec<Moment>,
    pub film: FilmMap,
    /// Moments reached.
    pub at: usize,
}

impl Laying {
    pub fn new(track: Vec<Moment>, bare: &FilmMap) -> Self {
        Self { track, film: bare.clone(), at: 1 }
    }

    pub fn is_done(&self) -> bool {
        self.at >= self.track.len()
    }

    /// Lays at most so many segments more.
    pub fn some(&mut self, layer: &Layer, most: usize) {
        for _ in 0..most {
            if self.is_done() {
                return;
            }
            layer.lay(&self.track[self.at - 1], &self.track[self.at], 0, &mut self.film);
            self.at += 1;
        }
    }
}
