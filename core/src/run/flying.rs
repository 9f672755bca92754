//! A run's droplets and film, piece by piece.

use super::hand::ByHand;
use super::{Run, Settling, Tally};
use crate::film::SetFilm;
use crate::stroke::SWEEP_STEPS;

impl Run {
    /// Flies at most `most` droplets more, and when all are flown lays the film step by step and lets it set, a step a
    /// call; true when the run is complete.
    pub fn advance(&mut self, most: u64) -> bool {
        if most > 0 && self.is_flown() {
            if self.is_laid() { self.settle_some() } else { self.lay_one() }
        } else {
            self.fly(most);
        }
        self.is_complete()
    }

    /// Flies at most `most` droplets more and lays nothing.
    pub(crate) fn fly(&mut self, most: u64) {
        if self.prepared.spaced_by_fan() {
            let left = self.fly_card(most);
            let left = self.fly_part(left);
            self.fly_poses(left);
        } else {
            // The part first: its picture is what one waits for.
            let left = self.fly_part(most);
            let left = self.fly_poses(left);
            self.fly_card(left);
        }
    }

    /// Flies at most `most` droplets to the card; how many of them are left.
    fn fly_card(&mut self, most: u64) -> u64 {
        let next = self.card_total.min(self.card_flown.saturating_add(most)).max(self.card_flown);
        let left = most - (next - self.card_flown);
        let card = &mut self.card;
        self.prepared.card.fly(self.level, self.card_flown, next, &mut self.batch, |o| card.count(o));
        self.card_flown = next;
        left
    }

    /// Flies at most `most` droplets to the part; how many of them are left.
    fn fly_part(&mut self, most: u64) -> u64 {
        let mut left = most;
        while left > 0 && self.flown < self.total {
            let next = self.stop_before(self.flown.saturating_add(left));
            left -= next - self.flown;
            let part = &mut self.part;
            let (level, batch) = (self.level, &mut self.batch);
            if let Some(frame) = &self.prepared.frame {
                frame.fly(level, self.flown, next, batch, |o| part.count(o));
            } else {
                let mut middle = self.by_hand.as_mut().and_then(|by_hand| by_hand.shelf.middle_mut());
                self.prepared.course.fly(level, self.flown, next, batch, |o| {
                    part.count(o);
                    if let Some(imprint) = &mut middle {
                        imprint.count(o);
                    }
                });
            }
            self.flown = next;
            self.look();
        }
        left
    }

    /// Flies at most `most` droplets of the gun's other poses; how many of them are left.
    fn fly_poses(&mut self, most: u64) -> u64 {
        match &mut self.by_hand {
            Some(by_hand) if self.flown >= self.total => {
                by_hand.shelf.advance_at(self.level, most, &mut self.batch)
            }
            _ => most,
        }
    }

    /// Flies all that is left, on all threads where the crate has them.
    pub fn finish(&mut self) {
        while !self.advance_on_all_threads(u64::MAX) {}
    }

    /// Droplets flown and wanted, the card's included.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let poses = self.by_hand.as_ref().map_or((0, 0), |by_hand| {
            let (flown, wanted) = by_hand.shelf.progress();
            (flown - self.flown.min(flown), wanted - self.total.min(wanted))
        });
        (self.card_flown + self.flown + poses.0, self.card_total + self.total + poses.1)
    }

    /// All droplets are flown, the film is laid and has set.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.is_laid() && (self.set.is_some() || !self.settles)
    }

    pub(super) fn is_flown(&self) -> bool {
        let poses = self.by_hand.as_ref().is_none_or(|by_hand| by_hand.shelf.is_flown());
        self.card_flown >= self.card_total && self.flown >= self.total && poses
    }

    pub(super) fn is_laid(&self) -> bool {
        self.is_flown() && self.laid.1 >= self.by_hand.as_ref().map_or(SWEEP_STEPS, ByHand::steps)
    }

    pub(super) fn lay_one(&mut self) {
        if self.is_laid() {
            return;
        }
        let (film, step) = &mut self.laid;
        match &mut self.by_hand {
            Some(by_hand) => by_hand.step(&self.prepared, &self.card, *step, film),
            None => {
                let strokes = self.prepared.strokes(&self.card);
                self.prepared.swept(&self.part, &strokes).step(*step, film);
            }
        }
        *step += 1;
    }

    /// A piece of the film's time.
    pub(super) fn settle_some(&mut self) {
        if self.set.is_some() || !self.settles {
            return;
        }
        let film = &self.laid.0;
        let mut settling = match self.settling.take() {
            Some(settling) => settling,
            None => match Settling::new(&self.prepared, &self.part, film) {
                Ok(settling) => settling,
                // Its volatiles were known to the flight: there is nothing else to be refused.
                Err(_) => {
                    self.set = Some(SetFilm::unread(Vec::new()));
                    return;
                }
            },
        };
        if settling.advance(&|number| self.deposit(number)) {
            let wet = settling.wet();
            self.set_laws = Some((wet.laws().clone(), wet.steepest()));
            self.set = Some(settling.into_set());
        } else {
            self.settling = Some(settling);
        }
    }
}
