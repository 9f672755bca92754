//! Matching a gun to its card, as the worker does it and as the page reads it.

use mistcoat::fit::{Agreement, Line, MatchedGun, words};
use mistcoat::job::Job;
use mistcoat::units::System;
use serde::{Deserialize, Serialize};

use crate::worker::Refusal;

/// Droplets between two looks at the clock.
const PIECE: u64 = 1024;

/// One line of what the card tells.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Said {
    /// What it is about.
    pub name: String,
    /// What is said of it.
    pub text: String,
}

/// One constant before and after the card, as factors on the catalogue's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Belief {
    /// What it is.
    pub name: String,
    /// The card tells it.
    pub told: bool,
    /// Likely range before the card.
    pub before: [f64; 2],
    /// Likely range after it.
    pub after: [f64; 2],
    /// Most likely after it.
    pub value: f64,
}

/// The matched gun as the page shows it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// What is told, in metric units.
    pub metric: Vec<Said>,
    /// The same in US units.
    pub us: Vec<Said>,
    /// The constants.
    pub beliefs: Vec<Belief>,
    /// Keys of the job file and their values; none when the readings contradict each other.
    pub keys: Vec<(String, String)>,
    /// The readings go together.
    pub good: bool,
    /// Nothing may be taken over.
    pub contradiction: bool,
}

impl Answer {
    /// Of a matched gun.
    #[must_use]
    pub fn of(gun: &MatchedGun) -> Self {
        let said = |system| {
            let line = |Line { name, text }| Said { name: name.into(), text };
            words(gun, system).into_iter().map(line).collect()
        };
        let belief = |c: &mistcoat::fit::Fitted| Belief {
            name: c.unknown.name().into(),
            told: c.told,
            before: [c.before.low, c.before.high],
            after: [c.factor.low, c.factor.high],
            value: c.factor.value,
        };
        Self {
            metric: said(System::Metric),
            us: said(System::Us),
            beliefs: gun.constants.iter().map(belief).collect(),
            keys: gun.keys().into_iter().map(|(key, value)| (key.into(), value)).collect(),
            good: gun.agreement == Agreement::Good,
            contradiction: gun.agreement == Agreement::Contradiction,
        }
    }

    /// What is told, in these units.
    #[must_use]
    pub fn said(&self, system: System) -> &[Said] {
        match system {
            System::Metric => &self.metric,
            System::Us => &self.us,
        }
    }
}

/// A fit under way.
pub struct Matching(mistcoat::fit::Matching);

impl Matching {
    /// Reads and checks the job with its card.
    ///
    /// # Errors
    /// A text that is no job, or a card that cannot be matched.
    pub fn start(job: &str) -> Result<Self, Refusal> {
        let job = Job::from_toml(job).map_err(|e| Refusal {
            key: Some(e.key.clone()).filter(|k| !k.is_empty()),
            message: e.problem().to_string(),
        })?;
        mistcoat::fit::Matching::new(job).map(Self).map_err(|e| refusal(&e))
    }

    /// Flies for as long as there is time; true when the answer is there.
    pub fn advance(&mut self, time_left: &mut dyn FnMut() -> bool) -> bool {
        loop {
            if self.0.advance(PIECE) {
                return true;
            }
            if !time_left() {
                return false;
            }
        }
    }

    /// Droplets flown and wanted.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        self.0.progress()
    }

    /// The answer as JSON.
    ///
    /// # Errors
    /// When no gun near the catalogue's fits.
    pub fn answer(&self) -> Result<String, Refusal> {
        match self.0.matched() {
            Some(Ok(gun)) => Ok(serde_json::to_string(&Answer::of(gun)).unwrap_or_default()),
            Some(Err(error)) => Err(refusal(error)),
            None => Err(Refusal { key: None, message: "the fit has not ended".into() }),
        }
    }
}

fn refusal(error: &mistcoat::error::ParameterError) -> Refusal {
    Refusal { key: Some(error.key.clone()), message: error.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::TABLE_TOP;

    /// A flow alone needs no droplets, so this is quick.
    #[test]
    fn a_card_becomes_an_answer_that_reads_back() {
        let text = format!("{TABLE_TOP}\n[card]\nweighed = \"36 g\"\n");
        let mut matching = Matching::start(&text).unwrap();
        while !matching.advance(&mut || false) {}
        let answer: Answer = serde_json::from_str(&matching.answer().unwrap()).unwrap();
        assert_eq!(answer.beliefs.iter().map(|b| b.told).collect::<Vec<_>>(), [false, false, true, false]);
        assert_eq!(answer.keys.len(), 1);
        assert!(answer.good && !answer.contradiction);
        assert!(answer.said(System::Us).iter().any(|s| s.text.contains("fl oz/min")));
        for b in answer.beliefs {
            assert!(b.after[0] <= b.value && b.value <= b.after[1], "{b:?}");
        }
    }

    #[test]
    fn a_job_without_a_card_is_refused() {
        let refused = Matching::start(TABLE_TOP).map(|_| ()).unwrap_err();
        assert!(refused.message.contains("nothing was measured"), "{refused:?}");
    }
}
