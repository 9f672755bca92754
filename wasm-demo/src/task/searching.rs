//! What to set, and why one run takes less paint than another, piece by piece.

use mistcoat::error::ParameterError;
use mistcoat::job::Job;
use mistcoat::search::Search;
use mistcoat::why::Why;

use crate::worker::Refusal;

/// Droplets of a piece: a few milliseconds on a slow phone.
const PIECE: u64 = 256;

fn refuse(error: &ParameterError) -> Refusal {
    Refusal { key: Some(error.key.clone()), message: error.to_string() }
}

fn read(job: &str) -> Result<Job, Refusal> {
    Job::from_toml(job).map_err(|e| Refusal {
        key: Some(e.key.clone()).filter(|k| !k.is_empty()),
        message: e.problem().to_string(),
    })
}

/// Works on while there is time; true when all is done or it failed.
fn go_on(
    failed: &mut Option<Refusal>,
    time_left: &mut dyn FnMut() -> bool,
    mut piece: impl FnMut() -> Result<bool, ParameterError>,
) -> bool {
    loop {
        match piece() {
            Ok(false) => {}
            Ok(true) => return true,
            Err(error) => {
                *failed = Some(refuse(&error));
                return true;
            }
        }
        if !time_left() {
            return false;
        }
    }
}

/// A search under way.
pub struct Searching {
    search: Search,
    /// Paint of the best and how many knobs are known to be how exact, as told so far.
    told: (u64, usize),
    failed: Option<Refusal>,
}

impl Searching {
    /// Reads the job.
    ///
    /// # Errors
    /// A job that cannot be sprayed or searched, by its key.
    pub fn start(job: &str) -> Result<Self, Refusal> {
        let search = Search::new(read(job)?).map_err(|e| refuse(&e))?;
        Ok(Self { search, told: (0, 0), failed: None })
    }

    /// Works on while there is time; true when all is done.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        let search = &mut self.search;
        go_on(&mut self.failed, time_left, || search.advance(PIECE))
    }

    /// Work done and wanted.
    pub fn progress(&self) -> (u64, u64) {
        ((1000.0 * self.search.done()) as u64, 1000)
    }

    /// What is known, when it is other than what was told.
    pub fn partial(&mut self) -> Option<String> {
        let answer = self.search.answer();
        let best = answer.best.as_ref()?;
        let now = (best.ml.to_bits(), answer.flat.len());
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
        self.failed.clone().map_or_else(|| Ok(self.search.answer().to_json()), Err)
    }
}

/// Causes being swapped.
pub struct Asking {
    why: Why,
    failed: Option<Refusal>,
}

impl Asking {
    /// Reads both jobs.
    ///
    /// # Errors
    /// Jobs that cannot be flown or are of two parts, by key.
    pub fn start(first: &str, second: &str) -> Result<Self, Refusal> {
        let why = Why::new(read(first)?, read(second)?).map_err(|e| refuse(&e))?;
        Ok(Self { why, failed: None })
    }

    /// Works on while there is time; true when all is done.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        let why = &mut self.why;
        go_on(&mut self.failed, time_left, || why.advance(PIECE))
    }

    /// Work done and wanted.
    pub fn progress(&self) -> (u64, u64) {
        ((1000.0 * self.why.done()) as u64, 1000)
    }

    /// All of it.
    ///
    /// # Errors
    /// Why it could not be done.
    pub fn answer(&self) -> Result<String, Refusal> {
        self.failed.clone().map_or_else(|| Ok(self.why.answer().to_json()), Err)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bad_job_is_refused_by_its_key() {
        assert_eq!(Searching::start("version = 1").err().unwrap().key.as_deref(), Some("gun.kit"));
        let other = crate::state::TABLE_TOP;
        assert_eq!(Asking::start(crate::state::CHAIR_LEG, other).err().unwrap().key.as_deref(), Some("part"));
    }

    #[test]
    fn the_same_job_differs_in_nothing() {
        let leg = crate::state::CHAIR_LEG;
        let mut asking = Asking::start(leg, leg).unwrap();
        while !asking.advance(&mut || true) {}
        let answer: mistcoat::why::Answer = serde_json::from_str(&asking.answer().unwrap()).unwrap();
        assert!(answer.complete && answer.ml == 0.0 && asking.progress() == (1000, 1000));
    }
}
