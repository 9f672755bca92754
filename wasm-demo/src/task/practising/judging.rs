//! A try judged: laid as the library lays it, then again without each of its faults.

use mistcoat::practice::{Advice, Shares, Trial, Tried, advise, shares, tried};
use mistcoat::stroke::Track;

use super::laying::Laying;
use super::{Card, Practising, SEGMENTS};

/// A try being judged.
pub(super) struct Judging {
    tried: Tried,
    /// The try itself, with all groups, as the library lays it.
    exact: Laying,
    /// The try as the trials are laid.
    plain: Laying,
    trials: Vec<Trial>,
    /// The trial being laid.
    under: Option<Laying>,
    laid: Vec<f64>,
}

impl Practising {
    pub(super) fn begin_judging(&mut self) {
        if self.full.is_none() {
            self.due = true;
            return;
        }
        let aim = self.aim.as_ref();
        let Ok(track) = Track::new(self.live.track.clone()) else { return };
        let Some((_, found)) = aim.and_then(|aim| Some((aim, tried(&track, aim)?))) else {
            // Without a pass over the panel there is nothing to judge.
            self.card_told = aim.map(|_| Card::empty());
            self.news = true;
            return;
        };
        self.judging = Some(Judging {
            trials: if self.band.is_some() { found.trials(&track) } else { Vec::new() },
            tried: found,
            exact: Laying::new(track.moments().to_vec(), &self.bare),
            plain: Laying::new(track.moments().to_vec(), &self.bare),
            under: None,
            laid: Vec::new(),
        });
        self.card_told = None;
    }

    pub(super) fn judge(&mut self) {
        let (Some(judging), Some(layer), Some(full)) = (&mut self.judging, &self.layer, &self.full) else {
            return;
        };
        // The film wanted of one coat, as often as there are coats.
        let coats = judging.tried.coats.len() as f64;
        let band = self.band.map(|band| band.map(|h| h * coats));
        if !judging.exact.is_done() {
            judging.exact.some(full, SEGMENTS / 4);
        } else if !judging.plain.is_done() {
            judging.plain.some(layer, SEGMENTS);
        } else if let Some(laying) = &mut judging.under {
            laying.some(layer, SEGMENTS);
            if laying.is_done() {
                let right = band.map_or(0.0, |band| shares(&laying.film, band).right);
                judging.laid.push(right);
                judging.under = None;
            }
        } else if let Some(trial) = judging.trials.get(judging.laid.len()) {
            judging.under = Some(Laying::new(trial.track.moments().to_vec(), &self.bare));
        } else if let Some(judging) = self.judging.take() {
            let shares: Option<Shares> = band.map(|band| shares(&judging.exact.film, band));
            let as_is = band.map_or(0.0, |band| mistcoat::practice::shares(&judging.plain.film, band).right);
            let laid = judging.trials.into_iter().zip(judging.laid).collect();
            let advice: Vec<Advice> = advise(as_is, laid);
            let beyond = judging.exact.track.iter().any(|m| m.trigger > 0.0 && !self.shelf.covers(m));
            self.card_told = Some(Card::new(&judging.tried, shares, &advice, beyond));
            self.live.film = judging.exact.film;
            (self.news, self.picture) = (true, true);
        }
    }
}
