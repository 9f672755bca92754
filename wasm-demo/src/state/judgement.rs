//! A run's judgement, and the job's keys that say how it is judged.

use mistcoat::job::{JobError, Method, with_key, without_key};
use mistcoat::judge::Judgement;

use super::RunView;

/// The judgement of a run's report; none where the report has none.
pub fn judgement(run: &RunView) -> Option<Judgement> {
    serde_json::from_value(run.report.get("judgement")?.clone()).ok()
}

/// Keys that only one of the methods reads.
const OF_METHOD: [(&str, Method); 5] = [
    ("spec.right_on", Method::Band),
    ("spec.level", Method::Pa2),
    ("spec.rule", Method::Iso19840),
    ("spec.nominal", Method::Iso19840),
    ("spec.profile_correction", Method::Iso19840),
];

/// The job judged by another method; keys that it would not use go.
pub fn judged_by(text: &str, word: &str) -> Result<String, JobError> {
    let mut edited = with_key(text, "spec.judge", word)?;
    for (key, method) in OF_METHOD {
        if method.word() != word {
            edited = without_key(&edited, key)?;
        }
    }
    Ok(edited)
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::job::Job;

    #[test]
    fn another_method_leaves_no_key_behind() {
        let level =
            with_key(&judged_by(crate::state::TABLE_TOP, "pa-2").unwrap(), "spec.level", "1").unwrap();
        let iso = judged_by(&level, "iso-19840").unwrap();
        let job = Job::from_toml(&iso).unwrap();
        assert_eq!((job.judging.method, job.judging.level), (Method::Iso19840, 3));
        assert!(job.notes.iter().all(|n| !n.contains("spec.")), "{:?}", job.notes);
    }
}
