//! Kits side by side, piece by piece.

use mistcoat::compare::{Candidate, Comparison, Money};
use mistcoat::job::Job;

use crate::worker::Refusal;

/// Droplets of a piece: a few milliseconds on a slow phone.
const PIECE: u64 = 256;

/// A comparison under way.
pub struct Comparing {
    comparison: Comparison,
    /// Rows told so far.
    told: usize,
}

impl Comparing {
    /// Reads the job and its kits.
    ///
    /// # Errors
    /// A job or a kit that cannot be compared, by its key.
    pub fn start(job: &str) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        let refuse =
            |e: mistcoat::error::ParameterError| Refusal { key: Some(e.key.clone()), message: e.to_string() };
        let (candidates, money) = (Candidate::of(&job).map_err(refuse)?, Money::of(&job));
        let comparison = Comparison::new(job, candidates, money).map_err(refuse)?;
        Ok(Self { comparison, told: 0 })
    }

    /// Works on while there is time; true when all rows are there.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            if self.comparison.advance(PIECE) {
                return true;
            }
            if !time_left() {
                return false;
            }
        }
    }

    /// Work done and wanted.
    pub fn progress(&self) -> (u64, u64) {
        self.comparison.progress()
    }

    /// The rows, when there are more than were told.
    pub fn partial(&mut self) -> Option<String> {
        let answer = self.comparison.answer();
        (answer.rows.len() > self.told).then(|| {
            self.told = answer.rows.len();
            answer.to_json()
        })
    }

    /// All rows.
    pub fn answer(&self) -> String {
        self.comparison.answer().to_json()
    }
}

#[cfg(test)]
mod tests {
    use mistcoat::compare::{PayBack, Sure};

    use super::*;
    use crate::state::side::Sides;

    #[test]
    fn rows_come_one_by_one() {
        let job = crate::state::CHAIR_LEG.replace("600 mm", "100 mm") + "droplets = 2000\n";
        let mut comparing = Comparing::start(&job).unwrap();
        let mut told = Vec::new();
        let mut looks = 0;
        while !comparing.advance(&mut || {
            looks += 1;
            looks % 8 > 0
        }) {
            told.extend(comparing.partial());
        }
        assert_eq!(told.len(), 1, "your gun as set is known before its best");
        // As the view reads it.
        let sides = Sides::read(&comparing.answer()).unwrap();
        assert_eq!(sides.rows.iter().map(|r| r.label.as_str()).collect::<Vec<_>>(), ["as-set", "best"]);
        let best = &sides.rows[1];
        assert_eq!(best.place(&sides.rows), None);
        assert_eq!(best.verdict(None, &Money::default()), (Some(PayBack::AtOnce), Some(Sure::Yes)));
        assert!(sides.most_ml() >= sides.rows[0].figures.as_ref().unwrap().ml);
        let (done, total) = comparing.progress();
        assert_eq!(done, total);
    }

    #[test]
    fn a_bad_job_is_refused_by_its_key() {
        let refused = Comparing::start("version = 1").err().unwrap();
        assert_eq!(refused.key.as_deref(), Some("gun.kit"));
        let burst = crate::state::CHAIR_LEG.replace("[stroke]", "[stroke]\nburst = \"1 s\"");
        let refused = Comparing::start(&burst).err().unwrap();
        assert_eq!(refused.key.as_deref(), Some("stroke.burst"));
    }
}
