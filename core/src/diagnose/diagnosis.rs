//! A diagnosis under way: a look at the job as it is, the search, then full flights of what the search found.

use serde::{Deserialize, Serialize};

use super::advice::Advice;
use super::complaint::{Complaint, complaints};
use super::confirm::Confirm;
use super::measure::Measure;
use super::readout::{Readout, target_of};
use super::search::Search;
use crate::error::ParameterError;
use crate::job::Job;
use crate::run::Run;

/// Droplets of a trial to the part, fewest and most; between them as many as the film's cells need.
const TRIAL: [f64; 2] = [12_288.0, 49_152.0];
/// The same of a full flight.
const FULL: [f64; 2] = [98_304.0, 294_912.0];
/// Droplets of a trial to the card, and of a full flight.
const CARD: [u64; 2] = [16_384, 98_304];
/// A cell's counting error that a trial may have, over the band wanted [-]; a full flight half of it.
const NOISE: f64 = 0.2;

/// What is wrong, and what to change.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The job's name.
    pub name: String,
    /// What is wrong, worst first; empty where nothing is, or nothing is known yet.
    pub complaints: Vec<Complaint>,
    /// What to change, best first; empty where nothing helps for certain.
    pub advices: Vec<Advice>,
    /// All of it is done.
    pub complete: bool,
}

impl Answer {
    /// The answer as JSON, keys in a fixed order.
    #[must_use]
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
    }

    /// Complaints that no advice is given for.
    #[must_use]
    pub fn unmended(&self) -> Vec<&Complaint> {
        let mends = |a: &Advice, m: Measure| a.measure == m || a.also.contains(&m);
        self.complaints.iter().filter(|c| !self.advices.iter().any(|a| mends(a, c.measure))).collect()
    }
}

enum Work {
    Look(Box<Run>),
    Search(Box<Search>),
    Confirm(Box<Confirm>),
    Over,
}

/// A diagnosis under way. Every slicing and any number of threads give the same digits.
pub struct Diagnosis {
    job: Job,
    mean: f64,
    noise: f64,
    flown: u64,
    work: Work,
    answer: Answer,
}

crate::in_pieces::in_pieces!(Diagnosis);

impl Diagnosis {
    /// Prepares the diagnosis of a job; nothing is flown yet.
    ///
    /// # Errors
    /// A job that cannot be sprayed, by its key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let run = Box::new(Run::new(job.clone())?);
        let answer =
            Answer { name: job.name.clone(), complaints: Vec::new(), advices: Vec::new(), complete: false };
        Ok(Self { job, mean: 0.0, noise: 0.0, flown: 0, work: Work::Look(run), answer })
    }

    /// Work done and wanted, in thousandths.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let share = match &self.work {
            Work::Look(run) => {
                let (done, total) = run.progress();
                0.15 * done as f64 / total.max(1) as f64
            }
            Work::Search(search) => 0.15 + 0.5 * search.done(),
            Work::Confirm(confirm) => 0.65 + 0.35 * confirm.done(),
            Work::Over => 1.0,
        };
        ((1000.0 * share) as u64, 1000)
    }

    /// What is known by now.
    #[must_use]
    pub fn answer(&self) -> &Answer {
        &self.answer
    }

    fn step(&mut self, most: u64, threads: bool) -> Result<bool, ParameterError> {
        match std::mem::replace(&mut self.work, Work::Over) {
            Work::Look(mut run) => {
                let complete = if threads { run.advance_on_all_threads(most) } else { run.advance(most) };
                if complete { self.looked(&run)? } else { self.work = Work::Look(run) }
            }
            Work::Search(mut search) => {
                if search.advance(most, threads)? {
                    self.searched(&search);
                } else {
                    self.work = Work::Search(search);
                }
            }
            Work::Confirm(mut confirm) => {
                let over = confirm.advance(most, threads)?;
                self.answer.advices = confirm.advices();
                if !over {
                    self.work = Work::Confirm(confirm);
                }
            }
            Work::Over => {}
        }
        self.answer.complete = matches!(self.work, Work::Over);
        Ok(self.answer.complete)
    }

    fn looked(&mut self, run: &Run) -> Result<(), ParameterError> {
        let film = run.film();
        let mean = film.mean_dry().0;
        let readout = Readout::of(run, target_of(&self.job, mean))?;
        (self.mean, self.noise, self.flown) = (mean, readout.cell_noise, run.flown());
        self.answer.complaints = complaints(&readout, run);
        if !self.answer.complaints.is_empty() {
            let droplets = [self.droplets(NOISE, TRIAL), self.card(0)];
            let search = Search::new(self.job.clone(), self.answer.complaints.clone(), mean, droplets);
            self.work = Work::Search(Box::new(search));
        }
        Ok(())
    }

    fn searched(&mut self, search: &Search) {
        let list = search.chosen();
        if list.is_empty() {
            return;
        }
        let droplets = [self.droplets(0.5 * NOISE, FULL), self.card(1)];
        let (job, complaints) = (self.job.clone(), self.answer.complaints.clone());
        self.work = Work::Confirm(Box::new(Confirm::new(job, complaints, list, self.mean, droplets)));
    }

    /// Droplets that leave so much noise in a cell.
    fn droplets(&self, noise: f64, [fewest, most]: [f64; 2]) -> u64 {
        let ratio = self.noise / noise;
        (self.flown as f64 * ratio * ratio).clamp(fewest, most) as u64
    }

    /// Droplets to the card: on a tube only the pattern's name hangs on them.
    fn card(&self, full: usize) -> u64 {
        let panel = !self.job.part.is_of_tubes();
        if panel || self.job.stroke.burst.is_some() || self.of_the_spray() {
            CARD[full]
        } else {
            CARD[full] / 4
        }
    }

    fn of_the_spray(&self) -> bool {
        self.answer.complaints.iter().any(|c| c.measure.of_the_spray())
    }
}
