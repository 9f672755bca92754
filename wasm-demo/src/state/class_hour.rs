//! The class hour: exercises as jobs, results as links, a table of them without a rank.

use mistcoat::job::{Job, JobError, link, with_key};
use mistcoat::practice::spread;

use super::hand::practice_job;
use super::{CHAIR_LEG, TABLE_TOP, WORKSHOP, side, to_mix};

/// Most results of a table.
pub const MOST: usize = 10;

/// The job of an exercise.
///
/// # Errors
/// None but those of the presets.
pub fn exercise(word: &str) -> Result<String, JobError> {
    let text = match word {
        "balance" => with_key(TABLE_TOP, "gun.fluid", "0.3")?,
        "fan-for-tube" => CHAIR_LEG.to_string(),
        "wall-pressure" => WORKSHOP.to_string(),
        "mix-for-six" => with_key(&to_mix(), "mix.parts", "6")?,
        "two-boxes" => side::WHICH_GUN.to_string(),
        _ => practice_job(),
    };
    with_key(&text, "practice.exercise", word)
}

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// Whose.
    pub who: String,
    /// Tries.
    pub tries: usize,
    /// The last, 0..=1.
    pub last: f64,
    /// Their spread.
    pub spread: Option<f64>,
}

/// A job's result; none where it holds no try.
#[must_use]
pub fn result(job: &Job) -> Option<Tried> {
    let last = *job.practice.tries.last()?;
    Some(Tried {
        who: job.practice.who.clone().unwrap_or_else(|| job.name.clone()),
        tries: job.practice.tries.len(),
        last,
        spread: spread(&job.practice.tries),
    })
}

/// The results of pasted links, a line each, in that order; a line that is none comes with its number and why.
#[must_use]
pub fn table(pasted: &str) -> Vec<std::result::Result<Tried, (usize, String)>> {
    let lines = pasted.lines().map(str::trim).enumerate().filter(|(_, line)| !line.is_empty());
    lines
        .take(MOST)
        .map(|(i, line)| {
            let wrong = |why: String| (i + 1, why);
            let packed = line.split_once("#job=").map_or(line, |(_, packed)| packed);
            let text = link::decode(packed).map_err(|e| wrong(e.to_string()))?;
            let job = Job::from_toml(&text).map_err(|e| wrong(e.problem().to_string()))?;
            result(&job).ok_or_else(|| wrong("no try in it".into()))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_exercise_is_a_job() {
        for (word, _, _) in crate::words::hand::ENGLISH.exercises {
            let job = Job::from_toml(&exercise(word).unwrap()).unwrap();
            assert_eq!(job.practice.exercise.as_deref(), Some(word));
        }
    }

    #[test]
    fn results_come_back_from_links_in_the_order_pasted() {
        let of = |who: &str, tries: &str| {
            let text = with_key(&practice_job(), "practice.who", who).unwrap();
            let text = with_key(&text, "practice.tries", tries).unwrap();
            format!("http://127.0.0.1/#job={}", link::encode(&text).unwrap())
        };
        let pasted = format!("{}\n\n{}\nnothing\n", of("B", "[0.5, 0.9]"), of("A", "[0.7]"));
        let table = table(&pasted);
        assert_eq!(table.len(), 3);
        let first = table[0].as_ref().unwrap();
        assert_eq!((first.who.as_str(), first.tries, first.last), ("B", 2, 0.9));
        assert!((first.spread.unwrap() - 0.4 / 2.0_f64.sqrt()).abs() < 1e-9);
        assert_eq!(table[1].as_ref().unwrap().spread, None);
        assert_eq!(table[2].as_ref().unwrap_err().0, 4);
        let none = format!("#job={}", link::encode(&practice_job()).unwrap());
        assert!(super::table(&none)[0].is_err());
    }
}
