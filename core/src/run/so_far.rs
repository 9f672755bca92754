//! What a run under way comes to so far.

use super::Run;
use crate::film::FilmMap;
use serde::{Deserialize, Serialize};

/// Droplets below which nothing is said: some hundred of them have then landed on the thinnest part.
const FEWEST: u64 = 4_000;

/// An estimate from the droplets flown by now, sharper the more have landed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SoFar {
    /// Paint sprayed in the whole job [m3]: known before the first droplet.
    pub sprayed: f64,
    /// Mean dry film once all have landed [m], > 0.
    pub dry: f64,
    /// Share of the solids that stays on the part [-], 0..=1.
    pub landed: f64,
    /// As if the gun kept its line: what the hand's wander costs is not flown yet.
    pub on_its_line: bool,
}

impl Run {
    /// What the run comes to, going by its [`Run::picture`]; none before enough has landed.
    #[must_use]
    pub fn so_far(&self, picture: &FilmMap) -> Option<SoFar> {
        if self.flown < FEWEST {
            return None;
        }
        let dry = picture.mean_over_area(|cell| picture.dry[cell]);
        let sprayed = self.prepared.spray.volume_flow * self.prepared.strokes(&self.card).open_seconds();
        let landed = (dry * picture.area() / (sprayed * self.prepared.spray.volume_solids)).min(1.0);
        let on_its_line = self.by_hand.as_ref().is_some_and(|by_hand| !by_hand.shelf.is_flown());
        (dry > 0.0 && sprayed > 0.0 && landed.is_finite()).then_some(SoFar {
            sprayed,
            dry,
            landed,
            on_its_line,
        })
    }
}
