//! A run flown piece by piece on all threads, so that one can say how far it is.

use super::hand::Both;
use super::{CardTally, Run, Tally, fly_all};

impl Run {
    /// Flies at most `most` droplets more, on all threads where the crate has them; with the last of them completes the
    /// run. True when it is complete. The digits are those of every other slicing.
    pub fn advance_on_all_threads(&mut self, most: u64) -> bool {
        self.fly_on_all_threads(most);
        if self.is_flown() {
            while !self.is_laid() {
                self.lay_one();
            }
            while self.settles && self.set.is_none() {
                self.settle_some();
            }
        }
        self.is_complete()
    }

    /// Flies at most `most` droplets more, on all threads where the crate has them, and lays nothing.
    pub(crate) fn fly_on_all_threads(&mut self, most: u64) {
        let mut left = most;
        if self.card_flown < self.card_total {
            let next = self.card_total.min(self.card_flown.saturating_add(left));
            left -= next - self.card_flown;
            let (flown, card) = (self.card_flown, &mut self.card);
            fly_all(&self.prepared.card, self.level, flown, next, CardTally::default, card);
            self.card_flown = next;
        }
        while left > 0 && self.flown < self.total {
            let next = self.stop_before(self.flown.saturating_add(left));
            left -= next - self.flown;
            let (prepared, level, flown) = (&self.prepared, self.level, self.flown);
            if let (Some(by_hand), None) = (&mut self.by_hand, &prepared.frame) {
                let levels = by_hand.shelf.spec().levels.clone();
                let none = self.part.emptied();
                let empty = || Both::new(&none, Some(&levels));
                let mut both = empty();
                fly_all(&prepared.course, level, flown, next, empty, &mut both);
                self.part.merge(&both.part);
                if let (Some(middle), Some(imprint)) = (by_hand.shelf.middle_mut(), &both.imprint) {
                    middle.merge(imprint);
                }
            } else {
                let (empty, part) = (|| prepared.nothing_flown(), &mut self.part);
                match &prepared.frame {
                    Some(frame) => fly_all(frame, level, flown, next, empty, part),
                    None => fly_all(&prepared.course, level, flown, next, empty, part),
                }
            }
            self.flown = next;
            self.look();
        }
        if let Some(by_hand) = self.by_hand.as_mut().filter(|_| left > 0 && self.flown >= self.total) {
            by_hand.shelf.finish(self.level, left);
        }
    }
}
