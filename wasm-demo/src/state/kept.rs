//! Runs put aside: what was set differently, and what came out differently.

use mistcoat::job::{Job, KEYS, as_written};
use serde::{Deserialize, Serialize};

use super::RunView;

/// Most runs put aside; the oldest makes room.
pub const MOST: usize = 8;
/// Counting errors within which two figures are the same.
const SAME: f64 = 2.0;

/// A run put aside.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KeptRun {
    /// Its number on the shelf, as it is called.
    pub number: u32,
    /// The job's text.
    pub job: String,
    /// The report, keys as in `docs/job-file.md`.
    pub report: serde_json::Value,
    /// Digest of the run.
    pub digest: u64,
}

/// A figure that is set side by side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Column {
    /// Paint for a part at the film wanted [mL], as the clipboard has it: two runs are fair to each other at the same film alone.
    Paint,
    /// Of 100 sprayed, on the part.
    Stays,
    /// Mean dry film [um].
    Dry,
    /// Standard deviation of the film over its mean [%].
    Uneven,
    /// Of 100 of the area, runs.
    Runs,
    /// Trigger on [s].
    Seconds,
}

impl Column {
    /// All, in the order they are shown.
    pub const ALL: [Self; 6] = [Self::Paint, Self::Stays, Self::Dry, Self::Uneven, Self::Runs, Self::Seconds];

    /// Its path in the report, and what brings the report's figure to the one shown.
    fn path(self) -> (&'static str, f64) {
        match self {
            Self::Paint => ("paint.sprayed_ml", 1.0),
            Self::Stays => ("transfer_efficiency.value", 100.0),
            Self::Dry => ("film.dry_um.mean", 1.0),
            Self::Uneven => ("film.cv_percent.value", 1.0),
            Self::Runs => ("finish.run_area_percent", 1.0),
            Self::Seconds => ("paint.seconds", 1.0),
        }
    }

    /// The figure of a run's job and report; none where the run cannot say.
    pub fn of(self, job: &str, report: &serde_json::Value) -> Option<f64> {
        let scale = if self == Self::Paint { to_film_wanted(job, report)? } else { 1.0 };
        self.reported(report).map(|v| v * scale)
    }

    /// The figure as the report has it.
    fn reported(self, report: &serde_json::Value) -> Option<f64> {
        let (path, scale) = self.path();
        let found = path.split('.').try_fold(report, |value, key| value.get(key))?;
        found.as_f64().filter(|v| v.is_finite()).map(|v| v * scale)
    }

    /// Its counting error; 0 for figures that come from no droplets.
    fn error(self, report: &serde_json::Value) -> f64 {
        let (path, scale) = self.path();
        let found =
            report.get("standard_errors").and_then(|all| all.get(path)).and_then(serde_json::Value::as_f64);
        found.filter(|v| v.is_finite()).unwrap_or(0.0) * scale
    }

    /// By how much `now` is more than `then`; none where one of them cannot say, 0 where counting alone may have made it.
    pub fn difference(
        self,
        now: (&str, &serde_json::Value),
        then: (&str, &serde_json::Value),
    ) -> Option<f64> {
        let difference = self.of(now.0, now.1)? - self.of(then.0, then.1)?;
        let (a, b) = (self.error(now.1), self.error(then.1));
        let noise = SAME * (a * a + b * b).sqrt();
        Some(if difference.abs() <= noise { 0.0 } else { difference })
    }
}

/// Film wanted over film found; 1 where the job wants none.
fn to_film_wanted(job: &str, report: &serde_json::Value) -> Option<f64> {
    let wanted = Job::from_toml(job).ok().and_then(|job| mistcoat::judge::wanted(&job));
    let Some((low, high)) = wanted else { return Some(1.0) };
    let found = Column::Dry.reported(report).filter(|um| *um > 0.0)? * 1e-6;
    Some(0.5 * (low + high) / found)
}

