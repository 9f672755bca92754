//! What is wrong with a job and what to change, piece by piece.

use mistcoat::diagnose::{Answer, Diagnosis};
use mistcoat::error::ParameterError;
use mistcoat::job::Job;

use crate::worker::Refusal;

/// Droplets of a piece: a few milliseconds on a slow phone.
const PIECE: u64 = 256;

/// A diagnosis under way.
pub struct Diagnosing {
    diagnosis: Diagnosis,
    /// Complaints and advices told so far.
    told: (usize, usize),
    failed: Option<Refusal>,
}

fn refuse(error: &ParameterError) -> Refusal {
    Refusal { key: Some(error.key.clone()), message: error.to_string() }
}

impl Diagnosing {
    /// Reads the job.
    ///
    /// # Errors
    /// A job that cannot be sprayed, by its key.
    pub fn start(job: &str) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        let diagnosis = Diagnosis::new(job).map_err(|e| refuse(&e))?;
        Ok(Self { diagnosis, told: (0, 0), failed: None })
    }

    /// Works on while there is time; true when all is done.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            match self.diagnosis.advance(PIECE) {
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
        self.diagnosis.progress()
    }

    /// What is known, when it is more than was told.
    pub fn partial(&mut self) -> Option<String> {
        let answer = self.diagnosis.answer();
        let now = (answer.complaints.len(), answer.advices.len());
        (now != self.told).then(|| {
            self.told = now;
            answer.to_json()
        })
    }

    /// All of it.
    ///
    /// # Errors
    /// Why it could not be done.
    pub fn answer(&self) -> Result<String, Refusal> {
        let answer: &Answer = self.diagnosis.answer();
        self.failed.clone().map_or_else(|| Ok(answer.to_json()), Err)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn complaints_come_before_advice_and_the_answer_reads_back() {
        let job = crate::state::CHAIR_LEG.replace("600 mm", "100 mm") + "droplets = 2000\n";
        let mut diagnosing = Diagnosing::start(&job).unwrap();
        let (mut told, mut looks) = (Vec::new(), 0);
        while !diagnosing.advance(&mut || {
            looks += 1;
            looks % 8 > 0
        }) {
            told.extend(diagnosing.partial());
        }
        let first: Answer = serde_json::from_str(&told[0]).unwrap();
        assert!(!first.complaints.is_empty() && first.advices.is_empty(), "{first:?}");
        let last: Answer = serde_json::from_str(&diagnosing.answer().unwrap()).unwrap();
        assert!(last.complete && last.complaints == first.complaints);
        assert_eq!(diagnosing.progress(), (1000, 1000));
    }

    #[test]
    fn a_bad_job_is_refused_by_its_key() {
        assert_eq!(Diagnosing::start("version = 1").err().unwrap().key.as_deref(), Some("gun.kit"));
        let dry = crate::state::CHAIR_LEG.replace("fluid = 0.8", "fluid = 0.0");
        assert_ne!(dry, crate::state::CHAIR_LEG);
        assert_eq!(Diagnosing::start(&dry).err().unwrap().key.as_deref(), Some("gun.fluid"));
    }
}
