//! Jobs drawn at random over all keys of the job file, and what must hold of each.

mod draw;
mod figures;
mod held;
mod tables;

use crate::patterns::Draws;
use mistcoat::job::{Job, JobError, KEYS, Key};
use std::collections::BTreeMap;

pub use figures::{sane_figures, sane_words};
pub use held::{defect, held};

/// Droplets of a job.
pub const DROPLETS: u64 = 32;
/// A part with more area than this is drawn again: its cells take time and no other code [m2].
const MOST_AREA: f64 = 0.03;
/// Keys that others decide about (`tables`).
const DECIDED: [&str; 14] = [
    "version",
    "gun.kit",
    "gun.box.",
    "supply.",
    "paint.kind",
    "part.panel.",
    "part.tube.",
    "part.curved.",
    "part.frame",
    "stroke.distance",
    "stroke.speed",
    "stroke.hand",
    "stroke.track",
    "run.",
];

/// Lines of a job file by their keys, each with its value as TOML has it.
#[derive(Debug, Clone, Default)]
pub struct Lines(Vec<(&'static str, String)>);

impl Lines {
    fn add(&mut self, path: &'static str, value: String) {
        self.0.push((path, value));
    }

    fn drawn(&mut self, draws: &mut Draws, path: &'static str) {
        self.add(path, draw::value(draws, of(path)));
    }

    /// The job file.
    #[must_use]
    pub fn text(&self) -> String {
        self.0.iter().map(|(path, value)| format!("{path} = {value}\n")).collect()
    }

    /// Takes out what an error names, else what stands in its table and may be left out; false where nothing is.
    fn mend(&mut self, key: &str) -> bool {
        let before = self.0.len();
        let needed = |path: &str| DECIDED.iter().any(|d| path.starts_with(d)) && path != "run.standard_error";
        let named = |path: &str| path == key || path.strip_prefix(key).is_some_and(|r| r.starts_with('.'));
        self.0.retain(|(path, _)| !named(path) || needed(path));
        if self.0.len() == before {
            let table = key.split('.').next().unwrap_or_default();
            self.0.retain(|(path, _)| !path.starts_with(table) || needed(path));
        }
        self.0.len() < before
    }
}

fn of(path: &str) -> &'static Key {
    Key::find(path).unwrap_or_else(|| panic!("{path}: no key"))
}

/// The lines of a job by its number: some keys or many, each anywhere in its range.
#[must_use]
pub fn lines(number: u64) -> Lines {
    let mut draws = Draws::new(20_260_101 ^ number.wrapping_mul(0x2545_F491_4F6C_DD1D));
    let d = &mut draws;
    let mut lines = Lines::default();
    lines.add("version", "1".into());
    let dense = d.one_of(&[0.02, 0.08, 0.25]);
    tables::gun(d, &mut lines);
    tables::supply(d, &mut lines);
    lines.drawn(d, "paint.kind");
    let frame = tables::part(d, &mut lines);
    tables::stroke(d, &mut lines, frame);
    for key in KEYS {
        let decided = DECIDED.iter().any(|path| key.path.starts_with(path));
        if !decided && key.path != "stroke.members" && d.uniform() < dense {
            lines.drawn(d, key.path);
        }
    }
    lines.add("run.droplets", DROPLETS.to_string());
    lines.drawn(d, "run.seed");
    if d.uniform() < 0.05 {
        lines.drawn(d, "run.standard_error");
    }
    lines
}

/// What became of the jobs of a row of numbers.
#[derive(Debug, Default)]
pub struct Tried {
    /// Jobs flown.
    pub flown: u64,
    /// Jobs that no leaving out of keys made good.
    pub given_up: u64,
    /// How often a key was refused.
    pub refused: BTreeMap<String, u32>,
    /// Text of the job in hand, what was refused left out.
    pub text: String,
}

/// Draws a job, leaves out key after key that is refused, and flies what is left.
///
/// # Errors
/// What does not hold, with the job's text: a refusal without words, or a figure that cannot be.
pub fn try_one(number: u64, tried: &mut Tried) -> Result<(), String> {
    let mut lines = lines(number);
    loop {
        let text = lines.text();
        tried.text.clone_from(&text);
        let refused = match Job::from_toml(&text) {
            Err(error) => worded(&error).map_err(|e| format!("job {number}: {e}\n{text}"))?,
            Ok(job) => match held(job).map_err(|e| format!("job {number}: {e}\n{text}"))? {
                None => {
                    tried.flown += 1;
                    return Ok(());
                }
                Some(key) => key,
            },
        };
        *tried.refused.entry(refused.clone()).or_default() += 1;
        if !lines.mend(&refused) {
            tried.given_up += 1;
            return Ok(());
        }
    }
}

/// The key that an error names; an error without one, or without words, is a defect.
fn worded(error: &JobError) -> Result<String, String> {
    let known = KEYS.iter().any(|k| k.path == error.key || k.path.starts_with(&format!("{}.", error.key)));
    let ok = known && !error.allowed.is_empty() && !error.problem().is_empty() && error.line > 0;
    if ok { Ok(error.key.clone()) } else { Err(format!("refused without its key or its reason: {error:?}")) }
}