/// A key that two jobs give differently: before, now; none where a job leaves it out.
pub type Changed = (&'static str, Option<String>, Option<String>);

/// Keys that the jobs give differently, in the order of the list.
pub fn changed(then: &str, now: &str) -> Vec<Changed> {
    let written = |text: &str, key: &str| as_written(text, key).ok().flatten();
    let skipped = |path: &str| path == "name" || path.starts_with("compare") || path.starts_with("practice");
    KEYS.iter()
        .filter(|key| !skipped(key.path))
        .map(|key| (key.path, written(then, key.path), written(now, key.path)))
        .filter(|(_, then, now)| then != now)
        .collect()
}

/// Puts a run on the shelf, once; the oldest makes room.
pub fn keep(shelf: &mut Vec<KeptRun>, run: &RunView) {
    if shelf.iter().any(|kept| kept.job == run.job && kept.digest == run.digest) {
        return;
    }
    let number = shelf.iter().map(|kept| kept.number).max().unwrap_or(0) + 1;
    shelf.push(KeptRun { number, job: run.job.clone(), report: run.report.clone(), digest: run.digest });
    if shelf.len() > MOST {
        shelf.remove(0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;

    fn run(job: &str, ml: f64, stays: f64, error: f64) -> RunView {
        let report = serde_json::json!({
            "paint": { "sprayed_ml": ml },
            "transfer_efficiency": { "value": stays },
            "standard_errors": { "transfer_efficiency.value": error },
        });
        RunView { job: job.into(), report, film: None, droplets: Arc::from([]), digest: job.len() as u64 }
    }

    #[test]
    fn differences_below_counting_are_none() {
        let (a, b) = (run("a", 20.0, 0.40, 0.01), run("b", 15.0, 0.42, 0.01));
        let apart = |column: Column, now: &RunView, then: &RunView| {
            column.difference((&now.job, &now.report), (&then.job, &then.report))
        };
        assert_eq!(apart(Column::Paint, &b, &a), Some(-5.0));
        assert_eq!(apart(Column::Stays, &b, &a), Some(0.0));
        assert_eq!(apart(Column::Runs, &b, &a), None);
        let c = run("c", 15.0, 0.45, 0.01);
        assert!((apart(Column::Stays, &c, &a).unwrap() - 5.0).abs() < 1e-9);
    }

    #[test]
    fn paint_is_told_at_the_film_wanted() {
        let job = super::super::CHAIR_LEG;
        let thick =
            serde_json::json!({ "paint": { "sprayed_ml": 20.0 }, "film": { "dry_um": { "mean": 55.0 } } });
        // The job wants 20 to 35 um.
        assert!((Column::Paint.of(job, &thick).unwrap() - 10.0).abs() < 1e-9);
        assert_eq!(Column::Paint.of(job, &serde_json::json!({ "paint": { "sprayed_ml": 20.0 } })), None);
    }

    #[test]
    fn what_was_set_differently_is_named() {
        let then = super::super::TABLE_TOP;
        let now = mistcoat::job::with_key(then, "gun.fan", "0.5").unwrap();
        let now = mistcoat::job::with_key(&now, "name", "\"another\"").unwrap();
        let all = changed(then, &now);
        assert_eq!(all.len(), 1, "{all:?}");
        assert_eq!((all[0].0, all[0].2.as_deref()), ("gun.fan", Some("0.5")));
        assert!(changed(then, then).is_empty());
    }

    #[test]
    fn the_shelf_keeps_the_newest_and_each_once() {
        let mut shelf = Vec::new();
        for i in 0..12 {
            let job = "x".repeat(i + 1);
            keep(&mut shelf, &run(&job, 1.0, 0.1, 0.0));
            keep(&mut shelf, &run(&job, 1.0, 0.1, 0.0));
        }
        assert_eq!(shelf.len(), MOST);
        assert_eq!(shelf.iter().map(|k| k.number).collect::<Vec<_>>(), (5..=12).collect::<Vec<_>>());
    }
}
