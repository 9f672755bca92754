//! What follows when the cards of a stage are flown: surfaces, the most likely gun, cards anew, the ensemble.

use super::{ANEW_DROPLETS, DROPLETS_A_GUN, Matching, ROUNDS, STILL, Task};
use crate::error::ParameterError;
use crate::fit::answer::MatchedGun;
use crate::fit::ensemble::Ensemble;
use crate::fit::flown::blank;
use crate::fit::posterior::Problem;
use crate::fit::surface::Surface;
use crate::job::Reading;

impl Matching {
    /// All cards of the stage are flown: the next stage, or the answer.
    pub(super) fn stage_is_flown(&mut self) {
        if let Err(error) = self.next_stage() {
            self.end = Some(Err(error));
        }
    }

    fn next_stage(&mut self) -> Result<(), ParameterError> {
        let centre = self.closed.values([0.0; 4]).logs;
        for (place, &distance) in self.distances.iter().enumerate() {
            let cards = std::mem::take(&mut self.cards[place]);
            match self.surfaces.iter_mut().find(|(d, _)| *d == distance) {
                None => {
                    let surface = Surface::new(centre, &cards).ok_or_else(|| blank(distance))?;
                    self.surfaces.push((distance, surface));
                }
                Some((_, surface)) => {
                    for (values, card) in &cards {
                        surface.put_right(*values, card);
                    }
                }
            }
        }
        let problem = self.problem();
        let start = self.best.as_ref().map_or([0.0; 4], |b| b.logs);
        let map = problem.solve(start).ok_or_else(|| no_gun(&self.readings))?;
        let still = self.best.as_ref().is_some_and(|best| {
            (0..4).all(|i| (best.logs[i] - map.logs[i]).abs() <= STILL * map.covariance[i][i].sqrt())
        });
        if self.distances.is_empty() || self.round == ROUNDS || still {
            self.ensemble = Some(Ensemble::new(map).ok_or_else(|| no_gun(&self.readings))?);
            return Ok(());
        }
        self.round += 1;
        self.tasks = (0..self.distances.len())
            .map(|distance| Task { distance, logs: map.logs, droplets: ANEW_DROPLETS })
            .collect();
        self.next = 0;
        self.best = Some(map);
        Ok(())
    }

    fn problem(&self) -> Problem<'_> {
        Problem {
            closed: &self.closed,
            surfaces: &self.surfaces,
            readings: &self.readings,
            trust: self.trust,
        }
    }

    /// Weighs guns for as long as `most` droplets take; with the last of them the answer is there. What is left of `most`.
    pub(super) fn weigh(&mut self, most: u64) -> u64 {
        let Some(mut ensemble) = self.ensemble.take() else { return most };
        let guns = most.div_ceil(DROPLETS_A_GUN).min(ensemble.left() as u64);
        ensemble.draw(&self.problem(), guns as usize);
        if ensemble.left() > 0 {
            self.ensemble = Some(ensemble);
        } else {
            let weighed = ensemble.weighed();
            let gun = weighed.map(|(map, guns)| MatchedGun::new(&self.problem(), &map, &guns, self.flown));
            self.end = Some(gun.ok_or_else(|| no_gun(&self.readings)));
        }
        most.saturating_sub(guns * DROPLETS_A_GUN)
    }
}

/// The error where no gun near the catalogue's sprays at all what was measured.
fn no_gun(readings: &[Reading]) -> ParameterError {
    let key = readings.first().map_or("card", |r| r.key);
    ParameterError::new(
        key,
        "no gun near the catalogue's gives this",
        "readings of this kit at this setting, with this paint",
    )
}
