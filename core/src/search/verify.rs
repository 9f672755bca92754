//! A set-up as it will be written into the job, flown in full on streams that no trial has seen, its film let set.

use super::answer::{Found, found};
use super::asked::Asked;
use super::look::{FULL, Look};
use super::marks::Marked;
use super::paced::Paced;
use super::setup::set;
use super::stop::{Stop, What};
use super::trial::{Choice, Trial, Tried};
use crate::error::ParameterError;
use crate::job::Job;

/// Ways laid in full.
const WAYS: usize = 24;

/// A set-up flown in full.
pub struct Verify {
    job: Job,
    look: Look,
    trial: Trial,
    /// What it came to, with the job as it will be written.
    tried: Option<(Job, Tried)>,
}

impl Verify {
    /// A flight of a set-up.
    ///
    /// # Errors
    /// A set-up that cannot be sprayed, by its key.
    pub fn new(job: Job, look: Look) -> Result<Self, ParameterError> {
        let trial = Trial::new(job.clone(), FULL, look, Choice::Of(WAYS))?;
        Ok(Self { job, look, trial, tried: None })
    }

    /// Works on, a piece; true when it is over.
    pub fn advance(&mut self, asked: &Asked, most: u64, threads: bool) -> bool {
        if self.tried.is_some() {
            return self.trial.flight_mut().settle(threads);
        }
        if !self.trial.advance(asked, most, threads) {
            return false;
        }
        let Some(mut tried) = self.trial.tried() else { return true };
        let Ok(mut job) = set(&self.job, &tried.way.set(self.job.clone())) else { return true };
        // Its figures are those of the speed as it is told.
        tried.way.speed = job.stroke.speed;
        job.run = self.job.run;
        let flow = self.trial.flight().prepared().spray.volume_flow;
        let films = self.trial.flight().lay(tried.way, self.look);
        let Some(paced) = Paced::at(&films, tried.way.speed, flow, asked, Some(tried.way.speed)) else {
            return true;
        };
        // What is told by the gun, and by the films that the trial let set.
        let other = |s: &&Stop| s.parts.is_some() || matches!(s.what, What::Pattern | What::Air);
        let stops: Vec<Stop> = tried.paced.stops.iter().filter(other).copied().collect();
        let unsure: Vec<Stop> = tried.paced.unsure.iter().filter(other).copied().collect();
        let (bound, without) =
            (tried.paced.bound, tried.paced.without.map(|v| v * paced.volume / tried.paced.volume));
        let by_parts = self.trial.flight().is_by_columns() && paced.at_risk.len() > 1;
        tried.paced = Paced { bound, without, ..paced };
        if by_parts {
            tried.paced.stops.retain(|s| s.what != What::Runs);
        }
        tried.paced.stops.extend(stops);
        tried.paced.unsure.extend(unsure);
        if by_parts {
            self.tried = Some((job, tried));
            return true;
        }
        if self.trial.flight_mut().relay(job.clone()) != Ok(true) {
            return true;
        }
        self.tried = Some((job, tried));
        false
    }

    /// What came out; none where nothing landed.
    #[must_use]
    pub fn found(&self, from: &Job) -> Option<Found> {
        let (job, mut tried) = self.tried.clone()?;
        if let Some(set) = self.trial.flight().run().set_film() {
            let mut marked = Marked::default();
            marked.add(set);
            tried.paced.stops.retain(|s| s.what != What::Runs);
            tried.paced.stops.extend(marked.any());
        }
        Some(found(from, &job, &self.trial, &tried))
    }
}
