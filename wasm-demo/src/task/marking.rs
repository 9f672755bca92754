//! Exercises of a class hour marked, one after the other, as the worker finds them.

use mistcoat::class_hour::{Mark, Marking};
use mistcoat::job::Job;
use serde::{Deserialize, Serialize};

/// Droplets between two looks at the clock.
const PIECE: u64 = 512;

/// How one job came out: its mark, or why there is none.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Marked {
    /// The mark.
    pub mark: Option<Mark>,
    /// Why there is none.
    pub why: Option<String>,
}

/// The work under way; what is known is a list of [`Marked`], in the order of the jobs.
pub struct Marker {
    jobs: Vec<String>,
    marked: Vec<Marked>,
    under_way: Option<Box<Marking>>,
    told: usize,
}

impl Marker {
    /// Takes the jobs; each is read when its turn comes.
    pub fn start(jobs: &[String]) -> Self {
        Self { jobs: jobs.to_vec(), marked: Vec::new(), under_way: None, told: 0 }
    }

    /// Marks while there is time; true when all is known.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        while let Some(text) = self.jobs.get(self.marked.len()) {
            if let Some(marked) = step(&mut self.under_way, text) {
                self.under_way = None;
                self.marked.push(marked);
            }
            if !time_left() {
                break;
            }
        }
        self.marked.len() == self.jobs.len()
    }

    /// Work done and wanted, in thousandths of a job.
    pub fn progress(&self) -> (u64, u64) {
        let part = self.under_way.as_ref().map_or(0.0, |work| work.done());
        ((1000.0 * (self.marked.len() as f64 + part)) as u64, 1000 * self.jobs.len() as u64)
    }

    /// What is known, when it is more than was told.
    pub fn partial(&mut self) -> Option<String> {
        let now = self.marked.len();
        (now != std::mem::replace(&mut self.told, now)).then(|| self.answer())
    }

    /// What is known, as JSON.
    pub fn answer(&self) -> String {
        serde_json::to_string(&self.marked).unwrap_or_default()
    }
}

/// A piece of one job's work; what came of it, once that is known.
fn step(under_way: &mut Option<Box<Marking>>, text: &str) -> Option<Marked> {
    let failed = |why: String| Some(Marked { mark: None, why: Some(why) });
    let work = match under_way {
        Some(work) => work,
        None => {
            let job = match Job::from_toml(text) {
                Ok(job) => job,
                Err(error) => return failed(error.problem().to_string()),
            };
            match Marking::new(job) {
                Ok(marking) => under_way.insert(Box::new(marking)),
                Err(error) => return failed(error.to_string()),
            }
        }
    };
    match work.advance(PIECE) {
        Ok(false) => None,
        Ok(true) => Some(Marked { mark: work.mark().cloned(), why: None }),
        Err(error) => failed(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::class_hour::exercise;
    use mistcoat::job::with_key;

    #[test]
    fn good_and_bad_jobs_come_back_in_their_order() {
        let asked = exercise("wall-pressure").unwrap();
        let answered = with_key(&asked, "practice.answer", "3 bar").unwrap();
        let mut marker = Marker::start(&[answered, asked, "nonsense = 1".into()]);
        let mut looks = 0;
        while !marker.advance(&mut || {
            looks += 1;
            false
        }) {}
        assert!(looks > 1);
        let (done, all) = marker.progress();
        assert_eq!(done, all);
        let marked: Vec<Marked> = serde_json::from_str(&marker.partial().unwrap()).unwrap();
        assert!(marked[0].mark.as_ref().is_some_and(|m| m.figure == 3e5));
        assert!(marked[1].why.as_ref().is_some_and(|w| w.contains("practice.answer")));
        assert!(marked[2].mark.is_none() && marked[2].why.is_some());
        assert_eq!(marker.partial(), None);
    }
}
