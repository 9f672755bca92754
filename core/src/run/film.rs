//! The film of a run: as landed so far, and pass by pass.

use super::Run;
use super::hand::lay_all;
use crate::film::{Deposit, FilmMap};
use crate::stroke::{Layer, Shelf, Swept};
use std::borrow::Cow;

impl Run {
    /// The film so far. On a panel under passes it is bare until the card is flown: the fan's height spaces them.
    #[must_use]
    pub fn film(&self) -> Cow<'_, FilmMap> {
        self.landed(Layer::full, |swept, film| swept.lay(film))
    }

    /// The dry film so far, without groups and wet film: quick, for pictures under way.
    #[must_use]
    pub fn picture(&self) -> Cow<'_, FilmMap> {
        self.landed(Layer::sketch, |swept, film| swept.picture(film))
    }

    fn landed(&self, layer: fn(&Shelf) -> Layer, lay: fn(&Swept<'_>, &mut FilmMap)) -> Cow<'_, FilmMap> {
        if self.is_laid() {
            return Cow::Borrowed(&self.laid.0);
        }
        let mut film = self.prepared.bare_film();
        if self.flown == 0 {
            return Cow::Owned(film);
        }
        if let Some(by_hand) = &self.by_hand {
            lay_all(&layer(&by_hand.shelf), &self.prepared.track(&self.card), &mut film);
        } else {
            let strokes = self.prepared.strokes(&self.card);
            lay(&self.prepared.swept(&self.part, &strokes), &mut film);
        }
        Cow::Owned(film)
    }

    /// What landed so far, pass by pass in order of time, turns and flash between; together it is the film as landed.
    pub fn deposits(&self, each: &mut dyn FnMut(&Deposit)) {
        (0..).map_while(|number| self.deposit(number)).for_each(|deposit| each(&deposit));
    }

    /// One of them, by number; none past the last.
    pub(super) fn deposit(&self, number: usize) -> Option<Deposit> {
        if self.flown == 0 {
            return None;
        }
        if let Some(by_hand) = &self.by_hand {
            return by_hand.deposit(&self.prepared, &self.card, number);
        }
        let strokes = self.prepared.strokes(&self.card);
        let deposits = self.prepared.deposits(&self.part, &strokes);
        (number < deposits.len()).then(|| deposits.at(number, &self.prepared.bare_film()))
    }
}
