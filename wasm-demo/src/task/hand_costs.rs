//! What each error of a hand costs, as the worker finds it.

use mistcoat::error::ParameterError;
use mistcoat::job::Job;
use mistcoat::run::HandCosting;

use crate::worker::Refusal;

/// Droplets between two looks at the clock.
const PIECE: u64 = 512;

/// The work under way; the answer is `mistcoat::run::HandCosts`.
pub struct Costing {
    costing: HandCosting,
    failed: Option<Refusal>,
}

fn refuse(error: &ParameterError) -> Refusal {
    Refusal { key: Some(error.key.clone()), message: error.to_string() }
}

impl Costing {
    /// Reads the job.
    ///
    /// # Errors
    /// A job that cannot be sprayed, or whose hand has no errors, by its key.
    pub fn start(job: &str) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        let costing = HandCosting::new(job).map_err(|e| refuse(&e))?;
        Ok(Self { costing, failed: None })
    }

    /// Flies and lays while there is time; true when all is known, or cannot be.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            match self.costing.advance(PIECE) {
                Ok(false) => {}
                Ok(true) => return true,
                Err(error) => {
                    self.failed = Some(refuse(&error));
                    return true;
                }
            }
            if !time_left() {
                return false;
            }
        }
    }

    /// Work done and wanted.
    pub fn progress(&self) -> (u64, u64) {
        self.costing.progress()
    }

    /// The costs, as JSON.
    ///
    /// # Errors
    /// Why it could not be done.
    pub fn answer(&self) -> Result<String, Refusal> {
        if let Some(refusal) = &self.failed {
            return Err(refusal.clone());
        }
        serde_json::to_string(&self.costing.costs())
            .map_err(|e| Refusal { key: None, message: e.to_string() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::job::with_key;
    use mistcoat::run::HandCosts;

    #[test]
    fn each_error_is_told_and_a_machine_has_none() {
        let text = with_key(crate::state::TABLE_TOP, "run.droplets", "4000").unwrap();
        let arcing = with_key(&text, "stroke.hand", "arcing").unwrap();
        let mut work = Costing::start(&arcing).unwrap();
        while !work.advance(&mut || true) {}
        let (done, all) = work.progress();
        assert_eq!(done, all);
        let costs: Option<HandCosts> = serde_json::from_str(&work.answer().unwrap()).unwrap();
        let costs = costs.unwrap();
        let words: Vec<_> = costs.errors.iter().map(|e| e.error.as_str()).collect();
        assert_eq!(words, ["aim", "speed", "distance", "arcing"]);
        assert!(costs.hand.cv_percent > costs.machine.cv_percent);
        let refused = Costing::start(&text).err().unwrap();
        assert_eq!(refused.key.as_deref(), Some("stroke.hand"));
    }
}
